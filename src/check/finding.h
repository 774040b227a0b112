#pragma once

#include <limits>
#include <string>
#include <vector>

#include "check/limits.h"
#include "check/report.h"

/// How a value becomes a verdict. docs/findings.md.
namespace rig::check {

/// Where a value should lie.
struct Band {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  /// Nearer than this to an edge is close: `kLook`.
  double close = 0;
  /// Outside stops the work; else it only asks for a look.
  bool stops = true;
};

struct Judgement {
  Verdict verdict = Verdict::kGood;
  /// What it is known to decides: it is good as computed and would not be at an end of that, or it
  /// is outside and would be inside.
  bool in_doubt = false;
};

/// @param half_width  How far the true value may lie from `value` either way.
Judgement judge(double value, const Band& band, double half_width = 0);

/// Bands from limits; close is a tenth of the limit.
Band at_most(const Limit& limit);
Band at_least(const Limit& limit);
Band at_most(double limit, bool stops = true);

/// A value that was estimated without a half-width is taken to be known to this share.
inline constexpr double kEstimateShare = 0.2;

/// What a place that was only estimated is taken to be known to, m (1/2 in).
inline constexpr double kEstimatedPlace_m = 0.0127;

/// What a quantity may be out by: its half-width; for an estimate without one, `kEstimateShare` of
/// it; else nothing.
template <units::Dimension D>
double half_width(const build::Quantity<D>& quantity) {
  if (!std::isnan(quantity.plus_minus_si)) return quantity.plus_minus_si;
  return quantity.from == build::From::kEstimate ? kEstimateShare * std::abs(quantity.si) : 0;
}

/// Raises a verdict to at least `kLook` and says why.
void assume(Finding& finding, const std::string& assumption);

/// What every findings function works on.
struct Subject {
  const build::Build& build;
  const Printer& print;
  const Limits& limits;
  const Report& report;
  std::vector<Finding>& findings;
  bool advise = true;  ///< Search for what to move; else verdicts only.
};

}  // namespace rig::check
