#pragma once

#include <Eigen/Core>
#include <vector>

#include "geometry/line.h"

namespace rig::section {

/// A straight piece of wall, or the chord of a bent one.
struct Stretch {
  Vec2 start = Vec2::Zero(), end = Vec2::Zero();
  double thickness_m = 0;
  double curvature_per_m = 0;  ///< As in `Wall`.
};

struct AreaMoments {
  double area_m2 = 0;
  Vec2 p_OC = Vec2::Zero();
  Eigen::Matrix2d second_m4 = Eigen::Matrix2d::Zero();  ///< Integral of (y, z) (y, z)^T about C.
};

/// Area, centroid and second moments with the thickness: a piece at n to the left of the midline
/// counts as long as 1 - curvature n.
/// @param stretches  At least one of positive length.
AreaMoments calc_area_moments(const std::vector<Stretch>& stretches);

}  // namespace rig::section
