#include "section/stress.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/Core>
#include <array>
#include <cmath>

#include "base/nan.h"
#include "section/shapes.h"
#include "section/test_sections_internal.h"

namespace rig::section {
namespace {

constexpr std::array kShares{0.5 - 0.3872983346207417, 0.5, 0.5 + 0.3872983346207417};  // Gauss
constexpr std::array kWeights{5.0 / 18, 8.0 / 18, 5.0 / 18};

SectionForces some_forces(unsigned seed) {
  std::mt19937 random(seed + 1);
  std::uniform_real_distribution<double> any(-1, 1);
  return {.axial_N = 1e4 * any(random),
          .shear_y_N = 1e4 * any(random),
          .shear_z_N = 1e4 * any(random),
          .moment_y_Nm = 1e3 * any(random),
          .moment_z_Nm = 1e3 * any(random),
          .torque_St_Venant_Nm = 1e3 * any(random),
          .torque_warping_Nm = 1e2 * any(random),
          .bimoment_Nm2 = 1e1 * any(random)};
}

struct Resultants {
  double N = 0, M_y = 0, M_z = 0, B = 0;
};

/// Of the axial stress, which is linear over the thickness: the faces tell its moment across.
Resultants add_up(const Section& section, const SectionProperties& p, const SectionForces& f) {
  Resultants sum;
  for (std::size_t w = 0; w < section.walls.size(); ++w) {
    const Wall& wall = section.walls[w];
    const auto from = static_cast<std::size_t>(wall.from), to = static_cast<std::size_t>(wall.to);
    const Vec2 along = (section.p_ON[to] - section.p_ON[from]).normalized(),
               left(-along.y(), along.x());
    for (std::size_t k = 0; k < 3; ++k) {
      const auto axial = [&](WallFace face) {
        return calc_wall_stress(section, p, f, {static_cast<int>(w), kShares[k], face})->axial_Pa;
      };
      const double area = kWeights[k] * wall_length_m(section, wall) * wall.thickness_m;
      const double mean = axial(WallFace::middle);
      const double across =
          (axial(WallFace::left) - axial(WallFace::right)) * wall.thickness_m / 12;
      const Vec2 at = section.p_ON[from] + kShares[k] * (section.p_ON[to] - section.p_ON[from]);
      const double sectorial =
          p.sectorial_m2[from] + kShares[k] * (p.sectorial_m2[to] - p.sectorial_m2[from]);
      sum.N += area * mean;
      sum.M_y += area * (mean * (at - p.p_OC).y() + across * left.y());
      sum.M_z -= area * (mean * (at - p.p_OC).x() + across * left.x());
      sum.B += area * (mean * sectorial + across * along.dot(at - p.p_OS));
    }
  }
  return sum;
}

RC_GTEST_PROP(WallStress, AxialStressAddsUpToTheForces, (unsigned seed)) {
  const Section section = testing::make_shaken_section(seed);
  const auto p = solve_section(section);
  SectionForces f = some_forces(seed);
  const SectionForces warping{.bimoment_Nm2 = f.bimoment_Nm2};
  f.bimoment_Nm2 = 0;
  const Resultants bent = add_up(section, *p, f), warped = add_up(section, *p, warping);
  RC_ASSERT(std::abs(bent.N - f.axial_N) < 1e-8);
  RC_ASSERT(std::abs(bent.M_y - f.moment_y_Nm) < 1e-9);
  RC_ASSERT(std::abs(bent.M_z - f.moment_z_Nm) < 1e-9);
  RC_ASSERT(std::abs(warped.N) < 1e-8);
  RC_ASSERT(std::abs(warped.B - warping.bimoment_Nm2) < 1e-11);
}

TEST(WallStress, BeamBendingSigns) {
  const Section section = *make_plate({.width_m = 0.1, .thickness_m = 0.006});
  const auto p = solve_section(section);
  // Positive about y pulls at +z, which is the end; positive about z pulls at -y, which is the left
  // face of a wall that runs up.
  EXPECT_NEAR(calc_wall_stress(section, *p, {.moment_y_Nm = 100}, {0, 1})->axial_Pa,
              100 * 6 / (0.006 * 0.01), 1);
  EXPECT_NEAR(
      calc_wall_stress(section, *p, {.moment_z_Nm = 1}, {0, 0.5, WallFace::right})->axial_Pa,
      -6 / (0.1 * 0.006 * 0.006), 1);
  EXPECT_NEAR(calc_wall_stress(section, *p, {.shear_z_N = 600}, {0, 0.5})->shear_Pa, 1.5e6, 1);
  // A torque about +x drives the face at +y up. Walking up with +y to the right hand, that is the
  // right face.
  const double surface = 3.0 / (0.1 * 0.006 * 0.006);
  EXPECT_NEAR(calc_wall_stress(section, *p, {.torque_St_Venant_Nm = 1}, {0, 0.5, WallFace::right})
                  ->shear_Pa,
              surface, 1e-6 * surface);
  EXPECT_NEAR(
      calc_wall_stress(section, *p, {.torque_St_Venant_Nm = 1}, {0, 0.5, WallFace::left})->shear_Pa,
      -surface, 1e-6 * surface);
}

TEST(WallStress, ATubeInTorsion) {
  const Section section =
      *make_rectangular_tube({.width_m = 0.05, .depth_m = 0.1, .thickness_m = 0.002});
  const auto p = solve_section(section);
  const auto stress = calc_wall_stress(section, *p, {.torque_St_Venant_Nm = 1000}, {0, 0.5});
  const double bredt = 1000 / (2 * 0.048 * 0.098 * 0.002);
  EXPECT_NEAR(stress->shear_Pa * p->torsion_constant_m4 / p->cells_torsion_constant_m4, bredt,
              1e-9 * bredt);
  EXPECT_NEAR(stress->von_mises_Pa, std::sqrt(3.0) * stress->shear_Pa, 1e-3);
}

TEST(WallStress, ARoundTubeInTorsionRisesOutwardsAsItShould) {
  const double R = 0.025, r_in = 0.021;
  const Section section = *make_round_tube({.outside_diameter_m = 2 * R, .thickness_m = R - r_in});
  const auto p = solve_section(section);
  const double J = 1.5707963267948966 * (std::pow(R, 4) - std::pow(r_in, 4));
  const auto shear = [&](WallFace face) {
    return calc_wall_stress(section, *p, {.torque_St_Venant_Nm = 100}, {0, 0.5, face})->shear_Pa;
  };
  // T r / J at both faces, but for the chords: (pi/96)^2.
  EXPECT_NEAR(shear(WallFace::right) * J / (100 * R), 1, 0.0011);
  EXPECT_NEAR(shear(WallFace::left) * J / (100 * r_in), 1, 0.0011);
}

RC_GTEST_PROP(WorstStress, NoPointOfAFineSearchIsWorse, (unsigned seed)) {
  const Section section = testing::make_shaken_section(seed);
  const auto p = solve_section(section);
  const SectionForces f = some_forces(seed);
  const auto worst = find_worst_stress(section, *p, f);
  const StressField field(section, *p, f);
  double searched = 0;
  for (int w = 0; w < static_cast<int>(section.walls.size()); ++w) {
    const double bound_Pa = field.bound_Pa(static_cast<std::size_t>(w));
    for (int i = 0; i <= 40; ++i) {
      for (const WallFace face : {WallFace::middle, WallFace::left, WallFace::right}) {
        const double here_Pa = calc_wall_stress(section, *p, f, {w, i / 40.0, face})->von_mises_Pa;
        RC_ASSERT(here_Pa <= bound_Pa);
        searched = std::max(searched, here_Pa);
      }
    }
  }
  // Between the points searched, axial and shear stress may peak together a little higher.
  RC_ASSERT(worst->von_mises_Pa > 0.99 * searched);
  const auto again = calc_wall_stress(section, *p, f, worst->at);
  RC_ASSERT(again->von_mises_Pa == worst->von_mises_Pa);
}

TEST(WallStress, EachFaultHasItsCode) {
  const Section section = *make_plate({.width_m = 0.1, .thickness_m = 0.006});
  const auto p = solve_section(section);
  const SectionForces lost{.axial_N = kNaN};
  EXPECT_EQ(calc_wall_stress(section, *p, lost, {0}).error().front().code,
            "section.force_not_finite");
  EXPECT_EQ(find_worst_stress(section, *p, lost).error().front().code, "section.force_not_finite");
  EXPECT_EQ(find_worst_stress(section, *p, {.shear_y_N = 1}).error().front().code,
            "section.shear_across_flat");
  EXPECT_TRUE(find_worst_stress(section, *p, {.shear_z_N = 1}).has_value());
}

}  // namespace
}  // namespace rig::section
