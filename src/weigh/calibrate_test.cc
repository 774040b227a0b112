#include "weigh/calibrate.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <vector>

#include "units/factors.h"

namespace rig::weigh {
namespace {

constexpr double g = units::kStandardGravity_m_per_s2;
constexpr Footing kFooting{
    .front_x_m = 0, .rear_x_m = -3, .front_track_m = 1.6, .rear_track_m = 1.5};

MassProperties body(double mass_kg, const Vec3& p_VoBcm_V) {
  return {.mass_kg = mass_kg, .p_VoBcm_V = p_VoBcm_V, .I_BBcm_V = Mat3::Zero()};
}

/// What the scales would show under a rigid truck with this hitch load.
CornerReadings readings_of(const MassProperties& truck, const std::optional<HitchLoad>& hitch) {
  std::vector<VerticalLoad> loads{{.force_N = truck.mass_kg * g, .p_VoP_V = truck.p_VoBcm_V}};
  if (hitch) loads.push_back({.force_N = hitch->tongue_N, .p_VoP_V = hitch->p_VoBall_V});
  const auto wheels = calc_wheel_loads(kFooting, loads);
  return {.front_left_kg = wheels->front_left_N / g,
          .front_right_kg = wheels->front_right_N / g,
          .rear_left_kg = wheels->rear_left_N / g,
          .rear_right_kg = wheels->rear_right_N / g};
}

RC_GTEST_PROP(Calibration, FindsAForgottenMassAndItsPlace, ()) {
  const auto real = [](int low, int high) { return *rc::gen::inRange(low, high) / 1000.0; };
  const MassProperties estimated = body(2000, {-1.4, 0.02, 0.8});
  const Vec3 p_VoForgotten_V(real(-4000, 1000), real(-900, 900), 0.8);
  const MassProperties forgotten = body(real(20000, 300000), p_VoForgotten_V);
  const MassProperties truth = combine(std::vector{estimated, forgotten});
  std::optional<HitchLoad> hitch;
  if (*rc::gen::arbitrary<bool>()) {
    hitch = HitchLoad{.tongue_N = 2000, .trailer_mass_kg = 1500, .p_VoBall_V = {-4.1, 0.1, 0.5}};
  }
  const auto c = calc_calibration(estimated, kFooting, readings_of(truth, hitch), hitch);
  RC_ASSERT(c.has_value());
  RC_ASSERT(std::abs(c->mass_difference_kg - forgotten.mass_kg) < 1e-9);
  RC_ASSERT(c->place_m.has_value());
  RC_ASSERT(std::abs(c->place_m->front() - p_VoForgotten_V.x()) < 1e-8);
  RC_ASSERT(std::abs(c->place_m->back() - p_VoForgotten_V.y()) < 1e-8);
  const auto applied = apply_calibration(estimated, *c);
  RC_ASSERT(applied.has_value());
  RC_ASSERT(std::abs(applied->mass_kg - truth.mass_kg) < 1e-9);
  RC_ASSERT((applied->p_VoBcm_V.head<2>() - truth.p_VoBcm_V.head<2>()).norm() < 1e-10);
}

TEST(Calibration, AgreementGivesNoMassToPlace) {
  const MassProperties estimated = body(2000, {-1.4, 0.02, 0.8});
  const auto c = calc_calibration(estimated, kFooting, readings_of(estimated, {}), {});
  ASSERT_TRUE(c.has_value());
  EXPECT_NEAR(c->mass_difference_kg, 0, 1e-9);
  EXPECT_NEAR(c->x_difference_m, 0, 1e-12);
  EXPECT_FALSE(c->place_m.has_value());
}

TEST(Calibration, SameWeightElsewhereHasNoSinglePlace) {
  const MassProperties estimated = body(2000, {-1.4, 0, 0.8});
  const MassProperties truth = body(2004, {-1.6, 0, 0.8});
  const auto c = calc_calibration(estimated, kFooting, readings_of(truth, {}), {});
  ASSERT_TRUE(c.has_value());
  EXPECT_NEAR(c->x_difference_m, -0.2, 1e-12);
  EXPECT_FALSE(c->place_m.has_value());  // it would be 100 m behind
  EXPECT_NEAR(apply_calibration(estimated, *c)->p_VoBcm_V.x(), -1.6, 1e-12);
}

TEST(Calibration, CrossWeightIsRightFrontAndLeftRear) {
  const auto c = calc_calibration(
      body(2000, {-1.5, 0, 0.8}), kFooting,
      {.front_left_kg = 450, .front_right_kg = 550, .rear_left_kg = 550, .rear_right_kg = 450}, {});
  ASSERT_TRUE(c.has_value());
  EXPECT_DOUBLE_EQ(c->cross_weight_share, 0.55);
}

TEST(Calibration, EachError) {
  const MassProperties estimated = body(2000, {-1.4, 0, 0.8});
  const CornerReadings good = readings_of(estimated, {});
  EXPECT_EQ(calc_calibration(estimated, kFooting, {}, {}).error().front().code,
            "weigh.reading_not_positive");
  EXPECT_EQ(calc_calibration(estimated, Footing{}, good, {}).error().front().code,
            "weigh.wheelbase_not_positive");
  Footing footing = kFooting;
  footing.front_track_m = -1;
  EXPECT_EQ(calc_calibration(estimated, footing, good, {}).error().front().code,
            "weigh.track_not_positive");
  const HitchLoad heavy{.tongue_N = 3000 * g, .trailer_mass_kg = 9000, .p_VoBall_V = {-4, 0, 0.5}};
  EXPECT_EQ(calc_calibration(estimated, kFooting, good, heavy).error().front().code,
            "weigh.tongue_above_total");
  Calibration calibration;
  calibration.mass_difference_kg = -2000;
  EXPECT_EQ(apply_calibration(estimated, calibration).error().front().code,
            "weigh.calibration_too_large");
}

}  // namespace
}  // namespace rig::weigh
