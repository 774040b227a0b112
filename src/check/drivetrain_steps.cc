#include "check/drivetrain_steps.h"

#include <fmt/format.h>

#include <cmath>

#include "check/limits_drivetrain.h"
#include "check/words.h"

namespace rig::check {
namespace {

using units::Dimension;

std::string slope_words(const driveline::Case& one, const Printer& print) {
  const Vec3 way = (one.p_VoR_V - one.p_VoF_V).normalized();
  const double slope_rad = std::asin(-way.z());
  if (std::abs(slope_rad) < kNoise) return "level";
  return fmt::format("{} down to the {}", print.angle(std::abs(slope_rad)),
                     slope_rad > 0 ? "rear" : "front");
}

std::string place_words(const Vec3& p_VoP_V, const Printer& print) {
  return fmt::format("station {}, offset {}, height {}", print.length(-p_VoP_V.x()),
                     print.length(p_VoP_V.y()), print.length(p_VoP_V.z()));
}

void add_cases(const CasesReport& line, const Printer& print, std::vector<MockUpStep>& steps) {
  const driveline::CaseLine& cases = line.from.line;
  const driveline::Case &first = cases.cases.front(), &last = cases.cases.back();
  std::string mounts;
  for (const driveline::CaseMount& mount : cases.mounts) {
    mounts += fmt::format("{}{}: {}", mounts.empty() ? "" : "; ", mount_words(mount),
                          place_words(mount.p_VoM_V, print));
  }
  steps.push_back(
      {fmt::format("Set the {} in place", uncapitalised(first.label)),
       "Hang it from its balance point, or on stands under the pan's rails; no one under it. "
       "Disconnect the battery first.",
       fmt::format("front face at {}; line {}", place_words(first.p_VoF_V, print),
                   slope_words(first, print))});
  if (cases.cases.size() > 1) {
    steps.push_back({fmt::format("Bolt on {}", cases.cases.size() == 2
                                                   ? "the " + uncapitalised(last.label)
                                                   : fmt::format("the others, back to the {}",
                                                                 uncapitalised(last.label))),
                     "Carry the rear end on a stand of its own until its mount is in.",
                     fmt::format("rear face of the {} at {}", uncapitalised(last.label),
                                 place_words(last.p_VoR_V, print))});
  }
  steps.push_back({"Tack the mounts", "At ride height, the cases' weight on the rubbers.", mounts});
}

void add_shaft(const ShaftReport& shaft, const Printer& print, std::vector<MockUpStep>& steps) {
  const driveline::ShaftPose& ride = shaft.bump.poses[shaft.ride];
  const std::size_t joints = shaft.from.shaft.joint_count, slides = joints - 2;
  std::string angles;
  for (std::size_t j = 0; j < joints; ++j) {
    angles += fmt::format("{}{} {}", j == 0 ? "" : ", ",
                          print.angle(ride.motion.joint_angle_rad[j]), joint_words(j, joints));
  }
  steps.push_back({fmt::format("Measure for the {}", uncapitalised(shaft.from.label)),
                   "With the truck on its wheels at ride height and its cases on their mounts; cut "
                   "the tube only then.",
                   fmt::format("joint to joint {}; angles {}",
                               print.length(ride.motion.tubes[slides].length_m), angles)});
  if (shaft.cut) {
    steps.push_back(
        {fmt::format("Cut the tube of the {}", uncapitalised(shaft.from.label)),
         "Square ends, yokes in line, tacked and checked for run-out before the weld; a "
         "shaft shop balances it.",
         fmt::format("tube {} weld to weld; spline drawn out {} at ride",
                     print.length(shaft.cut->cut_m), print.length(shaft.cut->pulled_out_m))});
  }
}

}  // namespace

std::vector<MockUpStep> list_mock_up_steps(const DrivetrainReport& drivetrain,
                                           const Printer& print) {
  std::vector<MockUpStep> steps;
  for (const CasesReport& line : drivetrain.lines) {
    if (!line.loads.empty()) add_cases(line, print, steps);
  }
  for (const ShaftReport& shaft : drivetrain.shafts) {
    if (shaft.solved()) add_shaft(shaft, print, steps);
  }
  return steps;
}

}  // namespace rig::check
