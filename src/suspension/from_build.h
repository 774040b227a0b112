#pragma once

#include "base/result.h"
#include "build/types.h"
#include "suspension/model.h"

namespace rig::suspension {

/// What could be modelled of one axle, and what could not.
struct AxleFromBuild {
  AxleModel model;
  std::vector<Missing> missing;  ///< What the file does not tell yet.
  bool has_linkage = false;      ///< Enough bars or leaves to place the axle: it can be swept.
  bool has_springs = false;  ///< Every spring named in the file could be modelled, at least one.
  bool ready_to_settle = false;  ///< Linkage, springs, track and tyre radius are all there.
};

/// Turns an axle of the build into its model: mirrors what is given for both sides, turns joints
/// and tubes into compliance, arms into pairs of bars, leaf packs into a bar and two halves.
///
/// @errors suspension.zero_length (a link whose ends coincide), suspension.linkage_incomplete
/// (fewer
///         than four restraints), suspension.redundant_ideal (more ideal bars than can move: says
///         which need bush rates).
Result<AxleFromBuild> axle_from_build(const build::Entry<build::Axle>& axle);

}  // namespace rig::suspension
