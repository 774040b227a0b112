#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "build/types.h"
#include "units/quantity.h"
#include "weigh/calibrate.h"
#include "weigh/cg_height.h"
#include "weigh/items.h"
#include "weigh/loads.h"
#include "weigh/mass_properties.h"
#include "weigh/stability.h"

/// Masses, balance point, inertia, axle and wheel loads. Method and limits: docs/design/weigh.md.
namespace rig::weigh {

/// What one axle carries under its springs.
struct Unsprung {
  std::string axle_id;
  MassProperties properties;
};

/// How well the sum is known: half-widths of the items' masses and places, first order, root sum
/// square. Items without a half-width count as exact, so `mass_share_with_plus_minus` must be read
/// with it.
struct Spread {
  double mass_plus_minus_kg = 0;
  Vec3 p_plus_minus_V = Vec3::Zero();  ///< Of the balance point, m.
  double front_plus_minus_N = 0;       ///< Of the axle loads; 0 while there are none.
  double rear_plus_minus_N = 0;
  double mass_share_with_plus_minus = 0;  ///< Share of the mass that has a half-width, 0 to 1.
};

enum class RatingKind {
  kGrossVehicle,
  kGrossAxle,
  kGrossCombination,
  kTyre,
  kWheel,
  kTongue,
  kTrailer
};

/// A load against its rating.
struct RatingCheck {
  RatingKind kind = RatingKind::kGrossVehicle;
  std::string what;  ///< In shop words: "front axle", "more loaded rear tyre".
  std::string path;  ///< JSON pointer of the rating.
  units::Dimension dimension = units::Dimension::kMass;  ///< Mass, or force for the tongue.
  double value_si = 0;
  double limit_si = 0;

  double margin_si() const { return limit_si - value_si; }
};

/// What follows from one set of mass properties; once for the estimate, once for the calibrated
/// truck.
struct Standing {
  MassProperties truck;
  std::optional<MassProperties> sprung;  ///< The truck less what the axles carry.
  std::optional<AxleLoads> axle_loads;   ///< Tongue load included.
  /// Rigid truck, on corner scales with the diagonal load that they showed; `suspension::settle`
  /// has the springs' answer.
  std::optional<WheelLoads> wheel_loads;
  std::optional<Stability> stability;
  std::vector<RatingCheck> ratings;
};

/// The scales' word beside the estimate; nothing of the estimate is changed by it.
struct Scaled {
  std::vector<std::string> weighing_ids;  ///< Those averaged.
  std::string state_id;     ///< Of the weighings; may be another state than the asked one.
  CornerReadings readings;  ///< Averaged.
  CornerReadings readings_plus_minus;
  Weighed weighed;  ///< In that state.
  std::optional<Calibration>
      calibration;  ///< Scale against estimate in that state, if there is one.
  /// What the readings put on the left wheel of each axle beyond the rigid truck's share; taken
  /// over to every state.
  Diagonal diagonal;
  /// Half-widths in the asked state: those of the readings and of what else is aboard there.
  double mass_plus_minus_kg = 0;
  double front_plus_minus_N = 0;
  double rear_plus_minus_N = 0;
  WheelLoads wheel_plus_minus_N;
  std::optional<Standing> standing;  ///< The asked state with the same correction.
};

/// Height of the balance point by lifted axle, for weighings made in the asked state.
struct MeasuredHeight {
  std::vector<std::string> weighing_ids;
  build::End lifted = build::End::kRear;
  bool mass_from_scale = false;  ///< Total from corner readings; else from the estimate.
  CgHeight height;
  double difference_m = 0;             ///< Measured less estimated; NaN without an estimate.
  std::optional<Stability> stability;  ///< The estimate's plan with the measured height.
};

/// What the lifted weighing adds to the list's height, carried to a state.
struct HeightCorrection {
  std::vector<std::string> weighing_ids;
  std::string state_id;     ///< Of the weighings; may be another state than the asked one.
  double difference_m = 0;  ///< Measured less estimated, for the asked state's mass; NaN without.
  double cg_height_m = 0;   ///< Corrected, of the asked state.
  double plus_minus_m = 0;  ///< Of the corrected height.
};

/// A truck in one load state.
struct WeighResult {
  std::string state_id;
  std::vector<Item> items;
  std::vector<LeftOut> left_out;        ///< Aboard, but not in any number here.
  std::optional<MassProperties> total;  ///< Absent when no item has both mass and place.
  std::optional<MassProperties>
      sprung;                      ///< Carried by the frame; the tongue load is no part of it.
  std::vector<Unsprung> unsprung;  ///< Per axle with any; in the order of the file's axles.
  Spread spread;
  std::optional<Footing> footing;
  std::string front_axle_id;
  std::string rear_axle_id;
  std::optional<HitchLoad> hitch;
  std::optional<double> tongue_share;  ///< Tongue load over the trailer's weight.
  std::optional<Standing> estimated;
  std::optional<Scaled> scaled;
  std::vector<MeasuredHeight> measured_heights;       ///< One per lifted end that was weighed.
  std::optional<HeightCorrection> height_correction;  ///< It is in `scaled` and `lifted`.
  std::optional<Standing> lifted;  ///< The estimate's plan at the corrected height.
  std::vector<Missing> missing;
  Diagnostics faults;  ///< Measurements and geometry that can't be used, and why.

  /// What is known best: by the scales, else with the height measured, else by the list.
  const Standing* standing() const;
  double height_plus_minus_m() const;  ///< Of the balance point of `standing`.
};

/// Weighs a build in one load state.
///
/// @param state_id  A load state's id; empty: no optional load, tanks as their items say, no
/// trailer.
/// @return  Everything that can be computed; the rest is listed in `missing` and `faults`.
/// @errors weigh.unknown_state.
/// @accuracy Rounding only, for the numbers given.
/// @source docs/design/weigh.md.
Result<WeighResult> weigh_state(const build::Build& build, const std::string& state_id);

}  // namespace rig::weigh
