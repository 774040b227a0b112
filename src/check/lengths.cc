#include "check/lengths.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "base/require.h"

namespace rig::check {

using suspension::Vec6;

double calc_length_m(const Vec6& q, const Vec3& p_VP, const Vec3& p_AQ) {
  const Mat3 R = rotation_from_yaw_pitch_roll(q[suspension::kYaw], q[suspension::kPitch],
                                              q[suspension::kRoll]);
  return (q.head<3>() + R * p_AQ - p_VP).norm();
}

Extent calc_extent(const AxleReport& axle, const Vec3& p_VP, const Vec3& p_AQ) {
  RIG_REQUIRE(!axle.bump.poses.empty());
  Extent extent;
  bool first = true;
  for (const auto* sweep : {&axle.bump, &axle.crossed}) {
    for (const auto& pose : sweep->poses) {
      const double length_m = (pose.q.head<3>() + pose.R_VA * p_AQ - p_VP).norm();
      const Extreme here{length_m, pose.numbers.heave_m, pose.numbers.roll_rad};
      if (first || length_m < extent.least.length_m) extent.least = here;
      if (first || length_m > extent.most.length_m) extent.most = here;
      first = false;
    }
  }
  return extent;
}

double find_heave_m(const AxleReport& axle, const Vec3& p_VP, const Vec3& p_AQ, double length_m) {
  const auto& poses = axle.bump.poses;
  const auto length = [&](std::size_t i) {
    return (poses[i].q.head<3>() + poses[i].R_VA * p_AQ - p_VP).norm();
  };
  if (poses.size() < 2) return std::numeric_limits<double>::infinity();
  // The last two poses stand for everything beyond.
  for (std::size_t i = 1; i < poses.size(); ++i) {
    const double before = length(i - 1), after = length(i);
    if (after > length_m && i + 1 < poses.size()) continue;
    if (!(before > after)) continue;
    const double share = (before - length_m) / (before - after);
    return poses[i - 1].numbers.heave_m +
           share * (poses[i].numbers.heave_m - poses[i - 1].numbers.heave_m);
  }
  return std::numeric_limits<double>::infinity();
}

std::string reach_words(const AxleReport& axle, const Printer& print,
                        const std::function<bool(const suspension::SweptPose&)>& holds) {
  // Outwards from drawn until the first pose that fails.
  const auto& poses = axle.bump.poses;
  const auto middle =
      std::min_element(poses.begin(), poses.end(), [](const auto& a, const auto& b) {
        return std::abs(a.numbers.heave_m) < std::abs(b.numbers.heave_m);
      });
  double bump_m = 0, droop_m = 0;
  for (auto pose = middle; pose != poses.end() && holds(*pose); ++pose) {
    bump_m = std::max(0.0, pose->numbers.heave_m);
  }
  for (auto pose = std::make_reverse_iterator(middle); pose != poses.rend() && holds(*pose);
       ++pose) {
    droop_m = -pose->numbers.heave_m;
  }
  return fmt::format("{} of bump and {} of droop", print.length(bump_m), print.length(droop_m));
}

bool is_loose_as_drawn(const AxleReport& axle) {
  if (!axle.drawn) return false;
  for (std::size_t i = 0; i < axle.model.coils.size(); ++i) {
    if (axle.drawn->coil_lengths_m[i] > axle.model.coils[i].free_length_m) return true;
  }
  return false;
}

std::string place_words(const AxleReport& axle, const Printer& print, const Extreme& extreme) {
  if (std::abs(extreme.roll_rad) > kNoise) {
    const double share =
        std::abs(extreme.roll_rad) / std::asin((axle.bump_m + axle.droop_m) / axle.model.track_m);
    return fmt::format("{}crossed up with the {} wheel high", share > 0.99 ? "" : "part ",
                       extreme.roll_rad > 0 ? "left" : "right");
  }
  if (std::abs(extreme.heave_m) < kNoise) return "as drawn";
  return fmt::format("at {} of {}", print.length(std::abs(extreme.heave_m)),
                     extreme.heave_m > 0 ? "bump" : "droop");
}

std::string last_key(const std::string& path) { return path.substr(path.rfind('/') + 1); }

}  // namespace rig::check
