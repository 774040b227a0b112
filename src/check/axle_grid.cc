#include "check/axle_grid.h"

#include <cmath>

namespace rig::check {
namespace {

constexpr int kBumps = 41, kRolls = 21;

}  // namespace

AxleGrid make_axle_grid(const AxleReport& axle) {
  const double track_m = axle.model.track_m;
  const double travel_m = axle.bump_m + axle.droop_m;
  if (!axle.has_linkage || !(travel_m > 0) || !(track_m > travel_m)) return {};
  const double roll_rad = std::asin(travel_m / track_m);
  AxleGrid grid;
  for (int i = 0; i < kBumps; ++i) {
    grid.bump_m.push_back(std::lerp(-axle.droop_m, axle.bump_m, i / (kBumps - 1.0)));
  }
  for (int i = 0; i < kRolls; ++i) {
    grid.roll_rad.push_back(std::lerp(-roll_rad, roll_rad, i / (kRolls - 1.0)));
  }
  constexpr double kRounding_m = 1e-9;
  std::vector<suspension::Target> targets;
  std::vector<std::size_t> cells;
  for (std::size_t r = 0; r < grid.roll_rad.size(); ++r) {
    const double rise_m = track_m / 2 * std::abs(std::sin(grid.roll_rad[r]));
    for (std::size_t b = 0; b < grid.bump_m.size(); ++b) {
      if (grid.bump_m[b] + rise_m > axle.bump_m + kRounding_m) continue;
      if (grid.bump_m[b] - rise_m < -axle.droop_m - kRounding_m) continue;
      targets.push_back({grid.bump_m[b], grid.roll_rad[r]});
      cells.push_back(r * grid.bump_m.size() + b);
    }
  }
  const auto traced = suspension::trace_axle(axle.model, targets);
  if (!traced) return {};  // told with the sweep
  grid.places.resize(grid.bump_m.size() * grid.roll_rad.size());
  for (std::size_t i = 0; i < cells.size(); ++i) grid.places[cells[i]] = (*traced)[i];
  return grid;
}

}  // namespace rig::check
