#pragma once

#include <optional>
#include <string>
#include <vector>

#include "build/drivetrain_lookup.h"
#include "driveline/cases.h"
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
  std::string axle;  ///< Id; empty where it ends at a case.
  ShaftEnds drawn;   ///< As drawn.
  std::vector<Missing> missing;

  bool complete() const { return missing.empty(); }
};

std::vector<ShaftFromBuild> shafts_from_build(const build::Build& build);

}  // namespace rig::driveline
