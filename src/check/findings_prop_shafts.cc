#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string_view>

#include "check/findings.h"
#include "check/findings_shaft_internal.h"
#include "check/limits_drivetrain.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using driveline::PoseExtreme;
using units::Dimension;

/// Turns of a pinion below this are none, rad.
constexpr double kPinionTurn_rad = 0.25 * units::kDegree_rad;
/// Of what two Cardan joints leave: with less gain a double one is not worth it.
constexpr double kWorthDoubleCardan = 0.5;
constexpr double kUnlimited = std::numeric_limits<double>::infinity();

class ShaftFindings : ShaftFindingMaker {
 public:
  using ShaftFindingMaker::ShaftFindingMaker;

  void add() {
    add_bind();
    add_slip();
    add_needles();
    if (std::isnan(shaft_.speed_rad_per_s)) return;
    add_torsional();
    add_inertial();
  }

 private:
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
    const std::string when = load_words(shaft_.all.extremes.greatest_joint_angle_rad[worst].pose);
    finding.sentence =
        most_rad > bind_rad
            ? fmt::format("The joint {} binds: it has to take {} over the travel{} and takes {}.",
                          where, angle(most_rad), when, angle(bind_rad))
            : fmt::format("The joint {} takes {} at the most{} and has {} left.", where,
                          angle(most_rad), when, angle(bind_rad - most_rad));
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
         "over all bump and roll, the cases as drawn and moved on their mounts by each load",
         fmt::format("{} of {}", angle(most_rad), angle(bind_rad)),
         "geometry of the swept axle",
         {shaft_.from.path, "/axles/" + shaft_.from.axle}});
    give(std::move(finding));
  }

  /// " (full torque)"; empty: as drawn.
  std::string load_words(std::size_t pose) const {
    const std::string words = shaft_.load_words(pose);
    return words.empty() ? words : fmt::format(" ({})", words);
  }

  void add_slip() {
    if (!shaft_.from.shaft.spline) return;
    const auto& spline = *shaft_.from.shaft.spline;
    const std::size_t tube = spline.tube;
    add_slip_end("slip_in", shaft_.all.extremes.least_in_left_m,
                 shaft_.all.extremes.shortest_m[tube].value, spline.closed_length_m, "bottoms",
                 "Cut the tube {} shorter.");
    add_slip_end("slip_out", shaft_.all.extremes.least_out_left_m,
                 shaft_.all.extremes.longest_m[tube].value,
                 spline.out_length_m - spline.least_engagement_m, "pulls out too far",
                 "Make the tube {} longer.");
  }

  void add_slip_end(const char* what, const PoseExtreme& least, double length_m, double limit_m,
                    std::string_view fails, std::string_view advice) {
    Finding finding = make(what);
    const double left_m = least.value;
    finding.value = print_.number(left_m, Dimension::kLength);
    finding.limit = print_.number(0, Dimension::kLength);
    finding.edge = Edge::kLeast;
    finding.verdict = judge(left_m, {.low = 0, .close = kSlipLeft_m}).verdict;
    finding.sentence = left_m < 0 ? fmt::format("The spline {}: it misses {} over the travel{}.",
                                                fails, length(-left_m), load_words(least.pose))
                                  : fmt::format("The spline has {} left before it {}{}.",
                                                length(left_m), fails, load_words(least.pose));
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
    if (const ShaftUnderLoad* torque = under_torque(); torque != nullptr) {
      finding.sentence +=
          fmt::format(" Under full torque the cases move on their mounts and they leave {}.",
                      angle(torque->ride.motion.line.angle_rad));
    }
    finding.advice = torsional_advice(finding.verdict);
    finding.working.push_back(
        {"acceleration = speed² b² with b the one joint that equals them all (exact form)",
         fmt::format("({})² x ({})² = {}", print_.text(speed, Dimension::kAngularSpeed),
                     angle(ride.motion.line.angle_rad), finding.value->text),
         "[Khurmi] ch. 9; the line as one joint: docs/design/driveline.md",
         {shaft_.from.path, "/axles/" + shaft_.from.axle + "/pinion", "/drivetrain/outputs"}});
    give(std::move(finding));
  }

  const ShaftUnderLoad* under_torque() const {
    for (const ShaftUnderLoad& one : shaft_.moved) {
      if (one.id == "torque") return &one;
    }
    return nullptr;
  }

  std::string torsional_advice(Verdict verdict) const {
    if (!shaft_.pinion || std::abs(shaft_.pinion->turn_rad) < kPinionTurn_rad) {
      return verdict == Verdict::kGood
                 ? ""
                 : "Bring both ends' angles nearer to each other." + double_cardan_advice();
    }
    const std::string turned = fmt::format("Pinion nose {}: then they {}.",
                                           nose_words(*shaft_.pinion), left_words(*shaft_.pinion));
    if (verdict == Verdict::kGood) return "Steadiest: " + uncapitalised(turned);
    return turned + double_cardan_advice();
  }

  /// Where two Cardan joints can't be brought to cancel and a double one would do better.
  std::string double_cardan_advice() const {
    if (!shaft_.double_cardan) return {};
    const double now_rad = shaft_.pinion ? shaft_.pinion->motion.line.angle_rad
                                         : shaft_.bump.poses[shaft_.ride].motion.line.angle_rad;
    const double then_rad = shaft_.double_cardan->motion.line.angle_rad;
    if (then_rad > kWorthDoubleCardan * now_rad) return {};
    return fmt::format(" With a double Cardan joint at the case and the nose {} they {}.",
                       nose_words(*shaft_.double_cardan), left_words(*shaft_.double_cardan));
  }

  /// "up by 2.5°".
  std::string nose_words(const driveline::PinionAngle& pinion) const {
    const auto* axle = build::find(subject_.build.axles, shaft_.from.axle);
    // About +y a turn lowers what points forward: the rear pinion's nose.
    const bool rear = axle != nullptr && axle->value.end == build::End::kRear;
    const double up = rear ? -pinion.turn_rad : pinion.turn_rad;
    return fmt::format("{} by {}", up > 0 ? "up" : "down", angle(std::abs(up)));
  }
  std::string left_words(const driveline::PinionAngle& pinion) const {
    const double left_rad = pinion.motion.line.angle_rad;
    return left_rad < kCancels_rad ? "cancel" : "leave " + angle(left_rad);
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
};

}  // namespace

void add_prop_shaft_findings(const Subject& subject) {
  if (!subject.report.drivetrain) return;
  for (const ShaftReport& shaft : subject.report.drivetrain->shafts) {
    if (!shaft.solved()) continue;
    ShaftFindings(subject, shaft).add();
    add_shaft_strength_findings(subject, shaft);
  }
}

}  // namespace rig::check
