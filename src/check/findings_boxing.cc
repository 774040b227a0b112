#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/findings.h"
#include "check/words.h"
#include "frame/box_advice.h"
#include "frame/rail_line.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;

constexpr const char* kBoxAccuracy =
    "thin-walled beams; within 10 % of shell models where it is boxed";
constexpr const char* kReachBasis = "own shell study: a box's end loses 0.6 to 1 rail depth";
/// Stretches told in the advice.
constexpr std::size_t kToldStretches = 3;

std::string percent_more(double now, double before) {
  const double percent = 100 * (now / before - 1);
  return fmt::format("{:.{}f} %", percent, std::abs(percent) < 10 ? 1 : 0);
}

/// "from 12 in to 30 in".
std::string stretch_words(const frame::OpenStretch& stretch, const Printer& print) {
  return fmt::format("from {} to {}", print.length(stretch.from_m), print.length(stretch.to_m));
}

/// "2.1 lb-ft/deg per in and 6.4 lb-ft/deg per lb of plate".
std::string gain_words(const frame::StretchGain& gain, const frame::FrameStiffness& now,
                       const Printer& print) {
  const bool metric = print.choices().metric;
  const double length_m = metric ? 0.1 : units::kInch_m;
  const double mass_kg = metric ? 1 : units::kPound_kg;
  return fmt::format("{} for each {} and {} for each {} of plate",
                     print.text(gain.per_length(now) * length_m, Dimension::kAngularStiffness),
                     metric ? "100 mm" : "in",
                     print.text(gain.per_mass(now) * mass_kg, Dimension::kAngularStiffness),
                     metric ? "kg" : "lb");
}

/// Where more plate would do most.
void add_next_stretch(const Subject& subject, const frame::BoxAdvice* advice) {
  const auto stretches =
      frame::list_open_stretches(subject.build, build::planned_parts(subject.build.frame));
  if (stretches.empty()) return;
  const Printer& print = subject.print;
  Finding finding;
  finding.id = "frame.boxing";
  finding.work = "frame";
  finding.subject = "More boxing";
  finding.path = "/frame/plates";
  finding.basis = kBoxAccuracy;
  finding.verdict = Verdict::kGood;
  finding.sentence =
      fmt::format("{} of open rail could be closed.",
                  stretches.size() == 1 ? std::string("One stretch")
                                        : fmt::format("{} stretches", stretches.size()));
  finding.advice = "Nothing to do.";
  if (advice != nullptr && !advice->stretches.empty()) {
    const frame::StretchGain& best = advice->stretches.front();
    finding.value = print.number(best.with.torsion_Nm_per_rad, Dimension::kAngularStiffness);
    finding.sentence = fmt::format(
        "Of open rail a plate does most {}: the frame then has {} in twist, {} more than planned, "
        "{}.",
        stretch_words(best.stretch, print), finding.value->text,
        percent_more(best.with.torsion_Nm_per_rad, advice->now.torsion_Nm_per_rad),
        gain_words(best, advice->now, print));
    for (std::size_t i = 0; i < std::min(kToldStretches, advice->stretches.size()); ++i) {
      const frame::StretchGain& gain = advice->stretches[i];
      finding.working.push_back(
          {.formula = "K with this stretch closed less K as planned, per length and per mass",
           .with_values = fmt::format(
               "{}: twist {} more, bending {} more, out of square {} more; {}, {} of plate",
               stretch_words(gain.stretch, print),
               percent_more(gain.with.torsion_Nm_per_rad, advice->now.torsion_Nm_per_rad),
               percent_more(gain.with.bending_N_per_m, advice->now.bending_N_per_m),
               percent_more(gain.with.lozenging_N_per_m, advice->now.lozenging_N_per_m),
               gain_words(gain, advice->now, print), print.mass(gain.plate_mass_kg)),
           .source = kBoxAccuracy,
           .input_paths = {"/frame/rails", "/frame/plates", "/frame/crossmembers"}});
    }
  }
  subject.findings.push_back(std::move(finding));
}

/// "1.4 times as hard just ahead of it and 1.2 times just behind it"; empty without open rail.
std::string beside_words(const frame::PlateEffect& effect,
                         double (*ratio)(const frame::BesidePlate&)) {
  std::vector<std::string> words;
  if (effect.front) {
    words.push_back(fmt::format("{:.2f} times just ahead of it", ratio(*effect.front)));
  }
  if (effect.rear) {
    words.push_back(fmt::format("{:.2f} times just behind it", ratio(*effect.rear)));
  }
  return join_words(words);
}

const frame::PlateEffect* find_effect(const frame::BoxAdvice* advice, const std::string& path) {
  if (advice == nullptr) return nullptr;
  const auto found = std::find_if(advice->plates.begin(), advice->plates.end(),
                                  [&](const frame::PlateEffect& one) { return one.path == path; });
  return found == advice->plates.end() ? nullptr : &*found;
}

/// What one plate does.
void add_box(const Subject& subject, const build::Entry<build::BoxingPlate>& plate,
             const frame::BoxAdvice* advice) {
  const Printer& print = subject.print;
  const auto* rail = build::find(subject.build.frame.rails, plate.value.rail.id);
  const double depth_m =
      rail == nullptr ? kNaN : frame::rail_depth_m(rail->value, plate.value.from.si);
  Finding finding;
  finding.id = "frame.box." + plate.id;
  finding.work = "frame";
  finding.subject = capitalised(frame::shop_words(plate.value.label, plate.id));
  finding.path = plate.path;
  finding.basis = kBoxAccuracy;
  finding.verdict = Verdict::kGood;
  finding.sentence = "Closes the rail to a box.";
  finding.advice =
      fmt::format("Run it {} to {} past where the box is wanted: so much its open ends lose.",
                  print.length(frame::kReachLostLeast * depth_m),
                  print.length(frame::kReachLostMost * depth_m));
  finding.working.push_back({.formula = "lost at each end = 0.6 to 1 of the rail's depth",
                             .with_values = print.length(depth_m),
                             .source = kReachBasis,
                             .input_paths = {plate.path, plate.path + "/rail"}});
  if (const frame::PlateEffect* effect = find_effect(advice, plate.path)) {
    const double gain_Nm_per_rad =
        advice->now.torsion_Nm_per_rad - effect->without.torsion_Nm_per_rad;
    finding.value = print.number(gain_Nm_per_rad, Dimension::kAngularStiffness);
    finding.sentence = fmt::format(
        "Adds {} to the frame's twist stiffness, {}, for {} of plate.", finding.value->text,
        percent_more(advice->now.torsion_Nm_per_rad, effect->without.torsion_Nm_per_rad),
        print.mass(effect->mass_kg));
    const std::string couple =
        beside_words(*effect, [](const frame::BesidePlate& b) { return b.same_couple; });
    if (!couple.empty()) {
      finding.sentence += fmt::format(
          " Under the same couple from axle to axle the open rail is stressed {}.", couple);
      finding.working.push_back(
          {.formula = "largest stress over one depth of open rail, with over without the plate",
           .with_values = fmt::format(
               "same couple: {}; same twist: {}", couple,
               beside_words(*effect, [](const frame::BesidePlate& b) { return b.same_twist; })),
           .source = kBoxAccuracy,
           .input_paths = {plate.path}});
    }
    finding.working.push_back(
        {.formula = "K as planned less K without this plate",
         .with_values = fmt::format(
             "{} less {}", print.text(advice->now.torsion_Nm_per_rad, Dimension::kAngularStiffness),
             print.text(effect->without.torsion_Nm_per_rad, Dimension::kAngularStiffness)),
         .source = kBoxAccuracy,
         .input_paths = {plate.path}});
  }
  finding.sentence += fmt::format(" Each open end loses {} to {} of its reach.",
                                  print.length(frame::kReachLostLeast * depth_m),
                                  print.length(frame::kReachLostMost * depth_m));
  subject.findings.push_back(std::move(finding));
}

/// A tube that stops at a wall of the box.
void add_stopped_tube(const Subject& subject, const build::Entry<build::Crossmember>& tube,
                      const frame::BoxAdvice* advice) {
  Finding finding;
  finding.id = "frame.tube_joint." + tube.id;
  finding.work = "frame";
  finding.subject = capitalised(frame::shop_words(tube.value.label, tube.id));
  finding.path = tube.path + "/joint";
  finding.basis = "own shell study: a tube through both walls is held about 20 times as stiffly";
  finding.verdict = Verdict::kLook;
  finding.sentence = "Meets a boxed rail and stops at one of its walls.";
  finding.advice = "Let it run through web and plate, welded to both.";
  if (advice != nullptr) {
    for (const frame::TubeEffect& effect : advice->tubes) {
      if (effect.path != tube.path) continue;
      finding.value = subject.print.number(effect.through.lozenging_N_per_m, Dimension::kStiffness);
      finding.sentence += fmt::format(
          " Through web and plate the frame has {} against going out of square, {} more than as "
          "planned.",
          finding.value->text,
          percent_more(effect.through.lozenging_N_per_m, advice->now.lozenging_N_per_m));
    }
  }
  finding.working.push_back({.formula = "K with the tube through both walls over K as planned",
                             .with_values = finding.value ? finding.value->text : "",
                             .source = finding.basis,
                             .input_paths = {finding.path}});
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_boxing_findings(const Subject& subject) {
  if (!subject.report.frame) return;
  const FrameState* planned = subject.report.frame->state("planned");
  if (planned == nullptr || !planned->whole) return;
  const auto in = build::planned_parts(subject.build.frame);
  // A model for each stretch, plate and tube: only where advice is waited for.
  const frame::BoxAdvice* advice = subject.advise ? subject.known_frame.boxing() : nullptr;
  add_next_stretch(subject, advice);
  for (const auto& plate : subject.build.frame.plates) {
    if (in.contains(plate.id)) add_box(subject, plate, advice);
  }
  for (const auto* tube : frame::list_stopped_tubes(subject.build, in)) {
    add_stopped_tube(subject, *tube, advice);
  }
}

}  // namespace rig::check
