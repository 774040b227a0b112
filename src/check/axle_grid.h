#pragma once

#include <optional>
#include <vector>

#include "check/report.h"

namespace rig::check {

/// An axle over its whole travel, in bump and roll at once.
struct AxleGrid {
  std::vector<double> bump_m;                                ///< Rising, 41.
  std::vector<double> roll_rad;                              ///< Rising, 21.
  std::vector<std::optional<suspension::AxlePlace>> places;  ///< Roll by roll; see below.

  bool empty() const { return places.empty(); }
};

/// Places where a wheel would be past its wanted travel, or where the links do not let the axle go,
/// are none. Empty without wanted travels.
AxleGrid make_axle_grid(const AxleReport& axle);

}  // namespace rig::check
