// Where water stays in a box, and how far in one has to reach.

#include "frame/box_openings.h"

#include <gtest/gtest.h>

#include "frame/test_builds_internal.h"
#include "units/factors.h"

namespace rig::frame {
namespace {

using testing::Json;
using units::kInch_m;

/// The ladder's rails with heights (in) at -20, 40 and 120 in, plated from 10 to 70 in, with holes.
BoxInside inside_of(const std::vector<int>& heights_in, const Json& holes = Json::object()) {
  Json file = testing::ladder();
  auto& line = file["frame"]["rails"]["main"]["line"];
  line = Json::array();
  for (std::size_t i = 0; i < 3; ++i) {
    const int station_in = i == 0 ? -20 : i == 1 ? 40 : 120;
    line.push_back({{"station", std::to_string(station_in) + " in"},
                    {"offset", "16 in"},
                    {"height", std::to_string(heights_in[i]) + " in"}});
  }
  file["frame"]["plates"]["box"] = {
      {"rail", "main"}, {"from", "10 in"}, {"to", "70 in"}, {"thickness", "0.2 in"}};
  file["frame"]["holes"] = holes;
  for (auto& hole : file["frame"]["holes"]) hole["rail"] = "main";
  const build::Build build = testing::read(file);
  const auto insides = list_box_insides(build, build::planned_parts(build.frame));
  EXPECT_EQ(insides.size(), 2U);
  EXPECT_EQ(insides[0].drainage, insides[1].drainage);
  return insides.front();
}

TEST(BoxInsides, WaterStaysWhereItCantRunOut) {
  EXPECT_EQ(inside_of({30, 25, 20}).drainage, Drainage::kRunsOut);
  EXPECT_EQ(inside_of({20, 25, 30}).drainage, Drainage::kRunsOut);
  const BoxInside valley = inside_of({30, 25, 30});
  EXPECT_EQ(valley.drainage, Drainage::kTrapped);
  EXPECT_NEAR(valley.lowest_m / kInch_m, 40, 1e-9);
  const BoxInside level = inside_of({25, 25, 25});
  EXPECT_EQ(level.drainage, Drainage::kTrapped);
  EXPECT_TRUE(level.level);
  EXPECT_NEAR(level.lowest_m / kInch_m, 40, 1e-9);
}

TEST(BoxInsides, ADrainAtItsLowestPlaceLetsItOut) {
  const auto with = [](const char* wall, const char* station, const char* purpose) {
    return inside_of({30, 25, 30},
                     {{"a", {{"wall", wall}, {"station", station}, {"purpose", purpose}}}})
        .drainage;
  };
  EXPECT_EQ(with("plate", "45 in", "drain"), Drainage::kDrilled);
  EXPECT_EQ(with("lower_flange", "35 in", "drain"), Drainage::kDrilled);
  EXPECT_EQ(with("plate", "47 in", "drain"), Drainage::kTrapped);  // Over a depth away.
  EXPECT_EQ(with("plate", "45 in", "bolt"), Drainage::kTrapped);
  EXPECT_EQ(with("upper_flange", "45 in", "drain"), Drainage::kTrapped);
}

TEST(BoxInsides, AreClosedBetweenEndsAndAccessHoles) {
  EXPECT_NEAR(inside_of({25, 25, 25}).closed_m() / kInch_m, 60, 1e-9);
  const BoxInside one = inside_of(
      {25, 25, 25}, {{"a", {{"wall", "web"}, {"station", "30 in"}, {"purpose", "access"}}}});
  EXPECT_NEAR(one.closed_from_m / kInch_m, 30, 1e-9);
  EXPECT_NEAR(one.closed_to_m / kInch_m, 70, 1e-9);
}

}  // namespace
}  // namespace rig::frame
