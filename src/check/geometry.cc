#include "check/geometry.h"

#include <algorithm>
#include <cmath>

#include "base/nan.h"

namespace rig::check {
namespace {

constexpr int kCoarsePoses = 3;
Band both_ways(const Limit& limit) {
  Band band = at_most(limit);
  band.low = -limit.si;
  return band;
}

}  // namespace

std::vector<Band> geometry_bands(const Limits& limits, bool front) {
  std::vector<Band> bands(kGeometryNumbers);
  bands[kNoseChange] = at_most(front ? limits.caster_change : limits.pinion_change);
  bands[kLateralShift] = at_most(limits.lateral_shift);
  bands[kRollSteer] = both_ways(limits.roll_steer);
  if (front) {
    bands[kAntiBrake] = at_most(limits.anti_dive_max);
  } else {
    bands[kAntiDrive] = at_most(limits.anti_squat_max);
    bands[kAntiDrive].low = limits.anti_squat_min.si;
    bands[kAntiDrive].stops =
        limits.anti_squat_max.from_builder && limits.anti_squat_min.from_builder;
    bands[kAntiDrive].close = 0.1 * limits.anti_squat_min.si;
  }
  return bands;
}

Evaluate make_geometry(const AxleReport& axle) {
  return [&axle](const suspension::AxleModel& model, bool fine) -> std::vector<double> {
    std::vector<suspension::Target> targets;
    if (axle.bump_m > 0 && axle.droop_m > 0) {
      targets = suspension::make_targets(-axle.droop_m, axle.bump_m,
                                         fine ? kBumpPoses : kCoarsePoses, 0, 0, 1);
    }
    targets.push_back({});
    const auto sweep = suspension::sweep_axle(model, axle.truck, targets);
    std::vector<double> numbers(kGeometryNumbers, kNaN);
    if (!sweep || sweep->poses.empty()) return numbers;
    const auto& drawn = sweep->poses.back().numbers;
    numbers[kRollSteer] = drawn.roll_steer;
    numbers[kAntiDrive] = drawn.anti_drive;
    numbers[kAntiBrake] = drawn.anti_brake;
    if (!sweep->locks.empty() || targets.size() == 1) return numbers;
    numbers[kNoseChange] = numbers[kLateralShift] = 0;
    for (const auto& pose : sweep->poses) {
      numbers[kNoseChange] = std::max(numbers[kNoseChange], std::abs(pose.numbers.nose_up_rad));
      numbers[kLateralShift] =
          std::max(numbers[kLateralShift], std::abs(pose.numbers.lateral_shift_m));
    }
    return numbers;
  };
}

}  // namespace rig::check
