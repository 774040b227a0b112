#pragma once

#include <random>
#include <string>
#include <vector>

#include "frame/solve.h"
#include "frame/structure.h"
#include "section/properties.h"
#include "section/shapes.h"

namespace rig::frame::testing {

inline constexpr double kSteelE_Pa = 207e9, kSteelG_Pa = 79.6e9, kSteelDensity = 7850;

inline std::size_t at(int i) { return static_cast<std::size_t>(i); }

inline BeamSection make_steel(const section::Section& section) {
  return *make_beam_section(section, kSteelE_Pa, kSteelG_Pa, kSteelDensity);
}

/// A bar by its numbers alone, for textbooks: no warping, no shear deformation, O = C = S.
inline BeamSection make_plain(double E_Pa, double G_Pa, double area_m2, double I_y_m4,
                              double I_z_m4, double J_m4) {
  BeamSection out{.E_Pa = E_Pa, .G_Pa = G_Pa, .density_kg_per_m3 = kSteelDensity};
  out.properties.area_m2 = area_m2;
  out.properties.I_y_m4 = I_y_m4;
  out.properties.I_z_m4 = I_z_m4;
  out.properties.torsion_constant_m4 = out.properties.cells_torsion_constant_m4 = J_m4;
  return out;
}

inline section::Section make_rail() {
  return *section::make_channel({.depth_m = 0.18, .flange_m = 0.065, .thickness_m = 0.005});
}

inline section::Section make_z() {
  const auto wall = [](int from, int to) {
    return section::Wall{.from = from, .to = to, .thickness_m = 0.004};
  };
  return {.p_ON = {{-0.05, 0.06}, {0, 0.06}, {0, -0.07}, {0.06, -0.07}},
          .walls = {wall(0, 1), wall(1, 2), wall(2, 3)}};
}

/// Open, closed, symmetric and not, off their origin and turned.
inline std::vector<section::Section> make_pool() {
  using section::make_plate;
  return {
      make_rail(),
      mirror_section(make_rail()),
      rotate_section(make_rail(), 0.6),
      make_z(),
      *section::make_hat({.depth_m = 0.06, .crown_m = 0.08, .brim_m = 0.025, .thickness_m = 0.003}),
      *section::make_angle({.level_leg_m = 0.06, .upright_leg_m = 0.04, .thickness_m = 0.005}),
      *section::make_round_tube({.outside_diameter_m = 0.08, .thickness_m = 0.004}),
      *section::make_rectangular_tube({.width_m = 0.05, .depth_m = 0.1, .thickness_m = 0.003}),
      move_section(*make_plate({.width_m = 0.08, .thickness_m = 0.006}), {0.01, 0.02}),
      *section::make_boxed_channel({.depth_m = 0.18, .flange_m = 0.065, .thickness_m = 0.005},
                                   {.fit = section::PlateFit::over_tips, .thickness_m = 0.004})};
}

/// Joins beam ends to joints where these are.
inline Beam make_beam(const Structure& s, int from, int to, int section, const Vec3& y_V,
                      int warp_from = -1, int warp_to = -1) {
  return {.from = from,
          .to = to,
          .p_VoF_V = s.joints[at(from)].p_VoJ_V,
          .p_VoT_V = s.joints[at(to)].p_VoJ_V,
          .y_V = y_V,
          .section = section,
          .warp_from = warp_from,
          .warp_to = warp_to,
          .member = 0};
}

/// Holds displacements and rotations of a joint to the ground, as stiffly as is well.
inline void hold(Structure& s, int joint, const Vec3& displacements = Vec3::Ones(),
                 const Vec3& rotations = Vec3::Ones(), double stiffness = 1e16) {
  s.joint_springs.push_back({.from = -1,
                             .to = joint,
                             .p_VoP_V = s.joints[at(joint)].p_VoJ_V,
                             .stiffness_N_per_m = stiffness * displacements,
                             .stiffness_Nm_per_rad = stiffness * rotations});
}

/// A bar along x from the origin, in even pieces, fixed at its root, warping too.
inline Structure make_cantilever(const BeamSection& section, double length_m, int pieces = 1) {
  Structure s;
  s.members = {{"bar", "bar"}};
  s.sections = {section};
  for (int i = 0; i <= pieces; ++i) {
    s.joints.push_back({.p_VoJ_V = Vec3(length_m * i / pieces, 0, 0)});
    s.scalars.push_back({.held = i == 0});
  }
  for (int i = 0; i < pieces; ++i) {
    s.beams.push_back(make_beam(s, i, i + 1, 0, Vec3::UnitY(), i, i + 1));
  }
  hold(s, 0);
  return s;
}

inline double uniform(std::mt19937& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

inline Vec3 random_vector(std::mt19937& random, double size) {
  return {uniform(random, -size, size), uniform(random, -size, size), uniform(random, -size, size)};
}

inline int pick(std::mt19937& random, int count) {
  return static_cast<int>(random() % static_cast<unsigned>(count));
}

/// A free frame of everything there is: joints apart, beams of all sections with ends off their
/// joints, warping free, held, shared, proportional or against a spring, followers on walls and on
/// soft joints, springs between joints.
Structure make_random_frame(unsigned seed);

/// Points and lines anywhere, brought to balance at joint 0.
Loads make_random_loads(const Structure& structure, unsigned seed, bool lines = true);

}  // namespace rig::frame::testing
