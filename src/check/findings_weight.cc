#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/findings.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;
using units::g;

/// Share of the trailer's weight on the ball.
void add_tongue_share(const Subject& subject) {
  for (const auto& state : subject.report.states) {
    if (!state.weigh.tongue_share || !state.weigh.hitch) continue;
    const Printer& print = subject.print;
    const double share = *state.weigh.tongue_share;
    const double trailer_N = state.weigh.hitch->trailer_mass_kg * g;
    // SAE J684 and J2807 practice.
    const Band band{.low = 0.10, .high = 0.15, .close = 0.005, .stops = false};
    Finding finding;
    finding.id = "tongue_share." + state.id;
    finding.work = "weigh";
    finding.verdict = judge(share, band).verdict;
    finding.subject = fmt::format("Tongue load, \"{}\"", state.label);
    finding.path = fmt::format("/load_states/{}/trailer/tongue_load", state.id);
    finding.value = print.number(share, Dimension::kRatio);
    finding.limit = print.number(share < 0.125 ? band.low : band.high, Dimension::kRatio);
    finding.edge = share < 0.125 ? Edge::kLeast : Edge::kMost;
    finding.basis = "10 to 15 % of the trailer's weight: SAE J684 and J2807 practice";
    finding.sentence = fmt::format("The ball carries {}, {} of the trailer's weight.",
                                   print.force(state.weigh.hitch->tongue_N), finding.value->text);
    const double least = 0.10 * trailer_N - state.weigh.hitch->tongue_N;
    const double most = state.weigh.hitch->tongue_N - 0.15 * trailer_N;
    if (least > 0) {
      finding.advice = fmt::format(
          "Move load forward on the trailer until the tongue carries {} more: {} from over its "
          "axle "
          "to over the coupling, or twice that half of the way. A light tongue sways.",
          print.force(least), print.mass(least / g));
    } else if (most > 0) {
      finding.advice = fmt::format(
          "Move load rearward on the trailer until the tongue carries {} less: {} from over the "
          "coupling to over its axle, or twice that half of the way.",
          print.force(most), print.mass(most / g));
    } else {
      finding.advice = fmt::format("Nothing to do: keep it between {} and {}.",
                                   print.bound(0.10 * trailer_N, Dimension::kForce, Toward::kUp),
                                   print.bound(0.15 * trailer_N, Dimension::kForce, Toward::kDown));
    }
    finding.working.push_back(
        {.formula = "share = tongue load / trailer weight",
         .with_values = fmt::format("{} / {} = {}", print.force(state.weigh.hitch->tongue_N),
                                    print.force(trailer_N), finding.value->text),
         .source = "SAE J684 and J2807 practice",
         .input_paths = {finding.path, fmt::format("/load_states/{}/trailer/mass", state.id)}});
    subject.findings.push_back(std::move(finding));
  }
}

/// The height of the balance point by lifted axle against the list's.
void add_measured_height(const Subject& subject) {
  const StateReport* ride = subject.report.ride();
  if (ride == nullptr) return;
  const Printer& print = subject.print;
  for (const auto& measured : ride->weigh.measured_heights) {
    const auto& height = measured.height;
    const double difference_m = measured.difference_m;
    if (std::isnan(difference_m)) continue;
    // Beyond what both are known to; at least 3 % of the height, as one kilogram misread moves it
    // by several millimetres, for which ISO 10392 asks for several lifts.
    const double allowed_m =
        std::max(std::hypot(height.plus_minus_m, ride->weigh.spread.p_plus_minus_V.z()),
                 0.03 * height.cg_height_m);
    Finding finding;
    finding.id = measured.lifted == build::End::kRear ? "cg_height.rear_up" : "cg_height.front_up";
    finding.work = "weigh";
    finding.verdict = judge(std::abs(difference_m), at_most(allowed_m, false)).verdict;
    finding.subject = "Height of the balance point";
    finding.path = "/lifted_weighings/" + measured.weighing_ids.front();
    finding.value = print.number(difference_m, Dimension::kLength);
    finding.limit = print.number(allowed_m, Dimension::kLength);
    finding.edge = Edge::kMost;
    finding.basis = "what measurement and list are known to, at least 3 % (common practice)";
    const std::string measured_text = print.length(height.cg_height_m);
    finding.sentence = fmt::format(
        "Measured {} ± {} by the lifted axle, which every state here follows; the list makes "
        "it {}.",
        measured_text, print.length_up(height.plus_minus_m),
        print.length(height.cg_height_m - difference_m));
    const double reading_kg =
        std::abs(height.lifts.front().sensitivity_m_per_kg) > 0
            ? std::abs(difference_m / height.lifts.front().sensitivity_m_per_kg)
            : 0;
    finding.advice =
        finding.verdict == Verdict::kGood
            ? std::string("Nothing to do.")
            : fmt::format(
                  "Lift again, higher: {} misread on the lifted scale explains it. If it stays, "
                  "the heavy items on the list are {} {} on the whole.",
                  print.mass(reading_kg), print.length(std::abs(difference_m)),
                  difference_m > 0 ? "too low" : "too high");
    finding.working.push_back(
        {.formula = "h = r + L (W2 - W1) / (W tan(angle))",
         .with_values = fmt::format("angle {}: {}", print.angle(height.lifts.front().angle_rad),
                                    measured_text),
         .source = "ISO 10392:2011",
         .input_paths = {finding.path, "/masses"}});
    subject.findings.push_back(std::move(finding));
  }
}

}  // namespace

void add_weight_findings(const Subject& subject) {
  add_tongue_share(subject);
  add_measured_height(subject);
}

}  // namespace rig::check
