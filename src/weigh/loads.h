#pragma once

#include <span>

#include "base/nan.h"
#include "base/result.h"
#include "geometry/pose.h"

namespace rig::weigh {

/// Where the truck stands on flat ground: two axle lines and their tracks, in chassis datum axes V.
struct Footing {
  double front_x_m = kNaN;      ///< Of the front axle line.
  double rear_x_m = kNaN;       ///< Less than `front_x_m`.
  double front_track_m = kNaN;  ///< Between tyre centres; NaN: unknown.
  double rear_track_m = kNaN;

  double wheelbase_m() const { return front_x_m - rear_x_m; }
};

/// A downward force on the truck and where it acts.
struct VerticalLoad {
  double force_N = 0;  ///< Positive downward.
  Vec3 p_VoP_V = Vec3::Zero();
};

/// Ground forces, positive upward. A negative one: that axle or wheel would have to be held down.
struct AxleLoads {
  double front_N = 0;
  double rear_N = 0;
};

struct WheelLoads {
  double front_left_N = 0;
  double front_right_N = 0;
  double rear_left_N = 0;
  double rear_right_N = 0;
};

/// What each left wheel carries beyond the rigid truck's share; its right wheel carries that less.
struct Diagonal {
  double front_N = 0;
  double rear_N = 0;
};

/// Axle loads of a rigid truck on flat ground: balance of forces and of moments about the rear axle
/// line.
///
/// @errors weigh.wheelbase_not_positive.
/// @accuracy Rounding only.
/// @source Statics; references.md WT-06 and SU-31.
Result<AxleLoads> calc_axle_loads(const Footing& footing, std::span<const VerticalLoad> loads);

/// Wheel loads of a rigid truck on flat ground.
///
/// Four wheels and three equations: statics leaves one load across the diagonal free. It is settled
/// by letting the load of either axle act at the same offset as the whole: no cross weight. The
/// springs' own answer is that of `suspension::settle`.
///
/// @param footing  Both tracks > 0.
/// @errors weigh.wheelbase_not_positive, weigh.track_not_positive, weigh.no_load (no downward
/// force).
/// @accuracy Rounding only.
Result<WheelLoads> calc_wheel_loads(const Footing& footing, std::span<const VerticalLoad> loads);

}  // namespace rig::weigh
