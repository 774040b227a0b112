#include "driveline/shaft_travel.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "base/require.h"
#include "driveline/test_lines_internal.h"
#include "tests/support/random_values.h"

namespace rig::driveline {
namespace {

constexpr double kSpeed_rad_per_s = 300;

/// Rear shaft from a case at the origin to an axle 1 m behind that rises by 10 mm a pose.
std::vector<ShaftEnds> rising_axle(int count) {
  std::vector<ShaftEnds> poses;
  for (int i = 0; i < count; ++i) {
    poses.push_back({.p_VIn = Vec3(0, 0, 0.6),
                     .d_in_V = -Vec3::UnitX(),
                     .p_VOut = Vec3(-1, 0, 0.45 + 0.01 * i),
                     .d_out_V = -Vec3::UnitX()});
  }
  return poses;
}

Shaft make_shaft() {
  Shaft shaft;
  shaft.joints[0].bind_rad = 0.5;
  shaft.joints[1].bind_rad = 0.3;
  shaft.spline = {
      .tube = 0, .closed_length_m = 0.95, .out_length_m = 1.08, .least_engagement_m = 0.05};
  return shaft;
}

TEST(ShaftTravel, ParallelEndsStaySteadyWhileTheTubeShakes) {
  const auto poses = rising_axle(31);
  const ShaftTravel travel = *calc_shaft_travel(make_shaft(), poses, kSpeed_rad_per_s);
  ASSERT_EQ(travel.poses.size(), 31U);
  for (std::size_t i = 0; i < poses.size(); ++i) {
    const ShaftPose& pose = travel.poses[i];
    const double drop = 0.15 - 0.01 * static_cast<double>(i);
    EXPECT_NEAR(pose.motion.joint_angle_rad[0], std::atan(std::abs(drop)), 1e-12);
    EXPECT_LT(pose.torsional_rad_per_s2, 1e-9);
    EXPECT_NEAR(
        pose.inertial_rad_per_s2,
        calc_joint_motion(std::atan(std::abs(drop))).acceleration_rad_per_s2(kSpeed_rad_per_s),
        1e-7);
    EXPECT_NEAR(pose.in_left_m, std::hypot(1, drop) - 0.95, 1e-12);
    EXPECT_NEAR(pose.out_left_m, 1.03 - std::hypot(1, drop), 1e-12);
    EXPECT_NEAR(pose.bind_left_rad, 0.3 - std::atan(std::abs(drop)), 1e-12);
  }
  const ShaftExtremes& extremes = travel.extremes;
  EXPECT_EQ(extremes.least_joint_angle_rad[1].pose, 15U);
  EXPECT_NEAR(extremes.least_joint_angle_rad[1].value, 0, 1e-12);
  EXPECT_EQ(extremes.shortest_m[0].pose, 15U);
  EXPECT_EQ(extremes.least_in_left_m.pose, 15U);
  // Up and down alike but for rounding.
  EXPECT_NEAR(extremes.greatest_inertial_rad_per_s2.value, travel.poses[0].inertial_rad_per_s2,
              1e-6);
  EXPECT_NEAR(extremes.least_out_left_m.value, 1.03 - std::hypot(1, 0.15), 1e-12);
  EXPECT_TRUE(std::isnan(extremes.longest_m[1].value));
}

TEST(ShaftTravel, PastBindingAndApartAreNumbers) {
  auto poses = rising_axle(1);
  poses[0].p_VOut.z() = 0.1;
  const ShaftPose pose = calc_shaft_travel(make_shaft(), poses, 0)->poses[0];
  EXPECT_LT(pose.bind_left_rad, -0.1);
  EXPECT_LT(pose.out_left_m, -0.05);
  EXPECT_EQ(pose.inertial_rad_per_s2, 0);
}

TEST(ShaftTravel, WithoutLimitsThereIsNoRoomToTell) {
  const ShaftTravel travel = *calc_shaft_travel(Shaft{}, rising_axle(2), 0);
  EXPECT_TRUE(std::isnan(travel.poses[0].bind_left_rad));
  EXPECT_TRUE(std::isnan(travel.extremes.least_in_left_m.value));
}

TEST(ShaftTravel, CentreBearingCarriesTheJointPastIt) {
  Shaft shaft = make_shaft();
  shaft.joint_count = 3;
  shaft.bearings[0] = {.p_VB = Vec3(-0.5, 0, 0.55), .joint_past_m = 0.06};
  shaft.spline->tube = 1;
  auto poses = rising_axle(2);
  poses[1].p_VIn.z() += 0.02;  // The engine rocks.
  for (const auto& ends : poses) {
    const ShaftLine line = make_shaft_line(shaft, ends);
    const Vec3 before = line.joints[1].p_VP - shaft.bearings[0].p_VB;
    EXPECT_NEAR(before.norm(), 0.06, 1e-15);
    EXPECT_NEAR(before.cross(line.joints[1].p_VP - ends.p_VIn).norm(), 0, 1e-15);
  }
  const ShaftTravel travel = *calc_shaft_travel(shaft, poses, kSpeed_rad_per_s);
  EXPECT_NEAR(travel.poses[0].in_left_m, travel.poses[0].motion.tubes[1].length_m - 0.95, 1e-15);
  // What the bearing has to give while the engine rocks.
  EXPECT_GT(travel.extremes.longest_m[0].value - travel.extremes.shortest_m[0].value, 0.001);
}

RC_GTEST_PROP(ShaftTravel, ExtremesAreThoseOfThePoses, ()) {
  std::vector<ShaftEnds> poses;
  for (int i = 0; i < 20; ++i) {
    const ShaftLine line = testing::make_random_line(2, 0.2);
    poses.push_back({line.joints[0].p_VP, line.d_in_V, line.joints[1].p_VP, line.d_out_V});
  }
  const ShaftTravel travel = *calc_shaft_travel(make_shaft(), poses, kSpeed_rad_per_s);
  const auto& torsional = travel.extremes.greatest_torsional_rad_per_s2;
  RC_ASSERT(torsional.value == travel.poses[torsional.pose].torsional_rad_per_s2);
  const auto& bind = travel.extremes.least_bind_left_rad;
  RC_ASSERT(bind.value == travel.poses[bind.pose].bind_left_rad);
  for (const ShaftPose& pose : travel.poses) {
    RC_ASSERT(pose.torsional_rad_per_s2 <= torsional.value && pose.bind_left_rad >= bind.value);
    RC_ASSERT(pose.motion.tubes[0].length_m >= travel.extremes.shortest_m[0].value);
    RC_ASSERT(pose.motion.line.angle_rad <= travel.extremes.greatest_line_angle_rad.value);
  }
}

void expect_travel_fault(const Shaft& shaft, const std::vector<ShaftEnds>& poses, double speed,
                         const std::string& code, const std::string& path) {
  const auto travel = calc_shaft_travel(shaft, poses, speed);
  ASSERT_FALSE(travel.has_value()) << code;
  EXPECT_EQ(travel.error().front().code, code);
  EXPECT_EQ(travel.error().front().path, path);
}

TEST(ShaftTravel, NamesWhatIsWrong) {
  const auto poses = rising_axle(3);
  Shaft shaft = make_shaft();
  shaft.joint_count = 1;
  expect_travel_fault(shaft, poses, 1, "driveline.joint_count", "/joint_count");
  EXPECT_THROW(make_shaft_line(shaft, poses[0]), LogicError);
  shaft = make_shaft();
  shaft.joints[1].bind_rad = 0;
  expect_travel_fault(shaft, poses, 1, "driveline.bind_not_positive", "/joints/1/bind");
  shaft = make_shaft();
  shaft.joint_count = 3;
  expect_travel_fault(shaft, poses, 1, "driveline.bearing_place", "/bearings/0");
  for (const auto& [tube, closed, out, least] :
       {std::tuple(std::size_t{1}, 0.9, 1.1, 0.0), std::tuple(std::size_t{0}, 1.1, 0.9, 0.0),
        std::tuple(std::size_t{0}, 0.9, 1.1, 0.3), std::tuple(std::size_t{0}, 0.9, kNaN, 0.0)}) {
    shaft = make_shaft();
    shaft.spline = {tube, closed, out, least};
    expect_travel_fault(shaft, poses, 1, "driveline.spline_range", "/spline");
  }
  expect_travel_fault(make_shaft(), poses, -1, "driveline.speed_negative", "/speed");
  auto broken = poses;
  broken[2].d_out_V.setZero();
  expect_travel_fault(make_shaft(), broken, 1, "driveline.zero_axis", "/poses/2/d_out");
}

}  // namespace
}  // namespace rig::driveline
