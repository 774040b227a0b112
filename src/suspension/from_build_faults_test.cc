#include <gtest/gtest.h>

#include <set>
#include <string>

#include "suspension/axle_entries_internal.h"

namespace rig::suspension {
namespace {

using testing::add_coil;
using testing::add_leaves;
using testing::add_link;
using testing::at;
using testing::AxleEntry;
using testing::ball;
using testing::bushed;
using testing::fault;
using testing::make_bare;
using testing::make_parallel_four;
using testing::make_radius_arms;
using testing::make_three_link;
using testing::missing_paths;
using testing::must_build;

TEST(FromBuildMissing, PlaceOfTheAxle) {
  AxleEntry axle = make_three_link();
  axle.value.station = axle.value.height = axle.value.track = {};
  const AxleFromBuild made = must_build(axle);
  EXPECT_FALSE(made.has_linkage);
  EXPECT_EQ(
      missing_paths(made),
      (std::set<std::string>{"/axles/front/station", "/axles/front/height", "/axles/front/track"}));
}

TEST(FromBuildMissing, TrackIsNotNeededToSweep) {
  AxleEntry axle = make_three_link();
  add_coil(axle);
  axle.value.track = {};
  const AxleFromBuild made = must_build(axle);
  EXPECT_TRUE(made.has_linkage);
  EXPECT_TRUE(made.has_springs);
  EXPECT_FALSE(made.ready_to_settle);
}

TEST(FromBuildMissing, EndsOfLinksAndArms) {
  AxleEntry axle = make_radius_arms(true);
  axle.value.links[0].value.frame.at.height = {};
  axle.value.arms[0].value.second.at.offset = {};
  const AxleFromBuild made = must_build(axle);
  EXPECT_FALSE(made.has_linkage);
  EXPECT_EQ(missing_paths(made), (std::set<std::string>{"/axles/front/links/bar/frame/at",
                                                        "/axles/front/arms/arm/second/at"}));
}

TEST(FromBuildMissing, BushWithoutARateIsABallJointAndListed) {
  AxleEntry axle = make_three_link();
  axle.value.links[1].value.axle.bushing = build::Bushing{};
  const AxleFromBuild made = must_build(axle);
  EXPECT_TRUE(made.has_linkage);
  EXPECT_TRUE(made.model.compliance_m_per_N.isZero(0));
  EXPECT_EQ(missing_paths(made),
            (std::set<std::string>{"/axles/front/links/upper/axle/bushing/radial"}));
}

TEST(FromBuildMissing, PartsOfSprings) {
  AxleEntry axle = make_three_link();
  add_coil(axle);
  axle.value.coils[0].value = {};
  const AxleFromBuild coil = must_build(axle);
  EXPECT_TRUE(coil.has_linkage);  // The links still place the axle.
  EXPECT_FALSE(coil.has_springs);
  const std::string path = "/axles/front/coils/coil";
  EXPECT_TRUE(missing_paths(coil).count(path + "/upper"));
  EXPECT_TRUE(missing_paths(coil).count(path + "/rate"));
  EXPECT_TRUE(missing_paths(coil).count(path + "/free_length"));

  axle = make_bare();
  add_leaves(axle);
  axle.value.leaf_packs[0].value = {};
  const std::string pack = "/axles/front/leaf_packs/pack";
  EXPECT_EQ(missing_paths(must_build(axle)),
            (std::set<std::string>{pack + "/front_eye", pack + "/rear_eye", pack + "/seat",
                                   pack + "/rate", pack + "/lateral_rate", pack + "/free_arch"}));
}

TEST(FromBuildMissing, StopsShocksAndRollBars) {
  AxleEntry axle = make_three_link();
  axle.value.bump_stops.push_back({"stop", "/axles/front/bump_stops/stop", {}});
  axle.value.dampers.push_back({"shock", "/axles/front/dampers/shock", {}});
  axle.value.dampers.push_back({"drawn", "/axles/front/dampers/drawn", {}});
  axle.value.dampers[1].value.frame = at(0.1, 0.4, 0.95);
  axle.value.dampers[1].value.axle = at(0.1, 0.48, 0.45);
  axle.value.anti_roll_bars.push_back({"sway", "/axles/front/anti_roll_bars/sway", {}});
  const AxleFromBuild made = must_build(axle);
  EXPECT_TRUE(made.has_linkage);
  EXPECT_EQ(missing_paths(made),
            (std::set<std::string>{"/axles/front/bump_stops/stop", "/axles/front/dampers/shock",
                                   "/axles/front/dampers/drawn/closed_length",
                                   "/axles/front/dampers/drawn/open_length",
                                   "/axles/front/anti_roll_bars/sway"}));
  EXPECT_EQ(made.model.shocks.size(), 1U);  // Its lengths limit nothing.
}

TEST(FromBuildFaults, ZeroLength) {
  AxleEntry axle = make_three_link();
  axle.value.links[1].value.axle = axle.value.links[1].value.frame;
  EXPECT_EQ(fault(axle), "suspension.zero_length /axles/front/links/upper");
}

TEST(FromBuildFaults, LinkageIncomplete) {
  AxleEntry axle = make_three_link();
  axle.value.links.pop_back();  // No track bar.
  const auto made = axle_from_build(axle);
  ASSERT_FALSE(made.has_value());
  EXPECT_EQ(made.error().front().code, "suspension.linkage_incomplete");
  EXPECT_EQ(made.error().front().path, "/axles/front");
  EXPECT_NE(made.error().front().message.find("sideways"), std::string::npos);
  axle.value.links.pop_back();  // No upper link either.
  EXPECT_EQ(fault(axle), "suspension.linkage_incomplete /axles/front");
}

TEST(FromBuildFaults, ParallelFourLinkWithBarNeedsBushes) {
  EXPECT_EQ(fault(make_parallel_four(false, true)), "suspension.redundant_ideal /axles/front");
  EXPECT_TRUE(must_build(make_parallel_four(true, true)).has_linkage);
  // Without the bar nothing but bushes' tilt would hold it sideways.
  EXPECT_EQ(fault(make_parallel_four(true, false)), "suspension.linkage_incomplete /axles/front");
}

// Bushes stand a little tilt, so nothing is loose to the letter; but an axle is not held by that.
TEST(FromBuildFaults, RubberIsNoTrackBar) {
  AxleEntry axle = make_three_link();
  std::erase_if(axle.value.links,
                [](const auto& link) { return link.value.role == build::LinkRole::kTrackBar; });
  for (auto& link : axle.value.links) {
    for (build::JointEnd* end : {&link.value.frame, &link.value.axle}) {
      end->bushing = build::Bushing{};
      end->bushing->radial.si = 8e6;
      end->bushing->conical.si = 2000;
      end->bushing->torsional.si = 500;
    }
  }
  const auto made = axle_from_build(axle);
  ASSERT_FALSE(made.has_value());
  EXPECT_EQ(made.error().front().code, "suspension.linkage_incomplete");
  EXPECT_NE(made.error().front().message.find("sideways"), std::string::npos);
}

TEST(FromBuildFaults, RadiusArmsNeedBushes) {
  const auto made = axle_from_build(make_radius_arms(false));
  ASSERT_FALSE(made.has_value());
  EXPECT_EQ(made.error().front().code, "suspension.redundant_ideal");
  EXPECT_NE(made.error().front().message.find("arm.left.first"), std::string::npos);
  EXPECT_NE(made.error().front().remedy.find("radial"), std::string::npos);
  EXPECT_TRUE(must_build(make_radius_arms(true)).has_linkage);
}

TEST(FromBuildFaults, TooManyLinks) {
  AxleEntry axle = make_parallel_four(true, true);
  for (int i = 0; i < 16; ++i) {
    add_link(axle, "more" + std::to_string(i), build::LinkRole::kLower, false,
             bushed(0.9, 0.3, 0.5), bushed(0, 0.3, 0.4 + 0.01 * i));
  }
  EXPECT_EQ(fault(axle), "suspension.too_many_links /axles/front");
}

TEST(FromBuildFaults, ImpossibleWire) {
  AxleEntry axle = make_three_link();
  add_coil(axle);
  build::Coil& coil = axle.value.coils[0].value;
  coil.wire = build::CoilWire{};
  coil.wire->diameter.si = 0.016;
  coil.wire->mean_diameter.si = 0.016;
  coil.wire->active_turns.si = 7;
  EXPECT_EQ(fault(axle), "suspension.impossible_wire /axles/front/coils/coil/wire/mean_diameter");
  coil.wire->mean_diameter.si = 0.130;
  coil.wire->active_turns.si = 40;  // 42 turns of 16 mm in 0.5 m.
  coil.solid_length = {};
  EXPECT_EQ(fault(axle), "suspension.impossible_wire /axles/front/coils/coil/wire/active_turns");
}

TEST(FromBuildFaults, ImpossibleLeaves) {
  AxleEntry axle = make_bare();
  add_leaves(axle);
  build::LeafPack& pack = axle.value.leaf_packs[0].value;
  pack.rate = {};
  pack.leaves = build::Leaves{};
  pack.leaves->count = 3;
  pack.leaves->full_length_leaves = 4;
  pack.leaves->width.si = 0.0635;
  pack.leaves->thickness.si = 0.0074;
  const std::string path = "suspension.impossible_leaves /axles/front/leaf_packs/pack";
  EXPECT_EQ(fault(axle), path + "/leaves/full_length_leaves");
  pack.leaves->full_length_leaves = 1;
  pack.seat.station = pack.front_eye.station;
  EXPECT_EQ(fault(axle), path + "/seat/station");
}

}  // namespace
}  // namespace rig::suspension
