#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "check/report.h"
#include "driveline/from_build.h"
#include "driveline/gears.h"
#include "driveline/hoist.h"
#include "driveline/modes.h"
#include "driveline/placing.h"
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
  double softest_frame_N_per_m = kNaN;  ///< Least that the frame gives under a mount, upright.

  /// "Engine to gearbox": the flange behind a case.
  std::string flange_words(std::size_t ahead) const;
};

/// A place of a case that comes near something.
struct GapReport {
  std::string id, path, label;
  double drawn_m = kNaN;
  double least_m = kNaN;   ///< Over all loads and the travel of the axle; < 0: they meet.
  std::string least_load;  ///< In words; empty: as drawn.
  double wanted_m = kNaN;
  double mounts_take_m = 0;  ///< How much less the least is for the cases' moving on their mounts.
  double moves_m = kNaN;     ///< Most that the place on the case moves.
  std::string moves_load;
  Vec3 p_VoA_V = Vec3::Zero();
  std::vector<Vec3> others_V;  ///< What it comes near, as drawn and at the ends of the travel.
};

/// A shaft as drawn but for the cases, which a load moves on their mounts.
struct ShaftUnderLoad {
  std::string id, label;  ///< Of the load.
  driveline::ShaftPose ride;
  /// Fastest that it turns so: under full torque in the lowest gears slower than else.
  double speed_rad_per_s = kNaN;

  double shake_rad_per_s2() const {
    return ride.motion.line.acceleration_rad_per_s2(speed_rad_per_s);
  }
};

/// How much room a shaft has somewhere in bump and roll.
enum class ShaftRoom : std::uint8_t { kNotReached, kFree, kClose, kPast };

/// A shaft over all bump and roll of its axle.
struct ShaftMap {
  std::vector<double> bump_m, roll_rad;
  std::vector<ShaftRoom> rooms;  ///< Roll by roll.
};

/// A propeller shaft over the travel of its axle.
struct ShaftReport {
  driveline::ShaftFromBuild from;
  double speed_rad_per_s = kNaN;  ///< Fastest; NaN: not known.
  std::vector<double> bump_m;     ///< Of the poses in `bump`; one, 0, where nothing moves it.
  std::vector<driveline::ShaftEnds> bump_ends;
  std::size_t ride = 0;         ///< Of `bump`.
  driveline::ShaftTravel bump;  ///< Empty without a full shaft.
  /// In bump, roll and one wheel up; and the same once more for each load that moves the cases.
  driveline::ShaftTravel all;
  std::size_t unmoved = 0;  ///< So many of `all` are with the cases as drawn, `ride` among them.
  std::vector<ShaftUnderLoad> moved;
  ShaftMap map;                               ///< Empty where nothing moves it.
  std::vector<driveline::ShaftEnds> corners;  ///< The ends of the travel, ride first.
  std::optional<driveline::PinionAngle> pinion;
  /// The same with a double Cardan joint at the case; where two Cardan joints can't cancel.
  std::optional<driveline::PinionAngle> double_cardan;
  std::optional<driveline::TravelStretch> steady;  ///< Of bump.
  std::optional<driveline::TubeCut> cut;
  std::optional<driveline::CriticalSpeed> critical;
  double critical_road_m_per_s = kNaN;  ///< Road speed at `kGreatestSpeedShare` of that.
  std::optional<driveline::ShaftTorque> torque;
  std::optional<driveline::TubeTorsion> torsion;  ///< Of its weakest piece at that torque.
  bool bar_is_weakest = false;                    ///< That piece is the splined bar.
  double engaged_m = kNaN;                      ///< Of the splines, with the shaft at its longest.
  std::optional<driveline::SplineShear> teeth;  ///< So engaged, at that torque.
  std::vector<Row> rows;
  std::vector<Curve> curves;

  bool solved() const { return !bump.poses.empty(); }
  /// Under which load a pose of `all` is, in words; empty: as drawn.
  std::string load_words(std::size_t pose) const;
};

/// One way through the gears.
struct GearReport {
  std::string gear, range;
  driveline::GearPath path;
  double idle_m_per_s = kNaN, top_m_per_s = kNaN;
  double road_rad_per_s = kNaN;  ///< Of the engine at `kRoadSpeed_m_per_s`; NaN: it can't.
  std::optional<driveline::Climb> climb;
};

struct HungPart {
  std::string label;
  double mass_kg = 0;
};

/// What hangs on the hoist at once.
struct LiftReport {
  std::string id, path, label;
  driveline::Hung hung;
  double hook_off_m = kNaN;  ///< Of the hook behind the balance point.
  double leg_N = kNaN;
  /// From the front; what hangs at either end can be taken off.
  std::vector<HungPart> parts;
};

/// What there is to say of the drivetrain.
struct DrivetrainReport {
  std::vector<CasesReport> lines;
  std::vector<ShaftReport> shafts;
  std::vector<GearReport> gears;  ///< Slowest first.
  std::vector<LiftReport> lifts;
  std::vector<GapReport> gaps;
  double cases_torque_Nm = kNaN;  ///< That rolls the cases, + left side up; NaN: not known.
  std::string torque_basis;
  std::vector<Row> rows;
};

}  // namespace rig::check
