#include "suspension/drawing_board.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "geometry/line.h"
#include "suspension/jet_internal.h"

namespace rig::suspension {
namespace {

constexpr double kAlike_m = 1e-7;
constexpr double kParallel = 1e-9;

/// The left bar of a pair alike left and right, as it stands.
struct Pair {
  Vec3 frame;
  Vec3 axle;

  Vec3 direction() const { return axle - frame; }
};

Vec2 side_view(const Vec3& p) { return {p.x(), p.z()}; }

Vec3 mirror(const Vec3& p) { return {p.x(), -p.y(), p.z()}; }

/// The point on the centre plane where the pair's lines meet.
std::optional<Vec3> find_apex(const Pair& pair) {
  const Vec3 d = pair.direction();
  if (std::abs(d.y()) < kParallel * d.norm()) return std::nullopt;
  return pair.frame - d * (pair.frame.y() / d.y());
}

std::optional<double> find_slope(const Vec3& d) {
  if (std::abs(d.x()) < kParallel * d.norm()) return std::nullopt;
  return d.z() / d.x();
}

void find_side_view(const Pair& lower, const Pair& upper, const Vec3& p_VC, double radius_m,
                    DrawingBoard& board) {
  const auto crossing = find_crossing(side_view(lower.frame), side_view(lower.axle),
                                      side_view(upper.frame), side_view(upper.axle));
  if (!crossing) {
    const auto slope = find_slope(lower.direction());
    if (slope) board.contact_slope = -*slope;
    return;
  }
  board.instant_centre_V = Vec3(crossing->x(), 0, crossing->y());
  const double ahead = crossing->x() - p_VC.x();
  const double above_ground = crossing->y() - p_VC.z() + radius_m;
  if (ahead != 0) board.contact_slope = -above_ground / ahead;
}

void find_roll_axis(const Pair& lower, const Pair& upper, const Vec3& p_VC, double radius_m,
                    DrawingBoard& board) {
  board.lower_apex_V = find_apex(lower);
  board.upper_apex_V = find_apex(upper);
  std::optional<double> slope;
  const Vec3* through = nullptr;
  if (board.lower_apex_V && board.upper_apex_V) {
    slope = find_slope(*board.upper_apex_V - *board.lower_apex_V);
    through = &*board.lower_apex_V;
  } else if (board.lower_apex_V) {
    slope = find_slope(upper.direction());
    through = &*board.lower_apex_V;
  } else if (board.upper_apex_V) {
    slope = find_slope(lower.direction());
    through = &*board.upper_apex_V;
  }
  if (!slope) return;
  board.roll_steer = slope;
  board.roll_centre_height_m =
      through->z() + *slope * (p_VC.x() - through->x()) - p_VC.z() + radius_m;
}

}  // namespace

DrawingBoard find_drawing_board(const AxleModel& axle, const Vec6& q) {
  DrawingBoard board;
  const AxleAxes axes = axes_from_coordinates(q);
  std::vector<Pair> pairs, singles;
  std::vector<bool> used(axle.bars.size(), false);
  const auto at = [&](std::size_t i) {
    return Pair{axle.bars[i].p_VP, axes.p_VC + axes.R_VA * axle.bars[i].p_AQ};
  };
  for (std::size_t i = 0; i < axle.bars.size(); ++i) {
    if (used[i]) continue;
    const Pair one = at(i);
    for (std::size_t j = i + 1; j < axle.bars.size() && !used[i]; ++j) {
      const Pair other = at(j);
      if (used[j] || (mirror(one.frame) - other.frame).norm() > kAlike_m ||
          (mirror(one.axle) - other.axle).norm() > kAlike_m) {
        continue;
      }
      used[i] = used[j] = true;
      pairs.push_back(one);
    }
    if (!used[i]) singles.push_back(one);
  }
  if (pairs.size() != 2) {
    board.fails_because = "it needs two pairs of links alike left and right";
    return board;
  }
  const double mid_lower = pairs[0].axle.z() + pairs[0].frame.z();
  const double mid_upper = pairs[1].axle.z() + pairs[1].frame.z();
  if (mid_lower > mid_upper) std::swap(pairs[0], pairs[1]);
  find_side_view(pairs[0], pairs[1], axes.p_VC, axle.loaded_radius_m, board);
  if (singles.empty()) {
    find_roll_axis(pairs[0], pairs[1], axes.p_VC, axle.loaded_radius_m, board);
  } else {
    board.fails_because = "a track bar is not alike left and right: it carries the axle sideways";
  }
  return board;
}

}  // namespace rig::suspension
