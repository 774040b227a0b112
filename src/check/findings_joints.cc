#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/nan.h"
#include "check/advice.h"
#include "check/findings.h"
#include "check/geometry.h"
#include "check/lengths.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using suspension::Bar;
using suspension::Sweep;
using units::Dimension;

constexpr int kSwingPoses = 9;
/// No joint swings further than this either way (common practice), rad.
constexpr double kMostSwing_rad = 60 * units::kDegree_rad;
/// One end of one bar at the pose where it swings furthest.
struct Swing {
  std::size_t bar = 0;
  bool on_axle = false;
  double angle_rad = 0;
  double limit_rad = 0;
  Extreme where;
};

double angle_of(const suspension::SweptPose& pose, std::size_t bar, bool on_axle) {
  return on_axle ? pose.bar_swing_axle_rad[bar] : pose.bar_swing_frame_rad[bar];
}

Swing find_swing(const AxleReport& axle, std::size_t bar, bool on_axle) {
  const Bar& b = axle.model.bars[bar];
  Swing swing{.bar = bar, .on_axle = on_axle, .where = {}};
  swing.limit_rad = on_axle ? b.swing_limit_axle_rad : b.swing_limit_frame_rad;
  for (const Sweep* sweep : {&axle.bump, &axle.roll, &axle.crossed}) {
    for (const auto& pose : sweep->poses) {
      const double angle = angle_of(pose, bar, on_axle);
      if (!(angle > swing.angle_rad)) continue;
      swing.angle_rad = angle;
      swing.where = {0, pose.numbers.heave_m, pose.numbers.roll_rad};
    }
  }
  return swing;
}

/// The linkage's numbers, then the greatest swing of one bar end over coarse sweeps.
Evaluate make_swing(const AxleReport& axle, const Swing& swing) {
  const Evaluate geometry = make_geometry(axle);
  return [&axle, swing, geometry](const suspension::AxleModel& model, bool fine) {
    auto numbers = geometry(model, fine);
    auto targets = suspension::make_targets(-axle.droop_m, axle.bump_m, kSwingPoses, 0, 0, 1);
    const double heave_m = (axle.bump_m - axle.droop_m) / 2;
    const double roll_rad = std::asin((axle.bump_m + axle.droop_m) / model.track_m);
    for (const int side : {-1, 1}) {
      for (int i = 1; i <= 3; ++i) targets.push_back({heave_m * i / 3, side * roll_rad * i / 3});
    }
    const auto sweep = suspension::sweep_axle(model, axle.truck, targets);
    double most = kNaN;
    if (sweep && sweep->locks.empty()) {
      most = 0;
      for (const auto& pose : sweep->poses) {
        most = std::max(most, angle_of(pose, swing.bar, swing.on_axle));
      }
    }
    numbers.push_back(most);
    return numbers;
  };
}

std::string swing_advice(const Subject& subject, const AxleReport& axle, const Swing& swing,
                         const std::string& name) {
  const Printer& print = subject.print;
  const double wanted_rad = swing.limit_rad * 0.9;
  std::vector<Band> bands = geometry_bands(subject.limits, axle.front);
  bands.push_back(Band{.high = wanted_rad});
  const auto& entry = *build::find(subject.build.axles, axle.id);
  if (swing.angle_rad <= swing.limit_rad) return kInside;
  if (swing.angle_rad / 0.9 > kMostSwing_rad) {
    const auto reach = reach_words(axle, print, [&](const suspension::SweptPose& pose) {
      return angle_of(pose, swing.bar, swing.on_axle) <= swing.limit_rad;
    });
    return fmt::format("{}, as no joint swings {}: this one allows {}.", kNotPossible,
                       print.angle(swing.angle_rad / 0.9), reach);
  }
  std::string advice =
      fmt::format("Use a joint that swings {} at the {} end of the {}",
                  print.angle(swing.angle_rad / 0.9), swing.on_axle ? "axle" : "frame", name);
  if (!subject.advise) return advice + ".";
  const Evaluate evaluate = make_swing(axle, swing);
  std::vector<Move> moves = list_moves(entry.value);
  std::erase_if(moves, [&](const Move& move) {
    return coordinate_path(entry, move).find(axle.model.bars[swing.bar].path + "/") != 0;
  });
  const auto found = find_advice(entry, evaluate, calc_sensitivities(entry, evaluate, moves),
                                 bands.size() - 1, bands, print);
  if (found && found->cures && !found->harmed) {
    advice += fmt::format(", or {}: that makes it {}", uncapitalised(found->words),
                          print.angle(found->value));
  }
  return advice + ".";
}

void add_swing(const Subject& subject, const AxleReport& axle, const Swing& swing) {
  const Printer& print = subject.print;
  const Bar& bar = axle.model.bars[swing.bar];
  const std::string name = part_words(axle, bar.path, bar.name);
  const std::string end = swing.on_axle ? "axle" : "frame";
  Finding finding;
  finding.id = fmt::format("swing.{}.{}.{}", axle.id, last_key(bar.path), end);
  finding.work = "axles";
  finding.verdict = judge(swing.angle_rad, at_most(swing.limit_rad)).verdict;
  finding.subject = fmt::format("Joint swing, {}", axle_words(axle));
  finding.path = bar.path;
  finding.value = print.number(swing.angle_rad, Dimension::kAngle);
  finding.limit = print.number(swing.limit_rad, Dimension::kAngle);
  finding.edge = Edge::kMost;
  finding.basis = "the joint's swing limit in the file";
  const std::string place = place_words(axle, print, swing.where);
  finding.sentence =
      swing.angle_rad > swing.limit_rad
          ? fmt::format("The {} end of the {} binds: it would swing {} and can swing {}, {}.", end,
                        name, finding.value->text, finding.limit->text, place)
          : fmt::format("The {} end of the {} swings {} of its {}, {}.", end, name,
                        finding.value->text, finding.limit->text, place);
  finding.advice = finding.verdict == Verdict::kGood ? std::string("Nothing to do.")
                                                     : swing_advice(subject, axle, swing, name);
  finding.working.push_back(
      {.formula = "swing = angle between the link now and as drawn, seen from the part that holds "
                  "the joint",
       .with_values = fmt::format("{} of {}", finding.value->text, finding.limit->text),
       .source = "solved poses: bump, roll and both crossed-up corners",
       .input_paths = {bar.path, axle.path + "/bump_travel", axle.path + "/droop_travel"}});
  subject.findings.push_back(std::move(finding));
}

/// The worst of everything that one link or arm of the file became, per end.
void add_swings(const Subject& subject, const AxleReport& axle) {
  std::vector<Swing> worst;
  for (std::size_t i = 0; i < axle.model.bars.size(); ++i) {
    for (const bool on_axle : {false, true}) {
      const Swing swing = find_swing(axle, i, on_axle);
      if (!(swing.limit_rad > 0)) continue;
      auto same = std::find_if(worst.begin(), worst.end(), [&](const Swing& w) {
        return w.on_axle == on_axle && axle.model.bars[w.bar].path == axle.model.bars[i].path;
      });
      if (same == worst.end()) {
        worst.push_back(swing);
      } else if (swing.angle_rad / swing.limit_rad > same->angle_rad / same->limit_rad) {
        *same = swing;
      }
    }
  }
  for (const auto& swing : worst) add_swing(subject, axle, swing);
}

/// A link whose axle end lies nearer the other axle than its frame end: are the two swapped?
void add_ends(const Subject& subject, const AxleReport& axle) {
  const auto& axles = subject.build.axles;
  const auto other = std::find_if(axles.begin(), axles.end(),
                                  [&](const auto& entry) { return entry.id != axle.id; });
  if (other == axles.end() || !other->value.station.known()) return;
  const double other_m = other->value.station.si;
  for (const auto& link : build::find(axles, axle.id)->value.links) {
    const auto &frame = link.value.frame.at, &at_axle = link.value.axle.at;
    if (link.value.role == build::LinkRole::kTrackBar || !frame.known() || !at_axle.known())
      continue;
    const double nearer_m =
        std::abs(frame.station.si - other_m) - std::abs(at_axle.station.si - other_m);
    if (!(nearer_m > kNoise)) continue;
    const std::string name = uncapitalised(link.value.label.empty() ? link.id : link.value.label);
    Finding finding;
    finding.id = fmt::format("ends.{}.{}", axle.id, link.id);
    finding.work = "axles";
    finding.verdict = Verdict::kLook;
    finding.subject = fmt::format("Link ends, {}", axle_words(axle));
    finding.path = link.path;
    finding.basis = "a link's frame end usually lies towards the other axle (common practice)";
    finding.sentence =
        fmt::format("The axle end of the {} is {} nearer the other axle than its frame end.", name,
                    subject.print.length(nearer_m));
    finding.advice = "Are the two ends swapped? Then swap them; if the link does lead, leave it.";
    subject.findings.push_back(std::move(finding));
  }
}

/// What is swept in one way, and how far.
struct FreeMovement {
  const Sweep* sweep;
  const char* id;
  const char* words;
  std::string range;  ///< "4 in of bump and 5 in of droop".
};

std::vector<FreeMovement> list_movements(const AxleReport& axle, const Printer& print) {
  const std::string travel = fmt::format("{} of bump and {} of droop", print.length(axle.bump_m),
                                         print.length(axle.droop_m));
  return {{&axle.bump, "travel", "bump and droop", travel},
          {&axle.roll, "roll", "roll at ride height",
           print.angle(axle.roll_rad) + " of roll either way"},
          {&axle.crossed, "crossed", "crossed up", "one wheel up and one down: " + travel}};
}

WorkingStep explain_free(const FreeMovement& movement, const AxleReport& axle) {
  return {.formula = "solved pose by pose from where it is drawn; every pose is reached",
          .with_values = fmt::format("{} poses, {}", movement.sweep->poses.size(), movement.range),
          .source = fmt::format("solved poses, {}", movement.words),
          .input_paths = {axle.path + "/links", axle.path + "/bump_travel",
                          axle.path + "/droop_travel"}};
}

/// Where the linkage locks or can flip, if it does.
void add_locks(const Subject& subject, const AxleReport& axle) {
  const Printer& print = subject.print;
  for (const FreeMovement& kind : list_movements(axle, print)) {
    if (kind.sweep->poses.empty() && kind.sweep->locks.empty()) continue;
    Finding finding;
    finding.id = fmt::format("lock.{}.{}", kind.id, axle.id);
    finding.work = "axles";
    finding.subject = fmt::format("Free movement, {}, {}", axle_words(axle), kind.words);
    finding.path = axle.path;
    finding.basis = "the axle must reach all of the wanted travel";
    if (kind.sweep->locks.empty()) {
      finding.verdict = Verdict::kGood;
      finding.sentence = "Moves freely over all of it.";
      finding.advice = "Nothing to do.";
      finding.working.push_back(explain_free(kind, axle));
    } else {
      // The nearest one decides.
      const auto nearest = std::min_element(kind.sweep->locks.begin(), kind.sweep->locks.end(),
                                            [](const auto& a, const auto& b) {
                                              return std::abs(a.heave_m) + std::abs(a.roll_rad) <
                                                     std::abs(b.heave_m) + std::abs(b.roll_rad);
                                            });
      finding.verdict = Verdict::kStop;
      finding.path = axle.model.bars[static_cast<std::size_t>(nearest->bars.front())].path;
      finding.value = std::abs(nearest->roll_rad) > kNoise
                          ? print.number(nearest->roll_rad, Dimension::kAngle)
                          : print.number(nearest->heave_m, Dimension::kLength);
      std::vector<std::string> names;
      for (const int bar : nearest->bars) {
        const Bar& b = axle.model.bars[static_cast<std::size_t>(bar)];
        names.push_back("the " + part_words(axle, b.path, b.name));
      }
      const bool one = names.size() == 1;
      finding.sentence = fmt::format(
          "{} {} at {}: the axle {}.", capitalised(join_words(names)),
          nearest->flips ? (one ? "passes dead centre" : "pass dead centre")
          : one          ? "has no reach left"
                         : "have no reach left",
          finding.value->text, nearest->flips ? "can flip over there" : "can go no further");
      finding.advice = fmt::format(
          "Hold the axle short of {} with stops and straps, or make those links longer and "
          "flatter.",
          std::abs(nearest->roll_rad) > kNoise
              ? print.number(0.9 * nearest->roll_rad, Dimension::kAngle).text
              : print.number(0.9 * nearest->heave_m, Dimension::kLength).text);
      finding.working.push_back(
          {.formula =
               "solved pose by pose from where it is drawn, until the links reach no further",
           .with_values = fmt::format("{} by {}; wanted {}", finding.value->text, join_words(names),
                                      kind.range),
           .source = fmt::format("solved poses, {}", kind.words),
           .input_paths = {finding.path, axle.path + "/bump_travel", axle.path + "/droop_travel"}});
    }
    subject.findings.push_back(std::move(finding));
  }
}

}  // namespace

void add_joint_findings(const Subject& subject) {
  for (const auto& axle : subject.report.axles) {
    add_ends(subject, axle);
    add_locks(subject, axle);
    if (axle.bump.poses.empty()) continue;
    add_swings(subject, axle);
  }
}

}  // namespace rig::check
