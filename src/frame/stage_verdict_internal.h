#pragma once

#include <cstddef>

#include "frame/cut.h"

namespace rig::frame {

/// What speaks against a stage, and with it the verdict.
/// @param before  The models before and after its cuts.
/// @param cut     All but verdict and reasons are known.
void judge_stage(const StageOptions& options, std::size_t stage, const Model& before,
                 const Model& after, StageCut& cut);

}  // namespace rig::frame
