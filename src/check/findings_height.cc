#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/findings.h"
#include "check/truck.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;
using units::g;

/// What leaves the height at a corner in doubt: rate, free length, and the load on it.
struct HeightDoubt {
  double half_width_m = 0;
  std::string words;
  std::vector<std::string> paths;
};

HeightDoubt doubt_of_coil(const Subject& subject, const StateReport& ride, const AxleReport& axle,
                          const SeatReport& seat) {
  const auto* entry = build::find(subject.build.axles, axle.id);
  HeightDoubt doubt;
  for (const auto& coil : entry->value.coils) {
    if (coil.path != seat.coil.path) continue;
    const double k = seat.coil.rate_N_per_m;
    const double load_N = corner_load_half_width_N(ride, axle.front, seat.coil.side);
    const double from_load = load_N / k;
    const double from_rate = seat.seat.load_N / (k * k) * half_width(coil.value.rate);
    const double from_free = half_width(coil.value.free_length);
    doubt.half_width_m = std::hypot(from_load, from_rate, from_free);
    doubt.words = fmt::format(
        "load to {}, rate to {} and free length to {} move it by {}", subject.print.force(load_N),
        subject.print.text(half_width(coil.value.rate), Dimension::kStiffness),
        subject.print.length(from_free), subject.print.length(doubt.half_width_m));
    doubt.paths = {coil.path + "/rate", coil.path + "/free_length"};
  }
  return doubt;
}

HeightDoubt doubt_of_leaf(const Subject& subject, const StateReport& ride, const AxleReport& axle,
                          int side) {
  const auto* entry = build::find(subject.build.axles, axle.id);
  HeightDoubt doubt;
  for (const auto& leaf : entry->value.leaf_packs) {
    const double k = leaf.value.rate.si;
    const double load_N = corner_load_half_width_N(ride, axle.front, side);
    const double spring_N = axle.sprung_per_wheel_kg * g;
    doubt.half_width_m = std::hypot(load_N / k, spring_N / (k * k) * half_width(leaf.value.rate),
                                    half_width(leaf.value.free_arch));
    doubt.words = fmt::format(
        "load to {}, rate to {} and free arch to {} move it by {}", subject.print.force(load_N),
        subject.print.text(half_width(leaf.value.rate), Dimension::kStiffness),
        subject.print.length(half_width(leaf.value.free_arch)),
        subject.print.length(doubt.half_width_m));
    doubt.paths = {leaf.path + "/rate", leaf.path + "/free_arch"};
  }
  return doubt;
}

const SeatReport* find_seat(const AxleReport& axle, int side) {
  for (const auto& seat : axle.seats) {
    if (seat.coil.side == side) return &seat;
  }
  return nullptr;
}

std::string height_advice(const Subject& subject, const AxleReport& axle, const SeatReport* seat,
                          int side, double error_m) {
  const Printer& print = subject.print;
  if (seat != nullptr) {
    const double move_m = seat->seat.move_upper_seat_m;
    return fmt::format("Move the {}'s upper seat {} {}: seat to seat {} under load.",
                       part_words(axle, seat->coil.path, seat->coil.name),
                       print.length(std::abs(move_m)), move_m < 0 ? "down" : "up",
                       print.length(seat->seat.loaded_length_m));
  }
  return error_m > 0
             ? fmt::format("Take {} of arch out of the {} spring.", print.length(error_m),
                           side_words(side))
             : fmt::format(
                   "Put a {} block between the {} spring and its seat, or {} more arch in it.",
                   print.length(-error_m), side_words(side), print.length(-error_m));
}

/// Advice where the way to go is less than can be measured or less than it is known to.
std::string small_advice(const Subject& subject, double move_m, const HeightDoubt& doubt) {
  const Printer& print = subject.print;
  if (std::abs(move_m) < print.length_step_m() / 2) return "Nothing to do: no tape shows it.";
  return fmt::format(
      "Move nothing yet: what is wanted, {}, is no more than the {} it is known to. Weigh the "
      "truck and measure the spring first.",
      print.length(std::abs(move_m)), print.length(doubt.half_width_m));
}

/// Both sides of an axle out the same way are set right together, in one sentence.
std::string pair_advice(const Subject& subject, const AxleReport& axle, double left_m,
                        double right_m) {
  const Printer& print = subject.print;
  const char* end = axle.front ? "front" : "rear";
  const auto both = [&](double l, double r) {
    const std::string left = print.length(std::abs(l)), right = print.length(std::abs(r));
    return left == right ? left : fmt::format("{} (left) and {} (right)", left, right);
  };
  const SeatReport *left = find_seat(axle, 1), *right = find_seat(axle, -1);
  if (left != nullptr && right != nullptr) {
    const double l = left->seat.move_upper_seat_m, r = right->seat.move_upper_seat_m;
    if (!(l * r > 0)) return "";
    return fmt::format("Move both {} upper seats {} {}: seat to seat {} under load.", end,
                       l < 0 ? "down" : "up", both(l, r),
                       both(left->seat.loaded_length_m, right->seat.loaded_length_m));
  }
  if (left != nullptr || right != nullptr) return "";
  return left_m > 0
             ? fmt::format("Take arch out of both {} springs: {}.", end, both(left_m, right_m))
             : fmt::format(
                   "Put a block between both {} springs and their seats, or as much "
                   "more arch in them: {}.",
                   end, both(left_m, right_m));
}

/// Gives the two height findings of an axle, the last two made, their common advice.
void join_corners(const Subject& subject, const AxleReport& axle) {
  auto& findings = subject.findings;
  Finding &left = findings[findings.size() - 2], &right = findings.back();
  if (left.verdict == Verdict::kGood || right.verdict == Verdict::kGood) return;
  if (!(left.value->si * right.value->si > 0)) return;
  const std::string words = pair_advice(subject, axle, left.value->si, right.value->si);
  if (!words.empty()) left.advice = right.advice = words;
}

/// Returns whether something is to be moved there.
bool add_corner(const Subject& subject, const StateReport& ride, const AxleReport& axle,
                std::size_t index, int side) {
  const Printer& print = subject.print;
  const Limit& limit = subject.limits.height_error;
  const double error_m = calc_height_error_m(*ride.truck, *ride.settled, index, side);
  const SeatReport* seat = find_seat(axle, side);
  const HeightDoubt doubt = seat != nullptr ? doubt_of_coil(subject, ride, axle, *seat)
                                            : doubt_of_leaf(subject, ride, axle, side);
  const Band band{
      .low = -limit.si, .high = limit.si, .close = 0.1 * limit.si, .stops = limit.from_builder};
  const Judgement judgement = judge(error_m, band, doubt.half_width_m);
  const std::string end = axle.front ? "front" : "rear";
  Finding finding;
  finding.id = fmt::format("height.{}.{}", axle.id, side_words(side));
  finding.work = "axles";
  finding.verdict = judgement.verdict;
  finding.subject = fmt::format("Ride height, {} {}", side_words(side), end);
  finding.path = seat != nullptr ? seat->coil.path : axle.path;
  finding.value = print.number(error_m, Dimension::kLength);
  finding.limit = print.number(limit.si, Dimension::kLength);
  finding.edge = Edge::kMost;
  finding.basis = limit.basis;
  finding.sentence =
      std::abs(error_m) < print.length_step_m() / 2
          ? fmt::format("Sits as drawn in \"{}\".", ride.label)
          : fmt::format("Sits {} {} than drawn in \"{}\".", print.length(std::abs(error_m)),
                        error_m > 0 ? "higher" : "lower", ride.label);
  const double move_m = seat != nullptr ? seat->seat.move_upper_seat_m : error_m;
  const bool moves = (finding.verdict != Verdict::kGood || std::abs(error_m) >= limit.si / 2) &&
                     std::abs(move_m) >= std::max(print.length_step_m() / 2, doubt.half_width_m);
  if (moves) {
    finding.advice = height_advice(subject, axle, seat, side, error_m);
  } else {
    finding.advice =
        finding.verdict == Verdict::kGood ? "Nothing to do." : small_advice(subject, move_m, doubt);
  }
  if (judgement.in_doubt) {
    assume(finding,
           fmt::format("Known no better than that: {}. Weigh the truck and measure the spring "
                       "before tacking.",
                       doubt.words));
  }
  if (seat != nullptr) {
    finding.working.push_back(
        {.formula = "L = L0 - F / k",
         .with_values = fmt::format("{} - {} / {} = {}", print.length(seat->coil.free_length_m),
                                    print.force(seat->seat.load_N),
                                    print.text(seat->coil.rate_N_per_m, Dimension::kStiffness),
                                    print.length(seat->seat.loaded_length_m)),
         .source = "statics; load from the truck settled on its tyres with the seats moved",
         .input_paths = {seat->coil.path + "/free_length", seat->coil.path + "/rate", "/masses"}});
    finding.working.push_back(
        {.formula = "move of the upper seat = L - seat to seat as drawn",
         .with_values = fmt::format("{} - {} = {}", print.length(seat->seat.loaded_length_m),
                                    print.length(seat->seat.drawn_length_m),
                                    print.length(seat->seat.move_upper_seat_m)),
         .source = "geometry",
         .input_paths = {seat->coil.path + "/upper", seat->coil.path + "/lower"}});
  }
  finding.working.push_back({.formula = "error = frame above wheel centre, settled - as drawn",
                             .with_values = finding.value->text,
                             .source = "static equilibrium of the whole truck",
                             .input_paths = {axle.path, "/masses", "/ride_state"}});
  subject.findings.push_back(std::move(finding));
  return moves;
}

/// Left against right, tyres included.
void add_level(const Subject& subject, const StateReport& ride) {
  const Printer& print = subject.print;
  const Limit& limit = subject.limits.height_error;
  const auto& front = ride.truck->axles.front();
  const double lean_m = ride.settled->roll_rad * front.track_m;
  Finding finding;
  finding.id = "level.side";
  finding.work = "axles";
  finding.verdict = judge(std::abs(lean_m), at_most(limit)).verdict;
  finding.subject = "Level, side to side";
  finding.path = "/ride_state";
  finding.value = print.number(std::abs(lean_m), Dimension::kLength);
  finding.limit = print.number(limit.si, Dimension::kLength);
  finding.edge = Edge::kMost;
  finding.basis = limit.basis;
  const char* low = lean_m > 0 ? "right" : "left";
  finding.sentence = std::abs(lean_m) < print.length_step_m() / 2
                         ? fmt::format("Sits level in \"{}\".", ride.label)
                         : fmt::format("Leans {} to the {} over the front track in \"{}\".",
                                       finding.value->text, low, ride.label);
  double roll_rate = 0;
  for (const auto& axle : subject.report.axles) {
    if (axle.drawn && axle.drawn->numbers.roll_rate_Nm_per_rad > 0) {
      roll_rate += axle.drawn->numbers.roll_rate_Nm_per_rad;
    }
  }
  const double moment_Nm = roll_rate * std::abs(ride.settled->roll_rad);
  finding.advice =
      finding.verdict == Verdict::kGood
          ? "Nothing to do."
          : fmt::format(
                "Move {} by {} from the {} side to the other, or set the {} seats by the moves "
                "told per corner.",
                print.mass(moment_Nm / g / (0.5 * front.track_m)),
                print.length(0.5 * front.track_m), low, low);
  finding.working.push_back(
      {.formula = "lean = roll x track",
       .with_values = fmt::format("{} x {} = {}", print.angle(ride.settled->roll_rad),
                                  print.length(front.track_m), print.length(lean_m)),
       .source = "static equilibrium of the whole truck",
       .input_paths = {"/masses", front.path + "/track"}});
  subject.findings.push_back(std::move(finding));
}

/// Wheel centres on their squashed tyres against the height drawn.
void add_tyre_height(const Subject& subject, const StateReport& ride, const AxleReport& axle,
                     std::size_t index) {
  const Printer& print = subject.print;
  const auto& settled = ride.settled->axles[index];
  const double height_m =
      (settled.wheel_centre_heights_m[0] + settled.wheel_centre_heights_m[1]) / 2;
  const double error_m = height_m - axle.model.p_VC.z();
  const double allowed_m = units::m_from_inch(0.25);
  Finding finding;
  finding.id = "wheel_height." + axle.id;
  finding.work = "axles";
  finding.verdict = judge(std::abs(error_m), at_most(allowed_m, false)).verdict;
  finding.subject = fmt::format("Wheel centres, {}", axle_words(axle));
  finding.path = axle.path + "/height";
  finding.value = print.number(error_m, Dimension::kLength);
  finding.limit = print.number(allowed_m, Dimension::kLength);
  finding.edge = Edge::kMost;
  finding.basis = "off the height in the file (common practice)";
  const std::string height = print.length(height_m);
  finding.sentence = fmt::format("Stand {} above the floor on the squashed tyres; drawn at {}.",
                                 height, print.length(axle.model.p_VC.z()));
  finding.advice = finding.verdict == Verdict::kGood
                       ? "Nothing to do."
                       : fmt::format(
                             "Set the axle's height in the file to {}, so that link slopes are "
                             "drawn as they will be.",
                             height);
  const auto& tyre = ride.truck->tyres[index];
  const double load_N = (settled.wheel_loads_N[0] + settled.wheel_loads_N[1]) / 2;
  finding.working.push_back(
      {.formula = "height = free radius - load / tyre rate",
       .with_values =
           fmt::format("{} - {} / {} = {}", print.length(tyre.free_radius_m), print.force(load_N),
                       print.text(tyre.rate_N_per_m, Dimension::kStiffness), height),
       .source = "statics, mean of left and right",
       .input_paths = {axle.path + "/tyre", "/masses"}});
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_height_findings(const Subject& subject) {
  const StateReport* ride = subject.report.ride();
  if (ride == nullptr || !ride->settled) return;
  for (std::size_t a = 0; a < ride->truck->axles.size(); ++a) {
    const AxleReport* axle = subject.report.axle(ride->truck->axles[a].id);
    if (axle == nullptr) continue;
    const bool left_moves = add_corner(subject, *ride, *axle, a, 1);
    const bool right_moves = add_corner(subject, *ride, *axle, a, -1);
    if (left_moves && right_moves) join_corners(subject, *axle);
    add_tyre_height(subject, *ride, *axle, a);
  }
  add_level(subject, *ride);
}

}  // namespace rig::check
