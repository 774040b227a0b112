#pragma once

#include <cmath>

#include "build/types.h"

/// What a value of the build file counts as known to. docs/findings.md, "Known to what".
namespace rig::build {

/// A value that was estimated without a half-width is taken to be known to this share.
inline constexpr double kEstimateShare = 0.2;

/// What a place that was only estimated is taken to be known to, m (1/2 in).
inline constexpr double kEstimatedPlace_m = 0.0127;

/// What a quantity may be out by: its half-width; for an estimate without one, `kEstimateShare` of
/// it; else nothing.
template <units::Dimension D>
double half_width(const Quantity<D>& quantity) {
  if (!std::isnan(quantity.plus_minus_si)) return quantity.plus_minus_si;
  return quantity.from == From::kEstimate ? kEstimateShare * std::abs(quantity.si) : 0;
}

/// The same of a point's station, offset or height, m: for an estimate `kEstimatedPlace_m`.
inline double place_half_width(const Length& coordinate) {
  if (!std::isnan(coordinate.plus_minus_si)) return coordinate.plus_minus_si;
  return coordinate.from == From::kEstimate ? kEstimatedPlace_m : 0;
}

/// Whether anything is told of how well it is known: a half-width, or that it is an estimate.
template <units::Dimension D>
bool half_width_told(const Quantity<D>& quantity) {
  return !std::isnan(quantity.plus_minus_si) || quantity.from == From::kEstimate;
}

}  // namespace rig::build
