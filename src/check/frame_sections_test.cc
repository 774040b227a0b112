// The sections of a frame as they are listed and drawn.

#include "check/frame_sections.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "check/test_builds_internal.h"

namespace rig::check {
namespace {

std::vector<DrawnSection> sections_of(const build::Build& build) {
  const auto model = frame::make_model(build, build::planned_parts(build.frame));
  if (!model) {
    ADD_FAILURE() << model.error().front().message;
    return {};
  }
  return list_sections(build, *model, Printer(build.units));
}

TEST(FrameSections, EachDifferentOneOnce) {
  for (const char* name : testing::kExamples) {
    SCOPED_TRACE(name);
    const build::Build build = testing::read_example(name).build;
    const auto sections = sections_of(build);
    ASSERT_GE(sections.size(), 3U);
    std::vector<std::string> told;
    for (const auto& one : sections) {
      for (const auto& where : one.where) {
        EXPECT_EQ(std::count(told.begin(), told.end(), where), 0) << where;
        told.push_back(where);
      }
      EXPECT_GT(one.kg_per_m, 0);
    }
    // Rails first.
    EXPECT_FALSE(sections.front().crossmember);
    EXPECT_TRUE(sections.back().crossmember);
    // Every crossmember that is in is told of.
    for (const auto& crossmember : build.frame.crossmembers) {
      const bool in = build::planned_parts(build.frame).contains(crossmember.id);
      const bool listed = std::any_of(sections.begin(), sections.end(), [&](const auto& one) {
        return std::count(one.paths.begin(), one.paths.end(), crossmember.path) > 0;
      });
      EXPECT_EQ(in, listed) << crossmember.path;
    }
  }
}

TEST(FrameSections, StretchesOfARailInItsWords) {
  const auto sections = sections_of(testing::read_example(testing::kTowRig).build);
  std::vector<std::string> rails;
  for (const auto& one : sections) {
    if (!one.crossmember) rails.insert(rails.end(), one.where.begin(), one.where.end());
  }
  EXPECT_EQ(rails, (std::vector<std::string>{"Frame rail, front of its taper, station -36 in",
                                             "Frame rail, rear of its taper, station -20 in",
                                             "Frame rail, boxed, station -20 in to 26 in",
                                             "Frame rail, boxed, station 26 in to 62 in",
                                             "Frame rail, boxed, station 62 in to 134 in",
                                             "Frame rail, station 134 in to 166 in"}));
}

TEST(FrameSections, ChannelAsItIsDrawn) {
  const build::Build build = testing::read_example(testing::kTowRig).build;
  const auto sections = sections_of(build);
  const DrawnSection& channel = sections.front();
  ASSERT_EQ(channel.walls.size(), 1U);
  EXPECT_FALSE(channel.crossmember);
  // The left rail's opens to the right: the web is left of the flanges, the shear centre behind it.
  double least_y = 0;
  for (const Vec2& p : channel.walls.front().p_OP) least_y = std::min(least_y, p.y());
  EXPECT_LT(channel.properties.p_OC.x(), 0);
  EXPECT_GT(channel.properties.p_OS.x(), 0);
  EXPECT_NEAR(channel.properties.p_OC.y(), 0, 1e-12);
  EXPECT_LT(least_y, -0.04);
  // Area: length of the midline times the wall.
  double length_m = 0;
  const auto& p = channel.walls.front().p_OP;
  for (std::size_t i = 1; i < p.size(); ++i) length_m += (p[i] - p[i - 1]).norm();
  EXPECT_NEAR(channel.properties.area_m2, length_m * channel.walls.front().thickness_m,
              1e-9 * channel.properties.area_m2);
}

TEST(FrameSections, NoneWithoutRails) { EXPECT_TRUE(list_sections({}, {}, Printer({})).empty()); }

}  // namespace
}  // namespace rig::check
