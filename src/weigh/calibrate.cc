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

Result<Weighed> calc_weighed(const Footing& footing, const CornerReadings& readings,
                             const CornerReadings& plus_minus,
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
  struct Corner {
    double reading_kg, plus_minus_kg, x_m, y_m;
    bool diagonal;  ///< Left front or right rear.
  };
  const double front_y_m = footing.front_track_m / 2, rear_y_m = footing.rear_track_m / 2;
  const std::array<Corner, 4> corners{
      {{readings.front_left_kg, plus_minus.front_left_kg, footing.front_x_m, front_y_m, true},
       {readings.front_right_kg, plus_minus.front_right_kg, footing.front_x_m, -front_y_m, false},
       {readings.rear_left_kg, plus_minus.rear_left_kg, footing.rear_x_m, rear_y_m, false},
       {readings.rear_right_kg, plus_minus.rear_right_kg, footing.rear_x_m, -rear_y_m, true}}};
  Weighed weighed{.mass_kg = mass_kg};
  double x_moment_kg_m = hitch ? -tongue_kg * hitch->p_VoBall_V.x() : 0;
  double y_moment_kg_m = hitch ? -tongue_kg * hitch->p_VoBall_V.y() : 0;
  for (const Corner& corner : corners) {
    x_moment_kg_m += corner.reading_kg * corner.x_m;
    y_moment_kg_m += corner.reading_kg * corner.y_m;
    if (corner.diagonal) weighed.cross_weight_share += corner.reading_kg / total_kg;
  }
  weighed.x_m = x_moment_kg_m / mass_kg;
  weighed.y_m = y_moment_kg_m / mass_kg;
  // dM/dw = 1, dx/dw = (x_i - x)/M, dy/dw = (y_i - y)/M, ds/dw = (1 or 0 - s)/W.
  for (const Corner& corner : corners) {
    const double u_kg = corner.plus_minus_kg;
    const double diagonal = corner.diagonal ? 1 : 0;
    const auto add = [](double& half_width, double part) {
      half_width = std::hypot(half_width, part);
    };
    add(weighed.mass_plus_minus_kg, u_kg);
    add(weighed.x_plus_minus_m, (corner.x_m - weighed.x_m) / mass_kg * u_kg);
    add(weighed.y_plus_minus_m, (corner.y_m - weighed.y_m) / mass_kg * u_kg);
    add(weighed.cross_weight_plus_minus, (diagonal - weighed.cross_weight_share) / total_kg * u_kg);
  }
  return weighed;
}

Calibration calc_calibration(const MassProperties& estimated, const Footing& footing,
                             const Weighed& weighed) {
  const Vec3& p_VoCm_V = estimated.p_VoBcm_V;
  const double mass_kg = weighed.mass_kg;
  Calibration result{
      .mass_difference_kg = mass_kg - estimated.mass_kg,
      .x_difference_m = weighed.x_m - p_VoCm_V.x(),
      .y_difference_m = weighed.y_m - p_VoCm_V.y(),
      .x_moment_difference_kg_m = mass_kg * weighed.x_m - estimated.mass_kg * p_VoCm_V.x(),
      .y_moment_difference_kg_m = mass_kg * weighed.y_m - estimated.mass_kg * p_VoCm_V.y(),
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
