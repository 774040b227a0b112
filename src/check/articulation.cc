#include "check/articulation.h"

#include "base/side_by_side.h"

namespace rig::check {

FoundArticulation find_articulation(const StateReport& state) {
  const double wheelbase_m = state.weigh.footing->wheelbase_m();
  auto found = make_side_by_side(2, [&](std::size_t which) {
    return which == 0
               ? suspension::find_ramp_articulation(*state.truck, wheelbase_m, *state.settled)
               : suspension::find_cross_articulation(*state.truck, wheelbase_m, *state.settled);
  });
  return {.ramp = std::move(found[0]), .cross = std::move(found[1])};
}

}  // namespace rig::check
