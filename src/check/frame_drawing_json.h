#pragma once

#include <string>

#include "check/frame_drawing.h"

namespace rig::check {

/// docs/api.md "frame drawing", as JSON text, of one of the report's cases.
/// @errors  frame.no_case (there is none of this id).
Result<std::string> frame_drawing_json(const build::Build& build, const Report& report,
                                       const std::string& case_id);

/// docs/api.md "sections" of the frame as planned, as JSON text; an empty list without a frame.
std::string frame_sections_json(const build::Build& build);

}  // namespace rig::check
