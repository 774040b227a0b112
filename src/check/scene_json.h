#pragma once

#include <map>
#include <string>
#include <string_view>

#include "base/result.h"
#include "check/report.h"

namespace rig::check {

/// What is drawn, as drawn, as JSON text: docs/api.md "scene". Parts whose places are not known are
/// left out. Sizes that the file does not tell are drawn at a usual size.
std::string scene_json(const build::Build& build, const Report& report);

/// Where the page asks to see the truck.
struct PoseQuestion {
  std::string state;     ///< Load state; empty: the ride state.
  bool settled = false;  ///< As it settles there; else by heave and roll.
  std::map<std::string, suspension::Target> axles;  ///< By id; absent: as drawn.
};

/// Reads docs/api.md "pose", the question.
/// @errors check.bad_pose, the path in it told.
Result<PoseQuestion> read_pose_question(std::string_view body);

/// The answer: docs/api.md "pose".
/// @errors check.unknown_state, check.not_settled, check.unknown_axle.
Result<std::string> pose_json(const build::Build& build, const Report& report,
                              const PoseQuestion& question);

}  // namespace rig::check
