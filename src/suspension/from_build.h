#pragma once

#include "base/result.h"
#include "build/types.h"
#include "suspension/model.h"

namespace rig::suspension {

/// One value that another was worked out from.
struct WorkedOutInput {
  std::string symbol;  ///< As in the formula.
  std::string path;    ///< JSON pointer.
  double si = 0;
  units::Dimension dimension = units::Dimension::kLength;  ///< Counts are ratios.
};

/// A value that the file does not give but that follows from what it does.
struct WorkedOut {
  std::string path;       ///< JSON pointer where it would stand.
  std::string what;       ///< In shop words: "rate of the coil".
  std::string from_what;  ///< Its parts that tell: "wire and turns".
  double si = 0;
  units::Dimension dimension = units::Dimension::kStiffness;
  std::string formula;  ///< How, with its constants.
  std::string source;
  std::vector<WorkedOutInput> inputs;
  std::vector<std::string> cautions;  ///< What makes it doubtful, each a sentence.
};

/// What could be modelled of one axle, and what could not.
struct AxleFromBuild {
  AxleModel model;
  std::vector<Missing> missing;  ///< What the file does not tell yet.
  std::vector<WorkedOut> worked_out;
  bool has_linkage = false;  ///< Enough bars or leaves to place the axle: it can be swept.
  bool has_springs = false;  ///< Every spring named in the file could be modelled, at least one.
  bool ready_to_settle = false;  ///< Linkage, springs, track and tyre radius are all there.
};

/// Turns an axle of the build into its model: mirrors what is given for both sides, turns joints
/// and tubes into compliance, arms into pairs of bars, leaf packs into a bar and two halves. Rates
/// and solid lengths that are not given come from a coil's wire and a pack's leaves.
///
/// @errors suspension.zero_length (a link whose ends coincide), suspension.linkage_incomplete
/// (fewer
///         than four restraints), suspension.redundant_ideal (more ideal bars than can move: says
///         which need bush rates), suspension.too_many_links (more than can be solved),
///         suspension.impossible_wire (a coil that can't be wound so, or is solid at its free
///         length), suspension.impossible_leaves (more full-length leaves than leaves).
Result<AxleFromBuild> axle_from_build(const build::Entry<build::Axle>& axle);

}  // namespace rig::suspension
