#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/findings.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using suspension::Articulation;
using units::Dimension;

/// What keeps the truck from going further, in shop words: the spring, shock or stop at its end.
std::string ends_reached(const Subject& subject, const Articulation& found) {
  std::vector<std::string> ends;
  const auto& truck = *subject.report.ride()->truck;
  for (std::size_t a = 0; a < truck.axles.size(); ++a) {
    const auto& model = truck.axles[a];
    const auto& settled = found.at_lift.axles[a];
    const AxleReport* axle = subject.report.axle(model.id);
    if (axle == nullptr) continue;
    for (std::size_t i = 0; i < model.shocks.size(); ++i) {
      const auto& shock = model.shocks[i];
      const std::string name = part_words(*axle, shock.path, shock.name);
      if (settled.shock_lengths_m[i] > shock.open_length_m)
        ends.push_back("the " + name + " tops out");
      if (settled.shock_lengths_m[i] < shock.closed_length_m)
        ends.push_back("the " + name + " bottoms");
    }
    for (std::size_t i = 0; i < model.stops.size(); ++i) {
      if (settled.stop_compressions_m[i] <= 0) continue;
      ends.push_back("the " + part_words(*axle, model.stops[i].path, model.stops[i].name) +
                     " is squeezed");
    }
  }
  return join_words(ends);
}

/// The axles whose droop nothing ends but their springs, as far as the file tells.
std::string endless_axles(const Subject& subject) {
  std::vector<std::string> names;
  for (const auto& model : subject.report.ride()->truck->axles) {
    const bool ends = std::any_of(model.shocks.begin(), model.shocks.end(), [](const auto& shock) {
      return std::isfinite(shock.open_length_m);
    });
    const AxleReport* axle = subject.report.axle(model.id);
    if (!ends && axle != nullptr) names.push_back(axle_words(*axle));
  }
  return join_words(names);
}

/// What each wheel carries at the height told: "left front 0 lb, right front 1240 lb".
std::string wheel_load_words(const Subject& subject, const Articulation& found) {
  std::vector<std::string> words;
  const auto& truck = *subject.report.ride()->truck;
  for (std::size_t a = 0; a < truck.axles.size(); ++a) {
    for (const std::size_t side : {0U, 1U}) {
      words.push_back(fmt::format(
          "{} {} {}", side == 0 ? "left" : "right", truck.axles[a].front ? "front" : "rear",
          subject.print.scale_reading(found.at_lift.axles[a].wheel_loads_N[side]).text));
    }
  }
  return join_words(words);
}

std::string articulation_advice(const Subject& subject, const Articulation& found) {
  if (found.limited) return "Nothing to do: every wheel still carries.";
  const std::string ends = ends_reached(subject, found);
  return ends.empty() ? "Nothing is at its end there: softer springs would get it further."
                      : fmt::format("There {}: give those more room to get further.", ends);
}

void add(const Subject& subject, const Articulation& found, bool ramp) {
  const Printer& print = subject.print;
  const auto& truck = *subject.report.ride()->truck;
  const bool rigid = !std::isfinite(truck.frame_twist_stiffness_Nm_per_rad);
  Finding finding;
  finding.id = ramp ? "articulation.ramp" : "articulation.cross";
  finding.work = "axles";
  finding.verdict = Verdict::kGood;
  finding.subject = ramp ? "Up a 20 deg ramp" : "Crossed up";
  finding.path = "/axles";
  finding.value = ramp ? print.plain(found.ramp_travel_index, 0)
                       : print.number(found.height_m, Dimension::kLength);
  finding.basis =
      ramp ? "ramp travel index, told for comparison: no limit" : "told for comparison: no limit";
  const std::string lifted = lifted_wheel_words(truck, found);
  finding.sentence =
      ramp ? fmt::format("Left front wheel {} up the ramp, {} high, index {}, before the {} lifts.",
                         print.length(found.distance_up_ramp_m), print.length(found.height_m),
                         finding.value->text, lifted)
           : fmt::format("Left front and right rear {} high before the {} lifts.",
                         print.length(found.height_m), lifted);
  if (found.limited) {
    finding.sentence =
        fmt::format("Every wheel still carries at {} high{}.", print.length(found.height_m),
                    ramp ? ", where the rear wheel meets the ramp too" : "");
  } else if (found.tips_over) {
    finding.sentence =
        fmt::format("Past {} high the truck tips over, no wheel having lifted before.",
                    print.length(found.height_m));
  }
  finding.advice = articulation_advice(subject, found);
  if (found.tip_is_taken) {
    assume(finding, "No resting place was found past it, which is taken to mean that it tips.");
  }
  const std::string endless = endless_axles(subject);
  if (!endless.empty()) {
    assume(finding, fmt::format("No shock's open length is told on the {}: nothing but the springs "
                                "ends the droop there. Measure the shocks.",
                                endless));
  }
  if (rigid) {
    assume(finding,
           "The frame is taken as rigid, as its twist stiffness is not told: a frame that "
           "twists gets further. Jack one corner and read the twist to know it.");
  }
  finding.working.push_back(
      {.formula = ramp ? "index = 1000 x distance along the ramp / wheelbase"
                       : "height at which a wheel's load reaches nothing",
       .with_values =
           ramp ? fmt::format(
                      "1000 x {} / {} = {}", print.length(found.distance_up_ramp_m),
                      print.length(1000 * found.distance_up_ramp_m / found.ramp_travel_index),
                      finding.value->text)
                : fmt::format("{} high; wheels: {}", print.length(found.height_m),
                              wheel_load_words(subject, found)),
       .source =
           "static equilibrium of the whole truck, seats as drawn; 20 deg ramp (common practice)",
       .input_paths = {"/axles", "/masses", "/frame/twist_stiffness"}});
  subject.findings.push_back(std::move(finding));
}

/// The link end that is furthest past its swing on the ramp or crossed up, if any is told a limit.
void add_swing(const Subject& subject, const AxleReport& axle, std::size_t index) {
  const Printer& print = subject.print;
  struct Worst {
    double share = 0, angle_rad = 0, limit_rad = 0;
    const suspension::Bar* bar = nullptr;
    bool on_axle = false, ramp = false;
  } worst;
  for (const bool ramp : {true, false}) {
    const auto& found = ramp ? subject.report.ramp : subject.report.cross_axle;
    if (!found) continue;
    const suspension::Vec6& q = found->at_lift.axles[index].q;
    const Mat3 R = rotation_from_yaw_pitch_roll(q[suspension::kYaw], q[suspension::kPitch],
                                                q[suspension::kRoll]);
    for (const auto& bar : axle.model.bars) {
      const Vec3 now = q.head<3>() + R * bar.p_AQ - bar.p_VP;
      const Vec3 drawn = axle.model.p_VC + bar.p_AQ - bar.p_VP;
      for (const bool on_axle : {false, true}) {
        const double limit = on_axle ? bar.swing_limit_axle_rad : bar.swing_limit_frame_rad;
        if (!(limit > 0)) continue;
        const Vec3 seen = on_axle ? Vec3(R.transpose() * now) : now;
        const double angle = std::atan2(seen.cross(drawn).norm(), seen.dot(drawn));
        if (angle / limit > worst.share) worst = {angle / limit, angle, limit, &bar, on_axle, ramp};
      }
    }
  }
  if (worst.bar == nullptr) return;
  const std::string name = part_words(axle, worst.bar->path, worst.bar->name);
  Finding finding;
  finding.id = "articulation.swing." + axle.id;
  finding.work = "axles";
  finding.verdict = judge(worst.angle_rad, at_most(worst.limit_rad, false)).verdict;
  finding.subject = fmt::format("Joints at full articulation, {}", axle_words(axle));
  finding.path = worst.bar->path;
  finding.value = print.number(worst.angle_rad, Dimension::kAngle);
  finding.limit = print.number(worst.limit_rad, Dimension::kAngle);
  finding.edge = Edge::kMost;
  finding.basis = "the joint's swing limit in the file";
  finding.sentence = fmt::format(
      "{} the {} end of the {} swings {} of its {}{}.", worst.ramp ? "On the ramp" : "Crossed up",
      worst.on_axle ? "axle" : "frame", name, finding.value->text, finding.limit->text,
      worst.share > 1 ? ": it binds before the wheel lifts" : "");
  finding.advice = finding.verdict == Verdict::kGood ? std::string("Nothing to do.")
                   : worst.angle_rad <= worst.limit_rad
                       ? std::string(kInside)
                       : fmt::format(
                             "Use a joint that swings {} there, or stop the droop sooner with a "
                             "strap.",
                             print.angle(worst.angle_rad / 0.9));
  finding.working.push_back(
      {.formula =
           "swing = angle between the link now and as drawn, seen from the part that holds the "
           "joint",
       .with_values = fmt::format("{} of {}", finding.value->text, finding.limit->text),
       .source = "static equilibrium of the whole truck at the lift of a wheel",
       .input_paths = {worst.bar->path}});
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_articulation_findings(const Subject& subject) {
  if (subject.report.ride() == nullptr || !subject.report.ride()->truck) return;
  if (subject.report.ramp) add(subject, *subject.report.ramp, true);
  if (subject.report.cross_axle) add(subject, *subject.report.cross_axle, false);
  for (std::size_t a = 0; a < subject.report.axles.size(); ++a) {
    add_swing(subject, subject.report.axles[a], a);
  }
}

}  // namespace rig::check
