#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/findings.h"
#include "check/moved_plate.h"
#include "check/words.h"
#include "frame/plate_ends.h"
#include "frame/rail_line.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;

constexpr const char* kCutBasis =
    "smaller than the rail so that the weld lies in the corner: common practice";
constexpr const char* kPlateEndBasis =
    "one rail depth from a crossmember's weld: common practice; over as much a box's end still "
    "moves (own shell study)";
/// Of yield: what makes a station one of high stress for a plate's end. Half of what is let stand.
constexpr double kHighAtEnd = 1 / 3.0;

/// A width to the step that is drawn: down where a gap must be left.
std::string cut_words(double width_m, const Printer& print) {
  return print.bound(width_m, Dimension::kLength, Toward::kDown);
}

/// How a plate is sawn out.
void add_cut(const Subject& subject, const build::Entry<build::BoxingPlate>& plate) {
  const auto cut = frame::calc_plate_cut(subject.build, plate);
  if (!cut) return;
  const Printer& print = subject.print;
  const bool over = plate.value.fit == build::PlateFit::kOverTips;
  const std::string front = cut_words(cut->width_front_m, print);
  const std::string rear = cut_words(cut->width_rear_m, print);
  const std::string width =
      front == rear ? front : fmt::format("{} at the front to {} at the rear", front, rear);
  Finding finding;
  finding.id = "frame.plate_cut." + plate.id;
  finding.work = "frame";
  finding.subject = fmt::format("Cutting the {}", frame::shop_words(plate.value.label, plate.id));
  finding.path = plate.path;
  finding.value = print.number(std::min(cut->width_front_m, cut->width_rear_m), Dimension::kLength);
  finding.basis = kCutBasis;
  finding.verdict = Verdict::kGood;
  const std::string size =
      fmt::format("{} wide and {} long, along the rail", width, print.length(cut->length_m));
  finding.sentence =
      over ? fmt::format(
                 "{}: it leaves a step of {} at either edge, in which the weld holds flange "
                 "and plate.",
                 size, print.length(cut->less_m / 2))
           : fmt::format("{}: it goes in between the flanges with {} to spare for the root.", size,
                         print.length(cut->less_m));
  finding.advice = fmt::format("Cut it {}.", size);
  finding.working.push_back(
      {.formula = over ? "outside depth - 2 x setback; setback = thickness, at least 1/8 in"
                       : "clear depth between the flanges - root gap of 1/16 in",
       .with_values =
           fmt::format("{} less than the rail has: {}", print.length(cut->less_m), width),
       .source = "common practice",
       .input_paths = {plate.path + "/fit", plate.path + "/thickness"}});
  subject.findings.push_back(std::move(finding));
}

bool is_high(double von_mises_Pa, double yield_Pa) {
  return std::isnan(yield_Pa) || von_mises_Pa > kHighAtEnd * yield_Pa;
}

/// How the rail is stressed at an end; nothing while no case is known.
const frame::EndStress* find_end_stress(const Subject& subject, const frame::PlateEnd& end) {
  for (const frame::EndStress& one : subject.report.frame->plate_ends) {
    if (one.plate_path == end.plate_path && one.front == end.front) return &one;
  }
  return nullptr;
}

/// Stations of high stress on the rail: that at the end, and those of the worst dozen.
std::vector<double> list_stressed(const Subject& subject, const frame::PlateEnd& end,
                                  const frame::EndStress* stress) {
  std::vector<double> out;
  if (stress != nullptr && is_high(stress->von_mises_Pa, stress->yield_Pa)) {
    out.push_back(stress->station_m);
  }
  for (const StressPlace& place : subject.report.frame->worst) {
    if (place.path == end.rail_path && is_high(place.von_mises_Pa, place.yield_Pa))
      out.push_back(place.along_m);
  }
  return out;
}

/// What the truck is with the plate ended elsewhere, solved anew.
std::string moved_words(const Subject& subject, const frame::PlateEnd& end,
                        const frame::EndStress* now, double station_m, Finding& finding) {
  const auto moved = solve_with_plate_ended(subject, end, station_m);
  if (!moved) return "";
  const Printer& print = subject.print;
  const auto stress = [&](double Pa) { return print.text(Pa, Dimension::kStress); };
  std::string words;
  if (moved->stress) {
    words += fmt::format(
        " There the rail is then stressed by {}{}", stress(moved->stress->von_mises_Pa),
        now == nullptr ? "" : fmt::format(", here now by {}", stress(now->von_mises_Pa)));
    words += is_high(moved->stress->von_mises_Pa, moved->stress->yield_Pa) &&
                     !std::isnan(moved->stress->yield_Pa)
                 ? ": still more than a third of its yield."
                 : ".";
  }
  const double torsion_now = subject.report.frame->twist_stiffness_Nm_per_rad();
  const double torsion = moved->torsion_Nm_per_rad;
  if (!std::isnan(torsion) && !std::isnan(torsion_now)) {
    words += fmt::format(" The frame then has {} in twist, as planned {}.",
                         print.text(torsion, Dimension::kAngularStiffness),
                         print.text(torsion_now, Dimension::kAngularStiffness));
  }
  if (!words.empty()) {
    finding.working.push_back(
        {.formula = "the planned truck solved again with the plate ended there",
         .with_values = words.substr(1),
         .source = "as all stresses and stiffnesses of the frame",
         .input_paths = {finding.path}});
  }
  return words;
}

void add_plate_end(const Subject& subject, const frame::PlateEnd& end,
                   const build::Entry<build::BoxingPlate>& plate) {
  const Printer& print = subject.print;
  const bool too_near =
      end.nearest != nullptr && end.to_weld_m < end.depth_m - build::kStationRounding_m;
  const frame::EndStress* stress = find_end_stress(subject, end);
  const bool stressed = stress != nullptr && is_high(stress->von_mises_Pa, stress->yield_Pa);
  const bool tapered = plate.value.taper.known() && plate.value.taper.si > 0;
  Finding finding;
  finding.id = fmt::format("frame.plate_end.{}.{}", plate.id, end.front ? "front" : "rear");
  finding.work = "frame";
  finding.subject = fmt::format("{} end of the {}", end.front ? "Front" : "Rear",
                                frame::shop_words(plate.value.label, plate.id));
  finding.path = plate.path + (end.front ? "/from" : "/to");
  finding.basis = kPlateEndBasis;
  finding.limit = print.number(end.depth_m, Dimension::kLength);
  finding.edge = Edge::kLeast;
  finding.verdict = too_near || stressed ? Verdict::kLook : Verdict::kGood;
  finding.sentence = "No crossmember is near.";
  if (end.nearest != nullptr) {
    finding.value = print.number(end.to_weld_m, Dimension::kLength);
    const std::string part = frame::shop_words(end.nearest->value.label, end.nearest->id);
    finding.sentence = end.to_weld_m > 0 ? fmt::format("Ends {} from the weld of the {}.",
                                                       finding.value->text, part)
                                         : fmt::format("Ends on the weld of the {}.", part);
  }
  if (stressed) {
    finding.sentence +=
        fmt::format(" The rail is stressed there by {}{}, and the plate's end adds to it.",
                    print.text(stress->von_mises_Pa, Dimension::kStress),
                    std::isnan(stress->yield_Pa) ? "" : ", more than a third of its yield");
    if (std::isnan(stress->yield_Pa)) assume(finding, "The rail's yield stress is not known.");
  }
  finding.advice = "Nothing to do.";
  if (stress == nullptr) {
    assume(finding, "What the rail carries there is not known yet.");
    finding.advice = "See what is missing.";
  }
  if (too_near || stressed) {
    const auto clear =
        frame::find_clear_end(subject.build, build::planned_parts(subject.build.frame), end,
                              list_stressed(subject, end, stress), end.depth_m,
                              print.choices().metric ? 0.005 : units::kInch_m / 4);
    finding.advice =
        clear ? fmt::format(
                    "Let it end at {}: clear of welds and of what is stressed most now by "
                    "a rail depth.",
                    print.length(*clear))
              : std::string("No place near is clear of both: let it run on to the next one.");
    if (clear && subject.advise) {
      finding.advice += moved_words(subject, end, stress, *clear, finding);
    }
    if (!tapered) {
      finding.advice += fmt::format(" Cut its end to a taper about {} long, not square.",
                                    print.length(end.depth_m));
    }
  }
  finding.working.push_back(
      {.formula = "distance to the nearest weld >= depth of the rail; no stress over a third of "
                  "yield within a depth",
       .with_values = fmt::format(
           "{} of {}; taper {}", finding.value ? finding.value->text : "no weld",
           finding.limit->text, tapered ? print.length(plate.value.taper.si) : "none told"),
       .source = kPlateEndBasis,
       .input_paths = stress == nullptr ? std::vector<std::string>{finding.path}
                                        : std::vector<std::string>{finding.path, "/masses"}});
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_plate_findings(const Subject& subject) {
  if (!subject.report.frame || subject.report.frame->state("planned") == nullptr) return;
  const auto in = build::planned_parts(subject.build.frame);
  for (const auto& plate : subject.build.frame.plates) {
    if (in.contains(plate.id)) add_cut(subject, plate);
  }
  for (const frame::PlateEnd& end : frame::list_plate_ends(subject.build, in)) {
    for (const auto& plate : subject.build.frame.plates) {
      if (plate.path == end.plate_path) add_plate_end(subject, end, plate);
    }
  }
}

}  // namespace rig::check
