#pragma once

#include <limits>
#include <string>
#include <vector>

#include "build/known_to.h"
#include "check/known_frame.h"
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

using build::half_width;
using build::kEstimatedPlace_m;

/// Raises a verdict to at least `kLook` and says why.
void assume(Finding& finding, const std::string& assumption);

/// What every findings function works on.
struct Subject {
  const build::Build& build;
  const Printer& print;
  const Limits& limits;
  const Report& report;
  KnownFrame& known_frame;  ///< Of the build. Only the findings of the frame may ask it.
  std::vector<Finding>& findings;
  bool advise = true;  ///< Search for what to move; else verdicts only.
};

}  // namespace rig::check
