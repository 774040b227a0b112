#include "check/left_out.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "check/summary.h"
#include "check/test_builds_internal.h"
#include "check/text.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using testing::check_edited;
using testing::edited;
using testing::example_report;
using testing::find_finding;
using testing::kShopTruck;
using testing::kTowRig;
using testing::read_example;
using testing::says;

/// The tow rig by its list alone, the cab of unknown mass and the engine of unknown mass and place.
const std::vector<build::Edit> kNoEngineNoCab{{"/corner_weighings", ""},
                                              {"/masses/cab/mass", ""},
                                              {"/masses/engine/mass", ""},
                                              {"/masses/engine/at", ""}};

TEST(LeftOut, WeightIsToldAsALowerBoundThatNamesThem) {
  const auto whole = check_edited(kTowRig, {{"/corner_weighings", ""}});
  const auto read = edited(read_example(kTowRig), kNoEngineNoCab);
  const Report report = check(read.build);
  EXPECT_NEAR(whole.ride()->standing()->truck.mass_kg - report.ride()->standing()->truck.mass_kg,
              units::kg_from_lb(900 + 760), 1e-9);
  const auto text = report_text(read.build, report);
  EXPECT_TRUE(says(text, "at least ")) << text;
  const std::string road = state_words(*report.state("road"), Printer(build::Units{}));
  EXPECT_TRUE(says(road, "without the cab, doors and dash and the diesel engine, dressed")) << road;
  EXPECT_FALSE(is_lower_bound(*whole.ride()));
}

TEST(LeftOut, NothingThatRestsOnTheMassesIsGood) {
  const Report report = check_edited(kTowRig, kNoEngineNoCab);
  for (const char* id :
       {"rating.gross", "rating.axle.front", "rating.tyre.rear", "side_slope", "stability_factor",
        "grade.up", "height.front.left", "level.side", "frequency.rear", "damping.front",
        "anti_squat.rear", "stop_room.front", "articulation.cross", "coil_solid.front.coil"}) {
    const Finding* finding = find_finding(report, id);
    ASSERT_NE(finding, nullptr) << id;
    EXPECT_NE(finding->verdict, Verdict::kGood) << id;
    EXPECT_TRUE(says(finding->assumption, "diesel engine")) << id << finding->assumption;
  }
  // What the trailer's papers and the links alone settle stays.
  for (const char* id : {"rating.tongue", "tongue_share.towing", "caster.front"}) {
    EXPECT_EQ(find_finding(report, id)->verdict, Verdict::kGood) << id;
  }
}

TEST(LeftOut, WhatNothingIsKnownOfIsListedFirst) {
  const Report report = check_edited(kTowRig, kNoEngineNoCab);
  ASSERT_GE(report.missing.size(), 5U);
  EXPECT_TRUE(says(report.missing.front().path, "/masses/engine")) << report.missing.front().path;
  const auto cab = std::find_if(report.missing.begin(), report.missing.end(),
                                [](const Missing& m) { return m.path == "/masses/cab/mass"; });
  EXPECT_EQ(cab - report.missing.begin(), 4);
}

TEST(LeftOut, AStateWithoutItsHitchBallIsNamed) {
  const Report report = check_edited(kTowRig, {{"/hitch/ball", ""}});
  for (const char* id : {"rating.gross", "rating.axle.rear", "side_slope", "grade.up"}) {
    const Finding* finding = find_finding(report, id);
    ASSERT_NE(finding, nullptr) << id;
    EXPECT_EQ(finding->verdict, Verdict::kLook) << id;
    EXPECT_TRUE(says(finding->assumption, "\"Towing the crew trailer\"")) << finding->assumption;
    EXPECT_FALSE(says(finding->advice, "Nothing to do")) << finding->advice;
  }
  EXPECT_EQ(find_finding(report, "rating.trailer"), nullptr);
}

TEST(LeftOut, NoListOfMassesIsMissingAndHasNoHeading) {
  const auto read =
      edited(read_example(kShopTruck),
             {{"/masses", "{}"}, {"/load_states", "{}"}, {"/ride_state", ""}, {"/frame", ""}});
  const Report report = check(read.build);
  EXPECT_TRUE(std::any_of(report.missing.begin(), report.missing.end(),
                          [](const Missing& m) { return m.path == "/masses"; }));
  EXPECT_FALSE(says(report_text(read.build, report), "Weight\n---"));
}

TEST(LeftOut, AWholeListIsNotDoubted) {
  const Report& report = example_report(kShopTruck);
  EXPECT_EQ(find_finding(report, "rating.gross")->verdict, Verdict::kGood);
  EXPECT_EQ(left_out_words(*report.ride()), "");
}

}  // namespace
}  // namespace rig::check
