#include "suspension/spring_seats.h"

#include <gtest/gtest.h>

#include "base/require.h"
#include "tests/support/test_axles.h"

namespace rig::suspension {
namespace {

using testing::kFlat;

TruckModel make_seated_truck(double offset_m = 0) {
  AxleModel front = testing::make_three_link_front(), rear = testing::make_triangulated_rear();
  testing::add_coils(front, 42000, 0.50);
  testing::add_coils(rear, 38000, 0.48);
  TruckModel truck;
  truck.axles = {std::move(front), std::move(rear)};
  truck.tyres = {{0.47, 300000}, {0.47, 280000}};
  truck.masses = {
      {1500, {-1.1, offset_m, 0.8}, -1}, {250, {0, 0, 0.45}, 0}, {220, {-2.6, 0, 0.45}, 1}};
  return truck;
}

TEST(SpringSeat, RoundTripsBetweenRateAndHeight) {
  const CoilSpring coil{.free_length_m = 0.48, .rate_N_per_m = 38000, .drawn_length_m = 0.36};
  const SpringSeat seat = calc_spring_seat(coil, 5200, 0);
  EXPECT_NEAR(calc_rate_for_seat(5200, 0.48, seat.loaded_length_m), 38000, 1e-8);
  EXPECT_EQ(seat.tack_length_m, seat.loaded_length_m);  // No lift.
  EXPECT_NEAR(seat.move_upper_seat_m, 0.48 - 5200 / 38000.0 - 0.36, 1e-15);
  EXPECT_TRUE(std::isnan(seat.bump_left_m));  // Solid length not known.
}

TEST(SpringSeat, RefusesACoilWithoutARate) {
  EXPECT_THROW(calc_spring_seat({.free_length_m = 0.5}, 5000, 0), LogicError);
  EXPECT_THROW(calc_rate_for_seat(5000, 0.4, 0.4), LogicError);
}

/// The truck with its upper seats moved by what each coil's seat says.
TruckModel moved(const TruckModel& truck, const SeatSolution& seats) {
  TruckModel other = truck;
  for (std::size_t a = 0; a < other.axles.size(); ++a) {
    for (std::size_t c = 0; c < other.axles[a].coils.size(); ++c) {
      CoilSpring& coil = other.axles[a].coils[c];
      const SpringSeat seat = calc_spring_seat(coil, seats.coil_loads_N[a][c], 0);
      const Vec3 lower = other.axles[a].p_VC + coil.p_AQ;
      coil.p_VP += (coil.p_VP - lower).normalized() * seat.move_upper_seat_m;
    }
  }
  return other;
}

// Both ways: seats from the height, then the height from those seats.
TEST(SolveSpringSeats, TruckOnTheSeatsSitsAtTheWantedHeight) {
  for (const double offset : {0.0, 0.08}) {
    const TruckModel truck = make_seated_truck(offset);
    const auto seats = solve_spring_seats(truck, kFlat);
    ASSERT_TRUE(seats.has_value()) << seats.error().front().message;
    const auto sits = settle(moved(truck, *seats), kFlat);
    ASSERT_TRUE(sits.has_value());
    for (std::size_t a = 0; a < 2; ++a) {
      for (std::size_t c = 0; c < 2; ++c) {
        const CoilSpring& coil = truck.axles[a].coils[c];
        const double wanted = coil.free_length_m - seats->coil_loads_N[a][c] / coil.rate_N_per_m;
        EXPECT_NEAR(sits->axles[a].coil_lengths_m[c], wanted, 1e-6);
      }
      EXPECT_NEAR(sits->axles[a].q[kZ], truck.axles[a].p_VC.z(), 1e-5);
      EXPECT_NEAR(sits->axles[a].q[kRoll], 0, 1e-5);
    }
  }
}

TEST(SolveSpringSeats, PassesOnWhyATruckCanNotSettle) {
  TruckModel truck = make_seated_truck();
  truck.masses[0].p_VoCm_V.x() = -6;  // Behind the rear axle.
  const auto seats = solve_spring_seats(truck, kFlat);
  ASSERT_FALSE(seats.has_value());
  EXPECT_EQ(seats.error().front().code, settle(truck, kFlat).error().front().code);
}

}  // namespace
}  // namespace rig::suspension
