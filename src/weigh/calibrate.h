#pragma once

#include <array>
#include <optional>

#include "base/result.h"
#include "weigh/loads.h"
#include "weigh/mass_properties.h"
#include "weigh/stability.h"

namespace rig::weigh {

/// What four scales showed.
struct CornerReadings {
  double front_left_kg = 0;
  double front_right_kg = 0;
  double rear_left_kg = 0;
  double rear_right_kg = 0;

  double total_kg() const { return front_left_kg + front_right_kg + rear_left_kg + rear_right_kg; }
};

/// The truck in plan as four scales tell it, without its trailer's tongue load.
struct Weighed {
  double mass_kg = 0;
  double x_m = 0;  ///< Balance point in V axes.
  double y_m = 0;
  double cross_weight_share = 0;  ///< (left front + right rear) / all four; 0.5: none.
  // Half-widths that follow from those of the readings.
  double mass_plus_minus_kg = 0;
  double x_plus_minus_m = 0;
  double y_plus_minus_m = 0;
  double cross_weight_plus_minus = 0;
};

/// Mass, balance point in plan and cross weight from corner readings; half-widths to first order,
/// root sum square, the readings being independent.
///
/// @param plus_minus  Half-width of each reading.
/// @param hitch       A trailer that hung on the ball during the weighing, if any.
/// @errors weigh.reading_not_positive (total), weigh.wheelbase_not_positive,
///         weigh.track_not_positive, weigh.tongue_above_total.
/// @accuracy Rounding only.
/// @source Statics.
Result<Weighed> calc_weighed(const Footing& footing, const CornerReadings& readings,
                             const CornerReadings& plus_minus,
                             const std::optional<HitchLoad>& hitch);

/// What would have to be added to the estimate to agree with the scales.
struct Calibration {
  double mass_difference_kg = 0;        ///< Measured less estimated.
  double x_difference_m = 0;            ///< + : the truck is heavier forward than estimated.
  double y_difference_m = 0;            ///< + : heavier to the left.
  double x_moment_difference_kg_m = 0;  ///< Added first moment of mass about the datum lines.
  double y_moment_difference_kg_m = 0;
  /// Where one mass of `mass_difference_kg` would have to sit (x, y). Absent when no single mass on
  /// the truck explains the difference: it is below a thousandth of the truck, or the place lies
  /// more than half a wheelbase beyond an axle or half a track beyond the wheels.
  std::optional<std::array<double, 2>> place_m;
};

/// Compares an estimate of the truck alone with what the scales tell of the same load state.
///
/// @param footing  That the weights were told on.
/// @accuracy Rounding only.
/// @source Statics.
Calibration calc_calibration(const MassProperties& estimated, const Footing& footing,
                             const Weighed& weighed);

/// The estimate with the calibration's mass and first moments added. Its height and inertia stay
/// the estimate's own; they are not weighed by this method.
///
/// @errors weigh.calibration_too_large: it takes off more than the estimate weighs.
Result<MassProperties> apply_calibration(const MassProperties& estimated,
                                         const Calibration& calibration);

}  // namespace rig::weigh
