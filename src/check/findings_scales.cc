#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/findings.h"
#include "check/words.h"

namespace rig::check {
namespace {

using units::Dimension;

constexpr const char* kSame = "The scales put the balance point where the list does.";

/// The ride state's corner weighing beside the list of the state that stood on the scales.
struct OnScales {
  const weigh::Weighed& weighed;
  const weigh::Calibration& calibration;
  const weigh::Spread& of_list;
  const weigh::Footing& footing;
  std::string path;
};

std::optional<OnScales> find_on_scales(const Subject& subject) {
  const StateReport* ride = subject.report.ride();
  if (ride == nullptr || !ride->weigh.scaled || !ride->weigh.footing) return std::nullopt;
  const auto& scaled = *ride->weigh.scaled;
  const auto* state = subject.report.state(scaled.state_id);
  if (state == nullptr || !scaled.calibration) return std::nullopt;
  return OnScales{scaled.weighed, *scaled.calibration, state->weigh.spread, *ride->weigh.footing,
                  "/corner_weighings/" + scaled.weighing_ids.front()};
}

/// Scales less list, judged on what both are known to and on the least that the trade allows.
Finding compare(const Subject& subject, const OnScales& scales, std::string id, double difference,
                double half_width, double least, Dimension dimension) {
  const double allowed = std::max(half_width, least);
  Finding finding;
  finding.id = std::move(id);
  finding.work = "weigh";
  finding.verdict = judge(std::abs(difference), at_most(allowed, false)).verdict;
  finding.path = scales.path;
  finding.value = subject.print.number(difference, dimension);
  finding.limit = subject.print.number(allowed, dimension);
  finding.edge = Edge::kMost;
  finding.advice = "Nothing to do: the list and the scales agree.";
  return finding;
}

WorkingStep subtract(const Subject& subject, const Finding& finding, const char* formula,
                     double by_scales, Dimension dimension) {
  return {.formula = formula,
          .with_values = fmt::format("{} - {} = {}", subject.print.text(by_scales, dimension),
                                     subject.print.text(by_scales - finding.value->si, dimension),
                                     finding.value->text),
          .source = "statics",
          .input_paths = {finding.path, "/masses"}};
}

void add_total(const Subject& subject, const OnScales& scales) {
  const Printer& print = subject.print;
  const double difference_kg = scales.calibration.mass_difference_kg;
  // Beyond what the half-widths explain something is missing or counted twice.
  Finding finding =
      compare(subject, scales, "scales.total", difference_kg,
              std::hypot(scales.of_list.mass_plus_minus_kg, scales.weighed.mass_plus_minus_kg),
              0.02 * scales.weighed.mass_kg, Dimension::kMass);
  finding.subject = "Scales against the list of masses";
  finding.basis =
      "the half-widths given with the masses and readings, at least 2 % (common practice)";
  finding.sentence = fmt::format(
      "The scales show {}, {} {} than the list adds up to; every total and axle load here follows "
      "the scales.",
      print.mass(scales.weighed.mass_kg), print.mass(std::abs(difference_kg)),
      difference_kg >= 0 ? "more" : "less");
  if (finding.verdict != Verdict::kGood) {
    const char* what = difference_kg >= 0 ? "not on the list" : "on the list but not on the truck";
    finding.advice =
        scales.calibration.place_m
            ? fmt::format("Look for {} that is {} near station {}.",
                          print.mass(std::abs(difference_kg)), what,
                          print.length(-(*scales.calibration.place_m)[0]))
            : fmt::format(
                  "Look for {} that is {}; no single place explains it, so go through the "
                  "list from the heaviest item down.",
                  print.mass(std::abs(difference_kg)), what);
  }
  finding.working.push_back(subtract(subject, finding, "difference = scales - list",
                                     scales.weighed.mass_kg, Dimension::kMass));
  subject.findings.push_back(std::move(finding));
}

/// Where the scales put the balance point along the truck, against the list.
void add_place(const Subject& subject, const OnScales& scales) {
  const Printer& print = subject.print;
  const double L = scales.footing.wheelbase_m();
  const double back_m = -scales.calibration.x_difference_m;
  const bool back = back_m > 0;
  Finding finding =
      compare(subject, scales, "scales.place", back_m,
              std::hypot(scales.of_list.p_plus_minus_V.x(), scales.weighed.x_plus_minus_m),
              0.02 * L, Dimension::kLength);
  finding.subject = "Balance point by the scales against the list";
  finding.basis =
      "the half-widths given with the list and readings, at least 2 % of the wheelbase (common "
      "practice)";
  finding.sentence =
      std::abs(back_m) < print.length_step_m() / 2
          ? kSame
          : fmt::format("The scales put the balance point {} further {} than the list.",
                        print.length(std::abs(back_m)), back ? "back" : "forward");
  if (finding.verdict != Verdict::kGood) {
    finding.advice = fmt::format(
        "Go through the stations on the list, heaviest item first: {} that sits at the {} axle and "
        "is listed at the {} one would explain it.",
        print.mass(scales.weighed.mass_kg * std::abs(back_m) / L), back ? "rear" : "front",
        back ? "front" : "rear");
  }
  finding.working.push_back(subtract(subject, finding,
                                     "difference = station by the scales - station by the list",
                                     -scales.weighed.x_m, Dimension::kLength));
  subject.findings.push_back(std::move(finding));
}

/// The same across the truck.
void add_offset(const Subject& subject, const OnScales& scales) {
  const Printer& print = subject.print;
  const double T = (scales.footing.front_track_m + scales.footing.rear_track_m) / 2;
  const double left_m = scales.calibration.y_difference_m;
  const bool left = left_m > 0;
  Finding finding =
      compare(subject, scales, "scales.offset", left_m,
              std::hypot(scales.of_list.p_plus_minus_V.y(), scales.weighed.y_plus_minus_m),
              0.02 * T, Dimension::kLength);
  finding.subject = "Balance point sideways, by the scales against the list";
  finding.basis =
      "the half-widths given with the list and readings, at least 2 % of the track (common "
      "practice)";
  finding.sentence =
      std::abs(left_m) < print.length_step_m() / 2
          ? kSame
          : fmt::format("The scales put the balance point {} further to the {} than the list.",
                        print.length(std::abs(left_m)), left ? "left" : "right");
  if (finding.verdict != Verdict::kGood) {
    finding.advice = fmt::format(
        "Go through the offsets on the list, + to the left, heaviest item first: {} that sits over "
        "the {} wheels and is listed over the {} ones would explain it; or two scales are swapped.",
        print.mass(scales.weighed.mass_kg * std::abs(left_m) / T), left ? "left" : "right",
        left ? "right" : "left");
  }
  finding.working.push_back(subtract(subject, finding,
                                     "difference = offset by the scales - offset by the list",
                                     scales.weighed.y_m, Dimension::kLength));
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_scale_findings(const Subject& subject) {
  const auto scales = find_on_scales(subject);
  if (!scales) return;
  add_total(subject, *scales);
  add_place(subject, *scales);
  add_offset(subject, *scales);
}

}  // namespace rig::check
