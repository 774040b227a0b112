#include "suspension/elements.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <functional>
#include <random>

#include "tests/support/test_axles.h"

namespace rig::suspension {
namespace {

using JetOf = std::function<Jet(const AxleAxes&)>;

/// Central differences of the value give the gradient, of the gradient the Hessian.
void expect_derivatives(const JetOf& jet_of, const Vec6& q, double scale) {
  constexpr double kStep = 1e-5;
  const Jet at = jet_of(axes_from_coordinates(q));
  for (int i = 0; i < 6; ++i) {
    Vec6 up = q, down = q;
    up[i] += kStep;
    down[i] -= kStep;
    const Jet a = jet_of(axes_from_coordinates(up)), b = jet_of(axes_from_coordinates(down));
    // Truncation of a central difference is step^2 / 6 times the third derivative.
    EXPECT_NEAR(at.gradient[i], (a.value - b.value) / (2 * kStep), 2e-8 * scale) << i;
    for (int j = 0; j < 6; ++j) {
      EXPECT_NEAR(at.hessian(i, j), (a.gradient[j] - b.gradient[j]) / (2 * kStep), 2e-7 * scale)
          << i << ' ' << j;
    }
  }
  EXPECT_LT((at.hessian - at.hessian.transpose()).norm(), 1e-12 * scale);
}

Vec6 some_pose(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> d(-1, 1);
  Vec6 q;
  q << 0.05 * d(random), 0.05 * d(random), 0.45 + 0.1 * d(random), 0.2 * d(random), 0.2 * d(random),
      0.1 * d(random);
  return q;
}

RC_GTEST_PROP(Jets, LengthAndComponentsMatchDifferences, (unsigned seed)) {
  const Vec6 q = some_pose(seed);
  const Vec3 P(0.9, 0.4, 0.6), Q(0.05, 0.5, -0.05), axis = Vec3(0.3, -0.5, 0.8).normalized();
  expect_derivatives([&](const AxleAxes& a) { return distance_jet(a, P, Q); }, q, 1);
  expect_derivatives([&](const AxleAxes& a) { return component_jet(a, axis, P); }, q, 1);
  expect_derivatives([&](const AxleAxes& a) { return frame_component_jet(a, axis, P, Q); }, q, 1);
  RC_SUCCEED();
}

RC_GTEST_PROP(Elements, EnergiesMatchDifferences, (unsigned seed)) {
  AxleModel axle = testing::make_parallel_rear();
  axle.p_VC.x() = 0;  // Near the random poses.
  for (auto& bar : axle.bars) bar.p_VP.x() += 2.6;
  testing::add_coils(axle, 40000, 0.9);
  for (const bool on_axle : {false, true}) {
    axle.bush_moments.push_back({.bar = 0,
                                 .on_axle = on_axle,
                                 .bolt = Vec3::UnitY(),
                                 .direction = Vec3(-0.95, 0.1, -0.2).normalized(),
                                 .conical_Nm_per_rad = 900,
                                 .torsional_Nm_per_rad = 300});
  }
  axle.leaf_halves.push_back({.p_VP = Vec3(0.6, 0.5, 0.6),
                              .p_AQ = Vec3(0.6, 0.5, 0.1),
                              .rise_unloaded_m = 0.1,
                              .rate_N_per_m = 20000,
                              .lateral_rate_N_per_m = 50000});
  axle.stops.push_back({.p_VP = Vec3(0, 0.4, 0.9),
                        .p_AQ = Vec3(0, 0.4, 0.1),
                        .free_height_m = 0.8,
                        .rate_N_per_m = 30000,
                        .end_rate_N_per_m = 200000,
                        .end_travel_m = 0.3});
  axle.shocks.push_back({.p_VP = Vec3(0.1, 0.35, 0.9),
                         .p_AQ = Vec3(0.1, 0.45, 0.0),
                         .closed_length_m = 0.1,
                         .open_length_m = 0.2,
                         .gas_force_N = 300});
  axle.roll_bars.push_back({.span_m = 0.9, .rate_N_per_m = 20000});
  const Vec6 q = some_pose(seed);
  expect_derivatives([&](const AxleAxes& a) { return calc_linkage_jets(axle, a).energy; }, q, 1e5);
  expect_derivatives([&](const AxleAxes& a) { return calc_spring_energy(axle, a); }, q, 1e7);
  RC_SUCCEED();
}

TEST(Coil, PushesOnlyWhileSeatedAndStiffensWhenSolid) {
  const CoilSpring coil{.free_length_m = 0.5, .rate_N_per_m = 40000, .solid_length_m = 0.2};
  EXPECT_EQ(calc_coil_force(coil, 0.51), 0);
  EXPECT_DOUBLE_EQ(calc_coil_force(coil, 0.4), 4000);
  EXPECT_NEAR(calc_coil_force(coil, 0.199), 40000 * 0.301 + 4e6 * 0.001, 1e-6);
}

TEST(Stop, ReachesItsEndRateAtItsEndTravel) {
  const Stop stop{.free_height_m = 0.1,
                  .rate_N_per_m = 50000,
                  .end_rate_N_per_m = 400000,
                  .end_travel_m = 0.05};
  EXPECT_DOUBLE_EQ(calc_stop_force(stop, 0).rate_N_per_m, 50000);
  EXPECT_DOUBLE_EQ(calc_stop_force(stop, 0.05).rate_N_per_m, 400000);
  // Integral of 50000 + 350000 (c / 0.05)^2.
  EXPECT_NEAR(calc_stop_force(stop, 0.05).force_N, 2500 + 350000 * 0.05 / 3, 1e-9);
}

TEST(AntiRollBar, MomentIsRateTimesSpanSquared) {
  AxleModel axle;
  axle.roll_bars.push_back({.span_m = 0.8, .rate_N_per_m = 10000});
  Vec6 q = Vec6::Zero();
  q[kRoll] = 0.01;
  const Jet energy = calc_spring_energy(axle, axes_from_coordinates(q));
  EXPECT_NEAR(energy.gradient[kRoll], 10000 * 0.64 * std::sin(0.01) * std::cos(0.01), 1e-9);
}

}  // namespace
}  // namespace rig::suspension
