#include "check/finding.h"

#include <algorithm>
#include <cmath>

namespace rig::check {
namespace {

constexpr double kCloseShare = 0.1;

}  // namespace

Judgement judge(double value, const Band& band, double half_width) {
  const auto inside = [&](double v) { return v >= band.low && v <= band.high; };
  if (!inside(value)) {
    const bool reaches =
        half_width > 0 && value - half_width <= band.high && value + half_width >= band.low;
    if (reaches) return {Verdict::kLook, true};
    return {band.stops ? Verdict::kStop : Verdict::kLook, false};
  }
  const bool close = value - band.low < band.close || band.high - value < band.close;
  if (!inside(value - half_width) || !inside(value + half_width)) return {Verdict::kLook, !close};
  return {close ? Verdict::kLook : Verdict::kGood, false};
}

Band at_most(const Limit& limit) {
  return {.high = limit.si, .close = kCloseShare * std::abs(limit.si), .stops = limit.from_builder};
}

Band at_least(const Limit& limit) {
  return {.low = limit.si, .close = kCloseShare * std::abs(limit.si), .stops = limit.from_builder};
}

Band at_most(double limit, bool stops) {
  return {.high = limit, .close = kCloseShare * std::abs(limit), .stops = stops};
}

void assume(Finding& finding, const std::string& assumption) {
  if (finding.verdict == Verdict::kGood) finding.verdict = Verdict::kLook;
  if (!finding.assumption.empty()) finding.assumption += " ";
  finding.assumption += assumption;
}

}  // namespace rig::check
