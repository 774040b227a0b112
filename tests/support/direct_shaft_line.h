#pragma once

#include <Eigen/Geometry>

#include "driveline/shaft_line.h"

/// A line of joints by the vectors of its crosses: what `calc_shaft_line` is held against, and
/// measured beside.
namespace rig::driveline::testing {

/// Output speed over input speed with the input yoke's arm along `arm_V`, square to `d_in_V`.
///
/// A cross's arms u and w stay square while they turn with their shafts a and b: from u w = 0,
/// w2 / w1 = - (a x u) w / ((b x w) u). A joint that is no Cardan joint turns the arm by the least
/// turn from a to b.
inline double calc_direct_ratio(const ShaftLine& line, const Vec3& arm_V) {
  double ratio = 1;
  Vec3 a = line.d_in_V.normalized(), u = arm_V;
  for (std::size_t i = 0; i < line.joint_count; ++i) {
    const bool last = i + 1 == line.joint_count;
    const Vec3 b =
        (last ? line.d_out_V : line.joints[i + 1].p_VP - line.joints[i].p_VP).normalized();
    Vec3 w;
    if (line.joints[i].kind == JointKind::kCardan) {
      w = b.cross(u).normalized();
      ratio *= -a.cross(u).dot(w) / b.cross(w).dot(u);
    } else {
      w = Eigen::Quaterniond::FromTwoVectors(a, b) * u;
    }
    u = last ? w : Eigen::AngleAxisd(line.phase_rad[i], b) * w;
    a = b;
  }
  return ratio;
}

/// The same at a turn of the input shaft from some position of it.
inline double calc_direct_ratio(const ShaftLine& line, double turn_rad) {
  const Vec3 a = line.d_in_V.normalized();
  const Vec3 arm_V = Eigen::AngleAxisd(turn_rad, a) * a.unitOrthogonal();
  return calc_direct_ratio(line, arm_V);
}

}  // namespace rig::driveline::testing
