#include "weigh/calibrate.h"

#include <algorithm>
#include <cmath>

#include "units/factors.h"
#include "weigh/footing_internal.h"

namespace rig::weigh {
namespace {

/// Below this share of the truck a difference is noise, not a thing that was forgotten.
constexpr double kLeastShareToPlace = 0.001;

bool on_the_truck(const Footing& footing, double x_m, double y_m) {
  const double beyond_m = footing.wheelbase_m() / 2;
  const double track_m = std::max(footing.front_track_m, footing.rear_track_m);
  return x_m <= footing.front_x_m + beyond_m && x_m >= footing.rear_x_m - beyond_m &&
         std::abs(y_m) <= track_m;
}

}  // namespace

Result<Calibration> calc_calibration(const MassProperties& estimated, const Footing& footing,
                                     const CornerReadings& readings,
                                     const std::optional<HitchLoad>& hitch) {
  if (auto fault = internal::find_fault_of_footing(footing)) return *std::move(fault);
  const double total_kg = readings.total_kg();
  if (!(total_kg > 0)) {
    return fail("weigh.reading_not_positive", "", "The four readings add up to nothing.",
                "Give what each scale showed.");
  }
  const double tongue_kg = hitch ? hitch->tongue_N / units::kStandardGravity_m_per_s2 : 0;
  const double mass_kg = total_kg - tongue_kg;
  if (!(mass_kg > 0)) {
    return fail("weigh.tongue_above_total", "",
                "The tongue load is more than the four scales showed.",
                "Check the tongue load's unit, and the readings.");
  }
  const double front_kg = readings.front_left_kg + readings.front_right_kg;
  const double rear_kg = readings.rear_left_kg + readings.rear_right_kg;
  double x_moment_kg_m = front_kg * footing.front_x_m + rear_kg * footing.rear_x_m;
  double y_moment_kg_m =
      (readings.front_left_kg - readings.front_right_kg) * footing.front_track_m / 2 +
      (readings.rear_left_kg - readings.rear_right_kg) * footing.rear_track_m / 2;
  if (hitch) {
    x_moment_kg_m -= tongue_kg * hitch->p_VoBall_V.x();
    y_moment_kg_m -= tongue_kg * hitch->p_VoBall_V.y();
  }
  const Vec3& p_VoCm_V = estimated.p_VoBcm_V;
  Calibration result{
      .measured_mass_kg = mass_kg,
      .measured_x_m = x_moment_kg_m / mass_kg,
      .measured_y_m = y_moment_kg_m / mass_kg,
      .mass_difference_kg = mass_kg - estimated.mass_kg,
      .x_difference_m = x_moment_kg_m / mass_kg - p_VoCm_V.x(),
      .y_difference_m = y_moment_kg_m / mass_kg - p_VoCm_V.y(),
      .cross_weight_share = (readings.front_right_kg + readings.rear_left_kg) / total_kg,
      .x_moment_difference_kg_m = x_moment_kg_m - estimated.mass_kg * p_VoCm_V.x(),
      .y_moment_difference_kg_m = y_moment_kg_m - estimated.mass_kg * p_VoCm_V.y(),
      .place_m = {}};
  if (std::abs(result.mass_difference_kg) >= kLeastShareToPlace * mass_kg) {
    const double x_m = result.x_moment_difference_kg_m / result.mass_difference_kg;
    const double y_m = result.y_moment_difference_kg_m / result.mass_difference_kg;
    if (on_the_truck(footing, x_m, y_m)) result.place_m = {x_m, y_m};
  }
  return result;
}

Result<MassProperties> apply_calibration(const MassProperties& estimated,
                                         const Calibration& calibration) {
  MassProperties result = estimated;
  result.mass_kg += calibration.mass_difference_kg;
  if (!(result.mass_kg > 0)) {
    return fail("weigh.calibration_too_large", "",
                "The scales take off more than this load state is estimated to weigh.",
                "Check the readings, and what was aboard when they were taken.");
  }
  const double share = estimated.mass_kg / result.mass_kg;
  result.p_VoBcm_V.x() =
      share * estimated.p_VoBcm_V.x() + calibration.x_moment_difference_kg_m / result.mass_kg;
  result.p_VoBcm_V.y() =
      share * estimated.p_VoBcm_V.y() + calibration.y_moment_difference_kg_m / result.mass_kg;
  return result;
}

}  // namespace rig::weigh
