#include "suspension/settle.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <numbers>
#include <random>

#include "suspension/spring_seats.h"
#include "suspension/truck_internal.h"
#include "tests/support/test_axles.h"

namespace rig::suspension {
namespace {

constexpr double kG = 9.80665;
using testing::kFlat;

TruckModel make_truck(AxleModel front = testing::make_three_link_front(),
                      AxleModel rear = testing::make_triangulated_rear()) {
  testing::add_coils(front, 42000, 0.50);
  testing::add_coils(rear, 38000, 0.48);
  for (AxleModel* axle : {&front, &rear}) {
    for (const int side : {1, -1}) {
      axle->shocks.push_back({.p_VP = axle->p_VC + Vec3(-0.1, 0.40 * side, 0.45),
                              .p_AQ = Vec3(-0.1, 0.50 * side, 0),
                              .closed_length_m = 0.30,
                              .open_length_m = 0.60,
                              .gas_force_N = 200,
                              .side = side});
    }
  }
  TruckModel truck;
  truck.axles = {std::move(front), std::move(rear)};
  truck.tyres = {{0.47, 300000}, {0.47, 280000}};
  truck.masses = {{1500, {-1.1, 0.02, 0.8}, -1}, {250, {0, 0, 0.45}, 0}, {220, {-2.6, 0, 0.45}, 1}};
  return truck;
}

double total_load(const Settled& s) {
  double sum = 0;
  for (const auto& axle : s.axles) sum += axle.wheel_loads_N[0] + axle.wheel_loads_N[1];
  return sum;
}

TEST(Settle, BalancesForceAndMomentsOfTheWholeTruck) {
  for (const double twist : {std::numeric_limits<double>::infinity(), 60000.0}) {
    TruckModel truck = make_truck();
    truck.frame_twist_stiffness_Nm_per_rad = twist;
    truck.tongue_load_N = 2500;
    truck.p_VoBall_V = Vec3(-3.8, 0, 0.5);
    const Ground ground{{0.12, 0}, {0, 0.05}};
    const auto s = settle(truck, ground);
    ASSERT_TRUE(s.has_value()) << s.error().front().message;
    EXPECT_LT(s->residual_N, 1e-6);

    // Free body: every weight and wheel load at its place in the world.
    const TruckUnknowns unknowns(truck);
    double force = 0;
    Vec3 moment = Vec3::Zero();
    const auto add = [&](double up_N, const Vec3& p_W) {
      force += up_N;
      moment += p_W.cross(Vec3(0, 0, up_N));
    };
    for (const auto& mass : truck.masses) {
      Vec3 p_W = s->X_WV * mass.p_VoCm_V;
      if (mass.axle >= 0) {
        const auto a = static_cast<std::size_t>(mass.axle);
        p_W = s->axles[a].X_WA * (mass.p_VoCm_V - truck.axles[a].p_VC);
      }
      add(-kG * mass.mass_kg, p_W);
    }
    add(-truck.tongue_load_N, s->X_WV * truck.p_VoBall_V);
    for (std::size_t a = 0; a < 2; ++a) {
      for (const std::size_t side : {0U, 1U}) {
        const double y = (side == 0 ? 0.5 : -0.5) * truck.axles[a].track_m;
        add(s->axles[a].wheel_loads_N[side], s->axles[a].X_WA * Vec3(0, y, 0));
      }
    }
    EXPECT_NEAR(force, 0, 1e-6);
    EXPECT_NEAR(moment.x(), 0, 1e-6);
    EXPECT_NEAR(moment.y(), 0, 1e-6);
  }
}

RC_GTEST_PROP(Settle, ForcesAreTheSlopeOfTheEnergy, (unsigned seed)) {
  TruckModel truck = make_truck();
  truck.frame_twist_stiffness_Nm_per_rad = 50000;
  const TruckUnknowns unknowns(truck);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> d(-0.03, 0.03);
  Eigen::VectorXd u = unknowns.as_drawn();
  for (Eigen::Index i = 0; i < unknowns.coordinates(); ++i) u[i] += d(random);
  const TruckSystem at = calc_truck_system(truck, unknowns, kFlat, u);
  constexpr double kStep = 1e-6;
  for (Eigen::Index i = 0; i < unknowns.coordinates(); ++i) {
    Eigen::VectorXd up = u, down = u;
    up[i] += kStep;
    down[i] -= kStep;
    const TruckSystem a = calc_truck_system(truck, unknowns, kFlat, up);
    const TruckSystem b = calc_truck_system(truck, unknowns, kFlat, down);
    RC_ASSERT(std::abs(at.residual[i] - (a.energy_J - b.energy_J) / (2 * kStep)) < 1e-2);
    const Eigen::VectorXd column = (a.residual - b.residual) / (2 * kStep);
    RC_ASSERT((column - at.matrix.col(i)).cwiseAbs().maxCoeff() <
              1e-6 * std::max(1.0, at.matrix.col(i).cwiseAbs().maxCoeff()) + 1e-2);
  }
  RC_ASSERT((at.matrix - at.matrix.transpose()).norm() < 1e-8 * at.matrix.norm());
}

TruckModel mirrored(TruckModel truck) {
  const auto flip = [](Vec3& p) { p.y() = -p.y(); };
  for (auto& axle : truck.axles) {
    for (auto& bar : axle.bars) {
      flip(bar.p_VP);
      flip(bar.p_AQ);
    }
    for (auto& coil : axle.coils) {
      flip(coil.p_VP);
      flip(coil.p_AQ);
    }
  }
  for (auto& axle : truck.axles) {
    for (auto& shock : axle.shocks) {
      flip(shock.p_VP);
      flip(shock.p_AQ);
    }
  }
  for (auto& mass : truck.masses) flip(mass.p_VoCm_V);
  return truck;
}

TEST(Settle, MirroredTruckSitsMirrored) {
  const TruckModel truck = make_truck();
  const auto a = settle(truck, {{0.1, 0}, {0, 0}});
  const auto b = settle(mirrored(truck), {{0, 0.1}, {0, 0}});
  EXPECT_NEAR(a->roll_rad, -b->roll_rad, 1e-12);
  EXPECT_NEAR(a->pitch_rad, b->pitch_rad, 1e-12);
  for (std::size_t axle = 0; axle < 2; ++axle) {
    EXPECT_NEAR(a->axles[axle].wheel_loads_N[0], b->axles[axle].wheel_loads_N[1], 1e-6);
    EXPECT_NEAR(a->axles[axle].wheel_loads_N[1], b->axles[axle].wheel_loads_N[0], 1e-6);
  }
}

TEST(Settle, BushedRedundantRearCarriesTheSameTruck) {
  const auto s = settle(make_truck(testing::make_three_link_front(), testing::make_parallel_rear()),
                        {{0.1, 0}, {0, 0.1}});
  ASSERT_TRUE(s.has_value()) << s.error().front().message;
  EXPECT_NEAR(total_load(*s), 1970 * kG, 1e-6);
}

TEST(Settle, SaysWhenTheScalesLeaveNothingForTheSprings) {
  TruckModel truck = make_truck();
  // What scales take off that weigh less than the axles alone.
  truck.masses.push_back({.mass_kg = -5000, .p_VoCm_V = truck.axles.front().p_VC, .axle = -1});
  const auto settled = settle(truck, kFlat);
  ASSERT_FALSE(settled.has_value());
  EXPECT_EQ(settled.error().front().code, "suspension.nothing_sprung");
}

TEST(Settle, SofterFrameEvensTheWheelLoads) {
  TruckModel truck = make_truck();
  const Ground crossed{{0.3, 0}, {0, 0.3}};
  const auto rigid = settle(truck, crossed);
  truck.frame_twist_stiffness_Nm_per_rad = 20000;
  const auto soft = settle(truck, crossed);
  const auto uneven = [](const Settled& s) {
    return std::abs(s.axles[0].wheel_loads_N[0] - s.axles[0].wheel_loads_N[1]);
  };
  EXPECT_LT(uneven(*soft), uneven(*rigid));
  EXPECT_GT(soft->frame_twist_rad, 0);
}

TEST(Ramp, StopsWhenAWheelLifts) {
  const TruckModel truck = make_truck();
  const auto flat = settle(truck, kFlat);
  const auto ramp = find_ramp_articulation(truck, 2.6, *flat);
  ASSERT_TRUE(ramp.has_value()) << ramp.error().front().message;
  EXPECT_FALSE(ramp->limited);
  EXPECT_NEAR(ramp->ramp_travel_index, ramp->distance_up_ramp_m / 2.6 * 1000, 1e-9);
  // The lifted wheel carries nothing any more; the truck's weight is on the others.
  const auto& axle = ramp->at_lift.axles[ramp->first_lifted_axle];
  EXPECT_EQ(axle.wheel_loads_N[ramp->first_lifted_side > 0 ? 0 : 1], 0);
  EXPECT_NEAR(total_load(ramp->at_lift), 1970 * kG, 1e-5);
}

TEST(Ramp, EndsWhereTheWheelBehindMeetsItToo) {
  const TruckModel truck = make_truck();
  const auto flat = settle(truck, kFlat);
  const auto ramp = find_ramp_articulation(truck, 0.5, *flat);  // A wheelbase told too short.
  ASSERT_TRUE(ramp.has_value());
  EXPECT_TRUE(ramp->limited);
  EXPECT_NEAR(ramp->height_m, 0.5 * std::tan(20 * std::numbers::pi / 180), 1e-9);
}

TEST(Ramp, SaysWhenTheTruckFallsBeforeAWheelLifts) {
  TruckModel truck = make_truck();
  for (auto& axle : truck.axles) axle.shocks.clear();  // Nothing to hold a drooping wheel.
  const auto flat = settle(truck, kFlat);
  const auto ramp = find_ramp_articulation(truck, 2.6, *flat);
  ASSERT_TRUE(ramp.has_value());
  EXPECT_TRUE(ramp->tips_over);
  EXPECT_TRUE(ramp->tip_is_taken);  // The wheel falls out: the search for a rest only gives up.
  EXPECT_EQ(ramp->first_lifted_side, 0);
}

TEST(CrossAxle, LiftsSoonerThanTheRampAtOneWheel) {
  const TruckModel truck = make_truck();
  const auto flat = settle(truck, kFlat);
  const auto ramp = find_ramp_articulation(truck, 2.6, *flat);
  const auto crossed = find_cross_articulation(truck, 2.6, *flat);
  ASSERT_TRUE(crossed.has_value());
  EXPECT_LT(crossed->height_m, ramp->height_m);
}

TEST(SpringSeats, TwoInchesOfLoadAndTwoOfLiftGoFourDown) {
  // Common practice: expected compression plus wanted lift, below the free-length position.
  constexpr double kInch = 0.0254;
  const CoilSpring coil{.free_length_m = 18 * kInch,
                        .rate_N_per_m = 40000,
                        .solid_length_m = 9 * kInch,
                        .drawn_length_m = 15 * kInch};
  const SpringSeat seat = calc_spring_seat(coil, 40000 * 2 * kInch, 2 * kInch);
  EXPECT_NEAR(seat.below_free_m, 4 * kInch, 1e-15);
  EXPECT_NEAR(seat.loaded_length_m, 16 * kInch, 1e-15);
  EXPECT_NEAR(seat.tack_length_m, 14 * kInch, 1e-15);
  EXPECT_NEAR(seat.move_upper_seat_m, 1 * kInch, 1e-15);
  EXPECT_NEAR(seat.bump_left_m, 7 * kInch, 1e-15);
  EXPECT_NEAR(calc_rate_for_seat(seat.load_N, coil.free_length_m, 16 * kInch), 40000, 1e-9);
}

TEST(SpringSeats, SolvedSeatsMakeItSitAsDrawn) {
  TruckModel truck = make_truck();
  for (auto& tyre : truck.tyres) tyre.free_radius_m = 0.46;
  const auto seats = solve_spring_seats(truck, kFlat);
  ASSERT_TRUE(seats.has_value()) << seats.error().front().message;
  EXPECT_LT(seats->height_error_m, 1e-6);
  for (std::size_t a = 0; a < 2; ++a) {
    EXPECT_NEAR(seats->settled.axles[a].q[kZ], truck.axles[a].p_VC.z(), 1e-5);
    EXPECT_NEAR(seats->settled.axles[a].q[kRoll], 0, 1e-5);
  }
}

}  // namespace
}  // namespace rig::suspension
