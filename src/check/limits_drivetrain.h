#pragma once

#include <string>

#include "check/printer.h"
#include "driveline/cases.h"
#include "units/factors.h"

/// What the drivetrain is held against where the file tells nothing, and the words for its parts.
namespace rig::check {

/// Twist shake that a shaft's joints may leave: 300 to 400 rad/s^2, SAE universal-joint design
/// practice [references DR-09] (from memory).
inline constexpr double kTorsional_rad_per_s2 = 400;
inline constexpr double kTorsionalClose_rad_per_s2 = 100;
/// Shake of the shaft itself; common practice [references DR-10].
inline constexpr double kInertial_rad_per_s2 = 1000;
/// Joint angle below which the needles stay in one place; common practice [references DR-15], rad.
inline constexpr double kLeastJointAngle_rad = 0.0087;
/// Bind room below which a joint is close, rad.
inline constexpr double kBindClose_rad = 3 * units::kDegree_rad;
/// What joints leave, below this is none, rad.
inline constexpr double kCancels_rad = 0.1 * units::kDegree_rad;
/// Gap that should be left beside a case; common practice, m.
inline constexpr double kGapLeft_m = 0.0127;
/// Road speed at which the engine's speed is told: 55 mph.
inline constexpr double kRoadSpeed_m_per_s = 24.5872;
/// Slip that should be left at either end; common practice, m.
inline constexpr double kSlipLeft_m = 0.0127;

/// "at the case", "at the bearing", "at the axle".
const char* joint_words(std::size_t joint, std::size_t joint_count);

/// "350 rad/s²".
Number angular_acceleration(const Printer& print, double rad_per_s2);

/// "left engine mount".
std::string mount_words(const driveline::CaseMount& mount);

/// "shaft.bind.rear": what, and the shaft's id by its path.
std::string shaft_finding_id(const char* what, const std::string& path);

}  // namespace rig::check
