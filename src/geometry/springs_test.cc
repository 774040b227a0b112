#include "geometry/springs.h"

#include <gtest/gtest.h>

#include <random>
#include <vector>

namespace rig {
namespace {

// The energy of a small motion is that of the springs, each stretched by where its point goes.
TEST(BodyStiffness, StoresWhatItsSpringsDo) {
  std::mt19937 engine(1);
  std::uniform_real_distribution<double> real(-1, 1);
  const auto vector = [&] { return Vec3(real(engine), real(engine), real(engine)); };
  std::vector<PointSpring> springs;
  for (int i = 0; i < 4; ++i) {
    const Mat3 A = Mat3::NullaryExpr([&] { return real(engine); });
    springs.push_back({.p_VoP_V = vector(), .K_V = A * A.transpose()});
  }
  const Vec3 p_VoO_V = vector(), u_V = vector(), turn_V = vector();
  double reach_m = 0, energy = 0;
  for (const PointSpring& spring : springs) {
    const Vec3 arm_V = spring.p_VoP_V - p_VoO_V, stretch_V = u_V + turn_V.cross(arm_V);
    reach_m = std::max(reach_m, arm_V.norm());
    energy += stretch_V.dot(spring.K_V * stretch_V) / 2;
  }
  Eigen::Matrix<double, 6, 1> motion;
  motion << u_V, reach_m * turn_V;
  EXPECT_NEAR(motion.dot(calc_body_stiffness(springs, p_VoO_V) * motion) / 2, energy,
              1e-12 * energy);
}

TEST(BodyStiffness, OfOneSpringAtThePointIsItsOwn) {
  const PointSpring spring{.p_VoP_V = Vec3(1, 2, 3), .K_V = Vec3(4, 5, 6).asDiagonal()};
  Eigen::Matrix<double, 6, 6> expected = Eigen::Matrix<double, 6, 6>::Zero();
  expected.topLeftCorner<3, 3>() = spring.K_V;
  EXPECT_EQ(calc_body_stiffness({&spring, 1}, spring.p_VoP_V), expected);
}

}  // namespace
}  // namespace rig
