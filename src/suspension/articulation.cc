#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

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

double find_least_load_N(const Settled& settled) {
  double least = std::numeric_limits<double>::infinity();
  for (const auto& axle : settled.axles) {
    least = std::min({least, axle.wheel_loads_N[0], axle.wheel_loads_N[1]});
  }
  return least;
}

/// Where the lightest wheel's load would come to nothing, by the last two heights at which all
/// wheels carry.
class LoadTrend {
 public:
  void add(double height_m, const Settled& settled) {
    before_ = last_;
    last_ = {height_m, find_least_load_N(settled)};
  }
  double end_m() const {
    return last_.height_m +
           last_.load_N * (last_.height_m - before_.height_m) / (before_.load_N - last_.load_N);
  }

 private:
  struct Tried {
    double height_m = 0, load_N = 0;
  };
  Tried before_, last_;
};

/// Whether that is why there is no resting place.
bool tips(const Diagnostics& not_found) { return not_found.front().code == "suspension.tips_over"; }

/// From where the search for a resting place gives up, as where a stop just meets: the first of
/// some heights a little further on at which there is one. Nothing: there is none, or the truck
/// tips.
std::optional<std::pair<double, Settled>> pass_over(const TruckModel& truck,
                                                    const std::function<Ground(double)>& ground_at,
                                                    double from_m, const Settled& from) {
  constexpr double kFurther_m = 2e-3;
  constexpr int kTries = 5;
  for (int i = 1; i <= kTries; ++i) {
    const double height_m = from_m + i * kFurther_m;
    if (auto settled = settle(truck, ground_at(height_m), from)) {
      return std::pair(height_m, *std::move(settled));
    }
  }
  return std::nullopt;
}

/// Raises the ground step by step until a wheel lifts, then closes in on the height where it does:
/// by where its load points to, and every third time by halving.
Result<Articulation> raise_until_lift(const TruckModel& truck, const Settled& flat,
                                      const std::function<Ground(double)>& ground_at,
                                      double max_height_m) {
  if (find_lifted(flat)) {
    return fail("suspension.lifts_on_flat", "", "a wheel carries nothing on level ground",
                "check the masses and spring heights");
  }
  Articulation found;
  found.at_lift = flat;
  LoadTrend trend;
  trend.add(0, flat);
  std::optional<Settled> just_lifted;
  Diagnostics not_found;  // Why there is no resting place at `above_m`.
  double above_m = std::numeric_limits<double>::infinity();  // There not all wheels carry.
  bool was_lifted = false;
  for (int closing = 0; found.height_m < max_height_m;) {
    const double room_m = above_m - found.height_m;
    if (room_m < kEndAccuracy_m && !just_lifted && !tips(not_found)) {
      auto beyond = pass_over(truck, ground_at, found.height_m, found.at_lift);
      if (beyond && !find_lifted(beyond->second)) {
        found.height_m = beyond->first;
        found.at_lift = std::move(beyond->second);
        trend.add(found.height_m, found.at_lift);
        above_m = std::numeric_limits<double>::infinity();
        continue;
      }
    }
    if (room_m < (just_lifted ? kHeightAccuracy_m : kEndAccuracy_m)) {
      found.tips_over = !just_lifted;
      if (just_lifted) found.at_lift = std::move(*just_lifted);
      found.tip_is_taken = found.tips_over && !tips(not_found);
      return found;
    }
    double height_m = std::isfinite(room_m) ? found.height_m + room_m / 2
                                            : std::min(found.height_m + kStep_m, max_height_m);
    if (just_lifted && ++closing % 3 != 0) {
      // A little to the other side of it than where the last try was: so both ends close in.
      constexpr double kBeside_m = kHeightAccuracy_m / 3;
      const double aim_m = trend.end_m() + (was_lifted ? -kBeside_m : kBeside_m);
      if (aim_m > found.height_m && aim_m < above_m) height_m = aim_m;
    }
    auto settled = settle(truck, ground_at(height_m), found.at_lift, kSoon);
    const auto lifted = settled ? find_lifted(*settled) : std::nullopt;
    was_lifted = lifted.has_value();
    if (settled && !lifted) {
      found.height_m = height_m;
      found.at_lift = std::move(*settled);
      trend.add(height_m, found.at_lift);
      continue;
    }
    above_m = height_m;
    if (!settled) not_found = settled.error();
    if (lifted) {
      found.first_lifted_axle = lifted->axle;
      found.first_lifted_side = lifted->side;
      just_lifted = std::move(*settled);
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
