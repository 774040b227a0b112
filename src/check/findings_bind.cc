#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/nan.h"
#include "check/findings.h"
#include "check/lengths.h"
#include "check/words.h"

namespace rig::check {
namespace {

using units::Dimension;

/// Below this what is left is the solver's rounding.
constexpr double kNoBind_N = 1e-3;
/// Four links place an axle; more hold it more than once.
constexpr std::size_t kEnoughLinks = 4;

/// Where a layout fights itself hardest, springs apart.
struct Bind {
  double force_N = 0;  ///< Greatest in any link.
  Extreme where;
  double roll_Nm = 0;  ///< Greatest moment it takes to hold the axle in roll.
  double heave_N = 0;  ///< Greatest force it takes to hold it in bump or droop.
};

Bind find_bind(const AxleReport& axle) {
  Bind bind;
  for (const auto* sweep : {&axle.bump, &axle.roll, &axle.crossed}) {
    for (const auto& pose : sweep->poses) {
      const auto& n = pose.numbers;
      bind.roll_Nm = std::max(bind.roll_Nm, std::abs(n.bind_roll_Nm));
      bind.heave_N = std::max(bind.heave_N, std::abs(n.bind_heave_N));
      if (!(n.bind_N > bind.force_N)) continue;
      bind.force_N = n.bind_N;
      bind.where = {0, n.heave_m, n.roll_rad};
    }
  }
  return bind;
}

/// Mean load of the axle's wheels in the ride state; NaN: not known.
double wheel_load_N(const Report& report, const AxleReport& axle) {
  const StateReport* ride = report.ride();
  if (ride == nullptr || !ride->settled) return kNaN;
  for (std::size_t a = 0; a < ride->truck->axles.size(); ++a) {
    const auto& loads = ride->settled->axles[a].wheel_loads_N;
    if (ride->truck->axles[a].id == axle.id) return (loads[0] + loads[1]) / 2;
  }
  return kNaN;
}

/// The largest relative half-width of any bush's rate on the axle.
double bush_doubt(const build::Axle& axle) {
  double share = 0;
  const auto look_at = [&](const build::JointEnd& joint) {
    if (!joint.bushing || !joint.bushing->radial.known()) return;
    share = std::max(share, half_width(joint.bushing->radial) / joint.bushing->radial.si);
  };
  for (const auto& link : axle.links) {
    look_at(link.value.frame);
    look_at(link.value.axle);
  }
  for (const auto& arm : axle.arms) {
    look_at(arm.value.apex);
    look_at(arm.value.first);
    look_at(arm.value.second);
  }
  return share;
}

void add_bind(const Subject& subject, const AxleReport& axle) {
  const Bind bind = find_bind(axle);
  if (bind.force_N < kNoBind_N) return;
  const Printer& print = subject.print;
  const double load_N = wheel_load_N(subject.report, axle);
  const double share = bush_doubt(build::find(subject.build.axles, axle.id)->value);
  const std::string force = print.force(bind.force_N);
  Finding finding;
  finding.id = "bind." + axle.id;
  finding.work = "axles";
  finding.subject = fmt::format("Links against each other, {}", axle_words(axle));
  finding.path = axle.path;
  finding.value = print.number(bind.force_N, Dimension::kForce);
  finding.basis = "one wheel's load at ride (common practice)";
  finding.sentence = fmt::format(
      "The links hold the axle more than once and fight each other with up to {}, {}; that takes "
      "{} in "
      "roll.",
      force, place_words(axle, print, bind.where), print.text(bind.roll_Nm, Dimension::kTorque));
  if (std::isnan(load_N)) {
    finding.verdict = Verdict::kLook;
    finding.advice = "Give the masses, springs and tyres, to hold it against a wheel's load.";
  } else {
    const Judgement judgement = judge(bind.force_N, at_most(load_N, false), bind.force_N * share);
    finding.limit = print.number(load_N, Dimension::kForce);
    finding.edge = Edge::kMost;
    finding.verdict = judgement.verdict;
    finding.advice =
        finding.verdict == Verdict::kGood
            ? std::string(
                  "Nothing to do; keep bushes here, never rod ends at both ends of every link.")
            : fmt::format(
                  "Use bushes {:.0f} % softer at the links' ends, or a layout that needs none.",
                  100 * std::clamp(1 - 0.9 * load_N / bind.force_N, 0.1, 0.9));
    if (judgement.in_doubt) {
      assume(finding, fmt::format("The bush rates are known to {}, and the bind goes with them.",
                                  print.percent(share)));
    }
  }
  finding.working.push_back(
      {.formula = "minimum of the bushes' and tubes' energy at each pose, no spring",
       .with_values =
           fmt::format("greatest in a link {}; in roll {}; in bump and droop {}", force,
                       print.text(bind.roll_Nm, Dimension::kTorque), print.force(bind.heave_N)),
       .source =
           "compliance of bushes and tubes; solved poses: bump, roll and both crossed-up corners",
       .input_paths = {axle.path + "/links", axle.path + "/arms"}});
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_bind_findings(const Subject& subject) {
  for (const auto& axle : subject.report.axles) {
    const bool held_twice = axle.model.bars.size() > kEnoughLinks;
    if (held_twice && !axle.bump.poses.empty()) add_bind(subject, axle);
  }
}

}  // namespace rig::check
