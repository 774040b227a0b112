#include <cmath>
#include <functional>

#include "suspension/settle.h"

namespace rig::suspension {
namespace {

constexpr double kStep_m = 0.05;
constexpr double kHeightAccuracy_m = 1e-6;
/// Where the truck finds no rest at all the height is told this closely.
constexpr double kEndAccuracy_m = 1e-3;
/// From the step before some ten iterations do; what takes many more ends nowhere.
constexpr SettleOptions kSoon{.max_iterations = 60};

struct LiftedWheel {
  std::size_t axle = 0;
  int side = 0;
};

/// The wheel that carries nothing, if any.
std::optional<LiftedWheel> find_lifted(const Settled& settled) {
  for (std::size_t a = 0; a < settled.axles.size(); ++a) {
    for (const std::size_t side : {0U, 1U}) {
      if (settled.axles[a].wheel_loads_N[side] <= 0) return LiftedWheel{a, side == 0 ? 1 : -1};
    }
  }
  return std::nullopt;
}

/// Raises the ground step by step until a wheel lifts, then halves onto the height where it does.
Result<Articulation> raise_until_lift(const TruckModel& truck, const Settled& flat,
                                      const std::function<Ground(double)>& ground_at,
                                      double max_height_m) {
  if (find_lifted(flat)) {
    return fail("suspension.lifts_on_flat", "", "a wheel carries nothing on level ground",
                "check the masses and spring heights");
  }
  Articulation found;
  found.at_lift = flat;
  std::optional<Settled> just_lifted;
  double step = kStep_m;
  while (found.height_m < max_height_m) {
    const double height = std::min(found.height_m + step, max_height_m);
    auto settled = settle(truck, ground_at(height), found.at_lift, kSoon);
    const auto lifted = settled ? find_lifted(*settled) : std::nullopt;
    if (settled && !lifted) {
      found.height_m = height;
      found.at_lift = std::move(*settled);
      continue;
    }
    if (lifted) {
      found.first_lifted_axle = lifted->axle;
      found.first_lifted_side = lifted->side;
      just_lifted = std::move(*settled);
    }
    step /= 2;
    if (step < (just_lifted ? kHeightAccuracy_m : kEndAccuracy_m)) {
      found.tips_over = !just_lifted;
      if (just_lifted) found.at_lift = std::move(*just_lifted);
      return found;
    }
  }
  found.limited = true;
  return found;
}

Ground level(const TruckModel& truck) { return Ground(truck.axles.size(), {0.0, 0.0}); }

void finish(Articulation& found, double distance_m, double wheelbase_m) {
  found.distance_up_ramp_m = distance_m;
  found.ramp_travel_index = distance_m / wheelbase_m * 1000;
}

}  // namespace

Result<Articulation> find_ramp_articulation(const TruckModel& truck, double wheelbase_m,
                                            const Settled& flat, const RampOptions& options) {
  // Past this the wheel behind it meets the ramp too.
  const double both_on_ramp_m = wheelbase_m * std::tan(options.slope_rad);
  auto found = raise_until_lift(
      truck, flat,
      [&](double height) {
        Ground ground = level(truck);
        ground[options.axle][options.side > 0 ? 0 : 1] = height;
        return ground;
      },
      both_on_ramp_m);
  if (found) finish(*found, found->height_m / std::sin(options.slope_rad), wheelbase_m);
  return found;
}

Result<Articulation> find_cross_articulation(const TruckModel& truck, double wheelbase_m,
                                             const Settled& flat, double max_height_m) {
  auto found = raise_until_lift(
      truck, flat,
      [&](double height) {
        Ground ground = level(truck);
        ground[0] = {height, 0};
        ground[1] = {0, height};
        return ground;
      },
      max_height_m);
  if (found) finish(*found, found->height_m, wheelbase_m);
  return found;
}

}  // namespace rig::suspension
