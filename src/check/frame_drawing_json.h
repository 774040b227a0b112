#pragma once

#include <string>

#include "check/frame_drawing.h"

namespace rig::check {

/// docs/api.md "frame drawing", as JSON text, of one case of `make_frame_cases`.
/// @errors  frame.no_case (there is none of this id); those of `draw_frame`.
Result<std::string> frame_drawing_json(const build::Build& build, const FrameCases& cases,
                                       const std::string& case_id);

/// docs/api.md "sections" of the frame as planned, as JSON text; an empty list without a frame.
std::string frame_sections_json(const build::Build& build);

}  // namespace rig::check
