// The box about each part of the frame, against hand sums.

#include <gtest/gtest.h>

#include "check/scene_frame_internal.h"
#include "check/test_builds_internal.h"

namespace rig::check {
namespace {

constexpr const char* kFrame = R"({"version": 1, "frame": {
  "rails": {"main": {"label": "Rail", "both_sides": true,
    "section": {"shape": "channel", "depth": "160 mm", "flange": "60 mm", "thickness": "4 mm"},
    "line": [{"station": "0 mm", "offset": "400 mm", "height": "600 mm"},
             {"station": "1000 mm", "offset": "500 mm", "height": "700 mm"}],
    "stretches": {"low": {"from": "500 mm", "to": "1000 mm",
      "section": {"shape": "channel", "depth": "120 mm", "flange": "60 mm", "thickness": "4 mm"}}}}},
  "plates": {"box": {"rail": "main", "side": "right", "from": "0 mm", "to": "250 mm",
                     "thickness": "6 mm", "fate": "goes_in"}},
  "crossmembers": {
    "channel": {"at": {"station": "500 mm"}, "joint": "web", "opens": "up",
      "section": {"shape": "channel", "depth": "100 mm", "flange": "40 mm", "thickness": "4 mm"},
      "line": [{"station": "500 mm", "offset": "0 mm", "height": "600 mm"}]},
    "hat": {"at": {"station": "0 mm", "height": "610 mm"}, "joint": "web", "opens": "rearward",
      "section": {"shape": "hat", "depth": "50 mm", "crown": "80 mm", "brim": "20 mm", "thickness": "3 mm"}},
    "tube": {"at": {"station": "250 mm"}, "joint": "through_web",
      "section": {"shape": "round_tube", "outside_diameter": "50 mm", "thickness": "3 mm"}},
    "nowhere": {"joint": "web"}}}})";

Json find_part(const Json& parts, const std::string& name) {
  for (const auto& part : parts) {
    if (part["name"] == name) return part;
  }
  ADD_FAILURE() << name;
  return Json::object();
}

void expect_point(const Json& point, const Vec3& p_m, double depth_m, double width_m) {
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(point["p"][static_cast<std::size_t>(i)].get<double>(), p_m[i], 1e-9) << point;
  }
  EXPECT_NEAR(point["depth"].get<double>(), depth_m, 1e-9) << point;
  EXPECT_NEAR(point["width"].get<double>(), width_m, 1e-9) << point;
}

TEST(SceneFrame, DrawsTheBoxAboutEachPart) {
  const Json parts = frame_parts_json(testing::read_text(kFrame).build.frame);
  ASSERT_EQ(parts.size(), 6U);
  // The web's middle on the line, the flanges 60 mm from its back inwards: the middle 28 mm in.
  const Json left = find_part(parts, "main.left"), right = find_part(parts, "main.right");
  ASSERT_EQ(left["profile"].size(), 4U);
  expect_point(left["profile"][0], {0, 0.372, 0.6}, 0.16, 0.06);
  expect_point(left["profile"][1], {-0.5, 0.422, 0.65}, 0.16, 0.06);
  expect_point(left["profile"][2], {-0.5, 0.422, 0.65}, 0.12, 0.06);
  expect_point(right["profile"][3], {-1, -0.472, 0.7}, 0.12, 0.06);
  EXPECT_EQ(left["points"][1]["path"], "/frame/rails/main/line/1");
  // Flush: its middle 3 mm behind the edges, which are 58 mm from the line.
  const Json plate = find_part(parts, "box.right");
  ASSERT_EQ(plate["profile"].size(), 2U);
  expect_point(plate["profile"][0], {0, -0.345, 0.6}, 0.16, 0.006);
  EXPECT_EQ(plate["fate"], "goes_in");
  // Open upwards: as long as the channel is deep, as high as its flanges; middle 18 mm up. It ends
  // in the middle of the rail's box, a through-tube at its line.
  const Json channel = find_part(parts, "channel");
  ASSERT_EQ(channel["profile"].size(), 3U);
  expect_point(channel["profile"][0], {-0.5, 0.422, 0.668}, 0.04, 0.1);
  expect_point(channel["profile"][1], {-0.5, 0, 0.618}, 0.04, 0.1);
  EXPECT_EQ(channel["points"].size(), 1U);
  const Json hat = find_part(parts, "hat");
  expect_point(hat["profile"][0], {0, 0.372, 0.61}, 0.12, 0.05);
  EXPECT_EQ(hat["profile"][0]["round"], false);
  const Json tube = find_part(parts, "tube");
  expect_point(tube["profile"][1], {-0.25, -0.425, 0.625}, 0.05, 0.05);
  EXPECT_EQ(tube["profile"][1]["round"], true);
}

// 20 mm above the lower edge of 160 mm, in a web 4 mm thick; 3 mm of the plate behind the flanges'
// edges, 58 mm from the line; in the flange 30 mm from the web's outside.
TEST(SceneFrame, DrawsHolesInTheirWalls) {
  build::Build build = testing::read_text(kFrame).build;
  const auto add = [&](const char* id, build::HoleWall wall, build::Fate fate) {
    build::Hole hole;
    hole.rail.id = "main";
    hole.side = build::Side::kRight;
    hole.wall = wall;
    hole.station.si = 0;
    hole.diameter.si = 0.01;
    const bool upright = wall == build::HoleWall::kWeb || wall == build::HoleWall::kPlate;
    (upright ? hole.above_lower_edge : hole.from_web).si = upright ? 0.02 : 0.03;
    hole.fate = fate;
    build.frame.holes.push_back({id, std::string("/frame/holes/") + id, hole});
  };
  add("web", build::HoleWall::kWeb, build::Fate::kComesOut);
  add("plate", build::HoleWall::kPlate, build::Fate::kGoesIn);
  add("flange", build::HoleWall::kLowerFlange, build::Fate::kStays);
  const Json parts = frame_parts_json(build.frame);
  const auto expect = [&](const char* name, const Vec3& p_m, const Vec3& axis, double wall_m,
                          const char* fate) {
    const Json hole = find_part(parts, std::string(name) + ".right");
    for (int i = 0; i < 3; ++i) {
      const auto k = static_cast<std::size_t>(i);
      EXPECT_NEAR(hole["centre"][k].get<double>(), p_m[i], 1e-9) << hole;
      EXPECT_NEAR(hole["axis"][k].get<double>(), axis[i], 1e-9) << hole;
    }
    EXPECT_NEAR(hole["thickness"].get<double>(), wall_m, 1e-9);
    EXPECT_NEAR(hole["radius"].get<double>(), 0.005, 1e-9);
    EXPECT_EQ(hole["fate"], fate);
  };
  expect("web", {0, -0.4, 0.54}, Vec3::UnitY(), 0.004, "comes_out");
  expect("plate", {0, -0.345, 0.54}, Vec3::UnitY(), 0.006, "goes_in");
  expect("flange", {0, -0.372, 0.522}, Vec3::UnitZ(), 0.004, "stays");
}

}  // namespace
}  // namespace rig::check
