#include <gtest/gtest.h>

#include <cmath>

#include "suspension/elements.h"
#include "suspension/settle.h"
#include "suspension/sweep.h"
#include "tests/support/test_leaf_axle.h"

namespace rig::suspension {
namespace {

constexpr double kRadius_m = 0.4;

LeafPlaces make_places(double a, double b, double rise_m, double free_arch_m) {
  return {.front_eye = Vec3(a, 0.5, 0.48 + rise_m),
          .rear_eye = Vec3(-b, 0.5, 0.48 + rise_m),
          .seat = Vec3(0, 0.5, 0.48),
          .p_VC = Vec3(0, 0, kRadius_m),
          .free_arch_m = free_arch_m,
          .rate_N_per_m = 42000,
          .lateral_rate_N_per_m = 160000};
}

/// The same places with the axle's centre at `x`.
LeafPlaces moved(LeafPlaces places, double x) {
  for (Vec3* p : {&places.front_eye, &places.rear_eye, &places.seat, &places.p_VC}) p->x() += x;
  return places;
}

AxleModel make_leaf_axle(const LeafPlaces& places, bool front = false) {
  return testing::make_leaf_axle(places, front);
}

PoseNumbers drawn_numbers(const AxleModel& axle) {
  const auto sweep = sweep_axle(axle, {}, std::vector<Target>{{0, 0}});
  return sweep->poses.at(0).numbers;
}

TEST(LeafPack, HeaveRateIsThePacksRate) {
  for (const double b : {0.6, 0.75}) {
    for (const double rise : {0.0, 0.1}) {
      const AxleModel axle = make_leaf_axle(make_places(0.6, b, rise, rise));
      EXPECT_NEAR(drawn_numbers(axle).wheel_rate_N_per_m, 42000, 1e-6) << b << ' ' << rise;
    }
  }
}

TEST(LeafPack, ResistsWindUpByBothHalves) {
  const double a = 0.6, b = 0.75;
  const AxleModel axle = make_leaf_axle(make_places(a, b, 0, 0));
  double stiffness = 0;
  for (std::size_t i : {0U, 1U}) {
    const double l = i == 0 ? a : b;
    stiffness += 2 * axle.leaf_halves[i].rate_N_per_m * l * l;  // Two packs.
  }
  const Jet energy = calc_linkage_jets(axle, axes_from_coordinates(axle.drawn())).energy;
  EXPECT_NEAR(energy.hessian(kPitch, kPitch), stiffness, 1e-6);
  // With K = R a^2 b^2 / (a + b), k = K / l^3: per pack R a b.
  EXPECT_NEAR(stiffness, 2 * 42000 * a * b, 1e-6);
}

TEST(LeafPack, IsAtRestAsDrawnUnderItsDrawnLoad) {
  for (const bool shackle_in_front : {false, true}) {
    LeafPlaces places = make_places(0.6, 0.75, 0.06, 0.18);
    places.shackle_in_front = shackle_in_front;
    const AxleModel axle = make_leaf_axle(places);
    const Jet energy = calc_linkage_jets(axle, axes_from_coordinates(axle.drawn())).energy;
    const double load_N = 42000 * (0.18 - 0.06);
    EXPECT_NEAR(energy.gradient[kZ], 2 * load_N, 1e-9);
    for (const int free : {kX, kY, kRoll, kPitch, kYaw}) {
      EXPECT_NEAR(energy.gradient[free], 0, 1e-9) << free;
    }
    const PoseNumbers n = drawn_numbers(axle);
    EXPECT_NEAR(n.wheel_load_N, load_N, 1e-9);
    EXPECT_NEAR(n.bind_N, 0, 1e-9);
  }
}

TEST(LeafPack, GuidesTheAxleByThreeQuartersOfItsFixedHalf) {
  LeafPlaces places = make_places(0.6, 0.75, 0.08, 0.18);
  for (const bool shackle_in_front : {false, true}) {
    places.shackle_in_front = shackle_in_front;
    const LeafElements leaf = calc_leaf_elements(places);
    const Vec3& eye = shackle_in_front ? places.rear_eye : places.front_eye;
    EXPECT_EQ(leaf.p_VEye, eye);
    // Hinged a quarter of the half from the seat, three quarters from the eye, at seat height.
    const double quarter = std::abs(leaf.p_VPivot.x() - places.seat.x());
    EXPECT_NEAR((leaf.p_VPivot - eye).norm(), 3 * quarter, 1e-12);
    EXPECT_EQ(leaf.p_VPivot.z(), places.seat.z());
  }
}

TEST(LeafPack, TruckSitsAsDrawnWhenItWeighsWhatWasDrawn) {
  const LeafPlaces front = make_places(0.55, 0.65, 0.05, 0.15);
  const LeafPlaces rear = make_places(0.60, 0.75, 0.06, 0.18);
  TruckModel truck;
  truck.axles = {make_leaf_axle(front, true), make_leaf_axle(moved(rear, -2.8))};
  const double load[2] = {42000 * 0.10, 42000 * 0.12};  // A pack.
  constexpr double g = 9.80665;
  const double sprung = 2 * (load[0] + load[1]) / g;
  truck.masses = {{sprung, {-2.8 * load[1] / (load[0] + load[1]), 0, 0.9}, -1},
                  {200, {0, 0, kRadius_m}, 0},
                  {250, {-2.8, 0, kRadius_m}, 1}};
  for (const std::size_t i : {0U, 1U}) {
    const double wheel = load[i] + (i == 0 ? 100 : 125) * g;
    truck.tyres.push_back({kRadius_m + wheel / 280000, 280000});
  }
  const auto settled = settle(truck, {{0, 0}, {0, 0}});
  ASSERT_TRUE(settled.has_value()) << settled.error().front().message;
  EXPECT_LT(settled->residual_N, 1e-6);
  EXPECT_NEAR(settled->heave_m, 0, 1e-9);
  EXPECT_NEAR(settled->pitch_rad, 0, 1e-9);
  for (const std::size_t i : {0U, 1U}) {
    EXPECT_LT((settled->axles[i].q - truck.axles[i].drawn()).norm(), 1e-8);
    EXPECT_NEAR(settled->axles[i].leaf_forces_N[0] + settled->axles[i].leaf_forces_N[1], load[i],
                1e-6);
  }
}

}  // namespace
}  // namespace rig::suspension
