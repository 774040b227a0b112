#include "weigh/stability.h"

#include <algorithm>
#include <cmath>

#include "units/factors.h"
#include "weigh/footing_internal.h"

namespace rig::weigh {
namespace {

Failure cg_not_above_floor() {
  return fail("weigh.cg_not_above_floor", "", "The balance point is not above the floor.",
              "Heights count from the floor, + up: look for an item with a wrong height.");
}

}  // namespace

Result<Stability> calc_stability(const MassProperties& truck, const Footing& footing,
                                 const std::optional<HitchLoad>& hitch) {
  using units::g;
  if (auto fault = internal::find_fault_of_footing(footing)) return *std::move(fault);
  if (!(truck.mass_kg > 0)) {
    return fail("weigh.no_load", "", "The truck has no mass.",
                "Give at least one item with its mass and place.");
  }
  if (!(truck.p_VoBcm_V.z() > 0)) return cg_not_above_floor();

  const double L = footing.wheelbase_m();
  // The truck with its tongue load as a mass at the ball.
  Vec3 p_VoC_V = truck.p_VoBcm_V;
  double trailer_pull_Nm = 0;  // of the trailer's weight, at the ball's height above the floor
  if (hitch) {
    const double tongue_kg = hitch->tongue_N / g;
    p_VoC_V = (truck.mass_kg * truck.p_VoBcm_V + tongue_kg * hitch->p_VoBall_V) /
              (truck.mass_kg + tongue_kg);
    // The tongue's own part is in the mass at the ball already.
    trailer_pull_Nm = (hitch->trailer_mass_kg - tongue_kg) * g * hitch->p_VoBall_V.z();
  }
  const double load_N = truck.mass_kg * g + (hitch ? hitch->tongue_N : 0.0);
  const double h = p_VoC_V.z();
  if (!(h > 0)) return cg_not_above_floor();

  const double front_share = (p_VoC_V.x() - footing.rear_x_m) / L;
  const double T = footing.front_track_m * front_share + footing.rear_track_m * (1 - front_share);
  const double to_left_m = T / 2 - p_VoC_V.y();
  const double to_right_m = T / 2 + p_VoC_V.y();
  const double behind_front_m = footing.front_x_m - p_VoC_V.x();
  const double ahead_of_rear_m = p_VoC_V.x() - footing.rear_x_m;

  Stability stability{.cg_height_m = h,
                      .track_at_cg_m = T,
                      .static_stability_factor = T / (2 * h),
                      .tilt_rad = std::atan(T / (2 * h)),
                      .left_side_down_rad = std::atan(to_left_m / h),
                      .right_side_down_rad = std::atan(to_right_m / h),
                      .to_left_m = to_left_m,
                      .to_right_m = to_right_m,
                      .ahead_of_rear_m = ahead_of_rear_m,
                      .behind_front_m = behind_front_m,
                      .load_N = load_N,
                      .trailer_pull_Nm = trailer_pull_Nm};
  stability.side_slope_rad = std::min(stability.left_side_down_rad, stability.right_side_down_rad);
  // Moments about the contact line on the downhill side, slope s: N (d cos s - h sin s) - P sin s =
  // 0.
  const auto grade_limit = [&](double distance_m) {
    return std::atan(load_N * distance_m / (load_N * h + trailer_pull_Nm));
  };
  stability.up_grade_rad = grade_limit(ahead_of_rear_m);
  stability.down_grade_rad = grade_limit(behind_front_m);
  // The side lines run askew to the truck by half the difference of the tracks over the wheelbase.
  const double cosine = L / std::hypot(L, (footing.front_track_m - footing.rear_track_m) / 2);
  stability.any_heading_rad = std::atan(
      std::min({to_left_m * cosine, to_right_m * cosine, behind_front_m, ahead_of_rear_m}) / h);
  return stability;
}

}  // namespace rig::weigh
