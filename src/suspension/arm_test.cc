#include <gtest/gtest.h>

#include <Eigen/LU>

#include "suspension/arm_internal.h"

namespace rig::suspension {
namespace {

constexpr double kRate_N_per_m = 2e6;
const Mat3 kBush = Mat3::Identity() / kRate_N_per_m;

/// Apex at the origin, feet at `far_m` +- `half_m` along x, the first `step_m` higher than the
/// second.
ArmJoints make_arm(double far_m, double half_m, double step_m) {
  return {.p_VApex = Vec3::Zero(),
          .p_VFeet = {Vec3(far_m - half_m, 0, step_m / 2), Vec3(far_m + half_m, 0, -step_m / 2)},
          .apex_compliance = Mat3::Zero(),
          .feet_compliance = {kBush, kBush}};
}

/// Give of the apex against an upright force, from the give of the two bars.
double upright_give(const ArmJoints& arm) {
  Eigen::Matrix2d along;  // Columns: the bars' directions in the plane (x, z).
  for (int i = 0; i < 2; ++i) {
    const Vec3 u = arm.p_VFeet[static_cast<std::size_t>(i)].normalized();
    along.col(i) << u.x(), u.z();
  }
  const Eigen::Vector2d tensions = along.inverse() * Eigen::Vector2d(0, 1);
  return tensions.dot(calc_arm_compliance(arm) * tensions);
}

// Statics of a rigid beam on two springs k at l -+ s, loaded at its end: c = 1/(2k) + l^2 / (2 k
// s^2).
TEST(Arm, IsAsStiffInWindUpAsTheDistanceOfItsFeetMakesIt) {
  const double l = 1.0, s = 0.09;
  const double beam = 1 / (2 * kRate_N_per_m) + l * l / (2 * kRate_N_per_m * s * s);
  EXPECT_NEAR(upright_give(make_arm(l, s, 0.002)), beam, 1e-3 * beam);
  EXPECT_NEAR(upright_give(make_arm(l, s, 0.0002)), beam, 1e-4 * beam);
}

TEST(Arm, GivesAlongItselfAsTwoBushesSideBySide) {
  ArmJoints arm = make_arm(1.0, 0.09, 0);
  const Eigen::Matrix2d compliance = calc_arm_compliance(arm);
  EXPECT_NEAR(compliance(0, 0), 1 / (2 * kRate_N_per_m), 1e-12);
  EXPECT_NEAR(compliance(0, 1), 1 / (2 * kRate_N_per_m), 1e-12);
  arm.apex_compliance = kBush;
  EXPECT_NEAR(calc_arm_compliance(arm)(0, 0), 1.5 / kRate_N_per_m, 1e-12);
}

TEST(Arm, ABushAtTheApexAloneIsSharedByBothBars) {
  ArmJoints arm = make_arm(0.8, 0.1, 0.15);
  arm.feet_compliance = {Mat3::Zero(), Mat3::Zero()};
  arm.apex_compliance = Vec3(1e-7, 1e-6, 2e-7).asDiagonal();
  const Vec3 u = arm.p_VFeet[0].normalized(), v = arm.p_VFeet[1].normalized();
  const Eigen::Matrix2d compliance = calc_arm_compliance(arm);
  EXPECT_NEAR(compliance(0, 1), u.dot(arm.apex_compliance * v), 1e-18);
  EXPECT_NEAR(compliance(0, 0), u.dot(arm.apex_compliance * u), 1e-18);
}

TEST(Arm, BallsAllRoundGiveNothing) {
  ArmJoints arm = make_arm(0.8, 0.1, 0.15);
  arm.feet_compliance = {Mat3::Zero(), Mat3::Zero()};
  EXPECT_TRUE(calc_arm_compliance(arm).isZero(0));
}

}  // namespace
}  // namespace rig::suspension
