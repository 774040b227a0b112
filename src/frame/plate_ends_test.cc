// Where plates end, and how they are cut.

#include "frame/plate_ends.h"

#include <gtest/gtest.h>

#include <array>

#include "frame/test_builds_internal.h"
#include "units/factors.h"

namespace rig::frame {
namespace {

using testing::Json;
using units::kInch_m;

/// The ladder (rails 6 by 2 by 0.2 in, tubes of 3 in at -10, 50 and 110 in) with one plate.
build::Build ladder_with(const Json& plate) {
  Json file = testing::ladder();
  file["frame"]["plates"]["box"] = plate;
  file["frame"]["plates"]["box"]["rail"] = "main";
  return testing::read(file);
}

std::vector<PlateEnd> ends_of(const build::Build& build) {
  return list_plate_ends(build, build::planned_parts(build.frame));
}

TEST(PlateEnds, TellTheNearestWeld) {
  const build::Build build = ladder_with({{"from", "22 in"}, {"to", "45 in"}});
  const auto ends = ends_of(build);
  ASSERT_EQ(ends.size(), 2U);
  EXPECT_TRUE(ends[0].front);
  EXPECT_EQ(ends[0].nearest->id, "middle");
  EXPECT_NEAR(ends[0].to_weld_m / kInch_m, 26.5, 1e-9);
  EXPECT_NEAR(ends[1].to_weld_m / kInch_m, 3.5, 1e-9);
  EXPECT_NEAR(ends[1].depth_m / kInch_m, 6, 1e-9);
  // On a weld; and at the rail's end, where nothing goes on.
  const auto on_weld = ends_of(ladder_with({{"from", "-20 in"}, {"to", "51 in"}}));
  ASSERT_EQ(on_weld.size(), 1U);
  EXPECT_EQ(on_weld[0].to_weld_m, 0);
}

TEST(PlateEnds, ChannelsTakeUpWhereTheirFlangesLie) {
  build::Crossmember part;
  part.at.station.si = 1;
  part.section = build::SectionSizes{};
  part.section->depth.si = 0.1;
  part.section->flange.si = 0.05;
  part.section->thickness.si = 0.004;
  part.opens = build::Facing::kForward;
  EXPECT_NEAR(calc_weld_range(part).from_m, 0.952, 1e-12);
  EXPECT_NEAR(calc_weld_range(part).to_m, 1.002, 1e-12);
  part.opens = build::Facing::kRearward;
  EXPECT_NEAR(calc_weld_range(part).to_m, 1.048, 1e-12);
  part.opens = build::Facing::kDown;
  EXPECT_NEAR(calc_weld_range(part).from_m, 0.95, 1e-12);
}

TEST(PlateEnds, AClearStationIsTheNearestThatIsClearOfAll) {
  const build::Build build = ladder_with({{"from", "20 in"}, {"to", "45 in"}});
  const auto in = build::planned_parts(build.frame);
  const PlateEnd rear = list_plate_ends(build, in)[1];
  const auto find = [&](const std::vector<double>& avoid_in) {
    std::vector<double> avoid_m;
    for (const double station : avoid_in) avoid_m.push_back(station * kInch_m);
    const auto found = find_clear_end(build, in, rear, avoid_m, 6 * kInch_m, kInch_m / 4);
    return found ? *found / kInch_m : kNaN;
  };
  EXPECT_NEAR(find({}), 42.5, 1e-9);        // 6 in ahead of the tube's weld at 48.5 in.
  EXPECT_NEAR(find({43}), 37, 1e-9);        // And 6 in from what is stressed at 43 in.
  EXPECT_NEAR(find({43, 32}), 57.5, 1e-9);  // Then sooner behind the tube.
  EXPECT_TRUE(std::isnan(find({41, 32, 57, 63})));
}

TEST(PlateCut, LeavesTheCornerForTheWeld) {
  const auto cut = [](const Json& plate) {
    const build::Build build = ladder_with(plate);
    return *calc_plate_cut(build, build.frame.plates.front());
  };
  Json plate = {{"from", "20 in"}, {"to", "45 in"}, {"thickness", "0.2 in"}};
  EXPECT_NEAR(cut(plate).width_front_m / kInch_m, 6 - 2 * 0.2 - 1.0 / 16, 1e-9);
  EXPECT_NEAR(cut(plate).length_m / kInch_m, 25, 1e-9);
  plate["fit"] = "over_tips";
  EXPECT_NEAR(cut(plate).width_rear_m / kInch_m, 6 - 2 * 0.2, 1e-9);
  plate["thickness"] = "0.1 in";
  EXPECT_NEAR(cut(plate).width_rear_m / kInch_m, 6 - 2 * 0.125, 1e-9);
}

// Along a rail that rises by 3 in over 4 in: Pythagoras.
TEST(PlateCut, RunsAlongTheRail) {
  Json file = testing::ladder();
  file["frame"]["rails"]["main"]["line"] = {
      {{"station", "-20 in"}, {"offset", "16 in"}, {"height", "25 in"}},
      {{"station", "30 in"}, {"offset", "16 in"}, {"height", "25 in"}},
      {{"station", "34 in"}, {"offset", "16 in"}, {"height", "28 in"}},
      {{"station", "120 in"}, {"offset", "16 in"}, {"height", "28 in"}}};
  file["frame"]["plates"]["box"] = {
      {"rail", "main"}, {"from", "20 in"}, {"to", "40 in"}, {"thickness", "0.2 in"}};
  const build::Build build = testing::read(file);
  EXPECT_NEAR(calc_plate_cut(build, build.frame.plates.front())->length_m / kInch_m, 21, 1e-9);
}

}  // namespace
}  // namespace rig::frame
