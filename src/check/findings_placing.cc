#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/drivetrain_report.h"
#include "check/findings.h"
#include "check/limits_drivetrain.h"
#include "check/words.h"

namespace rig::check {
namespace {

using units::Dimension;

/// How far the cases may be moved where the file tells nothing: common practice.
constexpr double kUpAndDown_m = 0.0508;
constexpr double kLeastSlope_rad = 0, kMostSlope_rad = 7 * units::kDegree_rad;
/// Shortfall below which nothing is short, and moves below which there is none.
constexpr double kNoneShort = 0.05;
constexpr double kNoTilt_rad = 0.05 * units::kDegree_rad;
constexpr double kNoMove_m = 0.0008;

void add_gap_finding(const Subject& subject, const GapReport& gap) {
  const Printer& print = subject.print;
  Finding finding;
  finding.id = "clearance." + gap.id;
  finding.subject = capitalised(gap.label);
  finding.path = gap.path;
  finding.work = "drivetrain";
  finding.value = print.number(gap.least_m, Dimension::kLength);
  finding.limit = print.number(gap.wanted_m, Dimension::kLength);
  finding.edge = Edge::kLeast;
  finding.verdict = gap.least_m <= 0             ? Verdict::kStop
                    : gap.least_m < gap.wanted_m ? Verdict::kLook
                                                 : Verdict::kGood;
  const std::string when = gap.least_load.empty() ? "" : fmt::format(" ({})", gap.least_load);
  finding.sentence = gap.least_m <= 0
                         ? fmt::format("They meet{}: {} apart as drawn, and {} more is needed.",
                                       when, print.length(gap.drawn_m), print.length(-gap.least_m))
                         : fmt::format("{} apart as drawn, {} at the least{}.",
                                       print.length(gap.drawn_m), print.length(gap.least_m), when);
  const auto* entry = build::find(subject.build.drivetrain.gaps, gap.id);
  finding.basis = entry->value.least.known() ? "the gap wanted in the file"
                                             : "1/2 in beside what moves (common practice)";
  finding.advice = finding.verdict == Verdict::kGood
                       ? "Nothing to do."
                       : fmt::format("Give it {} more: move one of the two, or the cases.",
                                     print.length_up(gap.wanted_m - gap.least_m));
  finding.working.push_back(
      {"gap = n . (B - A) along the way n between them as drawn, the least over the travel of the "
       "axle and over every load that moves the cases on their mounts",
       fmt::format("the place on the case moves {} at the most{}", print.length(gap.moves_m),
                   gap.moves_load.empty() ? "" : fmt::format(" ({})", gap.moves_load)),
       "statics of the mounts; geometry of the swept axle",
       {gap.path, "/drivetrain/mounts"}});
  subject.findings.push_back(std::move(finding));
}

/// Looks for a better place for a line of cases.
class PlacingFinder {
 public:
  PlacingFinder(const Subject& subject, const CasesReport& line)
      : subject_(subject), cases_(line.from.line), path_(line.from.paths.front()) {
    const driveline::Case& first = cases_.cases.front();
    slope_rad_ = std::asin(-(first.p_VoR_V - first.p_VoF_V).normalized().z());
    range_.p_VoPivot_V = first.p_VoF_V;
    const auto& told = subject.build.drivetrain.placing;
    const auto or_else = [](const auto& quantity, double otherwise) {
      return quantity.known() ? quantity.si : otherwise;
    };
    range_.up_m = told ? or_else(told->up, kUpAndDown_m) : kUpAndDown_m;
    range_.down_m = told ? or_else(told->down, kUpAndDown_m) : kUpAndDown_m;
    if (told) range_.left_m = or_else(told->left, 0), range_.right_m = or_else(told->right, 0);
    const double least = told ? or_else(told->least_slope, kLeastSlope_rad) : kLeastSlope_rad;
    const double most = told ? or_else(told->most_slope, kMostSlope_rad) : kMostSlope_rad;
    range_.least_tilt_rad = std::min(least - slope_rad_, 0.0);
    range_.most_tilt_rad = std::max(most - slope_rad_, 0.0);
  }

  void add() const {
    const auto shafts = list_shafts();
    const auto gaps = list_gaps();
    const double short_now = driveline::calc_shortfall({}, range_, shafts, gaps);
    if (short_now < kNoneShort) return;
    Finding finding;
    finding.id = "placing";
    finding.subject = "Place of the cases";
    finding.path = path_ + "/starts_at";
    finding.work = "drivetrain";
    finding.verdict = Verdict::kLook;
    finding.sentence = "Where they stand, shafts or gaps are short of room.";
    finding.basis = "room wanted at each joint, spline and gap, as their own findings have it";
    std::string found_words;
    if (subject_.advise) {
      const auto found = driveline::find_placing(range_, shafts, gaps);
      finding.advice = found && !is_none(found->move)
                           ? move_words(*found)
                           : "No other place within the range gives them more room.";
      if (found) found_words = fmt::format(", {:.3g} after the move", found->shortfall);
    } else {
      finding.advice = "Move the cases, or what they come near.";
    }
    finding.working.push_back(
        {"the move with the least sum of squares of what each joint, spline and gap lacks",
         fmt::format("{:.3g} as drawn{} (1 = one degree or 5 mm)", short_now, found_words),
         "docs/design/powertrain.md",
         {"/drivetrain/placing", "/drivetrain/gaps", "/drivetrain/shafts"}});
    if (!subject_.build.drivetrain.placing) {
      assume(finding,
             "They are taken to have 2 in up and down and a slope of 0 to 7 degrees (common "
             "practice).");
    }
    subject_.findings.push_back(std::move(finding));
  }

 private:
  bool is_on(const std::string& case_id) const {
    return std::any_of(cases_.cases.begin(), cases_.cases.end(),
                       [&](const driveline::Case& one) { return one.id == case_id; });
  }

  std::vector<driveline::PlacedShaft> list_shafts() const {
    std::vector<driveline::PlacedShaft> placed;
    for (const ShaftReport& shaft : subject_.report.drivetrain->shafts) {
      if (!shaft.solved() || !is_on(shaft.from.from_case) || shaft.from.axle.empty()) continue;
      driveline::PlacedShaft one{.shaft = shaft.from.shaft,
                                 .poses = shaft.corners,
                                 .ride = 0,
                                 .bind_left_rad = kBindClose_rad,
                                 .slip_left_m = kSlipLeft_m};
      if (shaft.speed_rad_per_s > 0) {
        one.steady_rad =
            driveline::solve_joint_angle_rad(kTorsional_rad_per_s2, shaft.speed_rad_per_s);
      }
      placed.push_back(std::move(one));
    }
    return placed;
  }

  std::vector<driveline::PlacedGap> list_gaps() const {
    std::vector<driveline::PlacedGap> placed;
    for (const GapReport& gap : subject_.report.drivetrain->gaps) {
      const auto* entry = build::find(subject_.build.drivetrain.gaps, gap.id);
      if (!is_on(entry->value.segment.id)) continue;
      placed.push_back({gap.p_VoA_V, gap.others_V, gap.wanted_m + gap.mounts_take_m});
    }
    return placed;
  }

  std::string move_words(const driveline::Placing& found) const {
    const Printer& print = subject_.print;
    return fmt::format(
        "Move them all together: front face to height {} ({}), line {} down to the rear ({}){}. {}",
        print.length(range_.p_VoPivot_V.z() + found.move.up_m), moved_words(found.move.up_m),
        print.angle(slope_rad_ + found.move.tilt_rad), tilted_words(found.move.tilt_rad),
        sideways_words(found.move.left_m),
        found.shortfall < kNoneShort ? "Then each has its room."
                                     : "That is the most room to be had within the range.");
  }

  static bool is_none(const driveline::CasesMove& move) {
    return std::abs(move.tilt_rad) < kNoTilt_rad && std::abs(move.up_m) < kNoMove_m &&
           std::abs(move.left_m) < kNoMove_m;
  }
  std::string moved_words(double up_m) const {
    if (std::abs(up_m) < kNoMove_m) return "as it is";
    return fmt::format("{} {}", subject_.print.length(std::abs(up_m)), up_m > 0 ? "up" : "down");
  }
  std::string sideways_words(double left_m) const {
    if (std::abs(left_m) < kNoMove_m) return {};
    return fmt::format(", {} to the {}", subject_.print.length(std::abs(left_m)),
                       left_m > 0 ? "left" : "right");
  }
  std::string tilted_words(double tilt_rad) const {
    if (std::abs(tilt_rad) < kNoTilt_rad) return "as it is";
    return fmt::format("{} {}", subject_.print.angle(std::abs(tilt_rad)),
                       tilt_rad > 0 ? "more" : "less");
  }

  const Subject& subject_;
  const driveline::CaseLine& cases_;
  std::string path_;
  driveline::PlacingRange range_;
  double slope_rad_ = 0;
};

}  // namespace

void add_placing_findings(const Subject& subject) {
  if (!subject.report.drivetrain) return;
  for (const GapReport& gap : subject.report.drivetrain->gaps) add_gap_finding(subject, gap);
  const auto& lines = subject.report.drivetrain->lines;
  if (lines.empty()) return;
  const driveline::CaseLine& first = lines.front().from.line;
  if (first.cases.empty() || !first.cases.front().p_VoR_V.allFinite()) return;
  PlacingFinder(subject, lines.front()).add();
}

}  // namespace rig::check
