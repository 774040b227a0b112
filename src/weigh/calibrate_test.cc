#include "weigh/calibrate.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "tests/support/random_values.h"
#include "units/factors.h"

namespace rig::weigh {
namespace {

using units::g;
constexpr Footing kScales{
    .front_x_m = 0, .rear_x_m = -3, .front_track_m = 1.6, .rear_track_m = 1.5};

MassProperties body(double mass_kg, const Vec3& p_VoBcm_V) {
  return {.mass_kg = mass_kg, .p_VoBcm_V = p_VoBcm_V, .I_BBcm_V = Mat3::Zero()};
}

/// What the scales would show under a rigid truck with this hitch load.
CornerReadings readings_of(const MassProperties& truck, const std::optional<HitchLoad>& hitch) {
  std::vector<VerticalLoad> loads{{.force_N = truck.mass_kg * g, .p_VoP_V = truck.p_VoBcm_V}};
  if (hitch) loads.push_back({.force_N = hitch->tongue_N, .p_VoP_V = hitch->p_VoBall_V});
  const auto wheels = calc_wheel_loads(kScales, loads);
  return {.front_left_kg = wheels->front_left_N / g,
          .front_right_kg = wheels->front_right_N / g,
          .rear_left_kg = wheels->rear_left_N / g,
          .rear_right_kg = wheels->rear_right_N / g};
}

/// Both steps, of exact readings.
Calibration calibrate(const MassProperties& estimated, const CornerReadings& readings,
                      const std::optional<HitchLoad>& hitch) {
  return calc_calibration(estimated, kScales, *calc_weighed(kScales, readings, {}, hitch));
}

RC_GTEST_PROP(Calibration, FindsAForgottenMassAndItsPlace, ()) {
  using test::real;
  const MassProperties estimated = body(2000, {-1.4, 0.02, 0.8});
  const Vec3 p_VoForgotten_V(real(-4000, 1000), real(-900, 900), 0.8);
  const MassProperties forgotten = body(real(20000, 300000), p_VoForgotten_V);
  const MassProperties truth = combine(std::vector{estimated, forgotten});
  std::optional<HitchLoad> hitch;
  if (*rc::gen::arbitrary<bool>()) {
    hitch = HitchLoad{.tongue_N = 2000, .trailer_mass_kg = 1500, .p_VoBall_V = {-4.1, 0.1, 0.5}};
  }
  const auto c = calibrate(estimated, readings_of(truth, hitch), hitch);
  RC_ASSERT(std::abs(c.mass_difference_kg - forgotten.mass_kg) < 1e-9);
  RC_ASSERT(c.place_m.has_value());
  RC_ASSERT(std::abs(c.place_m->front() - p_VoForgotten_V.x()) < 1e-8);
  RC_ASSERT(std::abs(c.place_m->back() - p_VoForgotten_V.y()) < 1e-8);
  const auto applied = apply_calibration(estimated, c);
  RC_ASSERT(applied.has_value());
  RC_ASSERT(std::abs(applied->mass_kg - truth.mass_kg) < 1e-9);
  RC_ASSERT((applied->p_VoBcm_V.head<2>() - truth.p_VoBcm_V.head<2>()).norm() < 1e-10);
}

TEST(Calibration, AgreementGivesNoMassToPlace) {
  const MassProperties estimated = body(2000, {-1.4, 0.02, 0.8});
  const auto c = calibrate(estimated, readings_of(estimated, {}), {});
  EXPECT_NEAR(c.mass_difference_kg, 0, 1e-9);
  EXPECT_NEAR(c.x_difference_m, 0, 1e-12);
  EXPECT_FALSE(c.place_m.has_value());
}

TEST(Calibration, SameWeightElsewhereHasNoSinglePlace) {
  const MassProperties estimated = body(2000, {-1.4, 0, 0.8});
  const MassProperties truth = body(2004, {-1.6, 0, 0.8});
  const auto c = calibrate(estimated, readings_of(truth, {}), {});
  EXPECT_NEAR(c.x_difference_m, -0.2, 1e-12);
  EXPECT_FALSE(c.place_m.has_value());  // it would be 100 m behind
  EXPECT_NEAR(apply_calibration(estimated, c)->p_VoBcm_V.x(), -1.6, 1e-12);
}

TEST(Weighed, CrossWeightIsLeftFrontAndRightRear) {
  const auto weighed = calc_weighed(
      kScales,
      {.front_left_kg = 550, .front_right_kg = 450, .rear_left_kg = 450, .rear_right_kg = 550}, {},
      {});
  ASSERT_TRUE(weighed.has_value());
  EXPECT_DOUBLE_EQ(weighed->cross_weight_share, 0.55);
  EXPECT_DOUBLE_EQ(weighed->cross_weight_plus_minus, 0);
}

// Each reading moved by its half-width, the changes' root sum square.
RC_GTEST_PROP(Weighed, HalfWidthsAreThoseOfTheReadings, ()) {
  const auto kg = [](int low, int high) { return *rc::gen::inRange(low, high) / 100.0; };
  std::array<double, 4> w{}, u{};
  for (double& reading : w) reading = kg(20000, 80000);
  for (double& half : u) half = kg(0, 50);
  const auto pack = [](const std::array<double, 4>& a) {
    return CornerReadings{a[0], a[1], a[2], a[3]};
  };
  const HitchLoad hitch{.tongue_N = 1500, .trailer_mass_kg = 1200, .p_VoBall_V = {-4, 0.1, 0.5}};
  const auto at = [&](const std::array<double, 4>& a) {
    return *calc_weighed(kScales, pack(a), pack(u), hitch);
  };
  const Weighed here = at(w);
  double mass = 0, x = 0, y = 0, cross = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    auto up = w, down = w;
    const double step = 1e-3 * u[i];
    up[i] += step;
    down[i] -= step;
    const Weighed more = at(up), less = at(down);
    mass = std::hypot(mass, (more.mass_kg - less.mass_kg) * 500);
    x = std::hypot(x, (more.x_m - less.x_m) * 500);
    y = std::hypot(y, (more.y_m - less.y_m) * 500);
    cross = std::hypot(cross, (more.cross_weight_share - less.cross_weight_share) * 500);
  }
  RC_ASSERT(std::abs(here.mass_plus_minus_kg - mass) < 1e-7);
  RC_ASSERT(std::abs(here.x_plus_minus_m - x) < 1e-9);
  RC_ASSERT(std::abs(here.y_plus_minus_m - y) < 1e-9);
  RC_ASSERT(std::abs(here.cross_weight_plus_minus - cross) < 1e-9);
}

TEST(Calibration, EachError) {
  const MassProperties estimated = body(2000, {-1.4, 0, 0.8});
  const CornerReadings good = readings_of(estimated, {});
  const auto code = [](const Footing& footing, const CornerReadings& readings,
                       const std::optional<HitchLoad>& hitch) {
    return calc_weighed(footing, readings, {}, hitch).error().front().code;
  };
  EXPECT_EQ(code(kScales, {}, {}), "weigh.reading_not_positive");
  EXPECT_EQ(code(Footing{}, good, {}), "weigh.wheelbase_not_positive");
  Footing footing = kScales;
  footing.front_track_m = -1;
  EXPECT_EQ(code(footing, good, {}), "weigh.track_not_positive");
  const HitchLoad heavy{.tongue_N = 3000 * g, .trailer_mass_kg = 9000, .p_VoBall_V = {-4, 0, 0.5}};
  EXPECT_EQ(code(kScales, good, heavy), "weigh.tongue_above_total");
  Calibration calibration;
  calibration.mass_difference_kg = -2000;
  EXPECT_EQ(apply_calibration(estimated, calibration).error().front().code,
            "weigh.calibration_too_large");
}

}  // namespace
}  // namespace rig::weigh
