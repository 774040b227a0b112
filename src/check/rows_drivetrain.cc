#include <fmt/format.h>

#include <cmath>

#include "check/drivetrain.h"
#include "check/limits_drivetrain.h"
#include "check/words.h"

namespace rig::check {
namespace {

using driveline::PoseExtreme;
using driveline::ShaftPose;
using units::Dimension;

/// Rows and curves of one shaft.
class ShaftRows {
 public:
  ShaftRows(const Printer& print, ShaftReport& shaft) : print_(print), shaft_(shaft) {}

  void add() {
    const driveline::ShaftPose& ride = shaft_.bump.poses[shaft_.ride];
    const std::size_t joints = shaft_.from.shaft.joint_count;
    for (std::size_t j = 0; j < joints; ++j) {
      const auto& bind = shaft_.from.shaft.joints[j].bind_rad;
      const std::string name = joint_words(j, joints);
      row(fmt::format("joint_{}", j), fmt::format("Angle {} at ride", name),
          angle(ride.motion.joint_angle_rad[j]), {}, "",
          "Between the two shafts that meet there, as drawn.");
      row(fmt::format("joint_{}_most", j), fmt::format("Greatest angle {}", name),
          angle(shaft_.all.extremes.greatest_joint_angle_rad[j].value),
          bind ? std::optional(angle(*bind)) : std::nullopt, finding("bind"),
          "Over the wanted travel, in roll, and with one wheel up.");
    }
    row("resultant", "What the joints leave at ride", angle(ride.motion.line.angle_rad),
        std::nullopt, finding("torsional"),
        "The one joint that would shake the axle's end as much as all of this shaft's together.");
    add_motion(ride);
    add_whirl_speed();
    add_steady();
    add_lengths(ride);
    add_strength();
    add_curves();
  }

 private:
  Number angle(double si) const { return print_.number(si, Dimension::kAngle); }
  Number length(double si) const { return print_.number(si, Dimension::kLength); }
  std::string finding(const char* what) const { return shaft_finding_id(what, shaft_.from.path); }

  void add_motion(const ShaftPose& ride) {
    if (std::isnan(shaft_.speed_rad_per_s)) return;
    row("speed", "Fastest that it turns",
        print_.number(shaft_.speed_rad_per_s, Dimension::kAngularSpeed), {}, finding("critical"),
        "Told in the file, or the engine's top speed in the highest gears.");
    row("torsional", "Twist shake at ride", acceleration(ride.torsional_rad_per_s2),
        acceleration(kTorsional_rad_per_s2), finding("torsional"),
        "Greatest acceleration of the axle's end while the case turns steadily.");
    row("inertial", "Shake of the shaft itself at ride", acceleration(ride.inertial_rad_per_s2),
        acceleration(kInertial_rad_per_s2), finding("inertial"),
        "Greatest acceleration of a tube between its joints, driving or coasting.");
    if (!shaft_.critical) return;
    row("critical", "Speed at which it whirls",
        print_.number(shaft_.critical->speed_rad_per_s, Dimension::kAngularSpeed), {},
        finding("critical"),
        driveline::is_even(shaft_.from)
            ? "Lowest bending vibration of the tube on its joints, at its longest."
            : "Lowest bending vibration of its tubes, splined bar and sliding yoke on joints and "
              "bearing, at its longest.");
  }

  void add_whirl_speed() {
    row("critical_road", "Road speed that the shaft allows",
        print_.number(shaft_.critical_road_m_per_s, Dimension::kSpeed), {}, finding("critical"),
        "At 75 % of the speed at which it whirls, through the axle's gears and tyres.");
  }

  /// How far up and down it goes before the shake is too much.
  void add_steady() {
    if (!shaft_.steady || shaft_.bump_m.size() < 2) return;
    row("steady_bump", "Steady enough up to this bump", length(shaft_.steady->to_m), std::nullopt,
        finding("torsional"),
        "Up to here the twist shake stays below its limit at the fastest speed.");
    row("steady_droop", "Steady enough down to this droop", length(-shaft_.steady->from_m),
        std::nullopt, finding("torsional"),
        "Down to here the twist shake stays below its limit at the fastest speed.");
  }

  void add_lengths(const ShaftPose& ride) {
    const std::size_t slides = shaft_.from.shaft.joint_count - 2;
    row("length", "Joint to joint at ride", length(ride.motion.tubes[slides].length_m), {}, "",
        "Of the piece that slides: measure it here before the tube is cut.");
    row("shortest", "Shortest over the travel",
        length(shaft_.all.extremes.shortest_m[slides].value), {}, finding("slip_in"),
        "Joint to joint.");
    row("longest", "Longest over the travel", length(shaft_.all.extremes.longest_m[slides].value),
        {}, finding("slip_out"), "Joint to joint.");
    row("slip_in", "Slip left before it bottoms", length(shaft_.all.extremes.least_in_left_m.value),
        {}, finding("slip_in"), "At its shortest.");
    row("slip_out", "Slip left before too little is engaged",
        length(shaft_.all.extremes.least_out_left_m.value), {}, finding("slip_out"),
        "At its longest, the least engagement kept.");
    if (!shaft_.cut) return;
    row("cut", "Tube to cut, weld to weld", length(shaft_.cut->cut_m), {}, finding("slip_in"),
        "With the truck at ride height; the slide that the travel does not need is left half at "
        "either end.");
    row("drawn_out", "Spline drawn out at ride", length(shaft_.cut->pulled_out_m), {},
        finding("slip_out"), "From pushed home, with the tube cut so.");
  }

  void add_strength() {
    if (!shaft_.torque) return;
    row("torque", "Most torque", print_.number(shaft_.torque->torque_Nm, Dimension::kTorque), {},
        finding("torque"),
        shaft_.torque->decides == driveline::TorqueLimit::kGrip
            ? "Where this axle's tyres slip; the engine could turn harder."
            : "Engine torque in the lowest gears; the tyres would hold more.");
    row("engaged", "Splines engaged at its longest", length(shaft_.engaged_m), {},
        finding("torque"), "Half of their teeth are taken to carry the torque.");
    if (!shaft_.torsion) return;
    row("wind_up",
        shaft_.bar_is_weakest ? "Splined bar's twist at that torque"
                              : "Tube's twist at that torque",
        angle(shaft_.torsion->wind_up_rad), {}, finding("torque"),
        "From end to end of the piece that is nearest to its yield.");
  }

  void add_curves() {
    if (shaft_.bump.poses.size() < 2) return;
    const std::size_t joints = shaft_.from.shaft.joint_count;
    for (std::size_t j = 0; j < joints; ++j) {
      const auto& bind = shaft_.from.shaft.joints[j].bind_rad;
      curve(
          fmt::format("joint_{}", j), fmt::format("Angle {}", joint_words(j, joints)),
          [j](const ShaftPose& p) { return p.motion.joint_angle_rad[j]; }, Dimension::kAngle,
          bind.value_or(kNaN));
    }
    curve(
        "resultant", "What the joints leave",
        [](const ShaftPose& p) { return p.motion.line.angle_rad; }, Dimension::kAngle,
        std::isnan(shaft_.speed_rad_per_s)
            ? kNaN
            : driveline::solve_joint_angle_rad(kTorsional_rad_per_s2, shaft_.speed_rad_per_s));
    const std::size_t slides = joints - 2;
    curve(
        "length", "Joint to joint",
        [slides](const ShaftPose& p) { return p.motion.tubes[slides].length_m; },
        Dimension::kLength, kNaN);
  }

  Number acceleration(double rad_per_s2) const { return angular_acceleration(print_, rad_per_s2); }

  void row(std::string id, std::string label, Number value, std::optional<Number> high,
           std::string finding, std::string explain) {
    if (!std::isfinite(value.si)) return;
    shaft_.rows.push_back({.id = std::move(id),
                           .label = std::move(label),
                           .value = std::move(value),
                           .low = {},
                           .high = std::move(high),
                           .finding = std::move(finding),
                           .explain = std::move(explain)});
  }
  template <typename Get>
  void curve(std::string id, std::string label, Get get, Dimension dimension, double high) {
    Curve made{.id = std::move(id),
               .label = std::move(label),
               .x_label = "bump",
               .x = shaft_.bump_m,
               .y = {},
               .y_dimension = dimension,
               .high = high};
    for (const ShaftPose& pose : shaft_.bump.poses) made.y.push_back(get(pose));
    shaft_.curves.push_back(std::move(made));
  }

  const Printer& print_;
  ShaftReport& shaft_;
};

void add_case_rows(const Printer& print, const DrivetrainReport& drivetrain,
                   std::vector<Row>& rows) {
  const auto row = [&rows](std::string id, std::string label, Number value, std::string explain) {
    if (!std::isfinite(value.si)) return;
    rows.push_back({.id = std::move(id),
                    .label = std::move(label),
                    .value = std::move(value),
                    .low = {},
                    .high = {},
                    .finding = "",
                    .explain = std::move(explain)});
  };
  for (std::size_t i = 0; i < drivetrain.lines.size(); ++i) {
    const CasesReport& line = drivetrain.lines[i];
    if (line.loads.empty()) continue;
    const std::string of = i == 0 ? "" : fmt::format(" of the {}", line.from.line.cases[0].label);
    const std::string id = i == 0 ? "" : fmt::format(".{}", i);
    double length_m = 0;
    for (const auto& one : line.from.line.cases) length_m += (one.p_VoR_V - one.p_VoF_V).norm();
    row("length" + id, "Length of the cases" + of, print.number(length_m, Dimension::kLength),
        "From the first face to the last.");
    row("mass" + id, "Weight of the cases" + of,
        print.number(line.from.line.mass_kg(), Dimension::kMass), "Of their masses together.");
    row("balance" + id, "Balance point" + of,
        print.number(-line.from.line.p_VoCm_V().x(), Dimension::kLength),
        "Station at which they balance.");
    if (std::isfinite(line.softest_frame_N_per_m)) {
      row("frame_give" + id, "Frame under its softest mount" + of,
          print.number(line.softest_frame_N_per_m, Dimension::kStiffness),
          "How stiffly the frame holds up the mount that it holds least; it acts in line with the "
          "rubber.");
    }
    if (!line.modes) continue;
    const auto& roll = line.modes->modes[line.modes->roll_mode];
    row("roll_mode" + id, "Rocking from side to side" + of, print.frequency(roll.frequency_Hz),
        "The way in which the cases turn over on their mounts.");
    row("roll_axis" + id, "Roll axis from the crank line" + of,
        print.number(line.modes->torque_roll_angle_rad, Dimension::kAngle),
        "About it the free cases begin to turn under torque.");
  }
  row("torque", "Torque that rolls the cases",
      print.number(drivetrain.cases_torque_Nm, Dimension::kTorque),
      capitalised(drivetrain.torque_basis) + ".");
  if (drivetrain.gears.empty()) return;
  row("crawl", "Crawl ratio",
      print.number(drivetrain.gears.front().path.to_wheel(), Dimension::kGearRatio),
      "Turns of the crank for one of the wheels in the lowest gears.");
}

}  // namespace

const char* joint_words(std::size_t joint, std::size_t joint_count) {
  if (joint == 0) return "at the case";
  return joint + 1 == joint_count ? "at the far end" : "at the bearing";
}

Number angular_acceleration(const Printer& print, double rad_per_s2) {
  Number number = print.plain(rad_per_s2, 0);
  number.text += " rad/s²";
  return number;
}

std::string mount_words(const driveline::CaseMount& mount) {
  if (mount.sign == 0) return uncapitalised(mount.label);
  return fmt::format("{} {}", side_words(mount.sign), uncapitalised(mount.label));
}

std::string shaft_finding_id(const char* what, const std::string& path) {
  return fmt::format("shaft.{}.{}", what, path.substr(path.rfind('/') + 1));
}

void add_drivetrain_rows(const Printer& print, DrivetrainReport& drivetrain) {
  add_case_rows(print, drivetrain, drivetrain.rows);
  for (ShaftReport& shaft : drivetrain.shafts) {
    if (shaft.solved()) ShaftRows(print, shaft).add();
  }
}

}  // namespace rig::check
