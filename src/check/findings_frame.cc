#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/findings.h"
#include "check/words.h"
#include "frame/model.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;

/// Of a stiffness that a frame had, what it may lose before that asks for a look.
constexpr double kKept = 0.95;
/// By how much assumed joints may make a frame too stiff or too soft: shells of bolted frames,
/// docs/design/frame-model.md.
constexpr double kJoints = 0.25;
/// Yield over the stress that is let stand.
constexpr double kYieldMargin = 1.5;
constexpr const char* kMarginBasis = "yield over 1.5: common practice";
/// Of the stress beside a joint, or where a box distorts, what the steel there may see at most:
/// common practice.
constexpr double kLocal = 3;
/// One of the three ways in which a frame gives.
struct Give {
  const char* id;
  const char* subject;
  const char* way;  ///< "in twist from axle to axle"
  Dimension dimension;
  const char* accuracy;
  double (*stiffness)(const frame::WholeFrame&);
  std::vector<double> frame::WholeFrame::*shares;
};

double twist_of(const frame::WholeFrame& whole) { return whole.torsion.stiffness_Nm_per_rad; }
double bending_of(const frame::WholeFrame& whole) { return whole.bending.stiffness_N_per_m; }
double lozenging_of(const frame::WholeFrame& whole) { return whole.lozenging.stiffness_N_per_m; }

const Give kGives[] = {
    {"frame.twist", "Frame in twist", "in twist from axle to axle", Dimension::kAngularStiffness,
     "thin-walled beams; within 5 % of shell models, 10 % where it is boxed", twist_of,
     &frame::WholeFrame::torsion_shares},
    {"frame.bending", "Frame in bending", "in bending between the axles", Dimension::kStiffness,
     "thin-walled beams; within 2 % of shell models, 5 % where it is boxed", bending_of,
     &frame::WholeFrame::bending_shares},
    {"frame.lozenging", "Frame against going out of square", "against going out of square",
     Dimension::kStiffness, "thin-walled beams; within 10 % of shell models", lozenging_of,
     &frame::WholeFrame::lozenging_shares}};

/// "the left frame rail 31 %, the gearbox tube 12 % ...": the three that do most.
std::string share_words(const FrameState& state, const std::vector<double>& shares,
                        const Printer& print) {
  std::vector<std::size_t> order(shares.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  // Left and right of a symmetric frame differ by rounding alone: they keep their order.
  const auto rounded = [&](std::size_t i) { return std::round(shares[i] * 1e6); };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rounded(a) > rounded(b); });
  std::vector<std::string> words;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, order.size()); ++i) {
    words.push_back(fmt::format("the {} holds {}", state.members[order[i]].words,
                                print.percent(shares[order[i]])));
  }
  return join_words(words);
}

/// What a frame would have with one more of the parts that are not planned in.
struct Kept {
  std::string words;
  double stiffness = kNaN;
};

Kept find_best_kept(const Subject& subject, const Give& give) {
  Kept best;
  const build::PartsIn planned = build::planned_parts(subject.build.frame);
  const build::PartsIn donor = build::donor_parts(subject.build.frame);
  for (const std::string& id : donor) {
    if (planned.contains(id)) continue;
    build::PartsIn in = planned;
    in.insert(id);
    const auto& state = subject.known_frame.with(in);
    if (!state.told || !state.told->whole) continue;  // It no longer fits beside what goes in.
    const double stiffness = give.stiffness(*state.told->whole);
    if (best.stiffness >= stiffness) continue;
    const auto* part = build::find(subject.build.frame.crossmembers, id);
    const std::string label = part == nullptr ? "" : part->value.label;
    best = {uncapitalised(label.empty() ? id : label), stiffness};
  }
  return best;
}

std::string give_advice(const Subject& subject, const Give& give, const FrameState& planned,
                        double had) {
  std::string most =
      fmt::format("Most is done by these: {}.",
                  share_words(planned, (*planned.whole).*give.shares, subject.print));
  if (!subject.advise) return most;
  const Kept kept = find_best_kept(subject, give);
  if (!std::isfinite(kept.stiffness)) return most;
  return fmt::format("Left in, the {} would bring it to {} % of what it was. {}", kept.words,
                     std::lround(100 * kept.stiffness / had), most);
}

/// Where joints as soft as they may be would not change the verdict, no assumption decides it.
void assume_joints(const FrameState& state, double now, double had, Finding& finding) {
  if (state.assumptions.empty() || (1 - kJoints) * now >= kKept * had) return;
  assume(finding, state.assumptions.front().words);
}

void add_give(const Subject& subject, const Give& give) {
  const FrameState* donor = subject.report.frame->state("donor");
  const FrameState* planned = subject.report.frame->state("planned");
  if (planned == nullptr || !planned->whole) return;
  const double now = give.stiffness(*planned->whole);
  Finding finding;
  finding.id = give.id;
  finding.work = "frame";
  finding.subject = give.subject;
  finding.path = "/frame";
  finding.value = subject.print.number(now, give.dimension);
  finding.basis = give.accuracy;
  finding.verdict = Verdict::kGood;
  finding.advice = "Nothing to do.";
  const std::string sentence = fmt::format("As planned {} {}", finding.value->text, give.way);
  if (donor == nullptr || !donor->whole) {
    finding.sentence = sentence + ".";
  } else {
    const double had = give.stiffness(*donor->whole);
    finding.limit = subject.print.number(had, give.dimension);
    finding.edge = Edge::kLeast;
    const auto percent = std::lround(100 * (now / had - 1));
    finding.sentence =
        percent == 0 ? sentence + ", as it came."
                     : fmt::format("{}: {} % {} than as it came ({}).", sentence, std::abs(percent),
                                   percent > 0 ? "stiffer" : "softer", finding.limit->text);
    if (now < kKept * had) {
      finding.verdict = Verdict::kLook;
      finding.advice = give_advice(subject, give, *planned, had);
    }
  }
  assume_joints(*planned, now,
                donor == nullptr || !donor->whole ? kNaN : give.stiffness(*donor->whole), finding);
  finding.working.push_back(
      {.formula = "K = 1 / (what it gives under a load of 1)",
       .with_values = share_words(*planned, (*planned->whole).*give.shares, subject.print),
       .source = give.accuracy,
       .input_paths = {"/frame/rails", "/frame/crossmembers"}});
  subject.findings.push_back(std::move(finding));
}

std::string caveats(const StressPlace& place) {
  std::string words;
  if (place.near_joint) words += " It is close to a joint, whose own stress comes on top of this.";
  if (place.distorts) words += " A box that is twisted there distorts: more comes on top of this.";
  return words;
}

void judge_stress(const StressPlace& worst, const Printer& print, Finding& finding) {
  const double limit_Pa = worst.yield_Pa / kYieldMargin;
  finding.limit = print.number(limit_Pa, Dimension::kStress);
  finding.edge = Edge::kMost;
  if (worst.von_mises_Pa > limit_Pa) {
    finding.verdict = worst.von_mises_Pa > worst.yield_Pa ? Verdict::kStop : Verdict::kLook;
    finding.advice = fmt::format(
        "Make it {:.1f} times as strong there (a plate, a deeper section), or bring the load "
        "nearer to a crossmember.",
        std::ceil(10 * worst.von_mises_Pa / limit_Pa) / 10);
    return;
  }
  if (!worst.near_joint && !worst.distorts) return;
  if (kLocal * worst.von_mises_Pa > limit_Pa) {
    assume(finding, "What the joint itself adds is not in this.");
  } else {
    finding.sentence += fmt::format(" Even {} times as much would be within the limit.", kLocal);
  }
}

void add_case(const Subject& subject, const FrameCaseReport& of) {
  if (of.worst.empty()) return;
  const Printer& print = subject.print;
  const StressPlace& worst = of.worst.front();
  Finding finding;
  finding.id = "frame.stress." + of.id;
  finding.work = "frame";
  finding.subject = of.label;
  finding.path = worst.path;
  finding.value = print.number(worst.von_mises_Pa, Dimension::kStress);
  finding.basis = fmt::format("{}; load: {}", kMarginBasis, of.basis);
  finding.sentence = fmt::format("Stressed most at the {}: {}.{}", worst.where, finding.value->text,
                                 caveats(worst));
  finding.verdict = Verdict::kGood;
  finding.advice = "Nothing to do.";
  finding.working.push_back(
      {.formula = "sigma = N/A + M/W + B w / Cw; von Mises with the shear",
       .with_values =
           fmt::format("along the part {}, von Mises {}",
                       print.text(worst.axial_Pa, Dimension::kStress), finding.value->text),
       .source = "Vlasov's thin-walled beams",
       .input_paths = {worst.path}});
  if (std::isnan(worst.yield_Pa)) {
    finding.advice = "Tell the yield stress of what this part is made of.";
    assume(finding, "The yield stress of this part is not known.");
  } else {
    judge_stress(worst, print, finding);
  }
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_frame_findings(const Subject& subject) {
  if (!subject.report.frame) return;
  for (const Give& give : kGives) add_give(subject, give);
  for (const auto& of : subject.report.frame->cases) add_case(subject, of);
  add_frame_input_findings(subject);
}

}  // namespace rig::check
