#include "driveline/hoist.h"

#include <cmath>

namespace rig::driveline {

Hung hang(const CaseLine& line, std::span<const std::size_t> cases) {
  RIG_REQUIRE(!cases.empty());
  Hung hung;
  for (const std::size_t i : cases) {
    const Case& one = line.cases.at(i);
    hung.mass_kg += one.mass_kg;
    hung.p_VoCm_V += one.mass_kg * one.p_VoCm_V;
  }
  hung.p_VoCm_V /= hung.mass_kg;
  return hung;
}

double calc_sling_factor(double angle_rad) { return 1 / std::sin(angle_rad); }

double calc_hang_tilt_rad(double offset_m, double depth_m) { return std::atan2(offset_m, depth_m); }

}  // namespace rig::driveline
