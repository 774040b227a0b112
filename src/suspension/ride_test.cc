#include "suspension/ride.h"

#include <gtest/gtest.h>

#include <Eigen/Eigenvalues>
#include <cmath>
#include <numbers>

#include "base/require.h"

namespace rig::suspension {
namespace {

constexpr QuarterCar kQuarter{
    .sprung_kg = 480, .unsprung_kg = 130, .wheel_rate_N_per_m = 42000, .tyre_rate_N_per_m = 290000};

// Two routes: eigenvalues of the mass and stiffness matrices.
TEST(QuarterCarModes, AreTheEigenvaluesOfTwoMasses) {
  Eigen::Matrix2d K, M = Eigen::Vector2d(kQuarter.sprung_kg, kQuarter.unsprung_kg).asDiagonal();
  const double s = kQuarter.wheel_rate_N_per_m, t = kQuarter.tyre_rate_N_per_m;
  K << s, -s, -s, s + t;
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::Matrix2d> solver(K, M);
  const Eigen::Vector2d Hz = solver.eigenvalues().cwiseSqrt() / (2 * std::numbers::pi);
  const QuarterCarModes modes = calc_quarter_car_modes(kQuarter);
  EXPECT_NEAR(modes.body_Hz, Hz[0], 1e-12);
  EXPECT_NEAR(modes.hop_Hz, Hz[1], 1e-11);
}

TEST(QuarterCarModes, AreTheApproximateOnesForALightWheel) {
  QuarterCar light = kQuarter;
  light.unsprung_kg = 1e-4;
  const QuarterCarModes modes = calc_quarter_car_modes(light);
  EXPECT_NEAR(modes.body_Hz / modes.body_approximate_Hz, 1, 1e-6);
  EXPECT_NEAR(modes.hop_Hz / modes.hop_approximate_Hz, 1, 1e-6);
  EXPECT_THROW(calc_quarter_car_modes({.sprung_kg = 480}), LogicError);
}

TEST(Ride, DeflectionAndRateGiveOneFrequency) {
  const double weight_N = 480 * 9.80665;
  EXPECT_NEAR(calc_deflection_frequency_Hz(weight_N / 42000), calc_frequency_Hz(42000, 480), 1e-12);
  EXPECT_DOUBLE_EQ(calc_flat_ride_ratio(1.25, 1.5), 1.2);
  EXPECT_DOUBLE_EQ(calc_damping_ratio(0.3 * calc_critical_damping_Ns_per_m(42000, 480), 42000, 480),
                   0.3);
}

TEST(RollGradient, HasNoEndWhereTheSpringsCanNotHoldTheBody) {
  const RollingBody soft{
      .sprung_kg = 1500, .cg_above_roll_axis_m = 0.5, .roll_rate_Nm_per_rad = 7000};
  EXPECT_EQ(calc_roll_gradient(soft), std::numeric_limits<double>::infinity());
}

// Moments of the whole truck about the ground: what is lifted inside presses outside.
TEST(LoadTransfer, CarriesTheWholeTipplingMoment) {
  const RollingAxle front{.sprung_kg = 800,
                          .unsprung_kg = 250,
                          .unsprung_height_m = 0.40,
                          .roll_centre_height_m = 0.62,
                          .track_m = 1.6,
                          .roll_rate_Nm_per_rad = 26000};
  RollingAxle rear = front;
  rear.sprung_kg = 700;
  rear.roll_centre_height_m = 0.70;
  rear.track_m = 1.64;
  rear.roll_rate_Nm_per_rad = 31000;
  const double a = 4, arm = 0.28;
  const auto transfer = calc_load_transfer({front, rear}, arm, a);
  const double roll = calc_roll_gradient({1500, arm, 57000}) * a;
  const double tipple =
      a * (800 * 0.62 + 700 * 0.70 + 1500 * arm + 2 * 250 * 0.40) + 1500 * 9.80665 * arm * roll;
  EXPECT_NEAR(transfer[0].total_N() * 1.6 + transfer[1].total_N() * 1.64, tipple, 1e-9);
}

}  // namespace
}  // namespace rig::suspension
