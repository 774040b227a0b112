#pragma once

#include <array>
#include <optional>

#include "frame/cut.h"
#include "frame/stage_history_internal.h"

namespace rig::frame {

/// The same parts, weights and stands. What history has left is not compared.
bool is_same(const FrameState& a, const FrameState& b);

/// A frame with some parts in, under the weights of a stage.
/// @param last  A state with the same history, or null: where weights and stands are the same too
///              it is that state.
Result<FrameState> solve_state(const build::Build& build, std::size_t stage,
                               const StageModels& models, const Selection& in,
                               const History& history, const WeightsOf& weights,
                               const StageOptions& options, const FrameState* last = nullptr);

/// What a beam carries in all.
section::SectionForces total_forces(const FrameState& state, int beam, double share);

/// How a mark of the rails has moved.
Vec3 mark_moved(const StageModels& models, const FrameState& state, int mark);

/// The parts that a stage takes out, as they were just before.
std::vector<CutPart> list_cut_parts(const build::Build& build, std::size_t stage,
                                    const StageModels& models, const FrameState& before,
                                    const FrameState& after, const units::UnitChoices& units);

StageStress find_stage_stress(const FrameState& state, const units::UnitChoices& units);

HeightChange find_height_change(const StageModels& models, const FrameState& before,
                                const FrameState& after, const units::UnitChoices& units);

/// None where neither the axle lines nor the stage's stands make two pairs.
std::optional<DiagonalChange> calc_diagonal_change(const FrameState& before,
                                                   const FrameState& after,
                                                   const std::string& stage_path);

}  // namespace rig::frame
