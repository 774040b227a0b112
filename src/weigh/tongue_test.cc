#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "weigh/sample_internal.h"
#include "weigh/weigh.h"

namespace rig::weigh {
namespace {

/// What a tongue load is known to turns the truck about its rear axle like the load itself.
TEST(TongueLoad, ItsHalfWidthGoesIntoTheAxleLoads) {
  build::Build build = internal::sample_build();
  const auto exact = weigh_state(build, "towing");
  ASSERT_TRUE(exact.has_value() && exact->hitch && exact->footing);
  EXPECT_EQ(exact->hitch->tongue_plus_minus_N, 0);

  auto& trailer =
      *std::find_if(build.load_states.begin(), build.load_states.end(), [](auto& state) {
         return state.id == "towing";
       })->value.trailer;
  trailer.tongue_load.plus_minus_si = 300;
  const auto doubtful = weigh_state(build, "towing");
  ASSERT_TRUE(doubtful.has_value());
  EXPECT_EQ(doubtful->hitch->tongue_plus_minus_N, 300);

  const double L = exact->footing->wheelbase_m();
  const double behind_m = exact->footing->rear_x_m - exact->hitch->p_VoBall_V.x();
  ASSERT_GT(behind_m, 0);
  const auto added = [](double with, double without) {
    return std::sqrt(with * with - without * without);
  };
  EXPECT_NEAR(added(doubtful->spread.front_plus_minus_N, exact->spread.front_plus_minus_N),
              300 * behind_m / L, 1e-9);
  EXPECT_NEAR(added(doubtful->spread.rear_plus_minus_N, exact->spread.rear_plus_minus_N),
              300 * (1 + behind_m / L), 1e-9);
  // The truck itself is known as well as before.
  EXPECT_EQ(doubtful->spread.mass_plus_minus_kg, exact->spread.mass_plus_minus_kg);
}

}  // namespace
}  // namespace rig::weigh
