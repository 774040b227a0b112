#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/drivetrain_report.h"
#include "check/findings.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;

constexpr double kMillimetre_m = 0.001;
/// A hook nearer than this to the balance point lifts level, m.
constexpr double kHookOff_m = 0.025;
/// Below this angle from level a sling needs a qualified person [ASME B30.9].
constexpr double kLeastSling_rad = 30 * units::kDegree_rad;

/// How far apart the faces are where a case that stands apart could be joined to the one before.
void add_gaps(const Subject& subject) {
  const auto& lines = subject.report.drivetrain->lines;
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const auto& ahead = lines[i - 1].from;
    const auto& behind = lines[i].from;
    if (ahead.line.cases.empty() || behind.line.cases.empty()) continue;
    const driveline::Case& last = ahead.line.cases.back();
    const driveline::Case& first = behind.line.cases.front();
    const Vec3 way = (last.p_VoR_V - last.p_VoF_V).normalized();
    const Vec3 gap = first.p_VoF_V - last.p_VoR_V;
    const Vec3 other = (first.p_VoR_V - first.p_VoF_V).normalized();
    const double along_m = gap.dot(way), off_m = (gap - along_m * way).norm();
    if (!std::isfinite(along_m) || !std::isfinite(other.x())) continue;
    const double angle_rad = std::acos(std::clamp(way.dot(other), -1.0, 1.0));
    Finding finding;
    finding.id = "case_gap." + first.id;
    finding.subject = capitalised(fmt::format("{} to {}", last.label, first.label));
    finding.path = behind.paths.front() + "/starts_at";
    finding.work = "drivetrain";
    finding.value = subject.print.number(along_m, Dimension::kLength);
    const bool in_line = off_m < kMillimetre_m && angle_rad < 0.1 * units::kDegree_rad;
    finding.verdict = along_m < 0 ? Verdict::kStop : in_line ? Verdict::kGood : Verdict::kLook;
    finding.sentence = fmt::format("The faces stand {} apart, {} out of line, {} out of square.",
                                   subject.print.length(along_m), subject.print.length(off_m),
                                   subject.print.angle(angle_rad));
    finding.basis = "places of both faces in the file";
    if (along_m < 0) {
      finding.advice = "They overlap: move the rear case back.";
    } else if (!in_line) {
      finding.advice = fmt::format(
          "Join them with a short shaft, or line them up and put a spacer "
          "of {} between.",
          subject.print.length(along_m));
    }
    if (finding.advice.empty()) finding.advice = "Nothing to do.";
    subject.findings.push_back(std::move(finding));
  }
}

/// Which end to unbolt first: the lighter one that is enough.
std::string lighter_advice(const LiftReport& lift, double capacity_kg, const Printer& print) {
  const double over_kg = lift.hung.mass_kg - capacity_kg;
  const HungPart* off = nullptr;
  if (lift.parts.size() > 1) {
    for (const HungPart* end : {&lift.parts.front(), &lift.parts.back()}) {
      if (end->mass_kg < over_kg) continue;
      if (off == nullptr || end->mass_kg < off->mass_kg) off = end;
    }
  }
  if (off == nullptr) {
    return fmt::format(
        "It is {} too heavy, and no one part taken off is enough: lift them one by one.",
        print.mass(over_kg));
  }
  return fmt::format("It is {} too heavy: take off the {} first, {}.", print.mass(over_kg),
                     uncapitalised(off->label), print.mass(off->mass_kg));
}

void add_lifts(const Subject& subject) {
  const auto& drivetrain = *subject.report.drivetrain;
  const auto& hoist = subject.build.drivetrain.hoist;
  for (const LiftReport& lift : drivetrain.lifts) {
    if (!hoist || !hoist->capacity.known()) continue;
    Finding finding;
    finding.id = "lift." + lift.id;
    finding.subject = capitalised(lift.label);
    finding.path = lift.path;
    finding.work = "drivetrain";
    finding.value = subject.print.number(lift.hung.mass_kg, Dimension::kMass);
    finding.limit = subject.print.number(hoist->capacity.si, Dimension::kMass);
    finding.edge = Edge::kMost;
    finding.verdict = judge(lift.hung.mass_kg, at_most(hoist->capacity.si)).verdict;
    finding.sentence =
        fmt::format("{} hangs on the hoist; it balances at station {}.", finding.value->text,
                    subject.print.length(-lift.hung.p_VoCm_V.x()));
    if (std::isfinite(lift.leg_N)) {
      finding.sentence +=
          fmt::format(" Each leg of the sling pulls {}.", subject.print.force(lift.leg_N));
    }
    finding.basis = "the capacity on the hoist's own plate, as typed; slings by ASME B30.9";
    if (finding.verdict == Verdict::kStop) {
      finding.advice = lighter_advice(lift, hoist->capacity.si, subject.print);
    } else if (std::abs(lift.hook_off_m) > kHookOff_m) {
      if (finding.verdict == Verdict::kGood) finding.verdict = Verdict::kLook;
      finding.advice = fmt::format(
          "Bring the hook {} to the {}: it comes up level there. Nobody "
          "under it.",
          subject.print.length(std::abs(lift.hook_off_m)), lift.hook_off_m > 0 ? "front" : "rear");
    } else if (finding.verdict == Verdict::kLook) {
      finding.advice = std::string(kInside) + " Nobody under it.";
    }
    if (hoist->sling.known() && hoist->sling.si < kLeastSling_rad && hoist->legs > 1) {
      finding.verdict = Verdict::kStop;
      finding.advice =
          "Longer slings: below 30° from level ASME B30.9 asks for a qualified person.";
    }
    if (finding.advice.empty()) finding.advice = "Nothing to do. Nobody under it.";
    finding.working.push_back({"m = sum m_i; leg = m g / (legs sin a), two legs at the most",
                               finding.value->text,
                               "statics; ASME B30.9",
                               {lift.path, "/drivetrain/hoist", "/masses"}});
    subject.findings.push_back(std::move(finding));
  }
}

}  // namespace

void add_lift_findings(const Subject& subject) {
  if (!subject.report.drivetrain) return;
  add_gaps(subject);
  add_lifts(subject);
}

}  // namespace rig::check
