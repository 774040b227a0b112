#pragma once

#include "suspension/settle.h"

namespace rig::suspension {

/// What a builder needs to tack one coil's seats.
struct SpringSeat {
  double load_N = 0;             ///< In the ride state, along the coil.
  double loaded_length_m = 0;    ///< Seat to seat under that load: free length less load / rate.
  double drawn_length_m = 0;     ///< Seat to seat as drawn.
  double tack_length_m = 0;      ///< Seat to seat on the stands, axle where it was mocked up.
  double below_free_m = 0;       ///< How far below the free-length position the upper seat goes.
  double move_upper_seat_m = 0;  ///< From the drawn place, + up along the coil, to sit as drawn.
  double bump_left_m = 0;        ///< Compression left before the coil is solid; NaN: not known.
  double compression_m = 0;      ///< Free length less loaded length.
};

/// Seats from the wanted height: where the upper seat goes so that the truck sits as drawn.
///
/// @param coil      Rate and free length > 0.
/// @param load_N    Force along the coil at ride, from settle held as drawn; >= 0.
/// @param lift_m    Wanted lift: how much nearer the axle stands to the frame in the mock-up than
/// at
///                  ride, measured along the coil.
/// @source statics; common practice: expected compression plus wanted lift below the free position.
SpringSeat calc_spring_seat(const CoilSpring& coil, double load_N, double lift_m);

/// Where every coil's upper seat goes so that the whole truck sits as drawn.
struct SeatSolution {
  std::vector<std::vector<double>> coil_loads_N;  ///< Per axle, per coil, in `settled`.
  Settled settled;                                ///< The truck on the moved seats.
  double height_error_m = 0;  ///< Greatest left at a coil: 0 unless leaf springs decide.
};

/// Holds every coil rigid at its drawn length for the loads they must carry, moves the upper seats
/// along the coils to suit, and settles the truck on them. Axles on leaf springs sit where their
/// springs put them.
/// @errors those of `settle`.
Result<SeatSolution> solve_spring_seats(const TruckModel& truck, const Ground& ground);

/// The coil that does both: rate for a given load, free length and seat-to-seat length (N/m).
/// Requires free_length_m > length_m.
double calc_rate_for_seat(double load_N, double free_length_m, double length_m);

}  // namespace rig::suspension
