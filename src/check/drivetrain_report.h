#pragma once

#include <optional>
#include <string>
#include <vector>

#include "check/report.h"
#include "driveline/from_build.h"
#include "driveline/gears.h"
#include "driveline/hoist.h"
#include "driveline/modes.h"
#include "driveline/shaft_solve.h"
#include "driveline/shaft_speed.h"
#include "driveline/support.h"

namespace rig::check {

/// A line of cases under one load.
struct CasesLoad {
  std::string id, label, basis;
  driveline::CaseLoads loads;
  driveline::CasesAtRest carried;
};

/// A line of cases, solved.
struct CasesReport {
  driveline::CaseLineFromBuild from;
  std::vector<CasesLoad> loads;  ///< Empty while something is missing; the first is at rest.
  /// Greatest bending at the same flanges as the makers carried them, by flange; NaN: not told, or
  /// another case there.
  std::vector<double> made_bending_Nm;
  std::optional<driveline::PowertrainModes> modes;
  std::optional<driveline::SupportPlace> support;
  std::optional<driveline::MountRate> better_rate;
};

/// A propeller shaft over the travel of its axle.
struct ShaftReport {
  driveline::ShaftFromBuild from;
  double speed_rad_per_s = kNaN;  ///< Fastest; NaN: not known.
  std::vector<double> bump_m;     ///< Of the poses in `bump`; one, 0, where nothing moves it.
  std::vector<driveline::ShaftEnds> bump_ends;
  std::size_t ride = 0;         ///< Of `bump`.
  driveline::ShaftTravel bump;  ///< Empty without a full shaft.
  driveline::ShaftTravel all;   ///< In bump, roll, and one wheel up.
  std::optional<driveline::PinionAngle> pinion;
  std::optional<driveline::CriticalSpeed> critical;
  std::optional<driveline::ShaftTorque> torque;
  std::optional<driveline::TubeTorsion> torsion;  ///< Of its weakest tube at that torque.
  std::vector<Row> rows;
  std::vector<Curve> curves;

  bool solved() const { return !bump.poses.empty(); }
};

/// One way through the gears.
struct GearReport {
  std::string gear, range;
  driveline::GearPath path;
  double idle_m_per_s = kNaN, top_m_per_s = kNaN;
  std::optional<driveline::Climb> climb;
};

/// What hangs on the hoist at once.
struct LiftReport {
  std::string id, path, label;
  driveline::Hung hung;
  double hook_off_m = kNaN;  ///< Of the hook behind the balance point.
  double leg_N = kNaN;
};

/// What there is to say of the drivetrain.
struct DrivetrainReport {
  std::vector<CasesReport> lines;
  std::vector<ShaftReport> shafts;
  std::vector<GearReport> gears;  ///< Slowest first.
  std::vector<LiftReport> lifts;
  double cases_torque_Nm = kNaN;  ///< That rolls the cases, + left side up; NaN: not known.
  std::string torque_basis;
  std::vector<Row> rows;
};

}  // namespace rig::check
