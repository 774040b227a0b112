#include <fmt/format.h>

#include <cmath>

#include "check/findings.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;
using units::g;

/// A 60 % grade is what an off-road truck is asked to climb and come down.
const double kGrade_rad = std::atan(0.60);
/// Up to 1.03 is the lowest band of the static stability factor, NHTSA 2001-2003, from memory.
constexpr double kLowestFactor = 1.03;

struct Worst {
  const StateReport* state = nullptr;
  const weigh::Standing* standing = nullptr;
  double value = std::numeric_limits<double>::infinity();
};

template <typename Get>
Worst find_worst(const Report& report, Get get) {
  Worst worst;
  for (const auto& state : report.states) {
    const auto* standing = state.standing();
    if (standing == nullptr || !standing->stability) continue;
    const double value = get(*standing->stability);
    if (value < worst.value) worst = {&state, standing, value};
  }
  return worst;
}

/// Half-width of the balance point's height in a state.
double height_half_width_m(const StateReport& state) { return state.weigh.height_plus_minus_m(); }

/// The highest thing that counts: what lowering it by its own height above the balance point would
/// do.
std::string highest_item_words(const StateReport& state, const Printer& print) {
  if (!state.weigh.total) return "";
  const weigh::Item* best = nullptr;
  const double cg_m = state.weigh.total->p_VoBcm_V.z();
  for (const auto& item : state.weigh.items) {
    const double moment = item.mass_kg() * (item.p_VoCm_V().z() - cg_m);
    if (best == nullptr || moment > best->mass_kg() * (best->p_VoCm_V().z() - cg_m)) best = &item;
  }
  if (best == nullptr || best->p_VoCm_V().z() <= cg_m) return "";
  return fmt::format(" (the {}, {} at {} up, counts most)", uncapitalised(best->label),
                     print.mass(best->mass_kg()), print.length(best->p_VoCm_V().z()));
}

/// Each way by itself to the slope aimed at: the balance point sideways as far as that helps, down,
/// or the track. From tan(slope) = (T/2 - o)/h, o the offset towards the downhill side.
std::string side_slope_advice(const Subject& subject, const Worst& worst, double aim_rad) {
  const Printer& print = subject.print;
  const auto& stability = *worst.standing->stability;
  const double h = stability.cg_height_m, T = stability.track_at_cg_m;
  const double arm_m = h * std::tan(worst.value);
  const double offset_m = T / 2 - arm_m;
  const double lacks_m = h * std::tan(aim_rad) - arm_m;
  if (!(lacks_m > 0)) return "Weigh the truck with an axle lifted to know the height.";
  const bool left_down = stability.left_side_down_rad < stability.right_side_down_rad;
  std::string ways;
  // Past the middle the other side is the worse one.
  const double across_m = std::min(lacks_m, offset_m);
  if (across_m >= print.length_step_m()) {
    ways = fmt::format(
        "Move the balance point {} to the {}{} ({} from the {} wheels to the {} ones), ",
        print.length_up(across_m), left_down ? "right" : "left",
        across_m < lacks_m ? ", which is not enough by itself" : "",
        print.mass(worst.standing->truck.mass_kg * across_m / T), left_down ? "left" : "right",
        left_down ? "right" : "left");
  }
  return fmt::format("{}{} the balance point {} down{} or make the tracks {} wider.", ways,
                     ways.empty() ? "Bring" : "bring",
                     print.length_up(h - arm_m / std::tan(aim_rad)),
                     highest_item_words(*worst.state, print), print.length_up(2 * lacks_m));
}

void add_side_slope(const Subject& subject) {
  const Worst worst =
      find_worst(subject.report, [](const weigh::Stability& s) { return s.side_slope_rad; });
  if (worst.state == nullptr) return;
  const Printer& print = subject.print;
  const Limit& limit = subject.limits.side_slope;
  const auto& stability = *worst.standing->stability;
  const double h = stability.cg_height_m, T = stability.track_at_cg_m;
  const double half =
      height_half_width_m(*worst.state) * T / (2 * h * h) / (1 + std::pow(T / (2 * h), 2));
  const Judgement judgement = judge(worst.value, at_least(limit), half);
  const bool left_down = stability.left_side_down_rad < stability.right_side_down_rad;
  Finding finding;
  finding.id = "side_slope";
  finding.work = "weigh";
  finding.verdict = judgement.verdict;
  finding.subject = "Side slope";
  finding.path = "/masses";
  finding.value = print.number(worst.value, Dimension::kAngle);
  finding.limit = print.number(limit.si, Dimension::kAngle);
  finding.edge = Edge::kLeast;
  finding.basis = limit.basis;
  finding.sentence = fmt::format(
      "Standing still, the uphill wheels lift at {} with the {} side down, in \"{}\"; it leans on "
      "its "
      "springs and goes sooner.",
      finding.value->text, left_down ? "left" : "right", worst.state->label);
  finding.advice = finding.verdict == Verdict::kGood
                       ? "Nothing to do."
                       : side_slope_advice(subject, worst, limit.si * 1.1);
  if (judgement.in_doubt) {
    assume(finding,
           fmt::format("The balance point's height is known to {}, which leaves it at {} to {}.",
                       print.length(height_half_width_m(*worst.state)),
                       print.bound(worst.value - half, Dimension::kAngle, Toward::kNearest),
                       print.bound(worst.value + half, Dimension::kAngle, Toward::kNearest)));
  }
  finding.working.push_back(
      {.formula =
           "tan(slope) = distance of the balance point from the downhill wheels / its height",
       .with_values = fmt::format("track {} there, height {}, {} off the middle", print.length(T),
                                  print.length(h),
                                  print.length(std::abs(worst.standing->truck.p_VoBcm_V.y()))),
       .source = "statics of a rigid truck",
       .input_paths = {"/masses", "/axles"}});
  subject.findings.push_back(std::move(finding));
}

void add_factor(const Subject& subject) {
  const Worst worst = find_worst(
      subject.report, [](const weigh::Stability& s) { return s.static_stability_factor; });
  if (worst.state == nullptr) return;
  const Printer& print = subject.print;
  const auto& stability = *worst.standing->stability;
  const double half = worst.value * height_half_width_m(*worst.state) / stability.cg_height_m;
  const Judgement judgement =
      judge(worst.value, {.low = kLowestFactor, .close = 0.01, .stops = false}, half);
  Finding finding;
  finding.id = "stability_factor";
  finding.work = "weigh";
  finding.verdict = judgement.verdict;
  finding.subject = "Static stability factor";
  finding.path = "/masses";
  finding.value = print.plain(worst.value, 2);
  finding.limit = print.plain(kLowestFactor, 2);
  finding.edge = Edge::kLeast;
  finding.basis = "up to 1.03 is the lowest band of the NHTSA rating of 2001 to 2003 (from memory)";
  finding.sentence = fmt::format("Half the track over the height is {} in \"{}\".",
                                 finding.value->text, worst.state->label);
  const double lower_m = stability.cg_height_m - stability.track_at_cg_m / (2 * 1.05);
  finding.advice =
      finding.verdict == Verdict::kGood || lower_m <= 0
          ? std::string("Nothing to do.")
          : fmt::format(
                "Bring the balance point {} down, or make the track {} wider, for 1.05.",
                print.length_up(lower_m),
                print.length_up(2 * 1.05 * stability.cg_height_m - stability.track_at_cg_m));
  if (judgement.in_doubt) {
    assume(finding, fmt::format("The height is known to {}, which leaves it at {:.2f} to {:.2f}.",
                                print.length(height_half_width_m(*worst.state)), worst.value - half,
                                worst.value + half));
  }
  finding.working.push_back(
      {.formula = "SSF = T / 2h",
       .with_values = fmt::format("{} / (2 x {}) = {}", print.length(stability.track_at_cg_m),
                                  print.length(stability.cg_height_m), finding.value->text),
       .source = "NHTSA, 49 CFR 575 rulemaking (2000-2001)",
       .input_paths = {"/masses", "/axles"}});
  subject.findings.push_back(std::move(finding));
}

void add_grade(const Subject& subject, bool up) {
  const Worst worst = find_worst(subject.report, [up](const weigh::Stability& s) {
    return up ? s.up_grade_rad : s.down_grade_rad;
  });
  if (worst.state == nullptr) return;
  const Printer& print = subject.print;
  const Band band{.low = kGrade_rad, .close = 0.1 * kGrade_rad, .stops = false};
  Finding finding;
  finding.id = up ? "grade.up" : "grade.down";
  finding.work = "weigh";
  finding.verdict = judge(worst.value, band).verdict;
  finding.subject = up ? "Grade, facing up" : "Grade, facing down";
  finding.path = "/masses";
  finding.value = print.number(worst.value, Dimension::kAngle);
  finding.limit = print.number(kGrade_rad, Dimension::kAngle);
  finding.edge = Edge::kLeast;
  finding.basis = "a 60 % grade (common practice for off-road trucks)";
  finding.sentence = fmt::format("Standing still, the {} wheels lift at {} in \"{}\".",
                                 up ? "front" : "rear", finding.value->text, worst.state->label);
  finding.advice = "Nothing to do.";
  if (finding.verdict != Verdict::kGood) {
    const auto& stability = *worst.standing->stability;
    const auto& loads = *worst.standing->axle_loads;
    const double total_N = loads.front_N + loads.rear_N;
    const double L = worst.state->weigh.footing->wheelbase_m();
    const double now_m = L * (up ? loads.front_N : loads.rear_N) / total_N;
    const double wanted_m = stability.cg_height_m * std::tan(1.1 * kGrade_rad);
    finding.advice =
        worst.state->weigh.hitch ? fmt::format("Don't take the trailer up more than {:.0f} %.",
                                               100 * std::tan(worst.value / 1.1))
        : wanted_m > now_m
            ? fmt::format("Shift {} from end to end of the wheelbase towards the {}.",
                          print.mass(total_N / g * (wanted_m - now_m) / L), up ? "front" : "rear")
            : fmt::format("Keep to grades below {}.", print.angle(worst.value / 1.1));
  }
  finding.working.push_back(
      {.formula = "tan(grade) = distance of the balance point from the lower axle / its height",
       .with_values = finding.value->text,
       .source = "statics of a rigid truck standing still",
       .input_paths = {"/masses", "/axles"}});
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_stability_findings(const Subject& subject) {
  add_side_slope(subject);
  add_factor(subject);
  add_grade(subject, true);
  add_grade(subject, false);
}

}  // namespace rig::check
