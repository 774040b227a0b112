#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "build/drivetrain_lookup.h"
#include "check/findings.h"
#include "check/words.h"

namespace rig::check {
namespace {

using units::Dimension;

/// Between a twist stiffness in the file and the frame's own.
constexpr double kToldTwist = 0.2;
/// Share of what the frame carries that may lie on it without mounts and not be worth a word.
constexpr double kLaidAlong = 0.1;
/// Of the frame's weight in the file, by which its parts' weight may differ: welds, brackets, rust.
constexpr double kOwnWeight = 0.2;

void add_laid_along(const Subject& subject) {
  const FrameReport& report = *subject.report.frame;
  const StateReport* ride = subject.report.ride();
  if (ride == nullptr || !ride->weigh.sprung || report.laid_along.empty()) return;
  const double share = report.laid_along_kg / ride->weigh.sprung->mass_kg;
  if (share < kLaidAlong) return;
  Finding finding;
  finding.id = "frame.mounts";
  finding.work = "frame";
  finding.subject = "What sits on the frame";
  finding.path = "/frame/mounts";
  finding.value = subject.print.number(report.laid_along_kg, Dimension::kMass);
  finding.basis = "program: without mounts a mass lies along both rails";
  finding.sentence =
      fmt::format("{} of what the frame carries ({}) has no mounts: {}.", finding.value->text,
                  subject.print.percent(share), join_words(report.laid_along));
  finding.advice = "Give the mounts that carry them, so that their weight comes where it does.";
  finding.verdict = Verdict::kLook;
  assume(finding, "Masses without mounts lie evenly along both rails.");
  subject.findings.push_back(std::move(finding));
}

/// Cases that the truck finds no rest in.
void add_left_out(const Subject& subject) {
  const auto& left_out = subject.report.frame->left_out;
  if (left_out.empty()) return;
  std::vector<std::string> words;
  words.reserve(left_out.size());
  for (const auto& [label, why] : left_out) {
    words.push_back(fmt::format("{} ({})", uncapitalised(label), why));
  }
  Finding finding;
  finding.id = "frame.left_out";
  finding.work = "frame";
  finding.subject = "Loads that could not be told";
  finding.path = "/frame";
  finding.basis = "program: the truck has to settle under a load";
  finding.sentence = fmt::format("No stress is told for: {}.", join_words(words));
  finding.advice = "Mend what keeps the truck from settling there first.";
  finding.verdict = Verdict::kLook;
  assume(finding, "What the frame carries there is not known.");
  subject.findings.push_back(std::move(finding));
}

/// A twist stiffness in the file stands for the frame under the truck; so it should be the frame's.
void add_told_twist(const Subject& subject) {
  const auto& told = subject.build.frame.twist_stiffness;
  const double worked_out = subject.report.frame->twist_stiffness_Nm_per_rad();
  if (!told.known() || std::isnan(worked_out)) return;
  const Printer& print = subject.print;
  Finding finding;
  finding.id = "frame.told_twist";
  finding.work = "frame";
  finding.subject = "Twist stiffness in the file";
  finding.path = "/frame/twist_stiffness";
  finding.value = print.number(told.si, Dimension::kAngularStiffness);
  finding.basis = "program: the file's counts under the truck; the frame alone is worked out";
  finding.sentence =
      fmt::format("The file gives {}, the frame as planned has {} by itself.", finding.value->text,
                  print.text(worked_out, Dimension::kAngularStiffness));
  const double share = told.si / worked_out;
  finding.verdict = Verdict::kGood;
  finding.advice = "Nothing to do.";
  if (share > 1 + kToldTwist || share < 1 - kToldTwist) {
    finding.verdict = Verdict::kLook;
    finding.advice = "Leave it out and what is worked out counts, or measure it with the body on.";
    assume(finding,
           "The truck stands on the file's stiffness; all of what that carries is taken "
           "to go through the frame.");
  }
  subject.findings.push_back(std::move(finding));
}

/// The frame's own weight in the list against that of its rails, plates and crossmembers.
void add_own_weight(const Subject& subject) {
  const std::string& id = subject.build.frame.own_mass.id;
  const FrameState *planned = subject.report.frame->state("planned"),
                   *donor = subject.report.frame->state("donor");
  const StateReport* ride = subject.report.ride();
  if (id.empty() || planned == nullptr || donor == nullptr || ride == nullptr) return;
  const auto item = std::find_if(ride->weigh.items.begin(), ride->weigh.items.end(),
                                 [&](const auto& one) { return one.id == id; });
  if (item == ride->weigh.items.end()) return;
  const Printer& print = subject.print;
  const double planned_kg = planned->mass_kg(), added_kg = planned_kg - donor->mass_kg();
  Finding finding;
  finding.id = "frame.weight";
  finding.work = "frame";
  finding.subject = "The frame's own weight";
  finding.path = "/masses/" + id;
  finding.value = print.number(planned_kg, Dimension::kMass);
  finding.basis = "program: sections times length, brackets and welds not counted";
  finding.sentence = fmt::format(
      "Rails, plates and crossmembers as planned weigh {}, {} {} than as it came; the list has {}.",
      finding.value->text, print.text(std::abs(added_kg), Dimension::kMass),
      added_kg < 0 ? "less" : "more", print.text(item->mass_kg(), Dimension::kMass));
  finding.verdict = Verdict::kGood;
  finding.advice = "Nothing to do.";
  if (std::abs(planned_kg / item->mass_kg() - 1) > kOwnWeight) {
    finding.verdict = Verdict::kLook;
    finding.advice = "Weigh the frame, or look for a part or a thickness that is missing.";
    assume(finding, "The truck is weighed with the list's figure.");
  }
  subject.findings.push_back(std::move(finding));
}

/// Masses that the frame's mounts list and that sit on the drivetrain's own.
void add_carried_twice(const Subject& subject) {
  std::vector<std::string> words;
  std::string path;
  for (const auto& mount : subject.build.frame.mounts) {
    for (const auto& mass : mount.value.carries) {
      if (build::find_carriers(subject.build.drivetrain, mass.id).empty()) continue;
      const auto* item = build::find(subject.build.masses, mass.id);
      const std::string& label = item->value.label;
      const std::string said = "the " + uncapitalised(label.empty() ? mass.id : label);
      if (std::find(words.begin(), words.end(), said) == words.end()) words.push_back(said);
      if (path.empty()) path = mount.path + "/carries";
    }
  }
  if (words.empty()) return;
  Finding finding;
  finding.id = "frame.carried_twice";
  finding.work = "frame";
  finding.subject = "What the frame's mounts carry";
  finding.path = path;
  finding.verdict = Verdict::kLook;
  finding.sentence = fmt::format(
      "The frame's mounts list {}, on the drivetrain's own mounts: those "
      "count.",
      join_words(words));
  finding.basis = "the file";
  finding.advice = "Take them off the frame's mounts.";
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_frame_input_findings(const Subject& subject) {
  add_left_out(subject);
  add_told_twist(subject);
  add_own_weight(subject);
  add_laid_along(subject);
  add_carried_twice(subject);
}

}  // namespace rig::check
