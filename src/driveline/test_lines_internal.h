#pragma once

#include <cmath>
#include <numbers>

#include "driveline/shaft_line.h"
#include "tests/support/random_values.h"

/// Lines that several tests share.
namespace rig::driveline::testing {

/// Joints in a side view, forward along x: `slopes` of the input shaft, each tube and the output.
inline ShaftLine make_side_view_line(std::initializer_list<double> slopes_rad) {
  const auto along = [](double slope) { return Vec3(std::cos(slope), 0, std::sin(slope)); };
  ShaftLine line;
  line.joint_count = slopes_rad.size() - 1;
  const double* slope = slopes_rad.begin();
  line.d_in_V = along(*slope++);
  line.joints[0].p_VP = Vec3(0.2, -0.1, 0.5);
  for (std::size_t i = 1; i < line.joint_count; ++i) {
    line.joints[i].p_VP = line.joints[i - 1].p_VP + 0.7 * along(*slope++);
  }
  line.d_out_V = along(*slope);
  return line;
}

/// Shafts somewhere in space, each up to `spread` from one way along x, yokes at any phase; inside
/// a property only.
inline ShaftLine make_random_line(std::size_t joint_count, double spread = 0.4) {
  const auto along = [&] {
    return Vec3(1, spread * test::real(-1000, 1000), spread * test::real(-1000, 1000));
  };
  ShaftLine line;
  line.joint_count = joint_count;
  line.d_in_V = along();
  line.joints[0].p_VP = Vec3(0.2, -0.1, 0.5);
  for (std::size_t i = 1; i < joint_count; ++i) {
    line.joints[i].p_VP = line.joints[i - 1].p_VP + test::real(50, 1500) * along();
    line.phase_rad[i - 1] = test::real(-4000, 4000);
  }
  line.d_out_V = along();
  return line;
}

}  // namespace rig::driveline::testing
