#pragma once

#include "build/drivetrain_lookup.h"
#include "driveline/cases.h"
#include "units/factors.h"

/// Lines of cases that several tests share.
namespace rig::driveline::testing {

inline const Vec3 kGravity_V(0, 0, -units::g);

/// A case along -x from one station to another at height 0, its mass at a station.
inline Case make_case(double from_m, double to_m, double mass_kg, double mass_at_m) {
  Case one{.id = "case", .label = "case"};
  one.p_VoF_V = Vec3(-from_m, 0, 0);
  one.p_VoR_V = Vec3(-to_m, 0, 0);
  one.mass_kg = mass_kg;
  one.p_VoCm_V = Vec3(-mass_at_m, 0, 0);
  return one;
}

inline CaseMount make_mount(std::size_t on, const Vec3& p_VoM_V, double upright_N_per_m,
                            double level_N_per_m) {
  CaseMount mount{.path = "/drivetrain/mounts/m", .label = "mount", .on = on, .p_VoM_V = p_VoM_V};
  mount.K_V = build::mount_stiffness(mount.axis_V, upright_N_per_m, level_N_per_m, level_N_per_m);
  return mount;
}

/// Engine, gearbox and transfer case on a pair of front mounts and one behind.
inline CaseLine make_three_cases() {
  CaseLine line;
  line.cases = {make_case(0, 0.8, 300, 0.4), make_case(0.8, 1.5, 80, 1.1),
                make_case(1.5, 1.9, 60, 1.7)};
  for (Case& one : line.cases) {
    one.I_Cm_V = Vec3(0.02, 0.03, 0.03).asDiagonal() * one.mass_kg;
    one.p_VoCm_V.z() = 0.05;
  }
  line.mounts = {make_mount(0, {-0.35, 0.28, -0.1}, 300e3, 90e3),
                 make_mount(0, {-0.35, -0.28, -0.1}, 300e3, 90e3),
                 make_mount(1, {-1.4, 0, -0.15}, 500e3, 160e3)};
  line.mounts[0].sign = 1;
  line.mounts[1].sign = -1;
  line.mounts[2].path = "/drivetrain/mounts/rear";
  return line;
}

}  // namespace rig::driveline::testing
