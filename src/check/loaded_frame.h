#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/shared.h"
#include "check/frame_cases.h"
#include "frame/solve.h"

namespace rig::check {

/// A frame under what the truck does with it: what stresses, stages and drawings are told from.
struct LoadedFrame {
  Shared<frame::Model> model;
  frame::Solver solver;
  std::vector<FrameCase> cases;            ///< Those that could be laid on it.
  std::vector<frame::Loads> loads;         ///< By case.
  std::vector<frame::Response> responses;  ///< By case.
};

/// @param cases   Those that can't be laid on the frame are told in `faults` and left out.
/// @errors        Those of `frame::make_model` and `frame::Solver`.
/// @param in      The parts that are in.
Result<LoadedFrame> load_frame(const build::Build& build, const build::PartsIn& in,
                               std::vector<FrameCase> cases, frame::SectionBook& book,
                               Diagnostics& faults);

}  // namespace rig::check
