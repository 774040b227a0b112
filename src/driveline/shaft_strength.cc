#include "driveline/shaft_strength.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rig::driveline {
namespace {

void check_torque(double torque_Nm, Diagnostics& faults) {
  if (std::isfinite(torque_Nm)) return;
  faults.push_back({.code = "driveline.torque_unknown",
                    .path = "/torque",
                    .message = "The torque is not known.",
                    .remedy = "Give the torque of this shaft."});
}

/// S_y / sqrt(3), by distortion energy. [Shigley] Eq. 5-21, from memory.
double shear_yield(double yield_Pa) { return yield_Pa / std::sqrt(3.0); }

}  // namespace

Result<TubeTorsion> calc_tube_torsion(const ShaftTube& tube, double length_m, double torque_Nm,
                                      double yield_Pa, double shear_modulus_Pa) {
  Diagnostics faults = check_tube(tube);
  check_positive(length_m, "/length", "A length", "m", faults);
  check_positive(yield_Pa, "/yield", "A yield strength", "Pa", faults);
  check_positive(shear_modulus_Pa, "/shear_modulus", "A shear modulus", "Pa", faults);
  check_torque(torque_Nm, faults);
  if (!faults.empty()) return Failure{std::move(faults)};
  const double J = 2 * calc_tube_section(tube).second_moment_m4;
  const double section_modulus_m3 = J / (tube.outside_diameter_m / 2);
  const double shear_yield_Pa = shear_yield(yield_Pa);
  const double stiffness = shear_modulus_Pa * J / length_m;
  const double stress_Pa = std::abs(torque_Nm) / section_modulus_m3;
  return TubeTorsion{.stress_Pa = stress_Pa,
                     .shear_yield_Pa = shear_yield_Pa,
                     .torque_limit_Nm = shear_yield_Pa * section_modulus_m3,
                     .utilisation = stress_Pa / shear_yield_Pa,
                     .stiffness_Nm_per_rad = stiffness,
                     .wind_up_rad = torque_Nm / stiffness};
}

Result<SplineShear> calc_spline_shear(const SplineMesh& mesh, double torque_Nm, double yield_Pa) {
  Diagnostics faults;
  check_positive(mesh.diameter_m, "/diameter", "A diameter", "m", faults);
  check_positive(mesh.engaged_m, "/engaged", "A length in mesh", "m", faults);
  check_positive(yield_Pa, "/yield", "A yield strength", "Pa", faults);
  check_torque(torque_Nm, faults);
  if (!faults.empty()) return Failure{std::move(faults)};
  // A quarter of the pitch line carries, at half the diameter.
  const double pitch_line_m = std::numbers::pi * mesh.diameter_m;
  const double torque_per_Pa = pitch_line_m / 4 * mesh.engaged_m * mesh.diameter_m / 2;
  const double stress_Pa = std::abs(torque_Nm) / torque_per_Pa;
  const double shear_yield_Pa = shear_yield(yield_Pa);
  return SplineShear{.stress_Pa = stress_Pa,
                     .shear_yield_Pa = shear_yield_Pa,
                     .torque_limit_Nm = shear_yield_Pa * torque_per_Pa,
                     .utilisation = stress_Pa / shear_yield_Pa};
}

Result<ShaftTorque> calc_shaft_torque(const DriveTorque& drive) {
  Diagnostics faults;
  check_positive(drive.engine_Nm, "/engine", "An engine torque", "N m", faults);
  check_positive(drive.ratio_to_shaft, "/ratio_to_shaft", "A ratio", "to 1", faults);
  check_positive(drive.efficiency, "/efficiency", "An efficiency", "to 1", faults);
  check_positive(drive.friction, "/friction", "A coefficient of friction", "to 1", faults);
  check_positive(drive.axle_load_N, "/axle_load", "An axle load", "N", faults);
  check_positive(drive.tyre_radius_m, "/tyre_radius", "A tyre radius", "m", faults);
  check_positive(drive.axle_ratio, "/axle_ratio", "An axle ratio", "to 1", faults);
  if (drive.efficiency > 1) {
    faults.push_back({.code = "driveline.efficiency_above_one",
                      .path = "/efficiency",
                      .message = fmt::format("Gears of an efficiency of {}.", drive.efficiency),
                      .remedy = "Give what is left of 1 after their losses."});
  }
  if (!faults.empty()) return Failure{std::move(faults)};
  ShaftTorque torque{
      .engine_Nm = drive.engine_Nm * drive.ratio_to_shaft * drive.efficiency,
      .grip_Nm = drive.friction * drive.axle_load_N * drive.tyre_radius_m / drive.axle_ratio};
  torque.torque_Nm = std::min(torque.engine_Nm, torque.grip_Nm);
  torque.decides = torque.engine_Nm < torque.grip_Nm ? TorqueLimit::kEngine : TorqueLimit::kGrip;
  return torque;
}

Result<double> calc_joint_utilisation(double torque_Nm, double rating_Nm) {
  Diagnostics faults;
  check_positive(rating_Nm, "/rating", "A rated torque", "N m", faults);
  if (!faults.empty()) return Failure{std::move(faults)};
  return std::abs(torque_Nm) / rating_Nm;
}

}  // namespace rig::driveline
