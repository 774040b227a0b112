#include "check/loaded_frame.h"

#include "base/side_by_side.h"
#include "frame/solved_model.h"

namespace rig::check {

Result<LoadedFrame> load_frame(const build::Build& build, const build::PartsIn& in,
                               std::vector<FrameCase> cases, frame::SectionBook& book,
                               Diagnostics& faults) {
  auto solved = frame::make_solved_model(build, in, book);
  if (!solved) return Failure{solved.error()};
  LoadedFrame out{.model = std::move(solved->model),
                  .solver = std::move(solved->solver),
                  .cases = {},
                  .loads = {},
                  .responses = {}};
  frame::Seating seating(out.model, build);
  for (const FrameCase& of : cases) seating.find(of.burdens);
  auto laid =
      make_side_by_side(cases.size(), [&](std::size_t i) { return lay_case(seating, cases[i]); });
  for (std::size_t i = 0; i < cases.size(); ++i) {
    if (!laid[i]) {
      faults.insert(faults.end(), laid[i].error().begin(), laid[i].error().end());
      continue;
    }
    out.loads.push_back(*std::move(laid[i]));
    out.cases.push_back(std::move(cases[i]));
  }
  auto responses = out.solver.solve(out.loads);
  if (!responses) return Failure{responses.error()};
  out.responses = *std::move(responses);
  return out;
}

}  // namespace rig::check
