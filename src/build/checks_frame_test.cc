// What can't be true together in a frame, each told at its place.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "build/fixture_internal.h"

namespace rig::build {
namespace {

using Json = nlohmann::ordered_json;

/// A channel rail on either side from station 0 to 100 in, a plate, two crossmembers, one stage.
Json sound_frame() {
  return Json::parse(R"({
    "rails": {"main": {
      "both_sides": true,
      "section": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "3/16 in"},
      "line": [{"station": "0 in", "offset": "16 in"}, {"station": "50 in", "offset": "16 in"},
               {"station": "100 in", "offset": "16 in"}]}},
    "plates": {"box": {"rail": "main", "from": "20 in", "to": "60 in"}},
    "crossmembers": {
      "tank": {"at": {"station": "30 in"}, "joint": "web"},
      "tube": {"at": {"station": "40 in"}, "joint": "through_web_and_plate",
               "section": {"shape": "round_tube", "outside_diameter": "2 in"}}},
    "stages": {"cut": {"take_out": ["tank"]}}})");
}

/// "code path" of each fault of the frame with one value put at a place in it (`null` takes it
/// out).
std::string faults_with(const std::vector<std::pair<std::string, std::string>>& changes) {
  Json frame = sound_frame();
  for (const auto& [at, value] : changes) frame[Json::json_pointer(at)] = Json::parse(value);
  const auto read = read_build(Json{{"version", 1}, {"frame", frame}}.dump(2));
  std::string out;
  if (read) return out;
  for (const Diagnostic& d : read.error()) {
    EXPECT_FALSE(d.remedy.empty());
    EXPECT_TRUE(d.path.starts_with("/frame")) << d.path;
    out += (out.empty() ? "" : "\n") + d.code + " " + d.path.substr(6);
  }
  return out;
}
std::string faults_with(const std::string& at, const std::string& value) {
  return faults_with({{at, value}});
}

TEST(FrameChecks, ASoundFrameIsTaken) { EXPECT_EQ(faults_with({}), ""); }

TEST(FrameChecks, IdsThatLeadNowhereNameTheNearest) {
  const auto read = read_build(R"({"version": 1, "frame": {
    "rails": {"main": {"steel": "mild"}}, "steels": {"mild_steel": {}},
    "plates": {"box": {"rail": "mian"}},
    "stages": {"cut": {"take_out": ["bx"]}}}})");
  ASSERT_FALSE(read.has_value());
  ASSERT_EQ(read.error().size(), 3U);
  for (const auto& d : read.error()) EXPECT_EQ(d.code, "build.dangling_id");
  EXPECT_EQ(read.error()[0].path, "/frame/rails/main/steel");
  EXPECT_NE(read.error()[1].remedy.find("Did you mean \"main\"?"), std::string::npos);
  EXPECT_EQ(read.error()[2].message,
            "\"crossmembers\" or \"plates\" has nothing with the id \"bx\".");
  EXPECT_NE(read.error()[2].remedy.find("Did you mean \"box\"?"), std::string::npos);
}

TEST(FrameChecks, RailsRunFromFrontToRear) {
  EXPECT_EQ(faults_with("/rails/main/line/1/station", R"("0 in")"),
            "build.impossible /rails/main/line/1/station");
  EXPECT_EQ(faults_with("/rails/main/line",
                        R"([{"station": "0 in", "offset": "-16 in"}, {"offset": "-16 in"}])"),
            "build.impossible /rails/main/both_sides");
}

TEST(FrameChecks, SectionsTakeTheSizesOfTheirShape) {
  EXPECT_EQ(faults_with({{"/rails/main/section/outside_diameter", R"("2 in")"},
                         {"/crossmembers/tube/section/brim", R"("1 in")"}}),
            "build.wrong_shape /rails/main/section/outside_diameter\n"
            "build.wrong_shape /crossmembers/tube/section/brim");
  EXPECT_EQ(faults_with("/rails/main/section", R"({"shape": "angle"})"),
            "build.wrong_shape /rails/main/section/shape\nbuild.wrong_shape /plates/box/rail");
  EXPECT_EQ(faults_with("/rails/main/section", R"({"depth": "6 in"})"),
            "build.missing_key /rails/main/section/shape");
}

TEST(FrameChecks, StretchesLieOnTheirRailOneBesideTheOther) {
  EXPECT_EQ(
      faults_with("/rails/main/stretches",
                  R"({"a": {"from": "-10 in", "to": "5 in"}, "b": {"from": "4 in", "to": "9 in"},
                            "c": {"from": "95 in", "to": "101 in"}, "d": {"from": "94 in", "to": "93 in"}})"),
      "build.outside_rail /rails/main/stretches/a/from\n"
      "build.overlap /rails/main/stretches/b/from\n"
      "build.outside_rail /rails/main/stretches/c/to\n"
      "build.impossible /rails/main/stretches/d/to");
  EXPECT_EQ(faults_with("/rails/main/stretches",
                        R"({"a": {"from": "70 in", "to": "80 in", "section": {"shape": "channel"},
                                  "section_end": {"shape": "round_tube"}}})"),
            "build.wrong_shape /rails/main/stretches/a/section_end/shape");
}

TEST(FrameChecks, PlatesLieOnChannelsOneBesideTheOther) {
  EXPECT_EQ(faults_with("/plates/box/to", R"("110 in")"), "build.outside_rail /plates/box/to");
  EXPECT_EQ(faults_with("/plates/box/to", R"("10 in")").substr(0, 16), "build.impossible");
  EXPECT_EQ(faults_with({{"/rails/main/section", R"({"shape": "rectangular_tube"})"}}),
            "build.wrong_shape /plates/box/rail");
  EXPECT_EQ(faults_with("/rails/main/stretches",
                        R"({"a": {"from": "50 in", "to": "80 in", "section": {"shape": "hat"}}})"),
            "build.wrong_shape /plates/box/rail");
  const char* const kSecond = R"({"rail": "main", "side": "left", "from": "50 in", "to": "70 in"})";
  EXPECT_EQ(faults_with("/plates/second", kSecond), "build.overlap /plates/second/from");
  EXPECT_EQ(faults_with({{"/plates/second", kSecond},
                         {"/plates/box/side", R"("right")"},
                         {"/crossmembers/tube/joint", R"("through_web")"}}),
            "");
  EXPECT_EQ(faults_with({{"/plates/second", kSecond},
                         {"/plates/second/fate", R"("goes_in")"},
                         {"/plates/box/fate", R"("comes_out")"},
                         {"/crossmembers/tube/fate", R"("comes_out")"}}),
            "");
  EXPECT_EQ(
      faults_with({{"/plates/box/fit", R"("over_tips")"}, {"/plates/box/inset", R"("1/4 in")"}}),
      "build.impossible /plates/box/inset");
  EXPECT_EQ(faults_with({{"/plates/box/side", R"("right")"},
                         {"/rails/main/both_sides", "false"},
                         {"/crossmembers/tube/joint", R"("web")"}}),
            "build.impossible /plates/box/side");
  EXPECT_EQ(faults_with("/plates/tank", R"({"rail": "main"})"), "build.same_id /plates/tank");
}

TEST(FrameChecks, CrossmembersMeetRails) {
  EXPECT_EQ(faults_with("/crossmembers/tank/at/station", R"("101 in")"),
            "build.outside_rail /crossmembers/tank/at/station");
  EXPECT_EQ(faults_with({{"/crossmembers/tank/at/station", R"("101 in")"},
                         {"/crossmembers/tank/joins", R"(["main"])"}}),
            "build.outside_rail /crossmembers/tank/at/station");
  EXPECT_EQ(faults_with("/crossmembers/tank/bolts", R"({"count": 4})"),
            "build.impossible /crossmembers/tank/bolts");
  EXPECT_EQ(faults_with("/crossmembers/tank/end_plate", R"({"thickness": "1/4 in"})"),
            "build.impossible /crossmembers/tank/end_plate");
  EXPECT_EQ(faults_with("/crossmembers/tank/line", R"([{"offset": "-8 in"}, {"offset": "8 in"}])"),
            "build.impossible /crossmembers/tank/line/1/offset");
}

TEST(FrameChecks, JointsFitTheSectionAndTheRail) {
  EXPECT_EQ(faults_with({{"/crossmembers/tube/section", R"({"shape": "channel"})"},
                         {"/crossmembers/tube/joint", R"("through_web")"}}),
            "build.wrong_shape /crossmembers/tube/joint");
  EXPECT_EQ(faults_with("/crossmembers/tube/joint", R"("flanges")"),
            "build.wrong_shape /crossmembers/tube/joint");
  EXPECT_EQ(faults_with("/crossmembers/tube/at/station", R"("70 in")"),
            "build.no_plate /crossmembers/tube/joint");
  EXPECT_EQ(faults_with("/plates/box/side", R"("left")"),
            "build.no_plate /crossmembers/tube/joint");
  EXPECT_EQ(faults_with("/plates/box/fate", R"("goes_in")"),
            "build.no_plate /crossmembers/tube/joint");
  EXPECT_EQ(faults_with({{"/plates/box/fate", R"("goes_in")"},
                         {"/crossmembers/tube/fate", R"("goes_in")"}}),
            "");
  EXPECT_EQ(faults_with({{"/crossmembers/tank/joint", R"("butted")"},
                         {"/crossmembers/tank/at/station", R"("90 in")"}}),
            "build.no_plate /crossmembers/tank/joint");
}

TEST(FrameChecks, StagesTakeOutWhatIsInAndPutInWhatIsNot) {
  EXPECT_EQ(faults_with("/stages/again", R"({"take_out": ["tank"]})"),
            "build.not_in /stages/again/take_out/0");
  EXPECT_EQ(faults_with("/stages/again", R"({"put_in": ["tank"]})"), "");
  EXPECT_EQ(faults_with("/stages/again", R"({"put_in": ["box", "tank", "tank"]})"),
            "build.in_already /stages/again/put_in/0\nbuild.in_already /stages/again/put_in/2");
  EXPECT_EQ(faults_with("/crossmembers/tank/fate", R"("goes_in")"),
            "build.not_in /stages/cut/take_out/0");
  EXPECT_EQ(faults_with("/stages/cut/stands", R"({"a": {"station": "150 in"}})"),
            "build.outside_rail /stages/cut/stands/a/station");
}

TEST(FrameChecks, MountsSitOnTheFrame) {
  EXPECT_EQ(faults_with("/mounts", R"({"a": {"station": "150 in"},
                                       "b": {"both_sides": true, "station": "5 in", "offset": "-3 in"}})"),
            "build.outside_rail /mounts/a/station\nbuild.impossible /mounts/b/both_sides");
}

TEST(FrameChecks, ListsNameAThingOnce) {
  EXPECT_EQ(faults_with("/crossmembers/tank/joins", R"(["main", "main"])"),
            "build.listed_twice /crossmembers/tank/joins/1");
}

}  // namespace
}  // namespace rig::build
