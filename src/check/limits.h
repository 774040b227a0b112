#pragma once

#include <string>

#include "base/nan.h"
#include "build/types.h"

namespace rig::check {

/// What a value is held against, and why.
struct Limit {
  double si = kNaN;
  std::string basis;  ///< "set in the file", or the source of the default.
  std::string path;   ///< Where it stands, or would stand, in the file.
  bool from_builder =
      false;  ///< Set in the file: passing it stops. A default only asks for a look.
};

/// The build's limits with the defaults filled in. Defaults and their sources: docs/findings.md.
struct Limits {
  Limit caster_change, pinion_change, lateral_shift, roll_steer;
  Limit anti_squat_min, anti_squat_max, anti_dive_max;
  Limit height_error, spring_travel_left, shock_travel_left, side_slope;
};

Limits resolve_limits(const build::Limits& given);

}  // namespace rig::check
