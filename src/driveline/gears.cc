#include "driveline/gears.h"

#include <algorithm>
#include <cmath>

#include "units/factors.h"

namespace rig::driveline {

using units::g;

double calc_road_speed_m_per_s(const GearPath& path, double engine_rad_per_s, double radius_m) {
  return engine_rad_per_s / path.to_wheel() * radius_m;
}

double calc_engine_speed_rad_per_s(const GearPath& path, double road_m_per_s, double radius_m) {
  return road_m_per_s / radius_m * path.to_wheel();
}

double calc_differential_limit(std::span<const AxleShare> axles) {
  double limit = kNaN;
  for (const AxleShare& axle : axles) {
    if (axle.share > 0) limit = std::fmin(limit, axle.most / axle.share);
  }
  return limit;
}

Climb calc_climb(const Climber& climber) {
  const double weight_N = (climber.mass_kg + climber.towed_kg) * g;
  const double pull_N = climber.wheel_torque_Nm / climber.radius_m;
  return {.torque_grade_rad = std::asin(std::min(pull_N / weight_N, 1.0)),
          .grip_grade_rad = std::atan(climber.grip * climber.driven_load_N / weight_N)};
}

}  // namespace rig::driveline
