#include "build/frame_lookup.h"

#include <gtest/gtest.h>

#include "build/fixture_internal.h"

namespace rig::build {
namespace {

const Frame& full_frame() {
  static const ReadBuild read = [] {
    auto result = read_build(read_source_file("src/build/fixtures/full.rig.json"));
    EXPECT_EQ(faults_of(result), "");
    return *std::move(result);
  }();
  return read.build.frame;
}

constexpr double kInch_m = 0.0254;

TEST(FrameLookup, StagesLeadFromTheDonorToThePlan) {
  const Frame& frame = full_frame();
  EXPECT_EQ(donor_parts(frame), (PartsIn{"cap", "front", "old", "tail"}));
  EXPECT_EQ(planned_parts(frame), (PartsIn{"box", "cap", "front", "tail", "tube"}));
  EXPECT_EQ(parts_after(frame, 0), donor_parts(frame));
  EXPECT_EQ(parts_after(frame, 1), (PartsIn{"brace", "cap", "front", "old", "tail"}));
  EXPECT_EQ(parts_after(frame, 2), (PartsIn{"box", "brace", "cap", "front", "tail", "tube"}));
  EXPECT_EQ(parts_after(frame, 3), planned_parts(frame));
}

TEST(FrameLookup, CrossmembersJoinTheRailsTheyNameOrPass) {
  const Frame& frame = full_frame();
  const auto joined = joined_rails(frame, find(frame.crossmembers, "old")->value);
  ASSERT_EQ(joined.size(), 2U);
  EXPECT_EQ(joined[0].rail->id, "main");
  EXPECT_EQ(joined[0].sign, 1);
  EXPECT_EQ(joined[1].sign, -1);
  Crossmember all;
  all.at.station.si = 70 * kInch_m;
  EXPECT_EQ(joined_rails(frame, all).size(), 3U);
  all.at.station.si = 160 * kInch_m;
  EXPECT_TRUE(joined_rails(frame, all).empty());
}

TEST(FrameLookup, ShapeIsThatOfTheStretchOrTheRail) {
  const Rail& rail = find(full_frame().rails, "main")->value;
  EXPECT_EQ(shape_at(rail, 40 * kInch_m), SectionShape::kChannel);
  EXPECT_EQ(shape_at(rail, 145 * kInch_m), SectionShape::kRectangularTube);
  EXPECT_EQ(shape_at(Rail{}, 0), std::nullopt);
}

TEST(FrameLookup, SidesFollowTheOffsets) {
  EXPECT_EQ(signs_of(find(full_frame().rails, "main")->value), (std::vector<int>{1, -1}));
  EXPECT_EQ(signs_of(find(full_frame().rails, "helper")->value), std::vector<int>{-1});
  EXPECT_TRUE(signs_of(Rail{}).empty());
  EXPECT_TRUE(is_on(Side::kBoth, -1) && is_on(Side::kLeft, 1) && !is_on(Side::kLeft, -1));
}

TEST(FrameLookup, OverlapIsMoreThanASharedEnd) {
  EXPECT_FALSE(overlap({0, 1}, {1, 2}));
  EXPECT_TRUE(overlap({0, 1.1}, {1, 2}));
  EXPECT_TRUE((StationRange{0, 1}.holds(1)));
  EXPECT_FALSE((StationRange{0, 1}.holds(1.01)));
}

}  // namespace
}  // namespace rig::build
