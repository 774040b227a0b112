#include "section/section.h"

#include <gtest/gtest.h>

#include "base/nan.h"
#include "section/shapes.h"

namespace rig::section {
namespace {

Section cross() {
  return {.p_ON = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}},
          .walls = {{0, 1, 0.1, "a"}, {2, 3, 0.1, "b"}}};
}

void expect_fault(const Section& section, const std::string& code, const std::string& path) {
  const Diagnostics faults = check_section(section);
  ASSERT_FALSE(faults.empty()) << code;
  EXPECT_EQ(faults.front().code, code);
  EXPECT_EQ(faults.front().path, path);
  EXPECT_FALSE(faults.front().message.empty());
}

TEST(CheckSection, EachFaultHasItsCodeAndPlace) {
  const Section good{.p_ON = {{0, 0}, {1, 0}, {1, 1}}, .walls = {{0, 1, 0.1, ""}, {1, 2, 0.1, ""}}};
  EXPECT_TRUE(check_section(good).empty());
  expect_fault({}, "section.no_walls", "/walls");
  Section bad = good;
  bad.p_ON[2].y() = kNaN;
  expect_fault(bad, "section.node_not_finite", "/p_ON/2");
  bad = good;
  bad.walls[1].to = 3;
  expect_fault(bad, "section.unknown_node", "/walls/1");
  bad = good;
  bad.walls[1].thickness_m = 0;
  expect_fault(bad, "section.thickness_not_positive", "/walls/1/thickness_m");
  bad.walls[1].thickness_m = kNaN;
  expect_fault(bad, "section.thickness_not_positive", "/walls/1/thickness_m");
  bad = good;
  bad.walls[0].curvature_per_m = kNaN;
  expect_fault(bad, "section.curvature_not_finite", "/walls/0/curvature_per_m");
  bad = good;
  bad.p_ON[2] = bad.p_ON[1];
  expect_fault(bad, "section.wall_without_length", "/walls/1");
  bad = good;
  bad.p_ON.emplace_back(5, 5);
  expect_fault(bad, "section.not_joined", "/p_ON/3");
  bad.p_ON.emplace_back(6, 5);
  bad.walls.push_back({3, 4, 0.1, "stray"});
  expect_fault(bad, "section.not_joined", "/walls/2");
}

TEST(CheckSection, WallsThatCrossAreNamed) {
  Section section = cross();
  section.walls.push_back({1, 3, 0.1, ""});
  expect_fault(section, "section.walls_cross", "/walls/1");
  EXPECT_NE(check_section(section).front().message.find("(b)"), std::string::npos);
}

TEST(Section, FindsPartsAndMoves) {
  const Section section =
      *make_angle({.level_leg_m = 0.05, .upright_leg_m = 0.08, .thickness_m = 0.005});
  EXPECT_EQ(find_wall(section, "upright leg"), 1);
  EXPECT_EQ(find_wall(section, "web"), -1);
  EXPECT_DOUBLE_EQ(wall_length_m(section, section.walls[0]), 0.0475);
  EXPECT_DOUBLE_EQ(mirror_section(section).p_ON[0].x(), -0.0475);
  EXPECT_DOUBLE_EQ(move_section(section, {1, 2}).p_ON[1].y(), 2);
  EXPECT_NEAR(rotate_section(section, 1.5707963267948966).p_ON[0].y(), 0.0475, 1e-16);
}

}  // namespace
}  // namespace rig::section
