#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string_view>

#include "check/drivetrain_report.h"
#include "check/findings.h"
#include "check/limits_drivetrain.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using driveline::PoseExtreme;
using units::Dimension;

/// Bind room below which a joint is close, rad.
constexpr double kBindClose_rad = 3 * units::kDegree_rad;
/// Turns of a pinion, and what joints leave, below this are none, rad.
constexpr double kPinionTurn_rad = 0.25 * units::kDegree_rad;
constexpr double kUnlimited = std::numeric_limits<double>::infinity();
constexpr double kCancels_rad = 0.1 * units::kDegree_rad;
/// Of the grip that was assumed: as much as any tyre may have.
constexpr double kMoreGrip = 1.5;

class ShaftFindings {
 public:
  ShaftFindings(const Subject& subject, const ShaftReport& shaft)
      : subject_(subject), print_(subject.print), shaft_(shaft) {}

  void add() {
    add_bind();
    add_slip();
    add_needles();
    if (!std::isnan(shaft_.speed_rad_per_s)) {
      add_torsional();
      add_inertial();
      add_critical();
    }
    add_torque();
  }

 private:
  Finding make(const char* what) const {
    Finding finding;
    finding.id = shaft_finding_id(what, shaft_.from.path);
    finding.subject = capitalised(shaft_.from.label);
    finding.path = shaft_.from.path;
    finding.work = "drivetrain";
    return finding;
  }
  void give(Finding finding) const {
    if (finding.advice.empty()) finding.advice = "Nothing to do.";
    subject_.findings.push_back(std::move(finding));
  }

  std::string angle(double si) const { return print_.angle(si); }
  std::string length(double si) const { return print_.length(si); }
  Number acceleration(double rad_per_s2) const { return angular_acceleration(print_, rad_per_s2); }

  /// The joint that comes nearest to its bind, or past it furthest.
  void add_bind() {
    const std::size_t joints = shaft_.from.shaft.joint_count;
    std::size_t worst = joints;
    double left_rad = kUnlimited;
    for (std::size_t j = 0; j < joints; ++j) {
      const auto& bind = shaft_.from.shaft.joints[j].bind_rad;
      if (!bind) continue;
      const double here = *bind - shaft_.all.extremes.greatest_joint_angle_rad[j].value;
      if (here < left_rad) worst = j, left_rad = here;
    }
    if (worst == joints) return;
    const double bind_rad = *shaft_.from.shaft.joints[worst].bind_rad;
    const double most_rad = shaft_.all.extremes.greatest_joint_angle_rad[worst].value;
    Finding finding = make("bind");
    finding.value = print_.number(most_rad, Dimension::kAngle);
    finding.limit = print_.number(bind_rad, Dimension::kAngle);
    finding.edge = Edge::kMost;
    finding.verdict = judge(most_rad, {.high = bind_rad, .close = kBindClose_rad}).verdict;
    const char* where = joint_words(worst, joints);
    finding.sentence =
        most_rad > bind_rad
            ? fmt::format("The joint {} binds: it has to take {} over the travel and takes {}.",
                          where, angle(most_rad), angle(bind_rad))
            : fmt::format("The joint {} takes {} at the most and has {} left.", where,
                          angle(most_rad), angle(bind_rad - most_rad));
    finding.basis = "the joint's greatest angle in the file";
    finding.advice = finding.verdict == Verdict::kGood ? ""
                     : finding.verdict == Verdict::kLook
                         ? std::string(kInside)
                         : fmt::format(
                               "Take {} out of it: a longer shaft, a lower case end, a "
                               "joint of more angle, or a strap that limits the droop.",
                               angle(most_rad - bind_rad));
    finding.working.push_back(
        {"angle = acos(d1 . d2) of the two shafts at the joint, the greatest "
         "over bump, roll and one wheel up",
         fmt::format("{} of {}", angle(most_rad), angle(bind_rad)),
         "geometry of the swept axle",
         {shaft_.from.path, "/axles/" + shaft_.from.axle}});
    give(std::move(finding));
  }

  void add_slip() {
    if (!shaft_.from.shaft.spline) return;
    const auto& spline = *shaft_.from.shaft.spline;
    const std::size_t tube = spline.tube;
    add_slip_end("slip_in", shaft_.all.extremes.least_in_left_m.value,
                 shaft_.all.extremes.shortest_m[tube].value, spline.closed_length_m, "bottoms",
                 "Cut the tube {} shorter.");
    add_slip_end("slip_out", shaft_.all.extremes.least_out_left_m.value,
                 shaft_.all.extremes.longest_m[tube].value,
                 spline.out_length_m - spline.least_engagement_m, "pulls out too far",
                 "Make the tube {} longer.");
  }

  void add_slip_end(const char* what, double left_m, double length_m, double limit_m,
                    std::string_view fails, std::string_view advice) {
    Finding finding = make(what);
    finding.value = print_.number(left_m, Dimension::kLength);
    finding.limit = print_.number(0, Dimension::kLength);
    finding.edge = Edge::kLeast;
    finding.verdict = judge(left_m, {.low = 0, .close = kSlipLeft_m}).verdict;
    finding.sentence =
        left_m < 0
            ? fmt::format("The spline {}: it misses {} over the travel.", fails, length(-left_m))
            : fmt::format("The spline has {} left before it {}.", length(left_m), fails);
    finding.basis = fmt::format(
        "closed and open length in the file; {} left at either end is "
        "common practice",
        length(kSlipLeft_m));
    if (finding.verdict != Verdict::kGood) {
      finding.advice =
          fmt::format(fmt::runtime(std::string(advice)), print_.length_up(kSlipLeft_m - left_m)) +
          " Or take a spline that slides further where the other end has no room.";
    }
    finding.working.push_back({"left = |joint-to-joint length at its furthest - limit|",
                               fmt::format("{} against {}", length(length_m), length(limit_m)),
                               "geometry of the swept axle",
                               {shaft_.from.path + "/slip", shaft_.from.path + "/end_joint"}});
    give(std::move(finding));
  }

  /// Needles that never roll wear a mark into the cross.
  void add_needles() {
    const auto& motion = shaft_.bump.poses[shaft_.ride].motion;
    double least_rad = kUnlimited;
    std::size_t at = 0;
    for (std::size_t j = 0; j < shaft_.from.shaft.joint_count; ++j) {
      if (shaft_.from.shaft.joints[j].kind != driveline::JointKind::kCardan) continue;
      if (motion.joint_angle_rad[j] < least_rad) least_rad = motion.joint_angle_rad[j], at = j;
    }
    if (!(least_rad < kLeastJointAngle_rad)) return;
    const auto& line = motion.line;
    // Beside a double Cardan joint the other end is meant to run straight.
    const bool straight_by_design = std::any_of(
        shaft_.from.shaft.joints.begin(),
        shaft_.from.shaft.joints.begin() +
            static_cast<std::ptrdiff_t>(shaft_.from.shaft.joint_count),
        [](const auto& joint) { return joint.kind == driveline::JointKind::kDoubleCardan; });
    Finding finding = make("needles");
    finding.verdict = Verdict::kLook;
    finding.value = print_.number(least_rad, Dimension::kAngle);
    finding.limit = print_.number(kLeastJointAngle_rad, Dimension::kAngle);
    finding.edge = Edge::kLeast;
    finding.sentence =
        fmt::format("The joint {} runs nearly straight at ride, {}.",
                    joint_words(at, shaft_.from.shaft.joint_count), angle(least_rad));
    finding.basis = "half a degree to one degree keeps the needles rolling (common practice)";
    finding.advice =
        straight_by_design
            ? "Beside a double Cardan joint this is as it should be at ride; the travel moves it."
            : fmt::format("Leave {} at least; lower or raise the other end a little.",
                          angle(kLeastJointAngle_rad));
    finding.working.push_back(
        {"angle at ride", angle(line.angle_rad), "geometry as drawn", {shaft_.from.path}});
    give(std::move(finding));
  }

  void add_torsional() {
    const auto& ride = shaft_.bump.poses[shaft_.ride];
    const double value = ride.torsional_rad_per_s2;
    Finding finding = make("torsional");
    finding.value = acceleration(value);
    finding.limit = acceleration(kTorsional_rad_per_s2);
    finding.edge = Edge::kMost;
    finding.verdict =
        judge(value,
              {.high = kTorsional_rad_per_s2, .close = kTorsionalClose_rad_per_s2, .stops = false})
            .verdict;
    const double speed = shaft_.speed_rad_per_s;
    finding.sentence =
        fmt::format("At ride its joints leave {}, which shakes the axle's end with {} at {}.",
                    angle(ride.motion.line.angle_rad), finding.value->text,
                    print_.text(speed, Dimension::kAngularSpeed));
    finding.basis = "300 to 400 rad/s² (SAE universal-joint design practice, from memory)";
    finding.advice = torsional_advice(finding.verdict);
    finding.working.push_back(
        {"acceleration = speed² b² with b the one joint that equals them all (exact form)",
         fmt::format("({})² x ({})² = {}", print_.text(speed, Dimension::kAngularSpeed),
                     angle(ride.motion.line.angle_rad), finding.value->text),
         "[Khurmi] ch. 9; the line as one joint: docs/design/driveline.md",
         {shaft_.from.path, "/axles/" + shaft_.from.axle + "/pinion", "/drivetrain/outputs"}});
    give(std::move(finding));
  }

  std::string torsional_advice(Verdict verdict) const {
    if (!shaft_.pinion || std::abs(shaft_.pinion->turn_rad) < kPinionTurn_rad) {
      return verdict == Verdict::kGood ? "" : "Bring both ends' angles nearer to each other.";
    }
    const auto* axle = build::find(subject_.build.axles, shaft_.from.axle);
    // About +y a turn lowers what points forward: the rear pinion's nose.
    const double up = axle != nullptr && axle->value.end == build::End::kRear
                          ? -shaft_.pinion->turn_rad
                          : shaft_.pinion->turn_rad;
    const double left_rad = shaft_.pinion->motion.line.angle_rad;
    const std::string turned = fmt::format(
        "Pinion nose {} by {}: then they {}.", up > 0 ? "up" : "down", angle(std::abs(up)),
        left_rad < kCancels_rad ? "cancel" : "leave " + angle(left_rad));
    return verdict == Verdict::kGood ? "Steadiest: " + uncapitalised(turned) : turned;
  }

  void add_inertial() {
    const double value = shaft_.bump.poses[shaft_.ride].inertial_rad_per_s2;
    Finding finding = make("inertial");
    finding.value = acceleration(value);
    finding.limit = acceleration(kInertial_rad_per_s2);
    finding.edge = Edge::kMost;
    finding.verdict = judge(value, at_most(kInertial_rad_per_s2, false)).verdict;
    finding.sentence =
        fmt::format("The tube itself is sped up and slowed with {} at ride.", finding.value->text);
    finding.basis = "1000 rad/s² (common practice)";
    if (finding.verdict != Verdict::kGood) {
      finding.advice =
          "Take angle out of the joints at both ends: raise the axle's end, lower the case's, or "
          "lengthen the shaft. A double Cardan joint at the case takes it from the tube.";
    }
    finding.working.push_back(
        {"acceleration = speed² b² of the joints before the tube, driving and coasting",
         finding.value->text,
         "[Khurmi] ch. 9",
         {shaft_.from.path}});
    give(std::move(finding));
  }

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
    finding.working.push_back({"n = pi² / L² sqrt(E I / (rho A)), L joint to joint at its longest",
                               turns(shaft_.critical->speed_rad_per_s),
                               "[Shigley] Eq. 7-22 (from memory)",
                               {shaft_.from.path + "/tube"}});
    give(std::move(finding));
  }

  void add_torque() {
    if (!shaft_.torque) return;
    const double torque_Nm = shaft_.torque->torque_Nm;
    double limit_Nm = kUnlimited;
    std::string what;
    const std::size_t joints = shaft_.from.shaft.joint_count;
    for (std::size_t j = 0; j < joints; ++j) {
      if (!shaft_.from.ratings_Nm[j] || *shaft_.from.ratings_Nm[j] >= limit_Nm) continue;
      limit_Nm = *shaft_.from.ratings_Nm[j];
      what = fmt::format("the joint {}'s rating", joint_words(j, joints));
    }
    if (shaft_.torsion && shaft_.torsion->torque_limit_Nm < limit_Nm) {
      limit_Nm = shaft_.torsion->torque_limit_Nm;
      what = "the tube's yield in twist";
    }
    if (!std::isfinite(limit_Nm)) return;
    Finding finding = make("torque");
    finding.value = print_.number(torque_Nm, Dimension::kTorque);
    finding.limit = print_.number(limit_Nm, Dimension::kTorque);
    finding.edge = Edge::kMost;
    finding.verdict = judge(torque_Nm, at_most(limit_Nm)).verdict;
    const bool slips = shaft_.torque->decides == driveline::TorqueLimit::kGrip;
    finding.sentence =
        fmt::format("It has to carry {}, {}; {} is {}.", finding.value->text,
                    slips ? "where the tyres slip" : "the engine in the lowest gears", what,
                    finding.limit->text);
    finding.basis = what.starts_with("the tube")
                        ? "yield in shear by distortion energy, S_y / sqrt(3) ([Shigley] Eq. 5-21)"
                        : "the joint's rating in the file";
    if (finding.verdict != Verdict::kGood) {
      finding.advice = what.starts_with("the tube")
                           ? "A thicker or larger tube, or a steel of higher yield."
                           : "A larger joint.";
      finding.advice += " A shock load, as of a wheel that lands turning, goes higher still.";
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

  const Subject& subject_;
  const Printer& print_;
  const ShaftReport& shaft_;
};

}  // namespace

void add_prop_shaft_findings(const Subject& subject) {
  if (!subject.report.drivetrain) return;
  for (const ShaftReport& shaft : subject.report.drivetrain->shafts) {
    if (shaft.solved()) ShaftFindings(subject, shaft).add();
  }
}

}  // namespace rig::check
