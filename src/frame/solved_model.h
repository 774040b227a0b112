#pragma once

#include "base/shared.h"
#include "frame/model.h"
#include "frame/solve.h"

namespace rig::frame {

/// A frame as beams, and what solves it.
struct SolvedModel {
  Shared<Model> model;
  Solver solver;
};

/// @errors  Those of `make_model` and `Solver::make`.
Result<SolvedModel> make_solved_model(const build::Build& build, const Selection& in,
                                      SectionBook& book);

}  // namespace rig::frame
