#include "frame/solved_model.h"

#include <utility>

namespace rig::frame {

Result<SolvedModel> make_solved_model(const build::Build& build, const Selection& in,
                                      SectionBook& book) {
  auto made = make_model(build, in, book);
  if (!made) return Failure{made.error()};
  Shared<Model> model(*std::move(made));
  auto solver = Solver::make(structure_of(model));
  if (!solver) return Failure{solver.error()};
  return SolvedModel{std::move(model), *std::move(solver)};
}

}  // namespace rig::frame
