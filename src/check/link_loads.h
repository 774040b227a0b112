#pragma once

#include <string>
#include <vector>

#include "check/report.h"

namespace rig::check {

/// A link, or a stiff arm as a whole: what it carries and how far its joints turn. NaN: not known.
struct LinkLoad {
  std::string name;  ///< Of the model: "lower.left", "radius_arm.right".
  std::string path;
  double force_N = 0;          ///< In the ride state: tension +; of an arm what its apex carries.
  double swing_frame_rad = 0;  ///< Greatest over bump, roll and crossed up.
  double swing_axle_rad = 0;
  double limit_rad = 0;  ///< The least of its joints'.
};

/// Every link and arm of an axle, in the model's order.
/// @param ride  The ride state; null: no loads.
std::vector<LinkLoad> find_link_loads(const AxleReport& axle, const StateReport* ride);

}  // namespace rig::check
