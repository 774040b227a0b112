#pragma once

#include <optional>
#include <string>

#include "check/report.h"

/// Diagonal load: the share of the weight on the left front and right rear wheel.
namespace rig::check {

/// Of the settled wheel loads.
double calc_cross_weight(const suspension::Settled& settled);

/// One spring seat moved, everything else as it was.
struct CornerMove {
  std::size_t axle = 0;
  bool coil = true;       ///< Else the leaf pack of that side.
  std::size_t index = 0;  ///< Of the coil.
  int side = 0;
  double raise_m = 0;  ///< + lengthens the spring's stand: the seat down, or a block under it.
};

/// The truck with it.
suspension::TruckModel moved(suspension::TruckModel truck, const CornerMove& move);

/// What brings the settled truck's cross weight to `wanted`.
struct CrossWeightCure {
  CornerMove move;
  double cross_weight = 0;    ///< Then, solved.
  double height_error_m = 0;  ///< Greatest of the four corners then.
  /// Within a step of what is wanted. Else the move is only what a straight line asks for, further
  /// than any seat is out.
  bool reaches = false;
};

/// Tries every sprung corner, its seat moved by as much as solved models (secant) say, rounded to
/// `step_m`. The one that leaves the corners nearest to their drawn heights is told.
/// When none reaches, the shortest that a straight line asks for.
/// @return Nothing when there is no sprung corner that answers.
std::optional<CrossWeightCure> find_cross_weight_cure(const suspension::TruckModel& truck,
                                                      const suspension::Settled& settled,
                                                      double wanted, double step_m);

}  // namespace rig::check
