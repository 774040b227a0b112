#include "weigh/loads.h"

#include "weigh/footing_internal.h"

namespace rig::weigh {
Result<AxleLoads> calc_axle_loads(const Footing& footing, std::span<const VerticalLoad> loads) {
  if (auto fault = internal::find_fault_of_wheelbase(footing)) return *std::move(fault);
  AxleLoads axles;
  for (const VerticalLoad& load : loads) {
    const double rear_share = (footing.front_x_m - load.p_VoP_V.x()) / footing.wheelbase_m();
    axles.rear_N += load.force_N * rear_share;
    axles.front_N += load.force_N * (1 - rear_share);
  }
  return axles;
}

Result<WheelLoads> calc_wheel_loads(const Footing& footing, std::span<const VerticalLoad> loads) {
  if (auto fault = internal::find_fault_of_footing(footing)) return *std::move(fault);
  double total_N = 0;
  double roll_moment_Nm = 0;
  for (const VerticalLoad& load : loads) {
    total_N += load.force_N;
    roll_moment_Nm += load.force_N * load.p_VoP_V.y();
  }
  if (!(total_N > 0)) {
    return fail("weigh.no_load", "", "Nothing presses on the ground.",
                "Give at least one item with its mass and place.");
  }
  const auto axles = calc_axle_loads(footing, loads);
  if (!axles) return Failure{axles.error()};
  const double y_m = roll_moment_Nm / total_N;
  // Moments about an axle's right contact: F_left T = F (T/2 + y).
  const auto left_share = [y_m](double track_m) { return 0.5 + y_m / track_m; };
  const double front_left = left_share(footing.front_track_m);
  const double rear_left = left_share(footing.rear_track_m);
  return WheelLoads{.front_left_N = axles->front_N * front_left,
                    .front_right_N = axles->front_N * (1 - front_left),
                    .rear_left_N = axles->rear_N * rear_left,
                    .rear_right_N = axles->rear_N * (1 - rear_left)};
}

}  // namespace rig::weigh
