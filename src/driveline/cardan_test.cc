#include "driveline/cardan.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/require.h"
#include "geometry/pose.h"
#include "tests/support/random_values.h"

namespace rig::driveline {
namespace {

constexpr double kPi = std::numbers::pi;

RC_GTEST_PROP(Cardan, RatioAndAccelerationAreSlopesOfTheTurn, ()) {
  const double b = test::real(1, 1200), phi = test::real(-7000, 7000), h = 1e-5;
  const auto turn = [&](double at) { return calc_output_turn_rad(b, at); };
  const auto ratio = [&](double at) { return calc_speed_ratio(b, at); };
  // The fourth-order difference leaves h^4 times the fifth slope, at most some 1e-13 / cos^5 b.
  const auto slope = [&](const auto& f) {
    return (8 * (f(phi + h) - f(phi - h)) - (f(phi + 2 * h) - f(phi - 2 * h))) / (12 * h);
  };
  const double scale = std::pow(std::cos(b), -5);
  RC_ASSERT(std::abs(slope(turn) - ratio(phi)) < 1e-9 * scale);
  RC_ASSERT(std::abs(slope(ratio) - calc_acceleration_per_speed2(b, phi)) < 1e-9 * scale);
}

RC_GTEST_PROP(Cardan, ExtremesAreThoseOverATurn, ()) {
  const double b = test::real(0, 1300);
  const JointMotion motion = calc_joint_motion(b);
  double greatest = 0, least = 1, acceleration = 0, error = 0;
  constexpr int kSteps = 4000;
  for (int i = 0; i < kSteps; ++i) {
    const double phi = kPi * i / kSteps;
    greatest = std::max(greatest, calc_speed_ratio(b, phi));
    least = std::min(least, calc_speed_ratio(b, phi));
    acceleration = std::max(acceleration, std::abs(calc_acceleration_per_speed2(b, phi)));
    error = std::max(error, std::abs(calc_output_turn_rad(b, phi) - phi));
  }
  // Steps miss a peak by the square of half a step times its curvature, 1 / cos^3 of it at most.
  const double missed = 2e-6 * std::pow(std::cos(b), -3);
  RC_ASSERT(std::abs(motion.greatest_ratio - greatest) < 1e-12 * greatest);
  RC_ASSERT(std::abs(motion.least_ratio - least) < 1e-12);
  RC_ASSERT(motion.acceleration_per_speed2 >= acceleration * (1 - 1e-12));
  RC_ASSERT(motion.acceleration_per_speed2 <= acceleration * (1 + missed));
  RC_ASSERT(motion.greatest_error_rad >= error * (1 - 1e-12) - 1e-15);
  RC_ASSERT(motion.greatest_error_rad <= error * (1 + missed));
}

TEST(Cardan, SmallAnglesKeepTheirDigits) {
  const JointMotion motion = calc_joint_motion(1e-6);
  EXPECT_NEAR(motion.acceleration_per_speed2, 1e-12, 1e-23);
  EXPECT_NEAR(motion.greatest_error_rad, 2.5e-13, 1e-24);
  EXPECT_EQ(calc_joint_motion(0).acceleration_per_speed2, 0);
  EXPECT_EQ(calc_joint_motion_from_half_tangent(0).greatest_ratio, 1);
}

TEST(Cardan, WholeTurnsStayWhole) {
  for (const int quarter : {-9, -4, 0, 1, 2, 3, 40}) {
    EXPECT_NEAR(calc_output_turn_rad(0.4, quarter * kPi / 2), quarter * kPi / 2, 1e-12);
  }
}

RC_GTEST_PROP(Cardan, AngleOfALimitGivesTheLimitBack, ()) {
  const double speed = test::real(10000, 600000), limit = test::real(1000, 2000000);
  const double b = solve_joint_angle_rad(limit, speed);
  const double there = calc_joint_motion(b).acceleration_rad_per_s2(speed);
  // Digits lost where the acceleration runs away near a right angle.
  RC_ASSERT(std::abs(there - limit) < 1e-11 * limit * std::pow(std::cos(b), -3));
}

RC_GTEST_PROP(Cardan, AngleOfANonuniformityGivesItBack, ()) {
  const double U = test::real(1, 5000);
  const double b = calc_joint_angle_from_nonuniformity_rad(U);
  RC_ASSERT(std::abs(calc_joint_motion(b).nonuniformity() - U) < 1e-12 * (1 + U));
  RC_ASSERT(std::abs(std::tan(b) * std::sin(b) - U) < 1e-10 * (1 + U));
}

// The cross is pushed by a couple square to both of its arms; what of it is not along a shaft bends
// that shaft.
RC_GTEST_PROP(Cardan, SecondaryCouplesAreThoseOfTheCross, ()) {
  const double b = test::real(0, 1300), T = 300;
  const Vec3 in = Vec3::UnitX(), out(std::cos(b), std::sin(b), 0);
  double driving = 0, driven = 0;
  for (int i = 0; i <= 4000; ++i) {
    const double phi = i * kPi / 4000;  // From the plane of the shafts.
    const Vec3 arm = rotation_x(phi) * Vec3::UnitY(), other = out.cross(arm).normalized();
    const Vec3 square = arm.cross(other), couple = square * (T / square.dot(in));
    RC_ASSERT(std::abs(couple.dot(out) - T / calc_speed_ratio(b, phi)) < 1e-10 * couple.norm());
    driving = std::max(driving, couple.cross(in).norm());
    driven = std::max(driven, couple.cross(out).norm());
  }
  const SecondaryCouples couples = calc_secondary_couples(b, T);
  RC_ASSERT(std::abs(couples.driving_Nm - driving) < 1e-9);
  // Above 45 degrees the peak falls between steps.
  RC_ASSERT(std::abs(couples.driven_Nm - driven) < 1e-5 * T);
}

RC_GTEST_PROP(Cardan, CompoundAngleIsThatBetweenTheLines, ()) {
  const double plan = test::real(-1200, 1200), side = test::real(-1200, 1200);
  const Vec3 line(1, std::tan(plan), std::tan(side));
  const double angle = std::atan2(line.cross(Vec3::UnitX()).norm(), line.x());
  RC_ASSERT(std::abs(calc_compound_angle_rad(plan, side) - angle) < 1e-12);
}

TEST(Cardan, RefusesARightAngle) {
  EXPECT_THROW(calc_joint_motion(kPi / 2), LogicError);
  EXPECT_THROW(calc_joint_motion(-0.1), LogicError);
  EXPECT_THROW(calc_joint_motion(std::nan("")), LogicError);
  EXPECT_THROW(solve_joint_angle_rad(300, 0), LogicError);
  EXPECT_THROW(calc_joint_angle_from_nonuniformity_rad(-1), LogicError);
}

}  // namespace
}  // namespace rig::driveline
