#include "driveline/shaft_line.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <string>

#include "driveline/test_lines_internal.h"
#include "tests/support/direct_shaft_line.h"
#include "tests/support/random_values.h"

namespace rig::driveline {
namespace {

using testing::calc_direct_ratio;
using testing::make_random_line;
using testing::make_side_view_line;

constexpr double kQuarter = std::numbers::pi / 2;

std::size_t some_count() { return *rc::gen::inRange<std::size_t>(1, kMostJoints + 1); }

double line_angle(const ShaftLine& line) { return calc_shaft_line(line)->line.angle_rad; }

ShaftLine reversed(const ShaftLine& line) {
  ShaftLine out = line;
  out.d_in_V = -line.d_out_V;
  out.d_out_V = -line.d_in_V;
  std::reverse(out.joints.begin(), out.joints.begin() + line.joint_count);
  std::reverse(out.phase_rad.begin(), out.phase_rad.begin() + line.tube_count());
  return out;
}

template <typename Map>
ShaftLine mapped(const ShaftLine& line, const Map& of_point, const Mat3& of_direction) {
  ShaftLine out = line;
  out.d_in_V = of_direction * line.d_in_V;
  out.d_out_V = of_direction * line.d_out_V;
  for (auto& joint : out.joints) joint.p_VP = of_point(joint.p_VP);
  return out;
}

/// A line's tubes up to tube `tube`, which is then the output shaft.
ShaftLine up_to_tube(const ShaftLine& line, std::size_t tube) {
  ShaftLine out = line;
  out.joint_count = tube + 1;
  out.d_out_V = line.joints[tube + 1].p_VP - line.joints[tube].p_VP;
  return out;
}

// Over a turn, at every angle, a line does what its one equivalent joint does: the whole of it is
// told by that joint's angle.
RC_GTEST_PROP(ShaftLine, TurnsAsItsCrossesDo, ()) {
  const ShaftLine line = make_random_line(some_count());
  const JointMotion motion = calc_shaft_line(line)->line;
  // 1 / ratio = (1 - s^2 cos^2 phi) / c is a mean and one wave of 2 phi: three turns tell both.
  constexpr int kSamples = 3;
  std::complex<double> wave = 0;
  for (int i = 0; i < kSamples; ++i) {
    const double turn = i * 2 * kQuarter / kSamples;
    wave += std::polar(2.0 / kSamples, -2 * turn) / calc_direct_ratio(line, turn);
  }
  const double fastest = std::arg(-wave) / 2;
  for (int i = 0; i < 50; ++i) {
    const double turn = 0.13 * i;
    const double ratio = calc_direct_ratio(line, turn);
    RC_ASSERT(std::abs(ratio - calc_speed_ratio(motion.angle_rad, turn + fastest)) < 1e-9);
    RC_ASSERT(ratio < motion.greatest_ratio + 1e-9 && ratio > motion.least_ratio - 1e-9);
  }
}

RC_GTEST_PROP(ShaftLine, TubesTurnAsTheLinesUpToThem, ()) {
  const ShaftLine line = make_random_line(*rc::gen::inRange<std::size_t>(2, kMostJoints + 1));
  const ShaftLineMotion motion = *calc_shaft_line(line), back = *calc_shaft_line(reversed(line));
  for (std::size_t i = 0; i < line.tube_count(); ++i) {
    const TubeMotion &tube = motion.tubes[i], &other = back.tubes[line.tube_count() - 1 - i];
    RC_ASSERT(std::abs(tube.drive.angle_rad - line_angle(up_to_tube(line, i))) < 1e-7);
    RC_ASSERT(std::abs(tube.coast.angle_rad - other.drive.angle_rad) < 1e-7);
    RC_ASSERT(std::abs(tube.drive.angle_rad - other.coast.angle_rad) < 1e-7);
    RC_ASSERT(std::abs(tube.length_m - other.length_m) < 1e-12);
  }
}

RC_GTEST_PROP(ShaftLine, IsTheSameFromTheOtherEndMovedAndInTheMirror, ()) {
  const ShaftLine line = make_random_line(some_count());
  const JointMotion there = calc_shaft_line(line)->line;
  const auto expect_same = [&](const ShaftLine& other) {
    const JointMotion here = calc_shaft_line(other)->line;
    RC_ASSERT(std::abs(here.acceleration_per_speed2 - there.acceleration_per_speed2) <
              1e-13 * (1 + std::pow(there.greatest_ratio, 3)));
  };
  expect_same(reversed(line));
  const Pose X{rotation_from_yaw_pitch_roll(test::real(-3000, 3000), test::real(-1500, 1500),
                                            test::real(-3000, 3000)),
               Vec3(test::real(-2000, 2000), test::real(-2000, 2000), test::real(-2000, 2000))};
  expect_same(mapped(
      line, [&](const Vec3& p) -> Vec3 { return X * p; }, X.R_AB));
  const Mat3 mirror = Vec3(1, -1, 1).asDiagonal();
  ShaftLine other = mapped(
      line, [&](const Vec3& p) -> Vec3 { return mirror * p; }, mirror);
  for (double& phase : other.phase_rad) phase = -phase;
  expect_same(other);
}

TEST(ShaftLine, OneCardanJointIsItself) {
  const ShaftLineMotion motion = *calc_shaft_line(make_side_view_line({0.05, -0.25}));
  EXPECT_NEAR(motion.joint_angle_rad[0], 0.3, 1e-15);
  EXPECT_NEAR(motion.line.angle_rad, 0.3, 1e-15);
}

TEST(ShaftLine, EqualAnglesCancelInZAndInW) {
  for (const double out : {0.02, -0.38}) {  // Z: parallel to the input. W: as far on again.
    ShaftLine line = make_side_view_line({0.02, -0.18, out});
    const ShaftLineMotion phased = *calc_shaft_line(line);
    EXPECT_NEAR(phased.joint_angle_rad[0], 0.2, 1e-15);
    EXPECT_NEAR(phased.joint_angle_rad[1], 0.2, 1e-15);
    EXPECT_LT(phased.line.acceleration_per_speed2, 1e-15);
    // The tube itself is as unsteady as one joint makes it, from either end.
    EXPECT_NEAR(phased.tubes[0].drive.angle_rad, 0.2, 1e-15);
    EXPECT_NEAR(phased.tubes[0].coast.angle_rad, 0.2, 1e-15);
    EXPECT_NEAR(phased.tubes[0].length_m, 0.7, 1e-15);
    // Yokes a quarter turn off: the two joints add up.
    line.phase_rad[0] = kQuarter;
    EXPECT_NEAR(calc_shaft_line(line)->line.least_ratio, std::pow(std::cos(0.2), 2), 1e-15);
  }
}

// The textbook's sum of squares, + or - by the phase of the driving yokes, for small angles.
TEST(ShaftLine, SmallAnglesAddUpBySquares) {
  const double k = 1e-4;
  EXPECT_NEAR(line_angle(make_side_view_line({0, 3 * k, -k})) / k, std::sqrt(16 - 9), 1e-6);
  ShaftLine line = make_side_view_line({0, 3 * k, -k, 4 * k, 2 * k});
  EXPECT_NEAR(line_angle(line) / k, std::sqrt(std::abs(9 - 16 + 25 - 4)), 1e-6);
  line.phase_rad = {kQuarter, kQuarter, kQuarter};
  EXPECT_NEAR(line_angle(line) / k, std::sqrt(9 + 16 + 25 + 4), 1e-6);
}

// Joints in planes that stand at an angle cancel when one yoke is turned by that angle.
RC_GTEST_PROP(ShaftLine, PhaseBetweenPlanesCancels, ()) {
  const double b = test::real(10, 600), dihedral = test::real(-1500, 1500);
  ShaftLine line = make_side_view_line({0, b, 0});
  const Vec3 tube = line.joints[1].p_VP - line.joints[0].p_VP;
  line.d_out_V = Eigen::AngleAxisd(dihedral, tube.normalized()) * line.d_out_V;
  line.phase_rad[0] = dihedral;
  RC_ASSERT(calc_shaft_line(line)->line.acceleration_per_speed2 < 1e-14);
}

// Two crosses around a yoke that halves the angle turn the output as a joint without crosses does.
RC_GTEST_PROP(ShaftLine, DoubleCardanIsTwoJointsAtHalfTheAngle, ()) {
  ShaftLine line = make_random_line(2);
  const auto kind = *rc::gen::element(JointKind::kDoubleCardan, JointKind::kConstantVelocity);
  line.joints[0].kind = kind;
  const double angle = line_angle(line);
  RC_ASSERT(std::abs(angle - calc_shaft_line(line)->joint_angle_rad[1]) < 1e-7);

  ShaftLine split = line;
  split.joint_count = 3;
  const Vec3 tube = (line.joints[1].p_VP - line.joints[0].p_VP).normalized();
  split.joints[0].kind = JointKind::kCardan;
  split.joints[2].p_VP = line.joints[1].p_VP;
  split.joints[1].p_VP = line.joints[0].p_VP;
  split.joints[0].p_VP -= 0.1 * (line.d_in_V.normalized() + tube);
  split.phase_rad = {0, line.phase_rad[0], 0};
  const ShaftLineMotion motion = *calc_shaft_line(split);
  RC_ASSERT(std::abs(motion.joint_angle_rad[0] - motion.joint_angle_rad[1]) < 1e-12);
  RC_ASSERT(motion.tubes[1].drive.acceleration_per_speed2 < 1e-14);
  RC_ASSERT(std::abs(motion.line.angle_rad - angle) < 1e-7);
}

TEST(ShaftLine, ConstantVelocityJointsLeaveTheTurnAlone) {
  ShaftLine line = make_side_view_line({0, 0.3, 0.1, 0.25});
  for (auto& joint : line.joints) joint.kind = JointKind::kConstantVelocity;
  const ShaftLineMotion motion = *calc_shaft_line(line);
  EXPECT_EQ(motion.line.acceleration_per_speed2, 0);
  EXPECT_NEAR(motion.joint_angle_rad[0], 0.3, 1e-15);
  EXPECT_NEAR(motion.joint_angle_rad[1], 0.2, 1e-15);
}

void expect_fault(const ShaftLine& line, const std::string& code, const std::string& path) {
  const auto motion = calc_shaft_line(line);
  ASSERT_FALSE(motion.has_value()) << code;
  EXPECT_EQ(motion.error().front().code, code);
  EXPECT_EQ(motion.error().front().path, path);
}

TEST(ShaftLine, NamesWhatIsWrong) {
  const ShaftLine good = make_side_view_line({0, 0.1, 0});
  ASSERT_TRUE(calc_shaft_line(good).has_value());
  expect_fault({}, "driveline.joint_count", "/joint_count");
  ShaftLine line = good;
  line.d_in_V.setZero();
  expect_fault(line, "driveline.zero_axis", "/d_in");
  line = good;
  line.d_out_V = Vec3::Constant(kNaN);
  expect_fault(line, "driveline.zero_axis", "/d_out");
  line = good;
  line.joints[1] = {};
  expect_fault(line, "driveline.joint_place", "/joints/1");
  line = good;
  line.joints[1] = line.joints[0];
  expect_fault(line, "driveline.zero_length", "/joints/1");
  line = good;
  line.phase_rad[0] = kNaN;
  expect_fault(line, "driveline.phase_unknown", "/phase/0");
  line = good;
  line.d_in_V = -line.d_in_V;
  line.d_out_V = -line.d_out_V;
  expect_fault(line, "driveline.joint_square", "/joints/0");
  EXPECT_EQ(calc_shaft_line(line).error().size(), 2U);
}

}  // namespace
}  // namespace rig::driveline
