#include "check/link_loads.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/nan.h"

namespace rig::check {
namespace {

/// What is left of a link without a load where the truck settles, N.
constexpr double kNoLoad_N = 1;
/// The other leg of a stiff arm, where a bar is one.
std::optional<std::size_t> other_leg(const suspension::AxleModel& model, std::size_t bar) {
  for (const auto& [first, second] : model.arms) {
    if (static_cast<std::size_t>(first) == bar) return static_cast<std::size_t>(second);
    if (static_cast<std::size_t>(second) == bar) return static_cast<std::size_t>(first);
  }
  return std::nullopt;
}

/// What an arm's apex carries where the truck settles: the sum of its two legs.
double apex_force_N(const AxleReport& axle, const StateReport& ride, std::size_t first,
                    std::size_t second) {
  const auto& axles = ride.truck->axles;
  const auto model =
      std::find_if(axles.begin(), axles.end(), [&](const auto& one) { return one.id == axle.id; });
  const auto& q = ride.settled->axles[static_cast<std::size_t>(model - axles.begin())].q;
  const Mat3 R_VA = rotation_from_yaw_pitch_roll(q[suspension::kYaw], q[suspension::kPitch],
                                                 q[suspension::kRoll]);
  Vec3 force = Vec3::Zero();
  for (const std::size_t i : {first, second}) {
    const auto& bar = axle.model.bars[i];
    const Vec3 along = q.head<3>() + R_VA * bar.p_AQ - bar.p_VP;
    force += axle.bar_forces_N[i] * along.normalized();
  }
  return force.norm();
}

}  // namespace

std::vector<LinkLoad> find_link_loads(const AxleReport& axle, const StateReport* ride) {
  const bool is_settled = ride != nullptr && ride->settled && !axle.bar_forces_N.empty();
  std::vector<LinkLoad> loads;
  for (std::size_t i = 0; i < axle.model.bars.size(); ++i) {
    const auto leg = other_leg(axle.model, i);
    if (leg && *leg < i) continue;  // told with its first leg
    const auto& bar = axle.model.bars[i];
    LinkLoad load{.name = leg ? bar.name.substr(0, bar.name.rfind('.')) : bar.name,
                  .path = bar.path,
                  .force_N = kNaN,
                  .swing_frame_rad = kNaN,
                  .swing_axle_rad = kNaN,
                  .limit_rad = kNaN};
    if (is_settled) {
      load.force_N = leg ? apex_force_N(axle, *ride, i, *leg) : axle.bar_forces_N[i];
      if (std::abs(load.force_N) < kNoLoad_N) load.force_N = 0;
    }
    for (const std::size_t at : {i, leg.value_or(i)}) {
      const auto& one = axle.model.bars[at];
      load.limit_rad =
          std::fmin(load.limit_rad, std::fmin(one.swing_limit_frame_rad, one.swing_limit_axle_rad));
      for (const auto* sweep : {&axle.bump, &axle.roll, &axle.crossed}) {
        for (const auto& pose : sweep->poses) {
          load.swing_frame_rad = std::fmax(load.swing_frame_rad, pose.bar_swing_frame_rad[at]);
          load.swing_axle_rad = std::fmax(load.swing_axle_rad, pose.bar_swing_axle_rad[at]);
        }
      }
    }
    loads.push_back(std::move(load));
  }
  return loads;
}

}  // namespace rig::check
