#pragma once

#include "geometry/pose.h"

namespace rig {

/// The matrix whose product with a vector is the cross product of `v` with it.
inline Mat3 cross_matrix(const Vec3& v) {
  Mat3 out;
  out << 0, -v.z(), v.y(), v.z(), 0, -v.x(), -v.y(), v.x(), 0;
  return out;
}

}  // namespace rig
