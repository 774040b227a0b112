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

/// A coil and how far its seat is still to be moved.
struct Judged {
  const CoilSpring* coil = nullptr;
  double move_m = 0;
  Extent extent;
  double shortest_m() const { return extent.least.length_m + move_m; }
  double longest_m() const { return extent.most.length_m + move_m; }
};

Judged judge_coil(const AxleReport& axle, const CoilSpring& coil) {
  Judged judged{.coil = &coil, .move_m = 0, .extent = calc_extent(axle, coil.p_VP, coil.p_AQ)};
  for (const auto& seat : axle.seats) {
    if (seat.coil.name == coil.name) judged.move_m = seat.seat.move_upper_seat_m;
  }
  return judged;
}

std::string seat_note(const Judged& judged, const Printer& print) {
  if (std::abs(judged.move_m) < print.length_step_m() / 2) return "";
  return fmt::format(" + {} for the moved seat", print.length(judged.move_m));
}

/// Wheel travel per coil travel at the bump end.
double ratio_at_bump(const AxleReport& axle, const CoilSpring& coil) {
  const auto index = static_cast<std::size_t>(&coil - axle.model.coils.data());
  return std::max(0.1, std::abs(axle.bump.poses.back().coil_motion_ratios[index]));
}

void add_solid(const Subject& subject, const AxleReport& axle, const Judged& judged) {
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
  finding.limit = print.number(limit.si, Dimension::kLength);
  finding.basis = limit.basis;
  const std::string place = place_words(axle, print, judged.extent.least);
  finding.sentence = left_m < 0 ? fmt::format("The {} is solid {} short of where it is wanted, {}.",
                                              name, print.length(-left_m), place)
                                : fmt::format("The {} has {} left before it is solid, {}.", name,
                                              print.length(left_m), place);
  if (finding.verdict == Verdict::kGood) {
    finding.advice = "Nothing to do.";
  } else {
    const double lacking_m = std::max(limit.si - left_m, print.length_step_m());
    finding.advice = fmt::format(
        "Stop the axle {} earlier with a taller bump stop, or use a coil that is solid at {} or "
        "less.",
        print.length_up(lacking_m / ratio_at_bump(axle, coil)),
        print.length(std::max(0.0, coil.solid_length_m - lacking_m)));
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

void add_loose(const Subject& subject, const AxleReport& axle, const Judged& judged) {
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
  finding.basis = "a coil longer than free falls off its seat unless it is held (common practice)";
  const std::string place = place_words(axle, print, judged.extent.most);
  finding.sentence =
      held_m < 0 ? fmt::format("The {} is {} loose between its seats, {}.", name,
                               print.length(-held_m), place)
                 : fmt::format("The {} stays {} squeezed, {}.", name, print.length(held_m), place);
  finding.advice = "Nothing to do.";
  if (finding.verdict != Verdict::kGood) {
    const double longer_m = close_m - held_m;
    const SeatReport* seat = nullptr;
    for (const auto& known : axle.seats) {
      if (known.coil.name == coil.name) seat = &known;
    }
    finding.advice = fmt::format(
        "Hold the axle {} short of the wanted droop with a strap, clamp the "
        "coil to both seats",
        print.length(longer_m));
    if (seat != nullptr) {
      const double step_m = print.length_step_m();
      const double free_m = std::ceil((coil.free_length_m + longer_m) / step_m) * step_m;
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

/// The worse side of every coil that is given once.
template <typename Worse>
std::vector<Judged> worst_sides(const AxleReport& axle, Worse worse) {
  std::vector<Judged> kept;
  for (const auto& coil : axle.model.coils) {
    const Judged judged = judge_coil(axle, coil);
    auto same = std::find_if(kept.begin(), kept.end(),
                             [&](const Judged& k) { return k.coil->path == coil.path; });
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
    if (axle.bump.poses.empty()) continue;
    for (const auto& judged : worst_sides(axle, [](const Judged&a, const Judged&b) {
           return a.shortest_m() < b.shortest_m();
         })) {
      if (judged.coil->solid_length_m > 0) add_solid(subject, axle, judged);
    }
    for (const auto& judged : worst_sides(
             axle, [](const Judged&a, const Judged&b) { return a.longest_m() > b.longest_m(); })) {
      add_loose(subject, axle, judged);
    }
  }
}

}  // namespace rig::check
