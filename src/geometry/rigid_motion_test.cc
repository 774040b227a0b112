#include "geometry/rigid_motion.h"

#include <gtest/gtest.h>

#include <vector>

namespace rig {
namespace {

TEST(RigidMotion, OfPointsIsFound) {
  const std::vector<Vec3> points{{0, 0, 0}, {2, 0.1, 0}, {2, 1, 0.3}, {-1, 1, 0}};
  const RigidMotion is{{0.01, -0.02, 0.03}, {0.001, 0.002, -0.003}};
  std::vector<Vec3> moved;
  for (const Vec3& p : points) moved.push_back(is.at(p));
  const RigidMotion found = fit_rigid_motion(points, moved);
  for (const Vec3& p : points) EXPECT_LT((found.at(p) - is.at(p)).norm(), 1e-12);
  EXPECT_LT((found.r_V - is.r_V).norm(), 1e-12);
}

TEST(RigidMotion, TurnsThatPointsInALineDoNotTellStayZero) {
  const std::vector<Vec3> points{{0, 0, 1}, {1, 0, 1}, {3, 0, 1}};
  const std::vector<Vec3> moved{{0, 0, 0}, {0, 0, 0.1}, {0, 0, 0.3}};
  const RigidMotion found = fit_rigid_motion(points, moved);
  EXPECT_LT((found.r_V - Vec3(0, -0.1, 0)).norm(), 1e-12);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_LT((found.at(points[i]) - moved[i]).norm(), 1e-12);
}

}  // namespace
}  // namespace rig
