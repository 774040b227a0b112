#pragma once

#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "build/read.h"
#include "frame/model.h"
#include "frame/solve.h"

/// The frames that tests/shells models as shells, as build files and as beams.
namespace rig::frame::testing {

using Json = nlohmann::ordered_json;

/// tests/shells/cases/NAME.json
Json read_case(const std::string& name);

/// What the shells answered with the finest mesh there is; null when the case has not been run.
Json read_shells(const std::string& name);

/// tests/shells/cases/joints.json and its results: single joints by name.
Json read_joint_cases();
Json read_joint_results();

/// tests/shells/cases/members.json and its results: lone rails by name, and LE5's result.
Json read_member_cases();
Json read_member_results();

/// What the beams said before the shells were run; null when nothing was kept.
Json read_prediction(const std::string& name);

/// The same frame as a build: stations from the front end, mid-depth 0.5 m up. Its three load
/// stations are mounts on the webs, "front", "middle" and "rear".
build::Build make_build(const Json& shell_case);

/// Stiffness of the three load cases of tests/shells/README.md, by name: torsion (N m/rad), bending
/// and lozenging (N/m).
struct Answers {
  std::map<std::string, double> stiffness;
  std::map<std::string, Loads> loads;
  std::map<std::string, Response> responses;
};
Answers solve_load_cases(const Json& shell_case, const Model& model);

struct Stress {
  double axial_Pa = 0;
  double von_mises_Pa = 0;  ///< The larger of the two faces'.
};
/// In the left rail at a point of a case under a load case.
Stress stress_at(const Json& point, const Model& model, const Answers& answers,
                 const std::string& load);

}  // namespace rig::frame::testing
