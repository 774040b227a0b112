#include "suspension/frame_forces.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <random>

#include "suspension/truck_internal.h"
#include "tests/support/test_axles.h"
#include "tests/support/test_leaf_axle.h"
#include "units/factors.h"

namespace rig::suspension {
namespace {

using testing::kFlat;

/// A bushed three-link front with an anti-roll bar, leaves behind, a frame that twists.
TruckModel make_pushed_truck() {
  AxleModel front = testing::make_three_link_front();
  testing::add_coils(front, 42000, 0.50);
  for (const bool on_axle : {false, true}) {
    front.bush_moments.push_back(
        {.bar = 0,
         .on_axle = on_axle,
         .bolt = Vec3::UnitY(),
         .direction = (front.p_VC + front.bars[0].p_AQ - front.bars[0].p_VP).normalized(),
         .conical_Nm_per_rad = 4000,
         .torsional_Nm_per_rad = 900});
  }
  front.roll_bars.push_back(
      {.name = "roll_bar", .path = "/roll_bar", .span_m = 0.9, .rate_N_per_m = 15000});
  TruckModel truck;
  truck.axles = {std::move(front), testing::make_leaf_axle({.front_eye = {-1.98, 0.45, 0.55},
                                                            .rear_eye = {-3.30, 0.45, 0.58},
                                                            .seat = {-2.6, 0.45, 0.50},
                                                            .p_VC = {-2.6, 0, 0.45},
                                                            .free_arch_m = 0.2,
                                                            .rate_N_per_m = 34000,
                                                            .lateral_rate_N_per_m = 250000},
                                                           false)};
  truck.tyres = {{0.47, 300000}, {0.47, 280000}};
  truck.masses = {{1500, {-1.1, 0.02, 0.8}, -1}, {250, {0, 0, 0.45}, 0}, {220, {-2.6, 0, 0.45}, 1}};
  truck.tongue_load_N = 1500;
  truck.p_VoBall_V = {-3.8, 0, 0.5};
  truck.frame_twist_stiffness_Nm_per_rad = 60000;
  return truck;
}

/// Braking at a share of gravity: at the ground in proportion to nothing but halves, and inertia.
void add_braking(TruckModel& truck, double share) {
  double mass_kg = 0;
  for (const auto& mass : truck.masses) {
    mass_kg += mass.mass_kg;
    truck.pushes.push_back({mass.axle, mass.p_VoCm_V, {share * units::g * mass.mass_kg, 0, 0}});
  }
  for (std::size_t a = 0; a < truck.axles.size(); ++a) {
    const AxleModel& axle = truck.axles[a];
    for (const double side : {0.5, -0.5}) {
      truck.pushes.push_back({static_cast<int>(a),
                              axle.p_VC + Vec3(0, side * axle.track_m, -axle.p_VC.z()),
                              {-share * units::g * mass_kg / 4, 0, 0}});
    }
  }
}

void expect_balance(const TruckModel& truck, const Ground& ground) {
  const auto settled = settle(truck, ground);
  ASSERT_TRUE(settled.has_value()) << settled.error().front().message;
  const FrameWeight weight = calc_frame_weight(truck, *settled);
  Vec3 f = weight.f_V, t = weight.t_Vo_V;
  for (const FrameForce& force : calc_frame_forces(truck, *settled)) {
    f += force.f_F_V;
    t += force.p_VoF_V.cross(force.f_F_V) + force.t_V;
  }
  // Heading is held: what turns the frame neither in roll nor in pitch is no part of the balance.
  const Mat3& R_WV = settled->X_WV.R_AB;
  const Vec3 up_V = R_WV.transpose() * R_WV.col(0).cross(Vec3::UnitY()).normalized();
  EXPECT_LT(f.norm(), 1e-6 * weight.f_V.norm());
  EXPECT_LT((t - t.dot(up_V) * up_V).norm(), 1e-6 * weight.f_V.norm());
}

TEST(FrameForces, BalanceTheWeightOnUnevenGround) {
  expect_balance(make_pushed_truck(), kFlat);
  expect_balance(make_pushed_truck(), {{0.10, 0}, {0, 0.06}});
}

TEST(FrameForces, BalanceInertiaInBraking) {
  TruckModel truck = make_pushed_truck();
  add_braking(truck, 0.7);
  expect_balance(truck, kFlat);
}

TEST(Push, BrakingShiftsLoadByHeightOverWheelbase) {
  TruckModel truck = make_pushed_truck();
  truck.tongue_load_N = 0;
  const auto still = settle(truck, kFlat);
  add_braking(truck, 0.5);
  const auto braked = settle(truck, kFlat);
  ASSERT_TRUE(still.has_value() && braked.has_value());
  const auto front_N = [](const Settled& s) {
    return s.axles[0].wheel_loads_N[0] + s.axles[0].wheel_loads_N[1];
  };
  // Moments about y of every force where it acts then.
  double moment = 0;
  const auto add = [&moment](const Vec3& p_W, double f_x, double f_z) {
    moment += p_W.z() * f_x - p_W.x() * f_z;
  };
  double mass_kg = 0;
  for (const auto& mass : truck.masses) {
    Vec3 p_W = braked->X_WV * mass.p_VoCm_V;
    if (mass.axle >= 0) {
      const auto a = static_cast<std::size_t>(mass.axle);
      p_W = braked->axles[a].X_WA * (mass.p_VoCm_V - truck.axles[a].p_VC);
    }
    add(p_W, 0.5 * units::g * mass.mass_kg, -units::g * mass.mass_kg);
    mass_kg += mass.mass_kg;
  }
  for (std::size_t a = 0; a < 2; ++a) {
    const AxleModel& axle = truck.axles[a];
    for (const std::size_t side : {0U, 1U}) {
      const double y = (side == 0 ? 0.5 : -0.5) * axle.track_m;
      add(braked->axles[a].X_WA * Vec3(0, y, 0), 0, braked->axles[a].wheel_loads_N[side]);
      add(braked->axles[a].X_WA * Vec3(0, y, -axle.p_VC.z()), -0.5 * units::g * mass_kg / 4, 0);
    }
  }
  EXPECT_NEAR(moment, 0, 1e-5);
  EXPECT_GT(front_N(*braked), front_N(*still) + 1000);
}

RC_GTEST_PROP(Push, IsTheSlopeOfItsWork, (unsigned seed)) {
  TruckModel truck = make_pushed_truck();
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> d(-0.03, 0.03);
  truck.pushes = {{-1, {-3, 0.4, 0.7}, {3000, 1500, -2000}},
                  {0, {0.1, 0.8, 0.0}, {-3000, 500, 700}},
                  {1, {-2.5, -0.8, 0.0}, {-800, 900, 100}}};
  const TruckUnknowns unknowns(truck);
  Eigen::VectorXd u = unknowns.as_drawn();
  for (Eigen::Index i = 0; i < unknowns.coordinates(); ++i) u[i] += d(random);
  const auto work = [&](const Eigen::VectorXd& at) {
    TruckSystem system;
    system.residual = Eigen::VectorXd::Zero(unknowns.size());
    add_pushes(truck, unknowns, at, system);
    return system;
  };
  const TruckSystem here = work(u);
  constexpr double kStep = 1e-6;
  for (Eigen::Index i = 0; i < unknowns.coordinates(); ++i) {
    Eigen::VectorXd up = u, down = u;
    up[i] += kStep;
    down[i] -= kStep;
    RC_ASSERT(std::abs(here.residual[i] - (work(up).energy_J - work(down).energy_J) / (2 * kStep)) <
              1e-3);
  }
}

}  // namespace
}  // namespace rig::suspension
