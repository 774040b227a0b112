#pragma once

#include <optional>

#include "base/result.h"
#include "weigh/loads.h"
#include "weigh/mass_properties.h"

namespace rig::weigh {

/// A trailer as the hitch feels it.
struct HitchLoad {
  double tongue_N = 0;  ///< Downward on the ball.
  double tongue_plus_minus_N = 0;
  double trailer_mass_kg = 0;  ///< The whole loaded trailer; NaN: unknown.
  Vec3 p_VoBall_V = Vec3::Zero();
};

/// Where a rigid truck standing still begins to lift a wheel. Springs and tyres lean, so a real
/// truck goes over sooner: these are limits from above.
struct Stability {
  double cg_height_m = 0;    ///< Above the floor, with the tongue load as a mass at the ball.
  double track_at_cg_m = 0;  ///< Track at the balance point's station.
  double static_stability_factor = 0;  ///< T / 2h.
  double tilt_rad =
      0;  ///< atan(T / 2h): side slope of a truck that carries no more left than right.
  double left_side_down_rad = 0;   ///< Side slope at which the uphill, right, wheels lift.
  double right_side_down_rad = 0;  ///< Side slope at which the uphill, left, wheels lift.
  double side_slope_rad = 0;       ///< The lesser of the two.
  double up_grade_rad = 0;         ///< Grade, facing up it, at which the front wheels lift.
  double down_grade_rad = 0;       ///< Grade, facing down it, at which the rear wheels lift.
  double to_left_m = 0;        ///< From the balance point to the line of the left tyres' contacts.
  double to_right_m = 0;       ///< The same on the right.
  double ahead_of_rear_m = 0;  ///< From the rear axle forward to the balance point.
  double behind_front_m = 0;   ///< From the front axle back to it.
  double load_N = 0;           ///< On the ground, the tongue's with it.
  double trailer_pull_Nm = 0;  ///< Of the trailer at the ball's height, on a slope of 90 deg.
  double any_heading_rad = 0;  ///< Least slope that lifts a wheel in the worst heading.
};

/// Static stability of a rigid truck, by the vertical through its balance point meeting an edge of
/// the quadrilateral of its four contact points.
///
/// Left and right: the line through the two contact points of a side, which runs askew when the
/// tracks differ; on a side slope the truck points along the contour, so the distance to that line
/// counts square to the truck at the balance point's station: T = T_f (x - x_r)/L + T_r (x_f -
/// x)/L, which is the mean track weighted by the axle loads. `any_heading_rad` takes the distance
/// square to the line itself.
///
/// With a trailer its tongue load is a mass at the ball, and on a grade the whole trailer pulls
/// along the slope at the ball's height (held by the truck alone, brakes of the trailer off; the
/// tongue load as on the level). `any_heading_rad` leaves the pull out.
///
/// Limits: docs/design/weigh.md. A negative angle: that wheel is off the ground on the level
/// already.
///
/// @param truck    Mass > 0 and balance point above the floor.
/// @param footing  Both tracks > 0.
/// @param hitch    What hangs on the ball; its trailer's mass known.
/// @errors weigh.wheelbase_not_positive, weigh.track_not_positive, weigh.no_load,
///         weigh.cg_not_above_floor.
/// @accuracy Rounding only.
/// @source Static stability factor: 49 CFR 575 rulemaking (NHTSA, 2000-2001); references.md SU-25,
/// SU-27.
Result<Stability> calc_stability(const MassProperties& truck, const Footing& footing,
                                 const std::optional<HitchLoad>& hitch);

}  // namespace rig::weigh
