#pragma once

#include <optional>

#include "geometry/pose.h"

namespace rig {

/// A point in a plane, such as (x, z) of a side view.
using Vec2 = Eigen::Vector2d;

/// The cross product's one part, across the plane.
inline double cross(const Vec2& a, const Vec2& b) { return a.x() * b.y() - a.y() * b.x(); }

/// Where the infinite lines a0-a1 and b0-b1 of one plane cross; nothing when they are parallel
/// (sine of the angle between them below 1e-12) or a pair of points coincides.
std::optional<Vec2> find_crossing(const Vec2& a0, const Vec2& a1, const Vec2& b0, const Vec2& b1);

}  // namespace rig
