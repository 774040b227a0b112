#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "build/drivetrain_lookup.h"
#include "driveline/cases.h"
#include "driveline/shaft_speed.h"
#include "driveline/shaft_strength.h"
#include "driveline/shaft_travel.h"

/// The drivetrain of a build file as models.
namespace rig::driveline {

/// A line of cases as far as the file tells it.
struct CaseLineFromBuild {
  CaseLine line;
  std::vector<std::string> paths;  ///< By case.
  std::vector<std::string> front_patterns, rear_patterns;
  std::vector<Missing> missing;          ///< What it lacks; then it can't be solved.
  std::vector<std::string> assumptions;  ///< What was taken for what is not told.

  bool complete() const { return missing.empty() && !line.cases.empty(); }
};

/// The lines of cases that are in, one for each that stands apart.
///
/// Weight and balance point of a case are those of its mass. A mount's shear rate that is not told
/// is taken as a third of its rate in compression (common practice for bonded rubber), its
/// lengthwise rate as its shear rate.
std::vector<CaseLineFromBuild> case_lines_from_build(const build::Build& build,
                                                     build::Carried carried);

/// One propeller shaft as far as the file tells it.
struct ShaftFromBuild {
  std::string path;
  std::string label;
  Shaft shaft;
  std::array<std::optional<ShaftTube>, kMostTubes> tubes;
  std::array<std::optional<double>, kMostJoints> ratings_Nm;
  double yield_Pa = kNaN;
  double plain_yoke_m = kNaN, sliding_yoke_m = kNaN;  ///< Joint to weld; the latter pushed home.
  double stub_diameter_m = kNaN;  ///< Of the splined bar at the sliding tube's front.
  double stub_length_m = kNaN;
  double slide_kg = 0;                    ///< Of the sliding yoke, halfway along that bar.
  double bearing_past_m = 0;              ///< From the bearing's middle on to its joint.
  std::optional<double> bearing_N_per_m;  ///< Absent: it does not give.
  double fastest_rad_per_s = kNaN;        ///< Of this shaft alone.
  std::string from_case;                  ///< Id of the case that it starts at.
  std::string to_case;                    ///< Id; empty where it ends at an axle.
  std::string axle;                       ///< Id; empty where it ends at a case.
  ShaftEnds drawn;                        ///< As drawn.
  std::vector<Missing> missing;

  bool complete() const { return missing.empty(); }
};

std::vector<ShaftFromBuild> shafts_from_build(const build::Build& build);

/// A shaft as a beam that whirls: its tubes with the splined bar between, the sliding yoke, and the
/// bearing on its rubber.
/// @param lengths_m  Of each tube from joint to joint.
/// @return  None while a tube's size is not known.
std::optional<ShaftBeam> make_shaft_beam(const ShaftFromBuild& shaft,
                                         std::span<const double> lengths_m);

/// True where a shaft is one even tube, for which there is a closed form.
bool is_even(const ShaftFromBuild& shaft);

}  // namespace rig::driveline
