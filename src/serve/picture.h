#pragma once

#include <string>

namespace rig::serve {

/// A side elevation as SVG, front to the left, from a scene (docs/api.md). Light or dark as the one
/// who looks prefers.
std::string picture_svg(const std::string& scene_json);

}  // namespace rig::serve
