#include "check/loaded_frame.h"

namespace rig::check {

Result<LoadedFrame> load_frame(const build::Build& build, const build::PartsIn& in,
                               std::vector<FrameCase> cases, frame::SectionBook& book,
                               Diagnostics& faults) {
  auto model = frame::make_model(build, in, book);
  if (!model) return Failure{model.error()};
  auto solver = frame::Solver::make(model->structure);
  if (!solver) return Failure{solver.error()};
  LoadedFrame out{.model = *std::move(model),
                  .solver = *std::move(solver),
                  .cases = {},
                  .loads = {},
                  .responses = {}};
  for (FrameCase& one : cases) {
    auto its = lay_case(build, out.model, one);
    if (!its) {
      faults.insert(faults.end(), its.error().begin(), its.error().end());
      continue;
    }
    out.loads.push_back(*std::move(its));
    out.cases.push_back(std::move(one));
  }
  auto responses = out.solver.solve(out.loads);
  if (!responses) return Failure{responses.error()};
  out.responses = *std::move(responses);
  return out;
}

}  // namespace rig::check
