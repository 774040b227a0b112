#include <fmt/format.h>

#include <cmath>

#include "check/cross_weight.h"
#include "check/findings.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;
using units::g;

/// Common practice: within 1.5 % of half the weight.
constexpr Band kCrossWeight{.low = 0.485, .high = 0.515, .close = 0.001, .stops = false};

/// Cross weight in the ride state (else in the first that stood on scales): by the readings, else
/// as it settles.
struct CrossWeight {
  const StateReport* state = nullptr;
  const weigh::Scaled* scaled = nullptr;  ///< Null: settled.
  std::array<double, 4> loads_kg{};       ///< Left front, right front, left rear, right rear.
  double share = 0, half_width = 0;
};

std::optional<CrossWeight> find_cross_weight(const Report& report) {
  const StateReport* state = report.ride();
  for (const auto& other : report.states) {
    if (state == nullptr && other.weigh.scaled) state = &other;
  }
  if (state == nullptr) return std::nullopt;
  CrossWeight found{.state = state};
  if (state->weigh.scaled) {
    found.scaled = &*state->weigh.scaled;
    const auto& readings = found.scaled->readings;
    found.loads_kg = {readings.front_left_kg, readings.front_right_kg, readings.rear_left_kg,
                      readings.rear_right_kg};
    found.share = found.scaled->weighed.cross_weight_share;
    found.half_width = found.scaled->weighed.cross_weight_plus_minus;
    return found;
  }
  if (!state->settled) return std::nullopt;
  const auto& axles = state->settled->axles;
  for (std::size_t i = 0; i < 4; ++i) found.loads_kg[i] = axles[i / 2].wheel_loads_N[i % 2] / g;
  found.share = calc_cross_weight(*state->settled);
  return found;
}

std::string move_words(const Subject& subject, const StateReport& state, const CornerMove& move) {
  const Printer& print = subject.print;
  const auto& model = state.truck->axles[move.axle];
  const std::string amount = print.length(std::abs(move.raise_m));
  if (move.coil) {
    const auto& coil = model.coils[move.index];
    const AxleReport* axle = subject.report.axle(model.id);
    const std::string name = axle == nullptr ? coil.name : part_words(*axle, coil.path, coil.name);
    return fmt::format("Move the upper seat of the {} {} {}", name, amount,
                       move.raise_m > 0 ? "down" : "up");
  }
  const std::string corner =
      fmt::format("{} {}", side_words(move.side), model.front ? "front" : "rear");
  return move.raise_m > 0 ? fmt::format("Put a {} block on the {} spring's seat", amount, corner)
                          : fmt::format("Take {} of arch out of the {} spring", amount, corner);
}

std::string cross_weight_advice(const Subject& subject, const CrossWeight& cross) {
  const Printer& print = subject.print;
  const StateReport* ride = subject.report.ride();
  if (ride == nullptr || !ride->settled) {
    return "Weigh again with the truck rolled back and forth; if it stays, an upper spring seat on "
           "the heavier diagonal is too far down. Springs, tyres and masses in the file tell which "
           "to move, and how far.";
  }
  // What the readings show beyond half the weight is taken off the settled truck's.
  const double now = calc_cross_weight(*ride->settled);
  const double wanted = now + (0.5 - cross.share);
  if (!subject.advise) return "";
  const auto cure =
      find_cross_weight_cure(*ride->truck, *ride->settled, wanted, print.length_step_m());
  if (!cure) return "No spring seat cures it: look for swapped scales, or a bent frame.";
  if (!cure->reaches) {
    return fmt::format(
        "It would take {} at one spring seat, further than any is out: look for "
        "swapped or misread scales, then for a bent frame.",
        print.length_up(std::abs(cure->move.raise_m)));
  }
  return fmt::format(
      "{}: that brings it to {}. The corners are then within {} of their drawn "
      "heights.",
      move_words(subject, *ride, cure->move), print.percent(cross.share + cure->cross_weight - now),
      print.length_up(cure->height_error_m));
}

}  // namespace

void add_cross_weight_finding(const Subject& subject) {
  const auto cross = find_cross_weight(subject.report);
  if (!cross) return;
  const Printer& print = subject.print;
  const Judgement judgement = judge(cross->share, kCrossWeight, cross->half_width);
  const auto& w = cross->loads_kg;
  Finding finding;
  finding.id = "cross_weight";
  finding.work = "weigh";
  finding.verdict = judgement.verdict;
  finding.subject = "Cross weight";
  finding.path = cross->scaled != nullptr
                     ? "/corner_weighings/" + cross->scaled->weighing_ids.front()
                     : "/axles";
  finding.value = print.number(cross->share, Dimension::kRatio);
  finding.limit =
      print.number(cross->share < 0.5 ? kCrossWeight.low : kCrossWeight.high, Dimension::kRatio);
  finding.edge = cross->share < 0.5 ? Edge::kLeast : Edge::kMost;
  finding.basis = "within 1.5 % of half the weight (common practice)";
  const StateReport* weighed =
      cross->scaled == nullptr ? nullptr : subject.report.state(cross->scaled->state_id);
  finding.sentence =
      fmt::format("The left front and right rear wheel carry {} of the weight {} in \"{}\".",
                  finding.value->text, cross->scaled != nullptr ? "by the scales" : "as it settles",
                  weighed != nullptr ? weighed->label : cross->state->label);
  const bool inside = cross->share >= kCrossWeight.low && cross->share <= kCrossWeight.high;
  finding.advice = finding.verdict == Verdict::kGood ? std::string("Nothing to do.")
                   : !inside                         ? cross_weight_advice(subject, *cross)
                   : judgement.in_doubt
                       ? std::string("Weigh again, with better scales, to be sure.")
                       : std::string(kInside);
  if (judgement.in_doubt) {
    assume(finding,
           fmt::format(
               "The readings leave it between {} and {}.",
               print.bound(cross->share - cross->half_width, Dimension::kRatio, Toward::kNearest),
               print.bound(cross->share + cross->half_width, Dimension::kRatio, Toward::kNearest)));
  }
  finding.working.push_back(
      {.formula = "cross weight = (left front + right rear) / all four",
       .with_values = fmt::format("({} + {}) / {} = {}", print.mass(w[0]), print.mass(w[3]),
                                  print.mass(w[0] + w[1] + w[2] + w[3]), finding.value->text),
       .source =
           cross->scaled != nullptr ? "the readings" : "static equilibrium of the whole truck",
       .input_paths = cross->scaled != nullptr ? std::vector<std::string>{finding.path}
                                               : std::vector<std::string>{"/axles", "/masses"}});
  subject.findings.push_back(std::move(finding));
}

}  // namespace rig::check
