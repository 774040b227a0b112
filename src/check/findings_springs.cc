#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/findings.h"
#include "check/lengths.h"
#include "check/words.h"

namespace rig::check {
namespace {

using suspension::CoilSpring;
using units::Dimension;

constexpr const char* kSweepSource = "solved poses: bump, droop and both crossed-up corners";

/// Wire of a coil that does not tell its own, m.
constexpr double kUsualWire_m = 0.0127;
/// No truck coil is longer free than this, m.
constexpr double kLongestCoil_m = 0.762;

double length_at(const suspension::SweptPose& pose, const CoilSpring& coil) {
  return (pose.q.head<3>() + pose.R_VA * coil.p_AQ - coil.p_VP).norm();
}

/// A coil and how far its seat is still to be moved.
struct JudgedSpring {
  const CoilSpring* coil = nullptr;
  double move_m = 0;
  Extent extent;
  double shortest_m() const { return extent.least.length_m + move_m; }
  double longest_m() const { return extent.most.length_m + move_m; }
};

JudgedSpring judge_coil(const AxleReport& axle, const CoilSpring& coil) {
  JudgedSpring judged{
      .coil = &coil, .move_m = 0, .extent = calc_extent(axle, coil.p_VP, coil.p_AQ)};
  for (const auto& seat : axle.seats) {
    if (seat.coil.name == coil.name) judged.move_m = seat.seat.move_upper_seat_m;
  }
  return judged;
}

std::string seat_note(const JudgedSpring& judged, const Printer& print) {
  if (std::abs(judged.move_m) < print.length_step_m() / 2) return "";
  return fmt::format(" {} {} for the moved seat", judged.move_m < 0 ? "-" : "+",
                     print.length(std::abs(judged.move_m)));
}

/// Wheel travel per coil travel at the bump end.
double ratio_at_bump(const AxleReport& axle, const CoilSpring& coil) {
  const auto index = static_cast<std::size_t>(&coil - axle.model.coils.data());
  return std::max(0.1, std::abs(axle.bump.poses.back().coil_motion_ratios[index]));
}

/// Shortest that any coil of this wire can be solid, m.
double least_solid_m(const build::Axle& axle, const CoilSpring& coil) {
  for (const auto& entry : axle.coils) {
    const auto& wire = entry.value.wire;
    if (entry.path == coil.path && wire && wire->diameter.known()) return 3 * wire->diameter.si;
  }
  return 3 * kUsualWire_m;
}

std::string solid_advice(const Subject& subject, const AxleReport& axle, const JudgedSpring& judged,
                         double lacking_m) {
  const Printer& print = subject.print;
  const CoilSpring& coil = *judged.coil;
  const double solid_m = coil.solid_length_m - lacking_m;
  const auto& entry = *build::find(subject.build.axles, axle.id);
  if (solid_m < least_solid_m(entry.value, coil)) {
    const auto reach = reach_words(axle, print, [&](const suspension::SweptPose& pose) {
      return length_at(pose, coil) + judged.move_m >= coil.solid_length_m;
    });
    return fmt::format("{}, as no coil is solid at {}: this one allows {}.", kNotPossible,
                       print.length(std::max(0.0, solid_m)), reach);
  }
  return fmt::format(
      "Stop the axle {} earlier with a taller bump stop, or use a coil that is solid at {} or "
      "less.",
      print.length_up(lacking_m / ratio_at_bump(axle, coil)), print.length(solid_m));
}

void add_solid(const Subject& subject, const AxleReport& axle, const JudgedSpring& judged) {
  const Printer& print = subject.print;
  const Limit& limit = subject.limits.spring_travel_left;
  const CoilSpring& coil = *judged.coil;
  const double left_m = judged.shortest_m() - coil.solid_length_m;
  const std::string name = part_words(axle, coil.path, coil.name);
  Finding finding;
  finding.id = fmt::format("coil_solid.{}.{}", axle.id, last_key(coil.path));
  finding.work = "axles";
  finding.verdict = left_m < 0 ? Verdict::kStop : judge(left_m, at_least(limit)).verdict;
  finding.subject = fmt::format("Coil in bump, {}", axle_words(axle));
  finding.path = coil.path + "/solid_length";
  finding.value = print.number(left_m, Dimension::kLength);
  // Steel on steel stops the work, whatever travel is wanted in hand.
  finding.limit = print.number(left_m < 0 ? 0 : limit.si, Dimension::kLength);
  finding.edge = Edge::kLeast;
  finding.basis = left_m < 0 ? "the coil's own solid length in the file" : limit.basis;
  const std::string place = place_words(axle, print, judged.extent.least);
  finding.sentence = left_m < 0 ? fmt::format("The {} is solid {} short of where it is wanted, {}.",
                                              name, print.length(-left_m), place)
                                : fmt::format("The {} has {} left before it is solid, {}.", name,
                                              print.length(left_m), place);
  if (finding.verdict == Verdict::kGood) {
    finding.advice = "Nothing to do.";
  } else if (left_m >= limit.si) {
    finding.advice = kInside;
  } else {
    finding.advice = solid_advice(subject, axle, judged, limit.si - left_m);
  }
  finding.working.push_back(
      {.formula = "left = shortest length - solid length",
       .with_values = fmt::format("{}{} - {} = {}", print.length(judged.extent.least.length_m),
                                  seat_note(judged, print), print.length(coil.solid_length_m),
                                  print.length(left_m)),
       .source = kSweepSource,
       .input_paths = {coil.path + "/solid_length", coil.path + "/upper", coil.path + "/lower",
                       axle.path + "/bump_travel"}});
  subject.findings.push_back(std::move(finding));
}

void add_loose(const Subject& subject, const AxleReport& axle, const JudgedSpring& judged) {
  const Printer& print = subject.print;
  const CoilSpring& coil = *judged.coil;
  const double held_m = coil.free_length_m - judged.longest_m();
  const std::string name = part_words(axle, coil.path, coil.name);
  const double close_m = 0.00635;  // 1/4 in: a coil barely held rattles.
  Finding finding;
  finding.id = fmt::format("coil_loose.{}.{}", axle.id, last_key(coil.path));
  finding.work = "axles";
  finding.verdict = judge(held_m, {.low = 0, .close = close_m, .stops = false}).verdict;
  finding.subject = fmt::format("Coil in droop, {}", axle_words(axle));
  finding.path = coil.path + "/free_length";
  finding.value = print.number(held_m, Dimension::kLength);
  finding.limit = print.number(0, Dimension::kLength);
  finding.edge = Edge::kLeast;
  finding.basis = "a coil longer than free falls off its seat unless it is held (common practice)";
  const std::string place = place_words(axle, print, judged.extent.most);
  finding.sentence =
      held_m < 0 ? fmt::format("The {} is {} loose between its seats, {}.", name,
                               print.length(-held_m), place)
                 : fmt::format("The {} stays {} squeezed, {}.", name, print.length(held_m), place);
  finding.advice = "Nothing to do.";
  if (held_m >= 0 && finding.verdict != Verdict::kGood) {
    finding.advice = kInside;
  } else if (held_m < 0) {
    const double longer_m = close_m - held_m;
    const SeatReport* seat = nullptr;
    for (const auto& known : axle.seats) {
      if (known.coil.name == coil.name) seat = &known;
    }
    finding.advice = fmt::format(
        "Hold the axle {} short of the wanted droop with a strap, clamp the "
        "coil to both seats",
        print.length(longer_m));
    const double step_m = print.length_step_m();
    const double free_m = std::ceil((coil.free_length_m + longer_m) / step_m) * step_m;
    if (free_m > kLongestCoil_m) {
      const auto reach = reach_words(axle, print, [&](const suspension::SweptPose& pose) {
        return length_at(pose, coil) + judged.move_m <= coil.free_length_m;
      });
      finding.advice = fmt::format("{}, as no coil is {} long free: this one allows {}.",
                                   kNotPossible, print.length(free_m), reach);
    } else if (seat != nullptr) {
      finding.advice += fmt::format(
          ", or use one {} long free and {}, which sits the same.", print.length(free_m),
          print.text(
              suspension::calc_rate_for_seat(seat->seat.load_N, free_m, seat->seat.loaded_length_m),
              Dimension::kStiffness));
    } else {
      finding.advice += ".";
    }
  }
  finding.working.push_back(
      {.formula = "squeeze left = free length - longest length",
       .with_values = fmt::format("{} - ({}{}) = {}", print.length(coil.free_length_m),
                                  print.length(judged.extent.most.length_m),
                                  seat_note(judged, print), print.length(held_m)),
       .source = kSweepSource,
       .input_paths = {coil.path + "/free_length", coil.path + "/upper", coil.path + "/lower",
                       axle.path + "/droop_travel"}});
  subject.findings.push_back(std::move(finding));
}

/// A coil that carries nothing at the drawn height: nothing told of this end's springs holds then.
void add_loose_as_drawn(const Subject& subject, const AxleReport& axle) {
  if (!is_loose_as_drawn(axle)) return;
  const Printer& print = subject.print;
  const CoilSpring* loosest = nullptr;
  double loose_m = 0;
  for (const auto& coil : axle.model.coils) {
    const double here_m = length_at(*axle.drawn, coil) - coil.free_length_m;
    if (!(here_m > loose_m)) continue;
    loosest = &coil;
    loose_m = here_m;
  }
  if (loosest == nullptr) return;
  const double drawn_m = loosest->free_length_m + loose_m;
  const double wanted_m = judge_coil(axle, *loosest).move_m;
  Finding finding;
  finding.id = fmt::format("coil_drawn.{}.{}", axle.id, last_key(loosest->path));
  finding.work = "axles";
  finding.verdict = Verdict::kStop;
  finding.subject = fmt::format("Coil as drawn, {}", axle_words(axle));
  finding.path = loosest->path + "/free_length";
  finding.value = print.number(drawn_m, Dimension::kLength);
  finding.limit = print.number(loosest->free_length_m, Dimension::kLength);
  finding.edge = Edge::kMost;
  finding.basis = "the coil's own free length in the file";
  finding.sentence = fmt::format(
      "The {} is {} loose between its seats as drawn and carries nothing: the ride frequency and "
      "damping of this end can't be told.",
      part_words(axle, loosest->path, loosest->name), print.length(loose_m));
  finding.advice =
      wanted_m < 0
          ? fmt::format("Move its upper seat {} down, as the load asks.", print.length(-wanted_m))
          : fmt::format("Bring its seats more than {} nearer, or use a longer coil.",
                        print.length_up(loose_m));
  finding.working.push_back(
      {.formula = "loose = seat to seat as drawn - free length",
       .with_values = fmt::format("{} - {} = {}", print.length(drawn_m),
                                  print.length(loosest->free_length_m), print.length(loose_m)),
       .source = "the pose as drawn",
       .input_paths = {finding.path, loosest->path + "/upper", loosest->path + "/lower"}});
  subject.findings.push_back(std::move(finding));
}

/// The worse side of every coil that is given once.
template <typename Worse>
std::vector<JudgedSpring> worst_sides(const AxleReport& axle, Worse worse) {
  std::vector<JudgedSpring> kept;
  for (const auto& coil : axle.model.coils) {
    const JudgedSpring judged = judge_coil(axle, coil);
    auto same = std::find_if(kept.begin(), kept.end(),
                             [&](const JudgedSpring& k) { return k.coil->path == coil.path; });
    if (same == kept.end()) {
      kept.push_back(judged);
    } else if (worse(judged, *same)) {
      *same = judged;
    }
  }
  return kept;
}

}  // namespace

void add_spring_findings(const Subject& subject) {
  for (const auto& axle : subject.report.axles) {
    add_loose_as_drawn(subject, axle);
    if (axle.bump.poses.empty()) continue;
    for (const auto& judged : worst_sides(axle, [](const JudgedSpring&a, const JudgedSpring&b) {
           return a.shortest_m() < b.shortest_m();
         })) {
      if (judged.coil->solid_length_m > 0) add_solid(subject, axle, judged);
    }
    for (const auto& judged : worst_sides(axle, [](const JudgedSpring&a, const JudgedSpring&b) {
           return a.longest_m() > b.longest_m();
         })) {
      add_loose(subject, axle, judged);
    }
  }
}

}  // namespace rig::check
