#include "suspension/sweep.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/test_axles.h"

namespace rig::suspension {
namespace {

using testing::kTruck;

/// Two upright-swinging trailing links of 0.5 m and a wide A: parallel, level links reach exactly
/// their own length up and down.
AxleModel make_short_parallelogram() {
  return testing::make_axle("rear", false, 0, 0.4,
                            {{"lower.left", {0.5, 0.4, 0.4}, {0, 0.4, 0.4}},
                             {"lower.right", {0.5, -0.4, 0.4}, {0, -0.4, 0.4}},
                             {"upper", {0.5, 0, 0.7}, {0, 0, 0.7}},
                             {"track_bar", {0, 5.0, 0.4}, {0, -5.0, 0.4}}});
}

TEST(Sweep, StopsWhereTheLinksRunOutOfReach) {
  // Levers of 0.5 m stand upright at 0.5 m of heave: no pose beyond.
  const auto targets = make_targets(0, 0.6, 13, 0, 0, 1);
  const auto sweep = sweep_axle(make_short_parallelogram(), kTruck, targets);
  ASSERT_TRUE(sweep.has_value());
  ASSERT_FALSE(sweep->locks.empty());
  EXPECT_NEAR(sweep->locks.front().heave_m, 0.5, 2e-3);
  EXPECT_LT(sweep->poses.size(), targets.size());
  EXPECT_FALSE(sweep->locks.front().bars.empty());
  EXPECT_NE(sweep->locks.front().message.find("lower.left"), std::string::npos);
}

TEST(Sweep, TrackBarLetsTheAxleDownAlongItsCircle) {
  const auto sweep =
      sweep_axle(make_short_parallelogram(), kTruck, make_targets(-0.2, 0.2, 3, 0, 0, 1));
  ASSERT_EQ(sweep->poses.size(), 3U);
  for (const std::size_t end : {0U, 2U}) {
    // Both circles: the 10 m bar about its frame end, the 0.5 m links about theirs.
    const double x = sweep->poses[end].numbers.forward_shift_m;
    const double y = sweep->poses[end].numbers.lateral_shift_m;
    EXPECT_GT(y, 0.002);  // Towards the bar's frame end.
    EXPECT_NEAR((10 - y) * (10 - y) + x * x + 0.04, 100, 1e-12);
    EXPECT_NEAR((0.5 - x) * (0.5 - x) + y * y + 0.04, 0.25, 1e-14);
  }
}

TEST(Sweep, OrderOfTargetsDoesNotMatter) {
  const AxleModel axle = testing::make_triangulated_rear();
  auto targets = make_targets(-0.2, 0.2, 5, -0.15, 0.15, 3);
  const auto forward = sweep_axle(axle, kTruck, targets);
  std::reverse(targets.begin(), targets.end());
  const auto backward = sweep_axle(axle, kTruck, targets);
  ASSERT_EQ(forward->poses.size(), 15U);
  ASSERT_EQ(backward->poses.size(), 15U);
  for (std::size_t i = 0; i < 15; ++i) {
    EXPECT_LT((forward->poses[i].q - backward->poses[14 - i].q).norm(), 1e-12);
  }
}

TEST(Sweep, LoadsAreNotToldBelowTheSolidLength) {
  AxleModel axle = testing::make_triangulated_rear();
  testing::add_coils(axle, 40000, 0.5);
  const auto sweep = sweep_axle(axle, kTruck, make_targets(0, 0.25, 2, 0, 0, 1));
  EXPECT_FALSE(std::isnan(sweep->poses[0].numbers.wheel_rate_N_per_m));
  EXPECT_TRUE(std::isnan(sweep->poses[1].numbers.wheel_rate_N_per_m));
}

TEST(Sweep, WheelAndRollRateAreTheSlopesOfTheLoad) {
  for (AxleModel axle : {testing::make_triangulated_rear(), testing::make_three_link_front(),
                         testing::make_parallel_rear()}) {
    testing::add_coils(axle, 40000, 0.5);
    constexpr double kStep = 1e-4;
    const std::vector<Target> at{{0.02 - kStep, 0}, {0.02, 0}, {0.02 + kStep, 0}};
    const auto sweep = sweep_axle(axle, kTruck, at);
    const double slope =
        (sweep->poses[2].numbers.wheel_load_N - sweep->poses[0].numbers.wheel_load_N) / (2 * kStep);
    // The parallel layout's bushes give under the load itself, which the pose leaves out: first
    // order.
    const double tolerance = axle.bars.size() == 4 ? 1e-5 : 2e-2;
    EXPECT_NEAR(sweep->poses[1].numbers.wheel_rate_N_per_m, slope, tolerance * slope);
  }
}

// SU-05 [Gillespie] ch. 6 (from memory, recomputed): K = 0.5 k s^2; 30 N/mm, 0.9 m -> 212.1 N
// m/deg.
TEST(GillespieChapter6, RollRateOfASolidAxle) {
  // Coils upright on a level axle whose links are long and level: no share of the load in the rate.
  AxleModel axle = testing::make_axle("rear", false, 0, 0.4,
                                      {{"lower.left", {50, 0.4, 0.4}, {0, 0.4, 0.4}},
                                       {"lower.right", {50, -0.4, 0.4}, {0, -0.4, 0.4}},
                                       {"upper", {50, 0, 0.7}, {0, 0, 0.7}},
                                       {"track_bar", {0, 50, 0.4}, {0, -0.4, 0.4}}});
  for (const int side : {1, -1}) {
    axle.coils.push_back({.p_VP = Vec3(0, 0.45 * side, 0.8),
                          .p_AQ = Vec3(0, 0.45 * side, 0),
                          .free_length_m = 0.4000001,  // Just seated: the load adds nothing.
                          .rate_N_per_m = 30000});
  }
  const auto sweep = sweep_axle(axle, kTruck, std::vector<Target>{{0, 0}});
  EXPECT_NEAR(sweep->poses[0].numbers.roll_rate_Nm_per_rad * std::numbers::pi / 180, 212.1, 0.05);
}

TEST(Targets, OneWheelStaysWhileTheOtherRises) {
  const auto targets = make_one_wheel_targets(1.6, 0, 0.2, 3, 1);
  const Target& top = targets.back();
  EXPECT_NEAR(top.heave_m + 0.8 * std::sin(top.roll_rad), 0.2, 1e-12);
  EXPECT_NEAR(top.heave_m - 0.8 * std::sin(top.roll_rad), 0.0, 1e-12);
}

}  // namespace
}  // namespace rig::suspension
