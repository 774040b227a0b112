#include "weigh/loads.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <vector>

#include "base/nan.h"
#include "tests/support/random_values.h"

namespace rig::weigh {
namespace {

constexpr Footing kFooting{
    .front_x_m = 0, .rear_x_m = -3, .front_track_m = 1.6, .rear_track_m = 1.5};

using test::real;

std::vector<VerticalLoad> random_loads() {
  std::vector<VerticalLoad> loads(static_cast<std::size_t>(*rc::gen::inRange(1, 8)));
  for (VerticalLoad& load : loads) {
    load = {.force_N = real(1000, 20000000),
            .p_VoP_V = {real(-5000, 2000), real(-1000, 1000), real(0, 2000)}};
  }
  return loads;
}

TEST(Loads, LoadOverAnAxleGoesToThatAxle) {
  const std::vector<VerticalLoad> loads{{.force_N = 1000, .p_VoP_V = {-3, 0, 1}}};
  const auto axles = calc_axle_loads(kFooting, loads);
  ASSERT_TRUE(axles.has_value());
  EXPECT_DOUBLE_EQ(axles->rear_N, 1000);
  EXPECT_DOUBLE_EQ(axles->front_N, 0);
}

TEST(Loads, LoadOverAWheelLineGoesToThatSide) {
  const Footing even{.front_x_m = 0, .rear_x_m = -3, .front_track_m = 1.6, .rear_track_m = 1.6};
  const std::vector<VerticalLoad> loads{{.force_N = 1000, .p_VoP_V = {-1.5, 0.8, 1}}};
  const auto wheels = calc_wheel_loads(even, loads);
  ASSERT_TRUE(wheels.has_value());
  EXPECT_DOUBLE_EQ(wheels->front_left_N, 500);
  EXPECT_DOUBLE_EQ(wheels->rear_left_N, 500);
  EXPECT_NEAR(wheels->front_right_N, 0, 1e-12);
  EXPECT_NEAR(wheels->rear_right_N, 0, 1e-12);
}

TEST(Loads, EachError) {
  const std::vector<VerticalLoad> loads{{.force_N = 1000, .p_VoP_V = {-1, 0, 1}}};
  Footing footing = kFooting;
  footing.rear_x_m = 0;
  EXPECT_EQ(calc_axle_loads(footing, loads).error().front().code, "weigh.wheelbase_not_positive");
  EXPECT_EQ(calc_wheel_loads(footing, loads).error().front().code, "weigh.wheelbase_not_positive");
  EXPECT_EQ(calc_axle_loads(Footing{}, loads).error().front().code, "weigh.wheelbase_not_positive");
  footing = kFooting;
  footing.rear_track_m = kNaN;
  EXPECT_EQ(calc_wheel_loads(footing, loads).error().front().code, "weigh.track_not_positive");
  EXPECT_EQ(calc_wheel_loads(kFooting, {}).error().front().code, "weigh.no_load");
}

RC_GTEST_PROP(Loads, GroundCarriesWhatPressesOnIt, ()) {
  const auto loads = random_loads();
  const auto wheels = calc_wheel_loads(kFooting, loads);
  RC_ASSERT(wheels.has_value());
  double force = 0;
  double about_x = 0;
  double about_y = 0;
  for (const VerticalLoad& load : loads) {
    force += load.force_N;
    about_x += load.force_N * load.p_VoP_V.y();
    about_y += load.force_N * load.p_VoP_V.x();
  }
  const double front = wheels->front_left_N + wheels->front_right_N;
  const double rear = wheels->rear_left_N + wheels->rear_right_N;
  const double ground_x = (wheels->front_left_N - wheels->front_right_N) * 0.8 +
                          (wheels->rear_left_N - wheels->rear_right_N) * 0.75;
  RC_ASSERT(std::abs(front + rear - force) <= 1e-12 * force);
  RC_ASSERT(std::abs(ground_x - about_x) <= 1e-11 * force);
  RC_ASSERT(std::abs(rear * -3 - about_y) <= 1e-11 * force);
}

RC_GTEST_PROP(Loads, MirroredTruckMirrorsItsWheels, ()) {
  auto loads = random_loads();
  const auto wheels = calc_wheel_loads(kFooting, loads);
  for (VerticalLoad& load : loads) load.p_VoP_V.y() *= -1;
  const auto mirrored = calc_wheel_loads(kFooting, loads);
  RC_ASSERT(wheels.has_value() && mirrored.has_value());
  const double slack = 1e-12 * (std::abs(wheels->front_left_N) + std::abs(wheels->rear_left_N) +
                                std::abs(wheels->front_right_N) + std::abs(wheels->rear_right_N));
  RC_ASSERT(std::abs(wheels->front_left_N - mirrored->front_right_N) <= slack);
  RC_ASSERT(std::abs(wheels->rear_left_N - mirrored->rear_right_N) <= slack);
}

}  // namespace
}  // namespace rig::weigh
