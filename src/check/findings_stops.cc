#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/nan.h"
#include "check/findings.h"
#include "check/lengths.h"
#include "check/words.h"

namespace rig::check {
namespace {

using suspension::Stop;
using units::Dimension;

/// What else ends the bump travel, and at what heave.
struct End {
  double heave_m = std::numeric_limits<double>::infinity();
  std::string words;
  std::string path;
};

End find_hard_end(const AxleReport& axle, int side) {
  End end;
  const auto consider = [&](double heave_m, std::string words, const std::string& path) {
    if (heave_m < end.heave_m) end = {heave_m, std::move(words), path};
  };
  const auto concerns = [&](int other) { return side == 0 || other == 0 || other == side; };
  for (const auto& coil : axle.model.coils) {
    if (coil.solid_length_m <= 0 || !concerns(coil.side)) continue;
    double move_m = 0;
    for (const auto& seat : axle.seats) {
      if (seat.coil.name == coil.name) move_m = seat.seat.move_upper_seat_m;
    }
    consider(find_heave_m(axle, coil.p_VP, coil.p_AQ, coil.solid_length_m - move_m),
             part_words(axle, coil.path, coil.name) + " is solid", coil.path + "/solid_length");
  }
  for (const auto& shock : axle.model.shocks) {
    if (shock.closed_length_m <= 0 || !concerns(shock.side)) continue;
    consider(find_heave_m(axle, shock.p_VP, shock.p_AQ, shock.closed_length_m),
             part_words(axle, shock.path, shock.name) + " bottoms", shock.path + "/closed_length");
  }
  return end;
}

/// One side of a stop: where it touches, and what would end the travel without it.
struct StopSide {
  const Stop* stop = nullptr;
  double touch_m = 0;
  End end;
  Extent extent;

  double margin_m() const { return end.heave_m - touch_m; }
  double squeeze_m() const { return std::max(0.0, stop->free_height_m - extent.least.length_m); }
};

/// The stop must touch, and do its work, before steel meets steel.
void add_order(const Subject& subject, const AxleReport& axle, const StopSide& side) {
  const Printer& print = subject.print;
  const Stop& stop = *side.stop;
  const double touch_m = side.touch_m;
  const End& end = side.end;
  if (!std::isfinite(touch_m) || !std::isfinite(end.heave_m)) return;
  const bool has_end_travel = stop.end_rate_N_per_m > stop.rate_N_per_m;
  // Without an end travel in the file half the stop's height is what rubber gives.
  const double work_m = has_end_travel ? stop.end_travel_m : stop.free_height_m / 2;
  const double margin_m = side.margin_m();
  const std::string name = part_words(axle, stop.path, stop.name);
  Finding finding;
  finding.id = fmt::format("stop_order.{}.{}", axle.id, last_key(stop.path));
  finding.work = "axles";
  finding.verdict = margin_m < 0        ? Verdict::kStop
                    : margin_m < work_m ? Verdict::kLook
                                        : Verdict::kGood;
  finding.subject = fmt::format("Bump stop first, {}", axle_words(axle));
  finding.path = stop.path;
  finding.value = print.number(margin_m, Dimension::kLength);
  finding.limit = print.number(margin_m < 0 ? 0 : work_m, Dimension::kLength);
  finding.edge = Edge::kLeast;
  finding.basis = margin_m < 0 ? "rubber must end the bump, not steel: the parts' own lengths in "
                                 "the file"
                  : has_end_travel
                      ? "the stop's own end travel: rubber must end the bump, not steel "
                        "(common practice)"
                      : "half the stop's height: rubber must end the bump, not steel (common "
                        "practice)";
  finding.sentence = margin_m < 0
                         ? fmt::format("The {} {} before the {} touches.", end.words,
                                       print.length(-margin_m), name)
                         : fmt::format("The {} touches at {} of bump, {} before the {}.", name,
                                       print.length(touch_m), print.length(margin_m), end.words);
  const double taller_m = stop.free_height_m + work_m - margin_m;
  if (finding.verdict == Verdict::kGood) {
    finding.advice = "Nothing to do.";
  } else if (taller_m >= (axle.model.p_VC + stop.p_AQ - stop.p_VP).norm()) {
    finding.advice =
        fmt::format("{}, as a stop {} tall would touch as it stands: the {} at {} of bump.",
                    kNotPossible, print.length(taller_m), end.words, print.length(end.heave_m));
  } else {
    finding.advice = fmt::format("Make the stop {} taller: {}.", print.length_up(work_m - margin_m),
                                 print.length_up(taller_m));
  }
  finding.working.push_back(
      {.formula = "margin = heave of the hard end - heave at first touch",
       .with_values = fmt::format("{} - {} = {}", print.length(end.heave_m), print.length(touch_m),
                                  print.length(margin_m)),
       .source = "solved poses in bump, straight on from the wanted bump",
       .input_paths = {stop.path, end.path}});
  subject.findings.push_back(std::move(finding));
}

/// Wanted bump against what the stop lets through.
void add_reach(const Subject& subject, const AxleReport& axle, const StopSide& side) {
  const Printer& print = subject.print;
  const Stop& stop = *side.stop;
  const Extent& extent = side.extent;
  const double most_m =
      stop.end_rate_N_per_m > stop.rate_N_per_m ? stop.end_travel_m : stop.free_height_m / 2;
  const double squeeze_m = side.squeeze_m();
  const std::string name = part_words(axle, stop.path, stop.name);
  Finding finding;
  finding.id = fmt::format("stop_reach.{}.{}", axle.id, last_key(stop.path));
  finding.work = "axles";
  finding.verdict = judge(squeeze_m, {.high = most_m, .stops = false}).verdict;
  finding.subject = fmt::format("Bump stop at the wanted bump, {}", axle_words(axle));
  finding.path = stop.path;
  finding.value = print.number(squeeze_m, Dimension::kLength);
  finding.limit = print.number(most_m, Dimension::kLength);
  finding.edge = Edge::kMost;
  finding.basis = "what the stop can be squeezed, from the file";
  const std::string place = place_words(axle, print, extent.least);
  finding.sentence =
      squeeze_m > most_m ? fmt::format(
                               "The {} would have to be squeezed {} of its {}, {}: the wanted bump "
                               "is not reached.",
                               name, print.length(squeeze_m), print.length(most_m), place)
      : squeeze_m > 0 ? fmt::format("The {} is squeezed {} of its {}, {}.", name,
                                    print.length(squeeze_m), print.length(most_m), place)
                      : fmt::format("The {} is not touched within the wanted bump.", name);
  const double over_m = squeeze_m - most_m;
  if (finding.verdict == Verdict::kGood) {
    finding.advice = "Nothing to do.";
  } else if (over_m >= stop.free_height_m) {
    finding.advice = fmt::format("{}: this stop allows {}.", kNotPossible,
                                 reach_words(axle, print, [&](const suspension::SweptPose& pose) {
                                   const Vec3 p_PQ_V =
                                       pose.q.head<3>() + pose.R_VA * stop.p_AQ - stop.p_VP;
                                   return stop.free_height_m - p_PQ_V.norm() <= most_m;
                                 }));
  } else {
    finding.advice = fmt::format("Make the stop {} shorter, or ask for {} less bump.",
                                 print.length_up(over_m), print.length_up(over_m));
  }
  finding.working.push_back(
      {.formula = "squeeze = free height - shortest distance",
       .with_values = fmt::format("{} - {} = {}", print.length(stop.free_height_m),
                                  print.length(extent.least.length_m), print.length(squeeze_m)),
       .source = "solved poses: bump and both crossed-up corners",
       .input_paths = {stop.path, axle.path + "/bump_travel"}});
  subject.findings.push_back(std::move(finding));
}

void add_no_stop(const Subject& subject, const AxleReport& axle) {
  const Printer& print = subject.print;
  const End end = find_hard_end(axle, 0);
  Finding finding;
  finding.id = "stop_missing." + axle.id;
  finding.work = "axles";
  finding.verdict = Verdict::kLook;
  finding.subject = fmt::format("Bump stops, {}", axle_words(axle));
  finding.path = axle.path + "/bump_stops";
  finding.basis = "rubber must end the bump, not steel (common practice)";
  finding.sentence = std::isfinite(end.heave_m)
                         ? fmt::format("No bump stop is given; the {} at {} of bump.", end.words,
                                       print.length(end.heave_m))
                         : std::string("No bump stop is given; nothing ends the bump travel.");
  finding.advice =
      std::isfinite(end.heave_m)
          ? fmt::format("Fit stops that touch no later than {} of bump.",
                        print.length(std::min(axle.bump_m, end.heave_m - 0.0254)))
          : fmt::format("Fit stops that hold the axle at {} of bump.", print.length(axle.bump_m));
  finding.assumption = "That there is no stop is taken from the file.";
  subject.findings.push_back(std::move(finding));
}

/// Room to the stops as it stands in each load state.
void add_standing_room(const Subject& subject, const AxleReport& axle) {
  const Printer& print = subject.print;
  double least_m = std::numeric_limits<double>::infinity();
  const StateReport* worst = nullptr;
  const Stop* tightest = nullptr;
  std::vector<std::string> rooms;
  for (const auto& state : subject.report.states) {
    if (!state.settled) continue;
    double room_m = std::numeric_limits<double>::infinity();
    for (std::size_t a = 0; a < state.truck->axles.size(); ++a) {
      if (state.truck->axles[a].id != axle.id) continue;
      for (const auto& stop : axle.model.stops) {
        const double gap_m =
            calc_length_m(state.settled->axles[a].q, stop.p_VP, stop.p_AQ) - stop.free_height_m;
        if (gap_m < room_m) room_m = gap_m;
        if (gap_m < least_m) {
          least_m = gap_m;
          worst = &state;
          tightest = &stop;
        }
      }
    }
    if (std::isfinite(room_m))
      rooms.push_back(fmt::format("{}: {}", state.label, print.length(room_m)));
  }
  if (worst == nullptr) return;
  const double wanted_m = 0.0254;
  Finding finding;
  finding.id = "stop_room." + axle.id;
  finding.work = "axles";
  finding.verdict = judge(least_m, {.low = wanted_m, .close = 0, .stops = false}).verdict;
  finding.subject = fmt::format("Room to the bump stops, {}", axle_words(axle));
  finding.path = tightest->path;
  finding.value = print.number(least_m, Dimension::kLength);
  finding.limit = print.number(wanted_m, Dimension::kLength);
  finding.edge = Edge::kLeast;
  finding.basis = fmt::format("{} in every load state (common practice)", print.length(wanted_m));
  finding.sentence = least_m > 0
                         ? fmt::format("Stands {} clear of the stops in \"{}\", its lowest state.",
                                       print.length(least_m), worst->label)
                         : fmt::format("Rests on the stops, squeezed {}, in \"{}\".",
                                       print.length(-least_m), worst->label);
  const double rate = axle.drawn ? axle.drawn->numbers.wheel_rate_N_per_m : kNaN;
  finding.advice =
      finding.verdict == Verdict::kGood
          ? std::string("Nothing to do.")
          : fmt::format(
                "Add helper springs that carry {} more a side in that state, or make the stops {} "
                "shorter.",
                print.force(rate * (wanted_m - least_m)), print.length_up(wanted_m - least_m));
  finding.working.push_back(
      {.formula = "room = distance, settled - free height of the stop",
       .with_values = join_words(rooms),
       .source = "static equilibrium of the whole truck in each state, seats as drawn",
       .input_paths = {tightest->path, "/load_states"}});
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_stop_findings(const Subject& subject) {
  for (const auto& axle : subject.report.axles) {
    if (axle.bump.poses.empty()) continue;
    if (axle.model.stops.empty()) add_no_stop(subject, axle);
    // Of what is given for both sides the worse side is told.
    std::vector<StopSide> first, furthest;
    for (const auto& stop : axle.model.stops) {
      const StopSide side{&stop, find_heave_m(axle, stop.p_VP, stop.p_AQ, stop.free_height_m),
                          find_hard_end(axle, stop.side), calc_extent(axle, stop.p_VP, stop.p_AQ)};
      const auto keep = [&](std::vector<StopSide>& kept,
                            bool (*worse)(const StopSide&, const StopSide&)) {
        const auto same = std::find_if(
            kept.begin(), kept.end(), [&](const StopSide& k) { return k.stop->path == stop.path; });
        if (same == kept.end()) {
          kept.push_back(side);
        } else if (worse(side, *same)) {
          *same = side;
        }
      };
      keep(first, [](const StopSide& a, const StopSide& b) { return a.margin_m() < b.margin_m(); });
      keep(furthest,
           [](const StopSide& a, const StopSide& b) { return a.squeeze_m() > b.squeeze_m(); });
    }
    for (const auto& side : first) add_order(subject, axle, side);
    for (const auto& side : furthest) add_reach(subject, axle, side);
    add_standing_room(subject, axle);
  }
}

}  // namespace rig::check
