#include "check/truck.h"

#include <gtest/gtest.h>

#include "check/articulation.h"
#include "check/lengths.h"
#include "check/test_builds_internal.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using testing::example_report;
using testing::kCrawler;
using testing::kTowRig;
using testing::read_example;

// The correction hangs on the frame as masses of the same sum and first moments: the settled axles
// stand on the scales as they were read.
TEST(MakeTruck, SettlesOnTheScalesReadings) {
  const Report& report = example_report(kTowRig);
  const auto& settled = *report.ride()->settled;
  const auto axle_lb = [&](std::size_t a) {
    const auto& loads = settled.axles[a].wheel_loads_N;
    return units::lbf_from_N(loads[0] + loads[1]);
  };
  // Read: 1600 + 1560 and 1395 + 1405 lb; frame and axles shift by some millimetres as they settle.
  EXPECT_NEAR(axle_lb(0), 3160, 1);
  EXPECT_NEAR(axle_lb(1), 2800, 1);
}

TEST(MakeTruck, NeedsTheTrailersPartOfTheLoad) {
  const auto read = testing::edited(read_example(kTowRig), {{"/hitch/ball", ""}});
  const Report report = check(read.build);
  EXPECT_TRUE(report.state("road")->truck.has_value());
  EXPECT_FALSE(report.state("towing")->truck.has_value());
}

TEST(FindTruckNumbers, TakesTheMeasuredHeightOfTheBalancePoint) {
  const auto read = read_example(kCrawler);
  const auto weighed = weigh::weigh_state(read.build, "trail");
  ASSERT_EQ(weighed->measured_heights.size(), 1U);
  const auto numbers = find_truck_numbers(&*weighed, read.build.axles.front().value);
  EXPECT_NEAR(numbers.cg_height_m, weighed->measured_heights.front().height.cg_height_m, 1e-12);
  EXPECT_NEAR(numbers.wheelbase_m, 2.49, 1e-12);
  // Other states take the difference with them.
  const auto full = weigh::weigh_state(read.build, "full");
  EXPECT_GT(find_truck_numbers(&*full, read.build.axles.front().value).cg_height_m,
            full->total->p_VoBcm_V.z() + 0.005);
}

// A frame raised by h over wheels that stand still is h too high at every corner; rolled, it is too
// high on one side by half the track times the roll.
TEST(HeightError, FollowsFromTheFramesPose) {
  const Report& report = example_report(kCrawler);
  const auto& truck = *report.ride()->truck;
  suspension::Settled settled;
  settled.X_WV.p_AB = Vec3(0, 0, 0.02);
  for (const auto& axle : truck.axles) {
    suspension::SettledAxle at;
    at.wheel_centre_heights_m = {axle.p_VC.z(), axle.p_VC.z()};
    settled.axles.push_back(at);
  }
  EXPECT_NEAR(calc_height_error_m(truck, settled, 0, 1), 0.02, 1e-15);
  EXPECT_NEAR(calc_height_error_m(truck, settled, 1, -1), 0.02, 1e-15);
  settled.X_WV = {rotation_x(0.01), Vec3::Zero()};
  const double half_m = truck.axles[0].track_m / 2;
  EXPECT_NEAR(calc_height_error_m(truck, settled, 0, 1), half_m * 0.01, 1e-4);
  EXPECT_NEAR(calc_height_error_m(truck, settled, 0, -1), -half_m * 0.01, 1e-4);
}

// Lengths over the sweeps against those the sweep itself tells of a shock.
// The loads of all wheels are the weight, whatever the ground; the first that lifts carries
// nothing.
TEST(Articulation, EndsWhereAWheelCarriesNothing) {
  for (const char* name : {kTowRig, kCrawler, testing::kShopTruck}) {
    for (const StateReport& state : example_report(name).states) {
      SCOPED_TRACE(std::string(name) + " " + state.id);
      ASSERT_TRUE(state.settled && state.weigh.footing);
      const FoundArticulation found = find_articulation(state);
      double weight_N = 0;
      for (const auto& axle : state.settled->axles) {
        weight_N += axle.wheel_loads_N[0] + axle.wheel_loads_N[1];
      }
      for (const auto* one : {&found.ramp, &found.cross}) {
        ASSERT_TRUE(one->has_value()) << one->error().front().message;
        EXPECT_FALSE((*one)->tips_over);
        double least_N = weight_N, sum_N = 0;
        for (const auto& axle : (*one)->at_lift.axles) {
          for (const double load_N : axle.wheel_loads_N) {
            least_N = std::min(least_N, load_N);
            sum_N += load_N;
          }
        }
        EXPECT_NEAR(sum_N, weight_N, 1e-6 * weight_N);
        EXPECT_TRUE((*one)->limited || least_N < 1e-3 * weight_N) << least_N;
      }
    }
  }
}

TEST(Lengths, AgreeWithTheSweep) {
  const Report& report = example_report(kCrawler);
  const AxleReport& axle = *report.axle("front");
  const auto& shock = axle.model.shocks.front();
  double least = 10, most = 0;
  for (const auto* sweep : {&axle.bump, &axle.crossed}) {
    for (const auto& pose : sweep->poses) {
      EXPECT_NEAR(calc_length_m(pose.q, shock.p_VP, shock.p_AQ), pose.shock_lengths_m.front(),
                  1e-12);
      least = std::min(least, pose.shock_lengths_m.front());
      most = std::max(most, pose.shock_lengths_m.front());
    }
  }
  const Extent extent = calc_extent(axle, shock.p_VP, shock.p_AQ);
  EXPECT_NEAR(extent.least.length_m, least, 1e-12);
  EXPECT_NEAR(extent.most.length_m, most, 1e-12);
  // Where the length of a known pose is reached; between two poses by a straight line.
  const auto& pose = axle.bump.poses[10];
  EXPECT_NEAR(find_heave_m(axle, shock.p_VP, shock.p_AQ, pose.shock_lengths_m.front()),
              pose.numbers.heave_m, 1e-9);
  // Straight on from the wanted bump.
  const auto &last = axle.bump.poses.back(), &before = *(axle.bump.poses.end() - 2);
  const double per_length = (last.numbers.heave_m - before.numbers.heave_m) /
                            (before.shock_lengths_m.front() - last.shock_lengths_m.front());
  EXPECT_NEAR(find_heave_m(axle, shock.p_VP, shock.p_AQ, last.shock_lengths_m.front() - 0.03),
              last.numbers.heave_m + 0.03 * per_length, 1e-9);
}

}  // namespace
}  // namespace rig::check
