#include "check/cross_weight.h"

#include <algorithm>
#include <cmath>

#include "check/truck.h"

namespace rig::check {
namespace {

using suspension::Settled;
using suspension::TruckModel;

/// Past this a seat is another truck's, m (4 in).
constexpr double kFurthestSeat_m = 0.1016;
/// From a settled neighbour a few steps do; a truck that needs more has no cure worth telling.
constexpr int kMostSteps = 30;
/// Cross weight that a seat must be told to be worth moving: 0.1 %.
constexpr double kNear = 0.001;

std::vector<CornerMove> list_corners(const TruckModel& truck) {
  std::vector<CornerMove> corners;
  for (std::size_t a = 0; a < truck.axles.size(); ++a) {
    const auto& axle = truck.axles[a];
    for (std::size_t c = 0; c < axle.coils.size(); ++c) {
      if (axle.coils[c].side == 0) continue;
      corners.push_back({.axle = a, .coil = true, .index = c, .side = axle.coils[c].side});
    }
    for (const int side : {1, -1}) {
      const bool leaves =
          std::any_of(axle.leaf_halves.begin(), axle.leaf_halves.end(),
                      [side](const suspension::LeafHalf& half) { return half.side == side; });
      if (leaves) corners.push_back({.axle = a, .coil = false, .index = 0, .side = side});
    }
  }
  return corners;
}

double greatest_height_error_m(const TruckModel& truck, const Settled& settled) {
  double most_m = 0;
  for (std::size_t a = 0; a < truck.axles.size(); ++a) {
    for (const int side : {1, -1}) {
      most_m = std::max(most_m, std::abs(calc_height_error_m(truck, settled, a, side)));
    }
  }
  return most_m;
}

}  // namespace

double calc_cross_weight(const Settled& settled) {
  double total_N = 0;
  for (const auto& axle : settled.axles) total_N += axle.wheel_loads_N[0] + axle.wheel_loads_N[1];
  return (settled.axles.front().wheel_loads_N[0] + settled.axles.back().wheel_loads_N[1]) / total_N;
}

TruckModel moved(TruckModel truck, const CornerMove& move) {
  auto& axle = truck.axles[move.axle];
  if (move.coil) {
    auto& coil = axle.coils[move.index];
    coil.p_VP -= (coil.p_VP - axle.p_VC - coil.p_AQ).normalized() * move.raise_m;
    return truck;
  }
  for (auto& half : axle.leaf_halves) {
    if (half.side == move.side) half.rise_unloaded_m += move.raise_m;
  }
  return truck;
}

std::optional<CrossWeightCure> find_cross_weight_cure(const TruckModel& truck,
                                                      const Settled& settled, double wanted,
                                                      double step_m) {
  std::optional<CrossWeightCure> best, furthest;
  const double start = calc_cross_weight(settled);
  for (CornerMove corner : list_corners(truck)) {
    const auto solve = [&](double raise_m) -> std::optional<CrossWeightCure> {
      corner.raise_m = raise_m;
      const TruckModel with = moved(truck, corner);
      const auto found =
          suspension::settle(with, flat_ground(), settled, {.max_iterations = kMostSteps});
      if (!found) return std::nullopt;
      return CrossWeightCure{corner, calc_cross_weight(*found),
                             greatest_height_error_m(with, *found), true};
    };
    double before_m = 0, before = start, raise_m = step_m;
    std::optional<CrossWeightCure> now;
    for (int i = 0; i < 4; ++i) {
      now = solve(raise_m);
      if (!now || now->cross_weight == before || raise_m == before_m) break;
      const double slope = (now->cross_weight - before) / (raise_m - before_m);
      before_m = raise_m;
      before = now->cross_weight;
      raise_m += (wanted - now->cross_weight) / slope;
      if (!(std::abs(raise_m) < kFurthestSeat_m)) break;
    }
    if (!now) continue;
    if (!(std::abs(raise_m) < kFurthestSeat_m)) {
      const bool shorter = !furthest || std::abs(raise_m) < std::abs(furthest->move.raise_m);
      corner.raise_m = raise_m;
      if (std::isfinite(raise_m) && shorter) {
        furthest = CrossWeightCure{corner, wanted, now->height_error_m, false};
      }
      continue;
    }
    const double rounded_m = std::round(raise_m / step_m) * step_m;
    if (rounded_m == 0) continue;
    now = solve(rounded_m);
    // Half a step of rounding, by the slope of the straight line from the start.
    const double slack = kNear + std::abs((wanted - start) / rounded_m) * step_m;
    if (!now || std::abs(now->cross_weight - wanted) > slack) continue;
    if (!best || now->height_error_m < best->height_error_m) best = now;
  }
  return best ? best : furthest;
}

}  // namespace rig::check
