#include "driveline/placing.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "tests/support/random_values.h"
#include "units/factors.h"

namespace rig::driveline {
namespace {

using units::rad_from_deg;

/// Drop from the case's joint to the axle's one and the length between, level shafts.
PlacedShaft make_placed(double length_m, double drop_m, double bind_rad) {
  PlacedShaft out;
  out.shaft.joints[0].bind_rad = out.shaft.joints[1].bind_rad = bind_rad;
  out.poses = {{.p_VIn = {-1, 0, 0.6},
                .d_in_V = {-1, 0, 0},
                .p_VOut = {-1 - length_m, 0, 0.6 - drop_m},
                .d_out_V = {-1, 0, 0}}};
  return out;
}

const PlacingRange kUpAndDown{.p_VoPivot_V = {0, 0, 0.6},
                              .least_tilt_rad = 0,
                              .most_tilt_rad = 0,
                              .down_m = 0.1,
                              .up_m = 0.1};

// Two level shafts a drop apart: angle = asin(drop / length), in closed form.
TEST(Placing, LowersTheCaseUntilTheJointHasItsAngle) {
  const double length_m = 0.8, drop_m = 0.3;
  PlacedShaft shaft = make_placed(length_m, drop_m, rad_from_deg(18));
  // The length between the joints' stations stays: tan(angle) = drop / length.
  const double wanted_m = drop_m - length_m * std::tan(rad_from_deg(18));
  const auto found = find_placing(kUpAndDown, {&shaft, 1}, {});
  ASSERT_TRUE(found.has_value());
  EXPECT_GT(found->before, 0);
  EXPECT_NEAR(found->move.up_m, -wanted_m, 2e-4);
  EXPECT_LT(found->shortfall, 0.02);  // of a degree
}

TEST(Placing, LeavesWhatHasItsRoom) {
  const PlacedShaft shaft = make_placed(0.8, 0.1, rad_from_deg(24));
  EXPECT_FALSE(find_placing(kUpAndDown, {&shaft, 1}, {}).has_value());
}

TEST(Placing, TellsNothingWhereNoMoveHelps) {
  PlacedShaft shaft = make_placed(0.8, 0.3, rad_from_deg(18));
  PlacingRange range = kUpAndDown;
  range.down_m = 0.001;
  EXPECT_FALSE(find_placing(range, {&shaft, 1}, {}).has_value());
}

// A tilt that points the case's output along the shaft, and the pinion with it, leaves nothing.
TEST(Placing, TiltsUntilTheJointsCancel) {
  PlacedShaft shaft = make_placed(0.9, 0.12, rad_from_deg(30));
  const double pinion_rad = rad_from_deg(3);
  shaft.poses[0].d_out_V = {-std::cos(pinion_rad), 0, -std::sin(pinion_rad)};
  shaft.steady_rad = rad_from_deg(0.2);
  PlacingRange range = kUpAndDown;
  range.down_m = range.up_m = 0;
  range.least_tilt_rad = rad_from_deg(-6), range.most_tilt_rad = rad_from_deg(6);
  const auto found = find_placing(range, {&shaft, 1}, {});
  ASSERT_TRUE(found.has_value());
  // Two joints in one plane cancel where both shafts are parallel (or mirrored about the tube).
  const auto tilted = turn_axis(found->move, Vec3(-1, 0, 0));
  const Vec3 tube =
      shaft.poses[0].p_VOut - move_point(found->move, range.p_VoPivot_V, shaft.poses[0].p_VIn);
  const auto angle = [&](const Vec3& d) {
    return std::acos(d.normalized().dot(tube.normalized()));
  };
  EXPECT_NEAR(angle(tilted), angle(shaft.poses[0].d_out_V), rad_from_deg(0.3));
}

TEST(Placing, KeepsAGapInEveryPose) {
  PlacedGap gap{
      .p_VoA_V = {-0.2, 0, 0.5}, .others_V = {{-0.2, 0, 0.4}, {-0.2, 0, 0.48}}, .least_m = 0.05};
  const auto found = find_placing(kUpAndDown, {}, {&gap, 1});
  ASSERT_TRUE(found.has_value());
  EXPECT_NEAR(found->move.up_m, 0.03, 2e-4);
}

// A shaft to one side of the output: 8 degrees in plan for 0.1 m over 0.7 m.
TEST(Placing, ShiftsSidewaysWhereItMay) {
  PlacedShaft shaft = make_placed(0.7, 0.0, rad_from_deg(5));
  shaft.poses[0].p_VOut.y() = 0.1;
  PlacingRange range = kUpAndDown;
  EXPECT_FALSE(find_placing(range, {&shaft, 1}, {}).has_value());
  range.left_m = 0.08;
  const auto found = find_placing(range, {&shaft, 1}, {});
  ASSERT_TRUE(found.has_value());
  EXPECT_NEAR(found->move.left_m, 0.1 - 0.7 * std::tan(rad_from_deg(5)), 2e-4);
}

RC_GTEST_PROP(Placing, AMoveIsStiffAndItsReverseTakesItBack, ()) {
  const auto between = [](double low, double high) {
    return low + (high - low) * test::real(0, 1000);
  };
  const CasesMove move{between(-0.2, 0.2), between(-0.1, 0.1), between(-0.1, 0.1)};
  const Vec3 pivot(between(-1, 1), 0, between(0, 1));
  const Vec3 a(between(-2, 1), between(-1, 1), between(0, 1));
  const Vec3 b(between(-2, 1), between(-1, 1), between(0, 1));
  const Vec3 moved_a = move_point(move, pivot, a), moved_b = move_point(move, pivot, b);
  RC_ASSERT(std::abs((moved_a - moved_b).norm() - (a - b).norm()) < 1e-12);
  const Vec3 back =
      move_point({-move.tilt_rad, 0}, pivot, moved_a - Vec3(0, move.left_m, move.up_m));
  RC_ASSERT((back - a).norm() < 1e-12);
}

}  // namespace
}  // namespace rig::driveline
