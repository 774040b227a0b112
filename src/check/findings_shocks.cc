#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/findings.h"
#include "check/lengths.h"
#include "check/words.h"

namespace rig::check {
namespace {

using suspension::Shock;
using units::Dimension;

/// The furthest that an eye is moved before another shock is the better cure.
constexpr double kFurthestEye_m = 0.1016;

struct Left {
  double bump_m = 0;
  double droop_m = 0;
  Extent extent;
};

Left calc_left(const AxleReport& axle, const Shock& shock, const Vec3& p_VP) {
  Left left;
  left.extent = calc_extent(axle, p_VP, shock.p_AQ);
  left.bump_m = left.extent.least.length_m - shock.closed_length_m;
  left.droop_m = shock.open_length_m - left.extent.most.length_m;
  return left;
}

/// How far up (+) or down the frame eye goes until both ends keep `wanted_m`; nothing when no move
/// within reach does it.
std::optional<double> find_eye_move(const AxleReport& axle, const Shock& shock, double wanted_m,
                                    const Printer& print) {
  const double step_m = print.length_step_m();
  for (int steps = 1; steps * step_m <= kFurthestEye_m; ++steps) {
    for (const int sense : {1, -1}) {
      const double move_m = sense * steps * step_m;
      const Left left = calc_left(axle, shock, shock.p_VP + Vec3(0, 0, move_m));
      if (left.bump_m >= wanted_m && left.droop_m >= wanted_m) return move_m;
    }
  }
  return std::nullopt;
}

std::string shock_advice(const Subject& subject, const AxleReport& axle, const Shock& shock,
                         const Left& left, const std::string& name) {
  const Printer& print = subject.print;
  const double wanted_m = subject.limits.shock_travel_left.si;
  if (const auto move_m = find_eye_move(axle, shock, wanted_m, print)) {
    const Left then = calc_left(axle, shock, shock.p_VP + Vec3(0, 0, *move_m));
    return fmt::format(
        "Move the frame eye of the {} {} {}: that leaves {} in bump and {} in droop.", name,
        print.length(std::abs(*move_m)), *move_m > 0 ? "up" : "down", print.length(then.bump_m),
        print.length(then.droop_m));
  }
  const double closed_m = left.extent.least.length_m - wanted_m;
  const double open_m = left.extent.most.length_m + wanted_m;
  // Its rod must fit in its body.
  if (open_m >= 2 * closed_m) {
    const auto reach = reach_words(axle, print, [&](const suspension::SweptPose& pose) {
      const double length_m = (pose.q.head<3>() + pose.R_VA * shock.p_AQ - shock.p_VP).norm();
      return length_m >= shock.closed_length_m && length_m <= shock.open_length_m;
    });
    return fmt::format("{}, as no shock opens from {} to {}: this one allows {}.", kNotPossible,
                       print.length(std::max(0.0, closed_m)), print.length(open_m), reach);
  }
  return fmt::format(
      "It needs {} of stroke and has {}: use one that closes to {} and opens to {} on "
      "these eyes, or lean it further over.",
      print.length_up(left.extent.most.length_m - left.extent.least.length_m + 2 * wanted_m),
      print.length(shock.open_length_m - shock.closed_length_m), print.length(closed_m),
      print.length_up(open_m));
}

void add_end(const Subject& subject, const AxleReport& axle, const Shock& shock, const Left& left,
             bool bump) {
  const Printer& print = subject.print;
  const Limit& limit = subject.limits.shock_travel_left;
  const double left_m = bump ? left.bump_m : left.droop_m;
  const Extreme& extreme = bump ? left.extent.least : left.extent.most;
  const std::string name = part_words(axle, shock.path, shock.name);
  Finding finding;
  finding.id =
      fmt::format("shock.{}.{}.{}", axle.id, last_key(shock.path), bump ? "bump" : "droop");
  finding.work = "axles";
  finding.verdict = left_m < 0 ? Verdict::kStop : judge(left_m, at_least(limit)).verdict;
  finding.subject = fmt::format("Shock in {}, {}", bump ? "bump" : "droop", axle_words(axle));
  finding.path = shock.path + (bump ? "/closed_length" : "/open_length");
  finding.value = print.number(left_m, Dimension::kLength);
  // Its own length stops the work, whatever stroke is wanted in hand.
  finding.limit = print.number(left_m < 0 ? 0 : limit.si, Dimension::kLength);
  finding.edge = Edge::kLeast;
  finding.basis = left_m >= 0 ? limit.basis
                  : bump      ? "the shock's own closed length in the file"
                              : "the shock's own open length in the file";
  const std::string place = place_words(axle, print, extreme);
  finding.sentence =
      left_m < 0 ? fmt::format("The {} {} {} short of where it is wanted, {}.", name,
                               bump ? "bottoms" : "tops out", print.length(-left_m), place)
                 : fmt::format("The {} keeps {} of stroke, {}.", name, print.length(left_m), place);
  finding.advice = finding.verdict == Verdict::kGood ? std::string("Nothing to do.")
                   : left_m >= limit.si              ? std::string(kInside)
                                        : shock_advice(subject, axle, shock, left, name);
  finding.working.push_back(
      {.formula =
           bump ? "left = shortest length - closed length" : "left = open length - longest length",
       .with_values = bump ? fmt::format("{} - {} = {}", print.length(extreme.length_m),
                                         print.length(shock.closed_length_m), print.length(left_m))
                           : fmt::format("{} - {} = {}", print.length(shock.open_length_m),
                                         print.length(extreme.length_m), print.length(left_m)),
       .source = "solved poses: bump, droop and both crossed-up corners",
       .input_paths = {finding.path, shock.path + "/frame", shock.path + "/axle"}});
  subject.findings.push_back(std::move(finding));
}

struct JudgedShock {
  const Shock* shock;
  Left left;
};

}  // namespace

void add_shock_findings(const Subject& subject) {
  for (const auto& axle : subject.report.axles) {
    if (axle.bump.poses.empty()) continue;
    for (const bool bump : {true, false}) {
      std::vector<JudgedShock> worst;
      for (const auto& shock : axle.model.shocks) {
        if (bump ? shock.closed_length_m <= 0 : !std::isfinite(shock.open_length_m)) continue;
        const JudgedShock judged{&shock, calc_left(axle, shock, shock.p_VP)};
        auto same = std::find_if(worst.begin(), worst.end(),
                                 [&](const JudgedShock& w) { return w.shock->path == shock.path; });
        if (same == worst.end()) {
          worst.push_back(judged);
        } else if (bump ? judged.left.bump_m < same->left.bump_m
                        : judged.left.droop_m < same->left.droop_m) {
          *same = judged;
        }
      }
      for (const auto& judged : worst) add_end(subject, axle, *judged.shock, judged.left, bump);
    }
  }
}

}  // namespace rig::check
