#include "suspension/spring_seats.h"

#include <cmath>

#include "base/require.h"

namespace rig::suspension {
namespace {

constexpr int kMaxRounds = 40;
constexpr double kSeatAccuracy_m = 1e-7;

}  // namespace

SpringSeat calc_spring_seat(const CoilSpring& coil, double load_N, double lift_m) {
  RIG_REQUIRE(coil.rate_N_per_m > 0 && coil.free_length_m > 0);
  SpringSeat seat;
  seat.load_N = load_N;
  seat.compression_m = load_N / coil.rate_N_per_m;
  seat.loaded_length_m = coil.free_length_m - seat.compression_m;
  seat.drawn_length_m = coil.drawn_length_m;
  seat.tack_length_m = seat.loaded_length_m - lift_m;
  seat.below_free_m = seat.compression_m + lift_m;
  seat.move_upper_seat_m = seat.loaded_length_m - seat.drawn_length_m;
  seat.bump_left_m = coil.solid_length_m > 0 ? seat.loaded_length_m - coil.solid_length_m
                                             : std::numeric_limits<double>::quiet_NaN();
  return seat;
}

Result<SeatSolution> solve_spring_seats(const TruckModel& truck, const Ground& ground) {
  TruckModel moved = truck;
  std::optional<Settled> last;
  SeatSolution solution;
  for (int round = 0; round < kMaxRounds; ++round) {
    auto settled = settle(moved, ground, last);
    if (!settled) return Failure{settled.error()};
    double largest_move = 0;
    solution.coil_loads_N.clear();
    for (std::size_t a = 0; a < moved.axles.size(); ++a) {
      solution.coil_loads_N.push_back(settled->axles[a].coil_forces_N);
      for (std::size_t c = 0; c < moved.axles[a].coils.size(); ++c) {
        const CoilSpring& drawn = truck.axles[a].coils[c];
        CoilSpring& coil = moved.axles[a].coils[c];
        const double load_N = settled->axles[a].coil_forces_N[c];
        const double length = drawn.free_length_m - load_N / drawn.rate_N_per_m;
        const Vec3 lower_V = truck.axles[a].p_VC + drawn.p_AQ;
        const Vec3 upper_V = lower_V + (drawn.p_VP - lower_V).normalized() * length;
        largest_move = std::max(largest_move, (upper_V - coil.p_VP).norm());
        coil.p_VP = upper_V;
      }
    }
    last = std::move(*settled);
    if (largest_move < kSeatAccuracy_m) break;
  }
  for (std::size_t a = 0; a < moved.axles.size(); ++a) {
    for (std::size_t c = 0; c < moved.axles[a].coils.size(); ++c) {
      const CoilSpring& coil = moved.axles[a].coils[c];
      const double wanted = (coil.p_VP - truck.axles[a].p_VC - coil.p_AQ).norm();
      const double length = last->axles[a].coil_lengths_m[c];
      solution.height_error_m = std::max(solution.height_error_m, std::abs(wanted - length));
    }
  }
  solution.settled = std::move(*last);
  return solution;
}

double calc_rate_for_seat(double load_N, double free_length_m, double length_m) {
  RIG_REQUIRE(free_length_m > length_m);
  return load_N / (free_length_m - length_m);
}

}  // namespace rig::suspension
