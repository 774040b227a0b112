#pragma once

#include <optional>
#include <string>
#include <vector>

#include "build/types.h"
#include "driveline/cases.h"
#include "driveline/shaft_strength.h"
#include "driveline/shaft_travel.h"

/// The drivetrain of a build file as models.
namespace rig::driveline {

/// Which parts of the drivetrain are in.
enum class Carried {
  kAsMade,    ///< As its makers carried it: what stays and what comes out.
  kAsPlanned  ///< What stays and what goes in.
};

/// Middle of the faces of one case, whether or not it is in.
struct CaseFaces {
  const build::Entry<build::Segment>* segment = nullptr;
  Vec3 p_VoF_V = Vec3::Constant(kNaN);
  Vec3 p_VoR_V = Vec3::Constant(kNaN);  ///< NaN where its length is not known.
  Vec3 d_V = Vec3::Constant(kNaN);      ///< Along its line, towards the rear; of length 1.
};

/// Of the segments that are in, in their order; places are NaN from where something is not known.
std::vector<CaseFaces> find_faces(const build::Drivetrain& drivetrain, Carried carried);

/// A line of cases as far as the file tells it.
struct CaseLineFromBuild {
  CaseLine line;
  std::vector<std::string> paths;  ///< By case.
  std::vector<std::string> front_patterns, rear_patterns;
  std::vector<Missing> missing;          ///< What it lacks; then it can't be solved.
  std::vector<std::string> assumptions;  ///< What was taken for what is not told.
  bool has_sizes = true;                 ///< Every case's mass has a size.

  bool complete() const { return missing.empty() && !line.cases.empty(); }
};

/// The lines of cases that are in, one for each that stands apart.
///
/// Weight and balance point of a case are those of its mass. A mount's shear rate that is not told
/// is taken as a third of its rate in compression (common practice for bonded rubber), its
/// lengthwise rate as its shear rate.
std::vector<CaseLineFromBuild> case_lines_from_build(const build::Build& build, Carried carried);

/// Slope of a line that falls to the rear by an angle, as a direction to the rear.
Vec3 rearward(double slope_rad);

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
