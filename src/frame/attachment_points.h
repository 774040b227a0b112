#pragma once

#include <vector>

#include "build/types.h"
#include "frame/model.h"

namespace rig::frame {

/// Where the truck's parts meet the frame, before it is known what carries them: `joint`, `carrier`
/// and `p_VoC_V` are open. What is not known is left out; mounts of all times are listed. Mounts,
/// stands and axle lines have no height or offset of their own (NaN): they take those of what
/// carries them.
std::vector<Attachment> list_attachment_points(const build::Build& build);

}  // namespace rig::frame
