#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "check/findings_shaft_internal.h"

namespace rig::check {
namespace {

using units::Dimension;

constexpr double kNoLimit = std::numeric_limits<double>::infinity();
/// Of the grip that was assumed: as much as any tyre may have.
constexpr double kMoreGrip = 1.5;
/// How much less a steel that is not told may yield.
constexpr double kOtherSteel = 1.5;

class ShaftStrengthFindings : ShaftFindingMaker {
 public:
  using ShaftFindingMaker::ShaftFindingMaker;

  void add() {
    if (!std::isnan(shaft_.speed_rad_per_s)) add_critical();
    add_torque();
  }

 private:
  void add_critical() {
    if (!shaft_.critical) return;
    const double share = shaft_.speed_rad_per_s / shaft_.critical->speed_rad_per_s;
    const auto turns = [&](double si) { return print_.text(si, Dimension::kAngularSpeed); };
    Finding finding = make("critical");
    finding.value = print_.number(shaft_.speed_rad_per_s, Dimension::kAngularSpeed);
    finding.limit = print_.number(driveline::kGreatestSpeedShare * shaft_.critical->speed_rad_per_s,
                                  Dimension::kAngularSpeed);
    finding.edge = Edge::kMost;
    finding.verdict = share > driveline::kGreatestSpeedShare   ? Verdict::kStop
                      : share > driveline::kCautiousSpeedShare ? Verdict::kLook
                                                               : Verdict::kGood;
    finding.sentence = fmt::format("It turns {} at the most and whirls at {}: {:.0f} % of that.",
                                   turns(shaft_.speed_rad_per_s),
                                   turns(shaft_.critical->speed_rad_per_s), 100 * share);
    finding.basis = "70 to 75 % of the whirling speed (common practice)";
    if (finding.verdict != Verdict::kGood) {
      finding.advice = "A tube of larger diameter, or two pieces with a bearing between.";
    }
    if (driveline::is_even(shaft_.from)) {
      finding.working.push_back(
          {"n = pi² / L² sqrt(E I / (rho A)), L joint to joint at its longest",
           turns(shaft_.critical->speed_rad_per_s),
           "[Shigley] Eq. 7-22 (from memory)",
           {shaft_.from.path + "/tube"}});
    } else {
      finding.working.push_back(
          {"lowest w of det(K - w² M) = 0: beams of each tube and of the splined bar, the sliding "
           "yoke as a mass, the bearing on its rubber",
           turns(shaft_.critical->speed_rad_per_s),
           "cubic beam elements; docs/design/driveline.md",
           {shaft_.from.path + "/tube", shaft_.from.path + "/slip",
            shaft_.from.path + "/bearing"}});
    }
    give(std::move(finding));
  }

  /// What of the shaft gives first, and the torque at which it does.
  struct Weakest {
    double limit_Nm = kNoLimit;
    std::string what;
    const char* basis = "";
    const char* advice = "";
    bool is_bar = false;  ///< Its steel is taken to be the tube's.
  };

  Weakest find_weakest() const {
    constexpr const char* kYield =
        "yield in shear by distortion energy, S_y / sqrt(3) ([Shigley] Eq. 5-21)";
    Weakest weakest;
    const auto consider = [&weakest](const Weakest& one) {
      if (one.limit_Nm < weakest.limit_Nm) weakest = one;
    };
    const std::size_t joints = shaft_.from.shaft.joint_count;
    for (std::size_t j = 0; j < joints; ++j) {
      if (!shaft_.from.ratings_Nm[j]) continue;
      consider({*shaft_.from.ratings_Nm[j],
                fmt::format("the joint {}'s rating", joint_words(j, joints)),
                "the joint's rating in the file", "A larger joint.", false});
    }
    if (shaft_.torsion && shaft_.bar_is_weakest) {
      consider({shaft_.torsion->torque_limit_Nm, "the splined bar's yield in twist", kYield,
                "A thicker splined bar, or a steel of higher yield.", true});
    } else if (shaft_.torsion) {
      consider({shaft_.torsion->torque_limit_Nm, "the tube's yield in twist", kYield,
                "A thicker or larger tube, or a steel of higher yield.", false});
    }
    if (shaft_.teeth) {
      consider({shaft_.teeth->torque_limit_Nm,
                fmt::format("the yield of the splines, of which {} are left engaged at its longest",
                            print_.text(shaft_.engaged_m, Dimension::kLength)),
                "half of the teeth carry (Machinery's Handbook, Involute Splines); yield in shear "
                "S_y / sqrt(3) ([Shigley] Eq. 5-21)",
                "A longer spline, or a shorter way for it to slide.", true});
    }
    return weakest;
  }

  void add_torque() {
    if (!shaft_.torque) return;
    const double torque_Nm = shaft_.torque->torque_Nm;
    const Weakest weakest = find_weakest();
    const double limit_Nm = weakest.limit_Nm;
    if (!std::isfinite(limit_Nm)) return;
    Finding finding = make("torque");
    finding.value = print_.number(torque_Nm, Dimension::kTorque);
    finding.limit = print_.number(limit_Nm, Dimension::kTorque);
    finding.edge = Edge::kMost;
    finding.verdict = judge(torque_Nm, at_most(limit_Nm)).verdict;
    const bool slips = shaft_.torque->decides == driveline::TorqueLimit::kGrip;
    finding.sentence =
        fmt::format("It has to carry {}, {}; {} is {}.", finding.value->text,
                    slips ? "where the tyres slip" : "the engine in the lowest gears", weakest.what,
                    finding.limit->text);
    finding.basis = weakest.basis;
    if (finding.verdict != Verdict::kGood) {
      finding.advice = fmt::format(
          "{} A shock load, as of a wheel that lands turning, goes higher still.", weakest.advice);
    }
    if (weakest.is_bar && torque_Nm > limit_Nm / kOtherSteel) {
      assume(finding, "The splined bar is taken to be of the tube's steel.");
    }
    // Tyres that hold half as much again: would the verdict be another?
    const double held_Nm = std::min(shaft_.torque->engine_Nm, kMoreGrip * shaft_.torque->grip_Nm);
    if (!subject_.build.drivetrain.grip.known() &&
        judge(held_Nm, at_most(limit_Nm)).verdict != Verdict::kGood) {
      assume(finding, "The tyres are taken to grip with 0.9 (common practice).");
    }
    finding.working.push_back(
        {"torque = the less of engine x gears, and grip x axle load x radius / axle ratio",
         fmt::format("{} by the engine, {} by the tyres",
                     print_.text(shaft_.torque->engine_Nm, Dimension::kTorque),
                     print_.text(shaft_.torque->grip_Nm, Dimension::kTorque)),
         "statics; steady pull",
         {"/drivetrain/engine", "/drivetrain/gears", "/masses"}});
    give(std::move(finding));
  }
};

}  // namespace

void add_shaft_strength_findings(const Subject& subject, const ShaftReport& shaft) {
  ShaftStrengthFindings(subject, shaft).add();
}

}  // namespace rig::check
