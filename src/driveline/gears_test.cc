#include "driveline/gears.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "driveline/hoist.h"
#include "driveline/test_cases_internal.h"
#include "units/factors.h"

namespace rig::driveline {
namespace {

TEST(Gears, SpeedsGoThereAndBack) {
  const GearPath path{.gear = 5.1, .range = 2.72, .axle = 4.56};
  EXPECT_DOUBLE_EQ(path.to_wheel(), 5.1 * 2.72 * 4.56);
  const double road = calc_road_speed_m_per_s(path, 200, 0.4);
  EXPECT_DOUBLE_EQ(road, 200 / (5.1 * 2.72 * 4.56) * 0.4);
  EXPECT_NEAR(calc_engine_speed_rad_per_s(path, road, 0.4), 200, 1e-9);
}

TEST(Gears, TheLesserOfTorqueAndGripDecidesTheClimb) {
  Climber climber{.wheel_torque_Nm = 8000,
                  .radius_m = 0.4,
                  .driven_load_N = 2000 * units::g,
                  .grip = 0.8,
                  .mass_kg = 2000};
  const Climb strong = calc_climb(climber);
  // All wheels driven, nothing towed: the angle of friction.
  EXPECT_TRUE(strong.by_grip());
  EXPECT_NEAR(strong.grade_rad(), std::atan(0.8), 1e-12);
  climber.wheel_torque_Nm = 2000;
  const Climb weak = calc_climb(climber);
  EXPECT_FALSE(weak.by_grip());
  EXPECT_NEAR(weak.grade_rad(), std::asin(5000 / (2000 * units::g)), 1e-12);
  climber.towed_kg = 2000;
  EXPECT_NEAR(calc_climb(climber).grip_grade_rad, std::atan(0.4), 1e-12);
}

TEST(Hoist, WhatHangsBalancesBetweenItsCases) {
  const CaseLine line = testing::make_three_cases();
  const Hung hung = hang(line, std::vector<std::size_t>{0, 1});
  EXPECT_DOUBLE_EQ(hung.mass_kg, 380);
  EXPECT_NEAR(-hung.p_VoCm_V.x(), (300 * 0.4 + 80 * 1.1) / 380, 1e-12);
}

// An open differential that shares 40 to 60: the front slips at 1000, so 2500 go through it.
TEST(Differential, TheAxleThatSlipsFirstLimitsBoth) {
  const std::vector<AxleShare> axles{{0.4, 1000}, {0.6, 2400}};
  EXPECT_DOUBLE_EQ(calc_differential_limit(axles), 2500);
  EXPECT_DOUBLE_EQ(calc_differential_limit(std::vector<AxleShare>{{0, 10}, {1, 2400}}), 2400);
  EXPECT_TRUE(std::isnan(calc_differential_limit({})));
}

}  // namespace
}  // namespace rig::driveline
