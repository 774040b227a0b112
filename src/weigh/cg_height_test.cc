#include "weigh/cg_height.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "tests/support/random_values.h"

namespace rig::weigh {
namespace {

/// A truck to weigh: made by moments of a turned rigid body, not by the formula under test.
struct Real {
  double mass_kg = 2000;
  double wheelbase_m = 2.8;
  double scale_height_m = 0.38;
  double lifted_height_m = 0.38;
  double from_scale_m = 1.3;  ///< Balance point, on the level.
  double cg_height_m = 0.72;
};

LiftedTruck known(const Real& real) {
  return {.mass_kg = {.value = real.mass_kg},
          .wheelbase_m = {.value = real.wheelbase_m},
          .scale_axle_height_m = {.value = real.scale_height_m},
          .lifted_axle_height_m = {.value = real.lifted_height_m}};
}

/// Turns the truck by `angle_rad` about the scale axle's wheel centres and takes moments.
AxleLift weigh(const Real& real, double angle_rad) {
  const auto turn = [angle_rad](double along, double up) {
    return std::array{along * std::cos(angle_rad) - up * std::sin(angle_rad),
                      along * std::sin(angle_rad) + up * std::cos(angle_rad)};
  };
  const auto wheel = turn(real.wheelbase_m, real.lifted_height_m - real.scale_height_m);
  const auto cg = turn(real.from_scale_m, real.cg_height_m - real.scale_height_m);
  return {.lift_m = {.value = real.scale_height_m + wheel[1] - real.lifted_height_m},
          .level_reading_kg = {.value = real.mass_kg * (1 - real.from_scale_m / real.wheelbase_m)},
          .lifted_reading_kg = {.value = real.mass_kg * (1 - cg[0] / wheel[0])}};
}

RC_GTEST_PROP(CgHeight, FindsTheHeightOfATurnedTruck, ()) {
  using test::real;
  const Real truck{.mass_kg = real(800000, 5000000),
                   .wheelbase_m = real(2200, 4200),
                   .scale_height_m = real(300, 550),
                   .lifted_height_m = real(300, 550),
                   .from_scale_m = real(900, 1900),
                   .cg_height_m = real(400, 1500)};
  std::vector<AxleLift> lifts(static_cast<std::size_t>(*rc::gen::inRange(1, 5)));
  for (AxleLift& lift : lifts) lift = weigh(truck, real(60, 400));
  const auto solved = solve_cg_height(known(truck), lifts);
  RC_ASSERT(solved.has_value());
  RC_ASSERT(std::abs(solved->cg_height_m - truck.cg_height_m) < 1e-11);
  RC_ASSERT(solved->residual_kg < 1e-8);
  for (const LiftResult& lift : solved->lifts) {
    RC_ASSERT(std::abs(lift.cg_height_m - truck.cg_height_m) < 1e-10);
  }
}

TEST(CgHeight, SeveralLiftsAreTheLineOfLoadAgainstTangent) {
  // Ordinary regression of load on tan(angle) by the schoolbook sums (ISO 10392:2011, 6.2: plot of
  // load against tan(angle)), with readings that are off the line.
  const Real truck;
  std::vector<AxleLift> lifts{weigh(truck, 0.10), weigh(truck, 0.15), weigh(truck, 0.20)};
  lifts[0].lifted_reading_kg.value += 2;
  lifts[1].lifted_reading_kg.value -= 1.5;
  lifts[2].level_reading_kg.value += 1;
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
  const auto add = [&](double x, double y) {
    n += 1, sx += x, sy += y, sxx += x * x, sxy += x * y;
  };
  for (const AxleLift& lift : lifts) {
    add(0, lift.level_reading_kg.value);
    add(std::tan(std::asin(lift.lift_m.value / truck.wheelbase_m)), lift.lifted_reading_kg.value);
  }
  const double slope = (n * sxy - sx * sy) / (n * sxx - sx * sx);
  const auto solved = solve_cg_height(known(truck), lifts);
  ASSERT_TRUE(solved.has_value());
  EXPECT_NEAR(solved->cg_height_m, truck.scale_height_m + slope * truck.wheelbase_m / truck.mass_kg,
              1e-12);
  EXPECT_GT(solved->residual_kg, 0.5);
  EXPECT_LT(solved->residual_kg, 3);
}

TEST(CgHeight, PlusMinusIsTheRootSumSquareOfTheParts) {
  const Real real;
  LiftedTruck truck = known(real);
  AxleLift lift = weigh(real, 0.2);
  const auto plus_minus = [&](double& part, double half_width) {
    part = half_width;
    const double h = solve_cg_height(truck, std::vector{lift})->plus_minus_m;
    part = 0;
    return h;
  };
  // Derivatives of h = r + L (W2 - W1) / (W tan(a)), sin(a) = H / L.
  const double sensitivity = real.wheelbase_m / (real.mass_kg * std::tan(0.2));
  const double by_lifted = plus_minus(lift.lifted_reading_kg.plus_minus, 1);
  const double by_level = plus_minus(lift.level_reading_kg.plus_minus, 1);
  const double by_radius = plus_minus(truck.scale_axle_height_m.plus_minus, 0.001);
  const double by_mass = plus_minus(truck.mass_kg.plus_minus, 1);
  EXPECT_NEAR(by_lifted, sensitivity, 1e-9);
  EXPECT_NEAR(by_level, sensitivity, 1e-9);
  const double above_axle = real.cg_height_m - real.scale_height_m;
  EXPECT_NEAR(by_mass, above_axle / real.mass_kg, 1e-6);
  // The lifted axle's height stays, so the wheel-centre line tilts: not just 1 mm.
  EXPECT_GT(by_radius, 0.0005);
  EXPECT_LT(by_radius, 0.005);
  lift.lifted_reading_kg.plus_minus = 1;
  lift.level_reading_kg.plus_minus = 1;
  EXPECT_NEAR(solve_cg_height(truck, std::vector{lift})->plus_minus_m,
              std::hypot(by_lifted, by_level), 1e-12);
}

TEST(CgHeight, EachErrorAndItsPlace) {
  const Real real;
  const std::vector<AxleLift> good{weigh(real, 0.1), weigh(real, 0.2)};
  const auto check = [&](LiftedTruck truck, std::vector<AxleLift> lifts, const char* code,
                         const char* path) {
    const auto solved = solve_cg_height(truck, lifts);
    ASSERT_FALSE(solved.has_value()) << code;
    EXPECT_EQ(solved.error().front().code, code);
    EXPECT_EQ(solved.error().front().path, path);
  };
  check(known(real), {}, "weigh.no_lifts", "");
  LiftedTruck truck = known(real);
  truck.mass_kg.value = 0;
  check(truck, good, "weigh.reading_not_positive", "");
  truck = known(real);
  truck.wheelbase_m.value = -1;
  check(truck, good, "weigh.wheelbase_not_positive", "");
  auto lifts = good;
  lifts[1].lift_m.value = 0;
  check(known(real), lifts, "weigh.lift_not_positive", "/1");
  lifts = good;
  lifts[1].lift_m.value = 2.8;
  check(known(real), lifts, "weigh.lift_too_high", "/1");
  lifts = good;
  lifts[0].level_reading_kg.value = 0;
  check(known(real), lifts, "weigh.reading_not_positive", "/0");
  lifts = good;
  lifts[0].lifted_reading_kg.value = 2000;
  check(known(real), lifts, "weigh.reading_above_total", "/0");
}

}  // namespace
}  // namespace rig::weigh
