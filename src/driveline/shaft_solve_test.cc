#include "driveline/shaft_solve.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "base/require.h"
#include "driveline/test_lines_internal.h"
#include "tests/support/random_values.h"

namespace rig::driveline {
namespace {

/// Rear shaft from a level case down to a pinion whose joint is 0.25 m ahead of the axle.
ShaftLine make_rear_line(double pinion_slope_rad) {
  ShaftLine line;
  line.joint_count = 2;
  line.d_in_V = -Vec3::UnitX();
  line.joints[0].p_VP = Vec3(-1.4, 0, 0.65);
  line.joints[1].p_VP = Vec3(-2.35, 0, 0.5);
  line.d_out_V = Vec3(-std::cos(pinion_slope_rad), 0, std::sin(pinion_slope_rad));
  return line;
}

const PinionTurn kTurn{.p_VC = Vec3(-2.6, 0, 0.47)};

TEST(PinionAngle, TwoCardanJointsComeOutAtEqualAngles) {
  const PinionAngle found = *find_pinion_angle(make_rear_line(0.07), kTurn);
  EXPECT_NEAR(found.motion.joint_angle_rad[0], found.motion.joint_angle_rad[1], 1e-7);
  EXPECT_LT(found.motion.line.angle_rad, 1e-4);
  // Of the two ways the parallel one is nearer to how it stood.
  EXPECT_NEAR(found.line.d_out_V.z(), 0, 1e-7);
  EXPECT_NEAR(std::abs(found.turn_rad), 0.07, 1e-7);
}

TEST(PinionAngle, DoubleCardanAtTheCaseHasThePinionPointAtIt) {
  ShaftLine line = make_rear_line(0);
  line.joints[0].kind = JointKind::kDoubleCardan;
  const PinionAngle found = *find_pinion_angle(line, kTurn);
  EXPECT_LT(found.motion.joint_angle_rad[1], 1e-8);
  EXPECT_GT(found.motion.joint_angle_rad[0], 0.1);
  // + about the left lowers what is forward: the nose goes up.
  EXPECT_LT(found.turn_rad, -0.1);
}

RC_GTEST_PROP(PinionAngle, NoTurnOfTheRangeDoesBetter, ()) {
  const ShaftLine line = testing::make_random_line(*rc::gen::inRange<std::size_t>(2, 4), 0.2);
  PinionTurn turn{.p_VC = line.joints[line.joint_count - 1].p_VP + Vec3(0.25, 0, -0.03)};
  const auto found = find_pinion_angle(line, turn);
  if (!found) {  // A short last tube that the turn folds as it was given.
    RC_ASSERT(found.error().front().code == "driveline.joint_square");
    return;
  }
  for (int i = 0; i <= 500; ++i) {
    const double turn_rad = turn.from_rad + (turn.to_rad - turn.from_rad) * i / 500;
    const auto motion = calc_shaft_line(turn_pinion(line, turn, turn_rad));
    RC_ASSERT(!motion || motion->line.angle_rad > found->motion.line.angle_rad - 2e-5);
  }
}

TEST(PinionAngle, MovesThePinionAsOnePart) {
  const ShaftLine line = make_rear_line(0.07), turned = turn_pinion(line, kTurn, 0.2);
  const Vec3 arm = line.joints[1].p_VP - kTurn.p_VC, after = turned.joints[1].p_VP - kTurn.p_VC;
  EXPECT_NEAR(after.norm(), arm.norm(), 1e-15);
  EXPECT_NEAR(after.dot(turned.d_out_V), arm.dot(line.d_out_V), 1e-15);
  EXPECT_LT(after.z(), arm.z());
  EXPECT_EQ(turned.joints[0].p_VP, line.joints[0].p_VP);
}

TEST(PinionAngle, NamesWhatIsWrong) {
  const auto code = [](const ShaftLine& line, const PinionTurn& turn) {
    const auto found = find_pinion_angle(line, turn);
    return found ? std::string() : found.error().front().code + found.error().front().path;
  };
  PinionTurn turn = kTurn;
  turn.d_V.setZero();
  EXPECT_EQ(code(make_rear_line(0), turn), "driveline.zero_axis/turn");
  EXPECT_EQ(code(make_rear_line(0), {}), "driveline.zero_axis/turn");
  turn = kTurn;
  turn.to_rad = turn.from_rad;
  EXPECT_EQ(code(make_rear_line(0), turn), "driveline.turn_range/turn");
  turn = kTurn;
  turn.from_rad = 2;
  turn.to_rad = 4;
  EXPECT_EQ(code(make_rear_line(0), turn), "driveline.no_turn/turn");
  ShaftLine line = make_rear_line(0);
  line.d_in_V.setZero();
  EXPECT_EQ(code(line, kTurn), "driveline.zero_axis/d_in");
  EXPECT_THROW(turn_pinion({}, kTurn, 0), LogicError);
}

TEST(SteadyStretch, EndsWhereTheLimitIsReachedOnTheWay) {
  const std::vector<double> bump{-0.1, -0.05, 0, 0.05, 0.1};
  const std::vector<double> numbers{500, 300, 100, 200, 600};
  const auto stretch = find_steady_stretch(bump, numbers, 400, 2);
  ASSERT_TRUE(stretch.has_value());
  EXPECT_NEAR(stretch->from_m, -0.075, 1e-15);
  EXPECT_NEAR(stretch->to_m, 0.075, 1e-15);
  const auto whole = find_steady_stretch(bump, numbers, 600, 4);
  ASSERT_TRUE(whole.has_value());
  EXPECT_EQ(whole->from_m, -0.1);
  EXPECT_EQ(whole->to_m, 0.1);
  EXPECT_FALSE(find_steady_stretch(bump, numbers, 99, 2).has_value());
  // Steady again further on is another stretch.
  EXPECT_NEAR(find_steady_stretch(bump, std::vector<double>{0, 500, 0, 500, 0}, 250, 2)->from_m,
              -0.025, 1e-15);
  EXPECT_THROW(find_steady_stretch(bump, numbers, 1, 5), LogicError);
}

constexpr CutTube kCut{.shortest_m = 0.95,
                       .ride_m = 0.98,
                       .longest_m = 1.05,
                       .fixed_yoke_m = 0.06,
                       .closed_yoke_m = 0.20,
                       .slide_m = 0.16};

TEST(TubeCut, SharesTheSlideThatIsLeft) {
  const TubeCut cut = *calc_tube_cut(kCut);
  EXPECT_NEAR(cut.left_closing_m, 0.03, 1e-15);
  EXPECT_NEAR(cut.left_opening_m, 0.03, 1e-15);
  EXPECT_NEAR(cut.cut_m, 0.92 - 0.26, 1e-15);
  EXPECT_NEAR(cut.pulled_out_m, 0.06, 1e-15);
  CutTube tube = kCut;
  tube.bump_share = 0.25;
  EXPECT_NEAR(calc_tube_cut(tube)->left_closing_m, 0.015, 1e-15);
  EXPECT_NEAR(calc_tube_cut(tube)->left_opening_m, 0.045, 1e-15);
  // Too short a slide is told, not refused.
  tube = kCut;
  tube.slide_m = 0.08;
  EXPECT_NEAR(calc_tube_cut(tube)->left_closing_m, -0.01, 1e-15);
}

RC_GTEST_PROP(TubeCut, PartsAddUpAtEveryLength, ()) {
  CutTube tube = kCut;
  tube.bump_share = test::real(0, 1001);
  tube.slide_m = test::real(20, 300);
  const TubeCut cut = *calc_tube_cut(tube);
  const double yokes = tube.fixed_yoke_m + tube.closed_yoke_m;
  RC_ASSERT(std::abs(cut.cut_m + yokes + cut.pulled_out_m - tube.ride_m) < 1e-15);
  RC_ASSERT(std::abs(cut.cut_m + yokes + cut.left_closing_m - tube.shortest_m) < 1e-15);
  RC_ASSERT(std::abs(cut.cut_m + yokes + tube.slide_m - cut.left_opening_m - tube.longest_m) <
            1e-15);
}

TEST(TubeCut, NamesWhatIsWrong) {
  const auto code = [](const CutTube& tube) {
    const auto cut = calc_tube_cut(tube);
    return cut ? std::string() : cut.error().front().code + cut.error().front().path;
  };
  EXPECT_EQ(calc_tube_cut({}).error().size(), 6U);
  CutTube tube = kCut;
  tube.slide_m = 0;
  EXPECT_EQ(code(tube), "driveline.size_not_positive/slide");
  tube = kCut;
  tube.bump_share = 1.5;
  EXPECT_EQ(code(tube), "driveline.share_range/bump_share");
  tube = kCut;
  tube.ride_m = 1.1;
  EXPECT_EQ(code(tube), "driveline.lengths_order/ride");
  tube = kCut;
  tube.fixed_yoke_m = 0.8;
  EXPECT_EQ(code(tube), "driveline.shaft_too_short");
}

}  // namespace
}  // namespace rig::driveline
