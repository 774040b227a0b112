#include "driveline/shaft_tube.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace rig::driveline {

void check_positive(double value, const std::string& path, const char* what, const char* unit,
                    Diagnostics& faults) {
  if (value > 0 && std::isfinite(value)) return;
  faults.push_back({.code = "driveline.size_not_positive",
                    .path = path,
                    .message = fmt::format("{} of {} {}.", what, value, unit),
                    .remedy = "Give a positive number."});
}

Diagnostics check_tube(const ShaftTube& tube, const std::string& path) {
  Diagnostics faults;
  check_positive(tube.outside_diameter_m, path + "/outside_diameter", "An outside diameter", "m",
                 faults);
  check_positive(tube.wall_m, path + "/wall", "A wall", "m", faults);
  if (faults.empty() && tube.wall_m > tube.outside_diameter_m / 2) {
    faults.push_back({.code = "driveline.wall_too_thick",
                      .path = path + "/wall",
                      .message = fmt::format("A wall of {} m is more than half of the tube's {} m.",
                                             tube.wall_m, tube.outside_diameter_m),
                      .remedy = "Give half of the diameter for a solid bar, less for a tube."});
  }
  return faults;
}

TubeSection calc_tube_section(const ShaftTube& tube) {
  RIG_REQUIRE(tube.wall_m > 0 && tube.wall_m <= tube.outside_diameter_m / 2);
  const double D = tube.outside_diameter_m, d = D - 2 * tube.wall_m;
  const double area_m2 = std::numbers::pi * tube.wall_m * (D - tube.wall_m);
  return {.area_m2 = area_m2, .second_moment_m4 = area_m2 * (D * D + d * d) / 16};
}

}  // namespace rig::driveline
