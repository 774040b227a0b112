#pragma once

#include "build/types.h"
#include "check/json_internal.h"

namespace rig::check {

/// Rails, plates and crossmembers as the scene tells them: each with its points as given and the
/// box about its section from place to place. A part of which too little is known is left out.
Json frame_parts_json(const build::Frame& frame);

/// The same of cases, mounts and shafts of the drivetrain.
Json drivetrain_parts_json(const build::Build& build);

}  // namespace rig::check
