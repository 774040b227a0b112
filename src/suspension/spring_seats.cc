#include "suspension/spring_seats.h"

#include <cmath>

#include "base/nan.h"
#include "base/require.h"

namespace rig::suspension {
namespace {

/// The truck with every coil a rigid bar of its drawn length: what the bars then push is what the
/// coils have to carry for it to sit as drawn.
TruckModel with_rigid_coils(TruckModel truck) {
  for (AxleModel& axle : truck.axles) {
    for (const CoilSpring& coil : axle.coils) {
      axle.bars.push_back({.name = coil.name,
                           .path = coil.path,
                           .p_VP = coil.p_VP,
                           .p_AQ = coil.p_AQ,
                           .length_m = coil.drawn_length_m});
    }
    axle.coils.clear();
    const auto bars = static_cast<Eigen::Index>(axle.bars.size());
    axle.compliance_m_per_N.conservativeResizeLike(Eigen::MatrixXd::Zero(bars, bars));
  }
  return truck;
}

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
  seat.bump_left_m = coil.solid_length_m > 0 ? seat.loaded_length_m - coil.solid_length_m : kNaN;
  return seat;
}

Result<SeatSolution> solve_spring_seats(const TruckModel& truck, const Ground& ground) {
  const auto held = settle(with_rigid_coils(truck), ground);
  if (!held) return Failure{held.error()};

  TruckModel moved = truck;
  SeatSolution solution;
  for (std::size_t a = 0; a < moved.axles.size(); ++a) {
    AxleModel& axle = moved.axles[a];
    std::vector<double> loads_N;
    for (std::size_t c = 0; c < axle.coils.size(); ++c) {
      CoilSpring& coil = axle.coils[c];
      loads_N.push_back(-held->axles[a].bar_forces_N[axle.bars.size() + c]);
      const Vec3 lower_V = axle.p_VC + coil.p_AQ;
      const double length_m = coil.free_length_m - loads_N.back() / coil.rate_N_per_m;
      coil.p_VP = lower_V + (coil.p_VP - lower_V).normalized() * length_m;
    }
    solution.coil_loads_N.push_back(std::move(loads_N));
  }
  auto settled = settle(moved, ground);
  if (!settled) return Failure{settled.error()};
  for (std::size_t a = 0; a < moved.axles.size(); ++a) {
    for (std::size_t c = 0; c < moved.axles[a].coils.size(); ++c) {
      const CoilSpring& coil = moved.axles[a].coils[c];
      const double wanted_m = (coil.p_VP - moved.axles[a].p_VC - coil.p_AQ).norm();
      solution.height_error_m = std::max(solution.height_error_m,
                                         std::abs(settled->axles[a].coil_lengths_m[c] - wanted_m));
    }
  }
  solution.settled = std::move(*settled);
  return solution;
}

double calc_rate_for_seat(double load_N, double free_length_m, double length_m) {
  RIG_REQUIRE(free_length_m > length_m);
  return load_N / (free_length_m - length_m);
}

}  // namespace rig::suspension
