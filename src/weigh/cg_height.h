#pragma once

#include <span>
#include <vector>

#include "base/nan.h"
#include "base/result.h"

namespace rig::weigh {

/// A value and the half-width it is known to.
struct Measured {
  double value = kNaN;
  double plus_minus = 0;
};

/// One weighing with an axle lifted: one axle stays on the scale.
struct AxleLift {
  Measured lift_m;             ///< Rise of the lifted axle's wheel centres.
  Measured level_reading_kg;   ///< Of the axle on the scale, truck level.
  Measured lifted_reading_kg;  ///< Of the same axle, the other one lifted.
};

/// What all lifts of one fit share.
struct LiftedTruck {
  Measured mass_kg;  ///< The whole truck.
  Measured wheelbase_m;
  Measured scale_axle_height_m;   ///< Wheel centres of the axle on the scale, above the ground.
  Measured lifted_axle_height_m;  ///< Wheel centres of the lifted axle before the lift.
};

/// What one of the lifts says by itself.
struct LiftResult {
  double angle_rad = 0;             ///< By which the truck is turned.
  double cg_height_m = 0;           ///< From this lift alone.
  double sensitivity_m_per_kg = 0;  ///< Change of height per kilogram more on the lifted reading.
};

struct CgHeight {
  double cg_height_m = 0;   ///< Above the ground, truck level.
  double plus_minus_m = 0;  ///< From the half-widths given; first order, root sum square.
  double residual_kg =
      0;  ///< Root mean square misfit of the readings to the fitted line; 0 for one lift.
  std::vector<LiftResult> lifts;
};

/// Height of the balance point from the load that moves onto one axle when the other is lifted.
///
/// The truck turns as a rigid body about the wheel centres of the axle on the scale: suspension
/// blocked, wheels free to roll, tyres not settling further. Several lifts of the same load state
/// make one straight line of reading against tan(angle), fitted by least squares through lifted and
/// level readings alike; one lift gives the textbook form h = r + L (W2 - W1) / (W tan(angle)).
/// Unequal wheel heights of the axles are allowed for: the lift is then turned from the line that
/// joins the wheel centres.
///
/// @param truck  All > 0.
/// @param lifts  At least one; all by the same axle. Lifts and readings > 0.
/// @errors weigh.no_lifts, weigh.lift_not_positive, weigh.reading_not_positive (a reading or the
/// mass),
///         weigh.wheelbase_not_positive, weigh.lift_too_high (lifted axle would pass over the
///         other), weigh.reading_above_total. Paths are the lift's index ("/0"); empty for the
///         truck.
/// @accuracy Rounding, some 1e-12 of the height for lifts above 5 degrees.
/// @source ISO 10392:2011; references.md SU-28, SU-29, SU-30.
Result<CgHeight> solve_cg_height(const LiftedTruck& truck, std::span<const AxleLift> lifts);

}  // namespace rig::weigh
