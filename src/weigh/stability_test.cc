#include "weigh/stability.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/support/random_values.h"
#include "units/factors.h"

namespace rig::weigh {
namespace {

using units::g;

MassProperties truck_at(double x, double y, double h, double mass_kg = 2000) {
  return {.mass_kg = mass_kg, .p_VoBcm_V = {x, y, h}, .I_BBcm_V = Mat3::Zero()};
}

using test::real;

struct Case {
  MassProperties truck;
  Footing footing;
};
Case random_case() {
  return {.truck = truck_at(real(-2500, -500), real(-200, 200), real(400, 1400)),
          .footing = {.front_x_m = 0,
                      .rear_x_m = real(-4000, -2600),
                      .front_track_m = real(1300, 1900),
                      .rear_track_m = real(1300, 1900)}};
}

/// Whether the foot of the gravity line lies within the four wheels on a plane that falls towards
/// `heading_rad` (from x, towards y): the foot against each edge, by the cross product and nothing
/// else.
bool stands(const Case& c, double slope_rad, double heading_rad) {
  const Footing& f = c.footing;
  const double front = f.front_track_m / 2;
  const double rear = f.rear_track_m / 2;
  const double x[] = {f.front_x_m, f.rear_x_m, f.rear_x_m, f.front_x_m, f.front_x_m};
  const double y[] = {front, rear, -rear, -front, front};
  const Vec3& p_VoBcm_V = c.truck.p_VoBcm_V;
  const double run = p_VoBcm_V.z() * std::tan(slope_rad);
  const double foot_x = p_VoBcm_V.x() + run * std::cos(heading_rad);
  const double foot_y = p_VoBcm_V.y() + run * std::sin(heading_rad);
  for (int i = 0; i < 4; ++i) {
    if ((x[i + 1] - x[i]) * (foot_y - y[i]) < (y[i + 1] - y[i]) * (foot_x - x[i])) return false;
  }
  return true;
}

/// The slope at which `stands` gives way, by bisection.
double find_limit(const Case& c, double heading_rad) {
  double low = 0;
  double high = std::numbers::pi / 2;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (stands(c, middle, heading_rad) ? low : high) = middle;
  }
  return low;
}

RC_GTEST_PROP(Stability, EachLimitIsWhereTheGravityLineLeavesTheWheels, ()) {
  const Case c = random_case();
  const auto s = calc_stability(c.truck, c.footing, std::nullopt);
  RC_ASSERT(s.has_value());
  constexpr double half_pi = std::numbers::pi / 2;
  RC_ASSERT(std::abs(find_limit(c, half_pi) - s->left_side_down_rad) < 1e-9);
  RC_ASSERT(std::abs(find_limit(c, -half_pi) - s->right_side_down_rad) < 1e-9);
  RC_ASSERT(std::abs(find_limit(c, 0) - s->down_grade_rad) < 1e-9);
  RC_ASSERT(std::abs(find_limit(c, std::numbers::pi) - s->up_grade_rad) < 1e-9);
  RC_ASSERT(s->side_slope_rad == std::min(s->left_side_down_rad, s->right_side_down_rad));
  double least = half_pi;
  for (int i = 0; i < 1440; ++i) {
    const double limit = find_limit(c, i * std::numbers::pi / 720);
    RC_ASSERT(limit >= s->any_heading_rad - 1e-9);
    least = std::min(least, limit);
  }
  // A heading is never further than 1/8 degree from the worst one.
  RC_ASSERT(least - s->any_heading_rad < 1e-5);
}

RC_GTEST_PROP(Stability, MirroredTruckSwapsSides, ()) {
  Case c = random_case();
  const auto s = calc_stability(c.truck, c.footing, std::nullopt);
  c.truck.p_VoBcm_V.y() *= -1;
  const auto mirrored = calc_stability(c.truck, c.footing, std::nullopt);
  RC_ASSERT(s.has_value() && mirrored.has_value());
  RC_ASSERT(s->left_side_down_rad == mirrored->right_side_down_rad);
  RC_ASSERT(s->up_grade_rad == mirrored->up_grade_rad);
  RC_ASSERT(s->static_stability_factor == mirrored->static_stability_factor);
}

TEST(Stability, TrackIsTheMeanWeightedByAxleLoads) {
  const Footing footing{.front_x_m = 0, .rear_x_m = -3, .front_track_m = 1.6, .rear_track_m = 1.5};
  const auto s = calc_stability(truck_at(-1, 0, 0.8), footing, std::nullopt);
  ASSERT_TRUE(s.has_value());
  EXPECT_DOUBLE_EQ(s->track_at_cg_m, 1.6 * 2 / 3 + 1.5 / 3);
  EXPECT_DOUBLE_EQ(s->tilt_rad, std::atan(s->static_stability_factor));
}

TEST(Stability, TrailerOnAGradeByItsMoments) {
  const Footing footing{.front_x_m = 0, .rear_x_m = -3, .front_track_m = 1.6, .rear_track_m = 1.6};
  const HitchLoad hitch{.tongue_N = 2500, .trailer_mass_kg = 2000, .p_VoBall_V = {-4.2, 0, 0.5}};
  const MassProperties truck = truck_at(-1.4, 0, 0.8);
  const auto s = calc_stability(truck, footing, hitch);
  ASSERT_TRUE(s.has_value());
  // About the rear contact, at the limit: W (b cos - h sin) - T c cos - trailer sin * ball height =
  // 0.
  const double W = truck.mass_kg * g;
  const auto about_rear = [&](double a) {
    return W * (1.6 * std::cos(a) - 0.8 * std::sin(a)) - 2500 * 1.2 * std::cos(a) -
           2000 * g * std::sin(a) * 0.5;
  };
  EXPECT_NEAR(about_rear(s->up_grade_rad) / W, 0, 1e-12);
  const auto about_front = [&](double a) {
    return W * (1.4 * std::cos(a) - 0.8 * std::sin(a)) + 2500 * 4.2 * std::cos(a) -
           2000 * g * std::sin(a) * 0.5;
  };
  EXPECT_NEAR(about_front(s->down_grade_rad) / W, 0, 1e-12);
  const auto solo = calc_stability(truck, footing, std::nullopt);
  EXPECT_LT(s->up_grade_rad, solo->up_grade_rad);
}

TEST(Stability, LiftedOnTheLevelIsNegative) {
  const Footing footing{.front_x_m = 0, .rear_x_m = -3, .front_track_m = 1.6, .rear_track_m = 1.6};
  EXPECT_LT(calc_stability(truck_at(-3.5, 0, 0.8), footing, std::nullopt)->up_grade_rad, 0);
}

TEST(Stability, EachError) {
  const Footing good{.front_x_m = 0, .rear_x_m = -3, .front_track_m = 1.6, .rear_track_m = 1.6};
  const auto code = [](const MassProperties& truck, const Footing& footing,
                       const std::optional<HitchLoad>& hitch = std::nullopt) {
    return calc_stability(truck, footing, hitch).error().front().code;
  };
  Footing footing = good;
  footing.rear_x_m = 1;
  EXPECT_EQ(code(truck_at(-1, 0, 1), footing), "weigh.wheelbase_not_positive");
  footing = good;
  footing.front_track_m = 0;
  EXPECT_EQ(code(truck_at(-1, 0, 1), footing), "weigh.track_not_positive");
  EXPECT_EQ(code(truck_at(-1, 0, 1, 0), good), "weigh.no_load");
  EXPECT_EQ(code(truck_at(-1, 0, 0), good), "weigh.cg_not_above_floor");
  const HitchLoad below{.tongue_N = 9e5, .trailer_mass_kg = 1e5, .p_VoBall_V = {-4, 0, -40}};
  EXPECT_EQ(code(truck_at(-1, 0, 1), good, below), "weigh.cg_not_above_floor");
}

}  // namespace
}  // namespace rig::weigh
