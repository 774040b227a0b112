#include "section/area_internal.h"

namespace rig::section {

AreaMoments calc_area_moments(const std::vector<Stretch>& stretches) {
  AreaMoments out;
  // Thickness cubed times length over 12, along the left normal.
  const auto across = [](const Stretch& s) {
    const Vec2 along = s.end - s.start;
    return Vec2(Vec2(-along.y(), along.x()) * (s.thickness_m * s.thickness_m * s.thickness_m / 12));
  };
  for (const Stretch& s : stretches) {
    const double area = (s.end - s.start).norm() * s.thickness_m;
    out.area_m2 += area;
    out.p_OC += area * (s.start + s.end) / 2 - s.curvature_per_m * across(s);
  }
  out.p_OC /= out.area_m2;
  for (const Stretch& s : stretches) {
    const Vec2 along = s.end - s.start, middle = (s.start + s.end) / 2 - out.p_OC;
    const double length = along.norm();
    if (!(length > 0)) continue;
    const Vec2 left(-along.y() / length, along.x() / length);
    const Eigen::Matrix2d tilt = middle * across(s).transpose();
    out.second_m4 +=
        length * s.thickness_m * (middle * middle.transpose() + along * along.transpose() / 12) +
        left * across(s).transpose() - s.curvature_per_m * (tilt + tilt.transpose());
  }
  return out;
}

}  // namespace rig::section
