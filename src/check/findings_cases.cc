#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "check/drivetrain_report.h"
#include "check/findings.h"
#include "check/limits_drivetrain.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;

/// How near a bounce is to an axle's hop to feed on it, as a share; common practice.
constexpr double kNearHop = 0.2;

class CasesFindings {
 public:
  CasesFindings(const Subject& subject, const CasesReport& line)
      : subject_(subject), print_(subject.print), line_(line) {}

  void add() {
    add_patterns();
    if (line_.loads.empty()) return;
    for (std::size_t i = 0; i + 1 < line_.from.line.cases.size(); ++i) add_flange(i);
    add_support();
    add_better_rate();
    add_mounts();
    add_modes();
    add_hop();
  }

 private:
  static Finding make(std::string id, const std::string& subject, const std::string& path) {
    Finding finding;
    finding.id = std::move(id);
    finding.subject = capitalised(subject);
    finding.path = path;
    finding.work = "drivetrain";
    return finding;
  }
  void give(Finding finding) const {
    if (finding.advice.empty()) finding.advice = "Nothing to do.";
    for (const std::string& assumption : line_.from.assumptions) {
      assume(finding, capitalised(assumption) + ".");
    }
    subject_.findings.push_back(std::move(finding));
  }
  std::string torque(double si) const { return print_.text(si, Dimension::kTorque); }
  const driveline::Case& one(std::size_t i) const { return line_.from.line.cases[i]; }

  void add_patterns() {
    for (std::size_t i = 0; i + 1 < line_.from.line.cases.size(); ++i) {
      const std::string& ahead = line_.from.rear_patterns[i];
      const std::string& behind = line_.from.front_patterns[i + 1];
      if (ahead.empty() || behind.empty() || ahead == behind) continue;
      Finding finding = make("flange_pattern." + one(i + 1).id, line_.flange_words(i),
                             line_.from.paths[i + 1] + "/front_pattern");
      finding.verdict = Verdict::kStop;
      finding.sentence = fmt::format("The faces do not match: \"{}\" meets \"{}\".", ahead, behind);
      finding.basis = "bolt patterns in the file";
      finding.advice = "Put an adapter between them, or mend the pattern's name.";
      subject_.findings.push_back(std::move(finding));
    }
  }

  /// The load that bends a flange most.
  std::size_t worst_load(std::size_t flange) const {
    std::size_t worst = 0;
    for (std::size_t l = 1; l < line_.loads.size(); ++l) {
      if (line_.loads[l].carried.flanges[flange].bending_Nm >
          line_.loads[worst].carried.flanges[flange].bending_Nm) {
        worst = l;
      }
    }
    return worst;
  }

  void add_flange(std::size_t i) {
    const CasesLoad& load = line_.loads[worst_load(i)];
    const auto& cut = load.carried.flanges[i];
    const auto* segment = build::find(subject_.build.drivetrain.segments, one(i).id);
    double limit_Nm = segment->value.flange_limit.si;
    std::string basis = "the flange's limit in the file";
    bool of_makers = false;
    if (std::isnan(limit_Nm) && i < line_.made_bending_Nm.size()) {
      limit_Nm = line_.made_bending_Nm[i];
      basis = "what the makers' own mounts make there under the same loads";
      of_makers = true;
    }
    Finding finding = make("flange." + one(i).id, line_.flange_words(i), line_.from.paths[i]);
    finding.value = print_.number(cut.bending_Nm, Dimension::kTorque);
    finding.edge = Edge::kMost;
    if (std::isnan(limit_Nm)) {
      finding.verdict = Verdict::kLook;
      finding.sentence = fmt::format(
          "The flange is bent with {} ({}); what it may carry is not "
          "known.",
          torque(cut.bending_Nm), uncapitalised(load.label));
      finding.basis = "no limit is known";
      finding.advice = "Type the limit, or the makers' mounts with fate \"comes_out\" to compare.";
    } else {
      finding.limit = print_.number(limit_Nm, Dimension::kTorque);
      finding.verdict =
          judge(cut.bending_Nm, {.high = limit_Nm, .close = 0.1 * limit_Nm, .stops = !of_makers})
              .verdict;
      finding.sentence =
          fmt::format("The flange is bent with {} ({}), {} % of {}.", torque(cut.bending_Nm),
                      uncapitalised(load.label), std::lround(100 * cut.bending_Nm / limit_Nm),
                      torque(limit_Nm));
      finding.basis = basis;
      if (finding.verdict != Verdict::kGood) finding.advice = relief_advice();
    }
    finding.working.push_back(
        {"M = sum of moments of all weights, mounts and torques ahead of the flange",
         fmt::format("bending {}, twist {}, shear {}", torque(cut.bending_Nm),
                     torque(cut.torsion_Nm), print_.force(cut.shear_N)),
         fmt::format("statics of the cut; {}: {}", uncapitalised(load.label), load.basis),
         {"/drivetrain/segments", "/drivetrain/mounts", "/masses"}});
    give(std::move(finding));
  }

  std::string relief_advice() const {
    if (line_.support) {
      return fmt::format("A support under the {} at station {} brings the worst flange to {}.",
                         uncapitalised(one(line_.support->on).label),
                         print_.length(-line_.support->p_VoM_V.x()),
                         torque(line_.support->worst.cut.bending_Nm));
    }
    if (line_.better_rate) return rate_words(*line_.better_rate);
    return "Move a mount nearer to the flange.";
  }

  std::string rate_words(const driveline::MountRate& rate) const {
    const auto& mount = line_.from.line.mounts[rate.mount];
    const double rate_N_per_m = rate.factor * mount.axis_V.dot(mount.K_V * mount.axis_V);
    return fmt::format("With {} in the {} the worst flange comes to {}.",
                       print_.text(rate_N_per_m, Dimension::kStiffness), uncapitalised(mount.label),
                       torque(rate.worst.cut.bending_Nm));
  }

  /// Greatest bending over all flanges and loads; 0 without one.
  double worst_bending_Nm() const {
    double worst = 0;
    for (const CasesLoad& load : line_.loads) {
      for (const auto& cut : load.carried.flanges) worst = std::max(worst, cut.bending_Nm);
    }
    return worst;
  }

  void add_support() {
    if (!line_.support) return;
    Finding finding =
        make("case_support", one(line_.support->on).label, line_.from.paths[line_.support->on]);
    const double now_Nm = worst_bending_Nm(), then_Nm = line_.support->worst.cut.bending_Nm;
    finding.verdict = Verdict::kLook;
    finding.value = print_.number(now_Nm, Dimension::kTorque);
    finding.sentence =
        fmt::format("It hangs behind the last mount: the worst flange carries {}.", torque(now_Nm));
    finding.basis = "bending of the flanges with and without a support of its own";
    finding.advice = fmt::format(
        "A support at station {} takes {} at the most and brings it to "
        "{}.",
        print_.length(-line_.support->p_VoM_V.x()), print_.force(line_.support->greatest_load_N),
        torque(then_Nm));
    assume(finding, "The support is taken to be a rubber of 2000 lbf/in (common practice).");
    finding.working.push_back({"the place where the greatest bending over all loads is least",
                               fmt::format("{} instead of {}", torque(then_Nm), torque(now_Nm)),
                               "docs/design/powertrain.md",
                               {"/drivetrain/mounts"}});
    give(std::move(finding));
  }

  void add_better_rate() {
    if (!line_.better_rate) return;
    const auto& mount = line_.from.line.mounts[line_.better_rate->mount];
    Finding finding = make("mount_rates", mount.label, mount.path + "/compression");
    finding.verdict = Verdict::kLook;
    finding.value = print_.number(worst_bending_Nm(), Dimension::kTorque);
    finding.sentence = fmt::format("Unequal mounts bend the cases: the worst flange carries {}.",
                                   torque(worst_bending_Nm()));
    finding.basis = "bending of the flanges with other rates of one pair of mounts";
    finding.advice = rate_words(*line_.better_rate);
    finding.working.push_back({"the rate at which the greatest bending over all loads is least",
                               fmt::format("{:.3g} times as stiff", line_.better_rate->factor),
                               "docs/design/powertrain.md",
                               {mount.path}});
    give(std::move(finding));
  }

  void add_mounts() {
    for (std::size_t m = 0; m < line_.from.line.mounts.size(); ++m) {
      const auto& mount = line_.from.line.mounts[m];
      const std::string id = mount.path.substr(mount.path.rfind('/') + 1);
      const auto* entry = build::find(subject_.build.drivetrain.mounts, id);
      if (!entry->value.rating.known()) continue;
      std::size_t worst = 0;
      for (std::size_t l = 1; l < line_.loads.size(); ++l) {
        if (std::abs(line_.loads[l].carried.mounts[m].along_N) >
            std::abs(line_.loads[worst].carried.mounts[m].along_N)) {
          worst = l;
        }
      }
      const double load_N = std::abs(line_.loads[worst].carried.mounts[m].along_N);
      const std::string suffix = mount.sign > 0 ? ".left" : mount.sign < 0 ? ".right" : "";
      Finding finding =
          make(fmt::format("case_mount.{}{}", id, suffix), mount_words(mount), mount.path);
      finding.value = print_.number(load_N, Dimension::kForce);
      finding.limit = print_.number(entry->value.rating.si, Dimension::kForce);
      finding.edge = Edge::kMost;
      finding.verdict = judge(load_N, at_most(entry->value.rating.si)).verdict;
      finding.sentence = fmt::format("It carries {} along its axis ({}) and is rated for {}.",
                                     print_.force(load_N), uncapitalised(line_.loads[worst].label),
                                     print_.force(entry->value.rating.si));
      finding.basis = "the mount's rating in the file";
      if (finding.verdict != Verdict::kGood) finding.advice = "A larger mount, or one more.";
      finding.working.push_back({"F = K u at the mount, all mounts and cases in balance",
                                 print_.force(load_N),
                                 line_.loads[worst].basis,
                                 {mount.path, "/drivetrain/segments", "/masses"}});
      give(std::move(finding));
    }
  }

  void add_modes() {
    if (!line_.modes || !subject_.build.drivetrain.engine) return;
    const build::Engine& engine = *subject_.build.drivetrain.engine;
    if (engine.cylinders == 0 || !engine.idle.known()) return;
    const double firing_Hz = driveline::calc_firing_frequency_Hz(engine.cylinders, engine.idle.si);
    const auto& roll = line_.modes->modes[line_.modes->roll_mode];
    const double limit_Hz = firing_Hz / std::numbers::sqrt2;
    Finding finding = make("rocking", "powertrain", "/drivetrain/mounts");
    finding.value = print_.frequency(roll.frequency_Hz);
    finding.limit = print_.frequency(limit_Hz);
    finding.edge = Edge::kMost;
    finding.verdict = judge(roll.frequency_Hz, at_most(limit_Hz, false)).verdict;
    finding.sentence =
        fmt::format("It rocks from side to side at {}; the engine fires at {} when it idles.",
                    print_.frequency(roll.frequency_Hz).text, print_.frequency(firing_Hz).text);
    finding.basis =
        "below idle firing over the square root of 2, where mounts begin to hold back "
        "([Harris] ch. 2)";
    if (finding.verdict != Verdict::kGood) {
      finding.advice = "Softer mounts, or mounts nearer to the roll axis.";
    }
    finding.working.push_back({"det(K - w² M) = 0 about the mass centre; firing = n N / 120",
                               finding.value->text,
                               "docs/design/powertrain.md; order analysis",
                               {"/drivetrain/mounts", "/drivetrain/engine", "/masses"}});
    give(std::move(finding));
  }

  /// Bounce of the cases near the hop of an axle: each would shake the other.
  void add_hop() {
    if (!line_.modes) return;
    const auto& modes = line_.modes->modes;
    const auto bounce = std::max_element(
        modes.begin(), modes.end(),
        [](const auto& a, const auto& b) { return a.energy_share[2] < b.energy_share[2]; });
    for (const AxleReport& axle : subject_.report.axles) {
      const double apart = std::abs(bounce->frequency_Hz / axle.hop_frequency_Hz - 1);
      if (!(apart < kNearHop)) continue;
      Finding finding = make("hop." + axle.id, "powertrain", "/drivetrain/mounts");
      finding.verdict = Verdict::kLook;
      finding.value = print_.frequency(bounce->frequency_Hz);
      finding.sentence =
          fmt::format("It bounces on its mounts at {}, the {} hops at {}.", finding.value->text,
                      axle_words(axle), print_.frequency(axle.hop_frequency_Hz).text);
      finding.basis = "a fifth apart at least (common practice)";
      finding.advice = bounce->frequency_Hz > axle.hop_frequency_Hz
                           ? "Stiffer mounts, as far as they hold back the engine's shake."
                           : "Softer mounts.";
      finding.working.push_back({"f = sqrt((k_spring + k_tyre) / m_unsprung) / (2 pi) of the axle",
                                 print_.frequency(axle.hop_frequency_Hz).text,
                                 "[Gillespie] ch. 5",
                                 {axle.path, "/drivetrain/mounts", "/masses"}});
      give(std::move(finding));
    }
  }

  const Subject& subject_;
  const Printer& print_;
  const CasesReport& line_;
};

}  // namespace

void add_case_findings(const Subject& subject) {
  if (!subject.report.drivetrain) return;
  for (const CasesReport& line : subject.report.drivetrain->lines) {
    CasesFindings(subject, line).add();
  }
}

}  // namespace rig::check
