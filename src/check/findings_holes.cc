#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "build/words.h"
#include "check/findings.h"
#include "check/words.h"
#include "frame/box_openings.h"
#include "frame/rail_line.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;

constexpr const char* kOneHoleSize =
    "one hole size, the tube's own, in web and plate and alike in both rails: common practice";
constexpr const char* kEdgeBasis =
    "yield at the hole's edge; factor of a strip in tension: Howland and Heywood by Pilkey's fit, "
    "from memory";
/// A hole's middle from an edge, over its diameter.
constexpr double kEdgeDistance = 1.5;
constexpr const char* kEdgeDistanceBasis =
    "its middle one and a half diameters from an edge, clear of bends and welds: common practice";
constexpr double kDrain_m = units::kInch_m / 2;
constexpr double kAccess_m = 2 * units::kInch_m;
/// As far in as a wand or brush reaches, from either side.
constexpr double kReachIn_m = 24 * units::kInch_m;

Finding begin_finding(std::string id, std::string subject, std::string path) {
  Finding finding;
  finding.id = std::move(id);
  finding.work = "frame";
  finding.subject = std::move(subject);
  finding.path = std::move(path);
  finding.verdict = Verdict::kGood;
  finding.advice = "Nothing to do.";
  return finding;
}

/// The middle of a crossmember's ends over the rail's lower outside, m; NaN: not known.
double above_lower_edge_m(const build::RailSide& at, const build::CrossmemberPlace& place) {
  const double depth_m = frame::rail_depth_m(at.rail->value, place.station.si);
  if (!place.height.known()) return depth_m / 2;
  const auto line = frame::make_rail_line(*at.rail, at.sign);
  if (!line || !line->passes(place.station.si)) return kNaN;
  return depth_m / 2 + place.height.si - line->at(place.station.si).z();
}

/// The hole that a tube through the rails needs.
void add_tube_hole(const Subject& subject, const build::Entry<build::Crossmember>& tube) {
  const build::Crossmember& part = tube.value;
  const Printer& print = subject.print;
  if (!part.section || !part.at.station.known()) return;
  const bool round = part.section->shape == build::SectionShape::kRoundTube;
  const double across_m = (round ? part.section->outside_diameter : part.section->depth).si;
  const auto joined = build::joined_rails(subject.build.frame, part);
  if (joined.empty() || std::isnan(across_m)) return;
  const double above_m = above_lower_edge_m(joined.front(), part.at);
  if (std::isnan(above_m)) return;
  Finding finding = begin_finding(
      "frame.tube_hole." + tube.id,
      fmt::format("Hole for the {}", frame::shop_words(part.label, tube.id)), tube.path);
  finding.value = print.number(across_m, Dimension::kLength);
  finding.basis = kOneHoleSize;
  const bool both_walls = part.joint == build::CrossmemberJoint::kThroughWebAndPlate;
  const std::string size =
      round ? finding.value->text
            : fmt::format("{} by {}", print.length(part.section->width.si), finding.value->text);
  finding.sentence = fmt::format(
      "{} at station {}, its middle {} above the rail's lower edge, {} alike in both rails.", size,
      print.length(part.at.station.si), print.length(above_m),
      both_walls ? "through web and plate" : "through the web");
  finding.advice = both_walls ? "Cut web and plate together, in one setting." : "Nothing to do.";
  for (const build::RailSide& at : joined) {
    const double here_m = above_lower_edge_m(at, part.at);
    if (std::abs(here_m - above_m) < print.length_step_m()) continue;
    finding.verdict = Verdict::kLook;
    finding.sentence +=
        fmt::format(" In the rail \"{}\" it is {} above it.", at.rail->id, print.length(here_m));
    finding.advice = "Look at the rails' heights: the tube is level.";
    break;
  }
  const auto sizes = build::sizes_at(joined.front().rail->value, part.at.station.si);
  if (sizes && sizes->shape == build::SectionShape::kChannel) {
    const double flat_m =
        sizes->thickness.si + (sizes->inside_radius.known() ? sizes->inside_radius.si : 0);
    const double clear_m = std::min(above_m, sizes->depth.si - above_m) - across_m / 2 - flat_m;
    if (clear_m < 0) {
      finding.verdict = Verdict::kLook;
      finding.sentence += " It runs into the bend of a flange.";
      finding.advice = fmt::format(
          "Set it at least {} nearer to the rail's mid-depth, or take a "
          "smaller tube.",
          print.length_up(-clear_m));
    }
  }
  finding.working.push_back({.formula = "hole = outside of the tube, no clearance",
                             .with_values = size,
                             .source = "common practice",
                             .input_paths = {tube.path + "/section", tube.path + "/at"}});
  subject.findings.push_back(std::move(finding));
}

/// "web of the frame rail".
std::string wall_words(const Subject& subject, const build::Hole& hole) {
  const auto* rail = build::find(subject.build.frame.rails, hole.rail.id);
  const std::string wall = build::spaced(build::name_of(hole.wall));
  return rail == nullptr
             ? wall
             : fmt::format("{} of the {}", wall, frame::shop_words(rail->value.label, rail->id));
}

void judge_fit(const Subject& subject, const build::Hole& hole, Finding& finding) {
  const frame::HoleFit fit = frame::calc_hole_fit(subject.build.frame, hole);
  const double wanted_m = kEdgeDistance * hole.diameter.si;
  if (!(fit.clear_m < 0) && !(fit.to_edge_m < wanted_m)) return;
  finding.verdict = Verdict::kLook;
  finding.sentence += fit.clear_m < 0 ? " It runs into a bend or a weld's corner."
                                      : fmt::format(" Its middle is only {} from an edge.",
                                                    subject.print.length(fit.to_edge_m));
  const std::string by = subject.print.length_up(std::fmax(-fit.clear_m, wanted_m - fit.to_edge_m));
  finding.advice = hole.fate == build::Fate::kGoesIn
                       ? fmt::format("Move it {} further in.", by)
                       : fmt::format("Drilled already, fill it; else move it {} further in.", by);
}

/// One hole: how it lies in its wall, and what its edge carries.
void add_hole(const Subject& subject, const build::Entry<build::Hole>& entry) {
  const build::Hole& hole = entry.value;
  const Printer& print = subject.print;
  Finding finding = begin_finding("frame.hole." + entry.id,
                                  capitalised(frame::shop_words(hole.label, entry.id)), entry.path);
  finding.basis = kEdgeDistanceBasis;
  finding.sentence =
      fmt::format("{} in the {}.", print.length(hole.diameter.si), wall_words(subject, hole));
  judge_fit(subject, hole, finding);
  const HoleReport* worst = nullptr;
  for (const HoleReport& one : subject.report.frame->holes) {
    if (one.stress.path != entry.path) continue;
    if (worst == nullptr || one.stress.edge_Pa > worst->stress.edge_Pa) worst = &one;
  }
  if (worst == nullptr) {
    assume(finding, "What it carries is not known yet.");
    if (finding.advice == "Nothing to do.") finding.advice = "See what is missing.";
  } else {
    const frame::HoleStress& stress = worst->stress;
    finding.value = print.number(stress.edge_Pa, Dimension::kStress);
    finding.basis = fmt::format("{}; {}", kEdgeBasis, kEdgeDistanceBasis);
    const auto of =
        std::find_if(subject.report.frame->cases.begin(), subject.report.frame->cases.end(),
                     [&](const auto& one) { return one.id == worst->case_id; });
    finding.sentence += fmt::format(
        " At its edge {} ({}); it leaves {} of the section's area and {} of its stiffness upright.",
        finding.value->text,
        of == subject.report.frame->cases.end() ? worst->case_id : uncapitalised(of->label),
        print.percent(stress.area_left), print.percent(stress.bending_left));
    if (std::isnan(stress.yield_Pa)) {
      assume(finding, "The yield stress of this wall is not known.");
      if (finding.advice == "Nothing to do.")
        finding.advice = "Tell the yield stress of its steel.";
    } else {
      finding.limit = print.number(stress.yield_Pa, Dimension::kStress);
      finding.edge = Edge::kMost;
      if (stress.edge_Pa > stress.yield_Pa) {
        finding.verdict = Verdict::kLook;
        finding.advice = fmt::format(
            "Drill it where the stress is {} at most: nearer to the rail's mid-depth, or further "
            "from what loads it.",
            print.percent(stress.yield_Pa / stress.edge_Pa));
      }
    }
    finding.working.push_back(
        {.formula = "(|s| + 4 sqrt((s/2)^2 + t^2)) / 3 x K / (1 - d/w)",
         .with_values = fmt::format("s = {}, t = {}, d = {}, w = {}, K = {:.2f}: {}",
                                    print.text(stress.axial_Pa, Dimension::kStress),
                                    print.text(stress.shear_Pa, Dimension::kStress),
                                    print.length(hole.diameter.si), print.length(stress.width_m),
                                    stress.factor, finding.value->text),
         .source = "Kirsch; Howland and Heywood by Pilkey's fit, from memory",
         .input_paths = {entry.path, "/masses"}});
  }
  subject.findings.push_back(std::move(finding));
}

/// Whether water can leave a plate's box; both sides together, the worse told.
void add_drain(const Subject& subject, const build::Entry<build::BoxingPlate>& plate,
               const frame::BoxInside& inside) {
  const Printer& print = subject.print;
  Finding finding = begin_finding(
      "frame.drain." + plate.id,
      fmt::format("Water in the box of the {}", frame::shop_words(plate.value.label, plate.id)),
      plate.path);
  finding.basis = "a closed box holds water, which rusts it from within: common practice";
  finding.sentence = inside.drainage == frame::Drainage::kDrilled
                         ? "It has a drain at its lowest place."
                         : "It falls to an open end.";
  if (inside.drainage == frame::Drainage::kTrapped) {
    finding.verdict = Verdict::kLook;
    finding.sentence = inside.level ? std::string("It lies level and has no drain.")
                                    : fmt::format("Its lowest place, at station {}, has no drain.",
                                                  print.length(inside.lowest_m));
    finding.advice = fmt::format(
        "Drill {} through the plate at station {}, its middle {} above the rail's lower edge: "
        "above "
        "the flange, where stress is half as high, and clear of welds.",
        print.length(kDrain_m), print.length(inside.lowest_m), print.length(inside.depth_m / 4));
  }
  finding.working.push_back({.formula = "lowest place of the rail's line within the plate",
                             .with_values = print.length(inside.lowest_m),
                             .source = "common practice",
                             .input_paths = {plate.path, plate.path + "/rail"}});
  subject.findings.push_back(std::move(finding));
}

/// Whether one gets into a box to clean and to wax it.
void add_access(const Subject& subject, const build::Entry<build::BoxingPlate>& plate,
                const frame::BoxInside& inside) {
  const Printer& print = subject.print;
  if (inside.closed_m() <= 2 * kReachIn_m) return;
  Finding finding = begin_finding(
      "frame.access." + plate.id,
      fmt::format("Into the box of the {}", frame::shop_words(plate.value.label, plate.id)),
      plate.path);
  finding.value = print.number(inside.closed_m(), Dimension::kLength);
  finding.limit = print.number(2 * kReachIn_m, Dimension::kLength);
  finding.edge = Edge::kMost;
  finding.basis = "a wand reaches 24 in in from either side: common practice";
  finding.verdict = Verdict::kLook;
  finding.sentence = fmt::format("{} of it can't be reached to be coated.", finding.value->text);
  finding.advice = fmt::format(
      "Drill {} at mid-depth near station {}, clear of welds, where bending stress is least.",
      print.length(kAccess_m), print.length((inside.closed_from_m + inside.closed_to_m) / 2));
  finding.working.push_back({.formula = "longest part between open ends and access holes",
                             .with_values = finding.value->text,
                             .source = "common practice",
                             .input_paths = {plate.path}});
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_hole_findings(const Subject& subject) {
  if (!subject.report.frame || subject.report.frame->state("planned") == nullptr) return;
  using Joint = build::CrossmemberJoint;
  const auto& frame = subject.build.frame;
  const auto in = build::planned_parts(frame);
  for (const auto& part : frame.crossmembers) {
    const Joint joint = part.value.joint;
    const bool through = joint == Joint::kThroughWeb || joint == Joint::kThroughWebAndPlate;
    if (in.contains(part.id) && through) add_tube_hole(subject, part);
  }
  for (const auto& hole : frame.holes) {
    const build::Hole& value = hole.value;
    // One that is filled is wall again.
    if (!build::is_planned(value.fate)) continue;
    if (value.diameter.known() && value.station.known()) add_hole(subject, hole);
  }
  const auto insides = frame::list_box_insides(subject.build, in);
  for (const auto& plate : frame.plates) {
    const frame::BoxInside* wettest = nullptr;
    const frame::BoxInside* longest = nullptr;
    for (const auto& inside : insides) {
      if (inside.plate_path != plate.path) continue;
      if (wettest == nullptr || inside.drainage > wettest->drainage) wettest = &inside;
      if (longest == nullptr || inside.closed_m() > longest->closed_m()) longest = &inside;
    }
    if (wettest != nullptr) add_drain(subject, plate, *wettest);
    if (longest != nullptr) add_access(subject, plate, *longest);
  }
}

}  // namespace rig::check
