#pragma once

#include "check/advice.h"
#include "check/report.h"

namespace rig::check {

/// The numbers of an axle's linkage that findings judge, in the order of `GeometryNumber`.
enum GeometryNumber : std::size_t {
  kNoseChange,    ///< Greatest caster or pinion change over the wanted travel, rad.
  kLateralShift,  ///< Greatest sideways shift over the wanted travel, m.
  kRollSteer,     ///< As drawn.
  kAntiDrive,     ///< As drawn.
  kAntiBrake,     ///< As drawn.
  kGeometryNumbers
};

/// Where each should lie on this axle.
std::vector<Band> geometry_bands(const Limits& limits, bool front);

/// Poses of the bump sweep that findings are judged on.
inline constexpr int kBumpPoses = 41;

/// Evaluates the numbers of a changed model of the axle; travel and truck numbers stay the
/// report's. `axle` must outlive it.
Evaluate make_geometry(const AxleReport& axle);

}  // namespace rig::check
