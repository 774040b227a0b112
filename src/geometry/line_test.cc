#include "geometry/line.h"

#include <gtest/gtest.h>

namespace rig {
namespace {

TEST(Line, CrossingOfTwoDiagonals) {
  const auto at = find_crossing({0, 0}, {2, 2}, {0, 2}, {2, 0});
  ASSERT_TRUE(at.has_value());
  EXPECT_DOUBLE_EQ(at->x(), 1);
  EXPECT_DOUBLE_EQ(at->y(), 1);
}

TEST(Line, ParallelsAndPointsHaveNoCrossing) {
  EXPECT_FALSE(find_crossing({0, 0}, {1, 1}, {0, 1}, {1, 2}).has_value());
  EXPECT_FALSE(find_crossing({0, 0}, {0, 0}, {0, 1}, {1, 2}).has_value());
}

TEST(Pose, InverseUndoes) {
  const Pose pose{rotation_from_yaw_pitch_roll(0.3, -0.2, 0.1), {1, 2, 3}};
  const Vec3 p = (pose.inverse() * pose) * Vec3(0.4, 0.5, 0.6);
  EXPECT_LT((p - Vec3(0.4, 0.5, 0.6)).norm(), 1e-15);
}

TEST(Pose, SignsAreIso8855) {
  // Positive pitch puts a point ahead of the origin down; positive yaw sends it left; positive roll
  // lifts a point on the left.
  EXPECT_LT((rotation_y(0.1) * Vec3::UnitX()).z(), 0);
  EXPECT_GT((rotation_z(0.1) * Vec3::UnitX()).y(), 0);
  EXPECT_GT((rotation_x(0.1) * Vec3::UnitY()).z(), 0);
}

}  // namespace
}  // namespace rig
