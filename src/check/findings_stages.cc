#include <fmt/format.h>

#include <cmath>

#include "check/findings.h"
#include "check/words.h"
#include "frame/rail_line.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using frame::StageCut;
using frame::StageReasonKind;
using units::Dimension;

/// Smaller than this a rail is told not to move, m: no tape shows it.
constexpr double kShown_m = units::kInch_m / 64;

std::string parts_words(const StageCut& cut) {
  std::vector<std::string> words;
  for (const auto& part : cut.parts) words.push_back("the " + part.words);
  return join_words(words);
}

/// "the rails come 1/16 in nearer, the left one 1/8 in higher"; empty when no tape shows it.
std::string spring_words(const frame::EndSpring& spring, const Printer& print) {
  std::vector<std::string> words;
  const auto add = [&](double si, const char* more, const char* less) {
    if (std::abs(si) < kShown_m) return;
    words.push_back(fmt::format("{} {}", print.length(std::abs(si)), si > 0 ? more : less));
  };
  add(spring.apart_m, "further apart", "nearer together");
  add(spring.height_m, "higher on the left", "lower on the left");
  add(spring.ahead_m, "ahead on the left", "behind on the left");
  return join_words(words);
}

/// What the rails do where the parts were.
std::string springs_words(const StageCut& cut, const Printer& print) {
  std::string all;
  for (const auto& part : cut.parts) {
    if (!part.spring) continue;
    const std::string words = spring_words(*part.spring, print);
    if (words.empty()) continue;
    if (!all.empty()) all += " ";
    all += fmt::format("Where the {} was the rails spring {}.", part.words, words);
  }
  return all.empty() ? "The rails do not spring by what a tape shows." : all;
}

std::string moves_words(const frame::StageChange& change, const Printer& print) {
  std::string words;
  if (std::abs(change.height.change_m) >= kShown_m) {
    words += fmt::format(" {} goes {} by {}.", capitalised(change.height.words),
                         change.height.change_m > 0 ? "up" : "down",
                         print.length(std::abs(change.height.change_m)));
  }
  if (change.diagonals && std::abs(change.diagonals->difference_m()) >= kShown_m) {
    words += fmt::format(" The diagonals then differ by {} more, the longer from {} front.",
                         print.length(std::abs(change.diagonals->difference_m())),
                         change.diagonals->difference_m() > 0 ? "left" : "right");
  }
  return words;
}

std::string reason_words(const frame::StageReason& reason, const Printer& print) {
  switch (reason.kind) {
    case StageReasonKind::near_yield:
      return fmt::format("it leaves too little to yield: {} of {} allowed",
                         print.text(reason.value, Dimension::kStress),
                         print.text(reason.limit, Dimension::kStress));
    case StageReasonKind::moves:
      return fmt::format("a rail moves by {}, more than {}", print.length(std::abs(reason.value)),
                         print.length(reason.limit));
    case StageReasonKind::goes_out_of_square:
      return fmt::format("the diagonals go apart by {}, more than {}",
                         print.length(std::abs(reason.value)), print.length(reason.limit));
    case StageReasonKind::yield_unknown:
      return "The yield stress of a part is not known.";
    case StageReasonKind::bolted_joint:
      return "How stiff a bolted joint is was assumed.";
    case StageReasonKind::weights_unknown:
      return "The weight of something aboard is not known.";
    case StageReasonKind::not_held:
      break;  // told together, below
  }
  return "";
}

/// What would tip or drop on the mounts that are left.
std::vector<std::string> unheld_words(const build::Build& build, const StageCut& cut) {
  std::vector<std::string> words;
  for (const auto& reason : cut.reasons) {
    if (reason.kind != StageReasonKind::not_held) continue;
    for (const auto& mass : build.masses) {
      if (mass.path != reason.path) continue;
      words.push_back("the " + frame::shop_words(mass.value.label, mass.id));
    }
  }
  return words;
}

void add_unheld(const std::vector<std::string>& unheld, Finding& finding) {
  if (unheld.empty()) return;
  const std::string words = join_words(unheld);
  const bool one = unheld.size() == 1;
  assume(finding, fmt::format("{} {} taken to be held up by something else: on the mounts that are "
                              "left {} would tip.",
                              capitalised(words), one ? "is" : "are", one ? "it" : "they"));
  finding.advice += fmt::format(
      " Before the cut take {} on the hoist or on a stand of {} own, and let no one under {}.",
      words, one ? "its" : "their", one ? "it" : "them");
}

std::string brace_words(const StageCut& cut) {
  const auto ratio = [](const std::optional<double>& of) {
    return of ? fmt::format("{} %", std::lround(100 * *of)) : std::string();
  };
  const std::string height = ratio(cut.height_ratio()), square = ratio(cut.diagonals_ratio());
  if (height.empty() && square.empty()) return "";
  std::vector<std::string> words;
  if (!height.empty()) words.push_back(height + " of the height");
  if (!square.empty()) words.push_back(square + " of the diagonals");
  return fmt::format("With the brace it moves by {} of what it would without.", join_words(words));
}

std::string stage_advice(const StageCut& cut) {
  const std::string braced = brace_words(cut);
  if (cut.verdict != frame::StageVerdict::stop) {
    return braced.empty() ? "Tack the new part to the rails as they stand after the cut." : braced;
  }
  const bool yields = cut.reasons.front().kind == StageReasonKind::near_yield;
  std::string advice = cut.braces.empty()
                           ? "Put a brace between the rails beside it before cutting"
                           : "Put a stiffer brace in, or a second one, before cutting";
  advice += yields ? ", and take weight off or set a stand nearer." : ", or set a stand nearer.";
  return braced.empty() ? advice : advice + " " + braced;
}

void add_stage(const Subject& subject, const StageReport& stage) {
  const Printer& print = subject.print;
  const StageCut& cut = *stage.cut;
  Finding finding;
  finding.id = "frame.stage." + stage.id;
  finding.work = "frame";
  finding.subject = stage.label;
  finding.path = stage.path;
  finding.basis =
      "1/16 in of height, 1/8 in of diagonals, yield over 1.5: common practice; welds let go "
      "slowly, steel elastic";
  finding.verdict = cut.verdict == frame::StageVerdict::stop   ? Verdict::kStop
                    : cut.verdict == frame::StageVerdict::look ? Verdict::kLook
                                                               : Verdict::kGood;
  finding.sentence = cut.parts.empty() ? "Nothing is cut; the frame only stands differently."
                                       : fmt::format("Taking out {}: {}{}", parts_words(cut),
                                                     uncapitalised(springs_words(cut, print)),
                                                     moves_words(cut.change, print));
  finding.value = print.number(cut.change.stress.worst.von_mises_Pa, Dimension::kStress);
  finding.sentence += fmt::format(" Stressed most then at the {}: {}.",
                                  cut.change.stress.worst.words, finding.value->text);
  finding.advice = cut.parts.empty() ? "Nothing to do." : stage_advice(cut);
  add_unheld(unheld_words(subject.build, cut), finding);
  for (const auto& reason : cut.reasons) {
    if (reason.kind == StageReasonKind::not_held) continue;
    const bool assumed = reason.kind == StageReasonKind::yield_unknown ||
                         reason.kind == StageReasonKind::bolted_joint ||
                         reason.kind == StageReasonKind::weights_unknown;
    const std::string words = reason_words(reason, print);
    if (assumed) {
      assume(finding, words);
    } else {
      finding.sentence += fmt::format(" {}.", capitalised(words));
    }
  }
  for (const auto& part : cut.parts) {
    finding.working.push_back(
        {.formula = "what its ends carry just before the cut",
         .with_values = fmt::format("{}: {}; {}", part.words, part.first.words, part.second.words),
         .source = "beam forces; the frame after is the frame before less "
                   "what the part carried",
         .input_paths = {part.path}});
  }
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_stage_findings(const Subject& subject) {
  if (!subject.report.frame) return;
  for (const auto& stage : subject.report.frame->stages) {
    if (stage.cut) add_stage(subject, stage);
  }
}

}  // namespace rig::check
