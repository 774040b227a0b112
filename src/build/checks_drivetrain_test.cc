// What can't be true together in a drivetrain, each told at its place.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "build/fixture_internal.h"

namespace rig::build {
namespace {

using Json = nlohmann::ordered_json;

/// A gearbox on a mount, its shaft to the rear axle, an engine, one lift.
Json truck_with_drivetrain() {
  return Json::parse(R"({"version": 1,
    "masses": {"box": {"mass": "200 lb"}},
    "axles": {"front": {"end": "front"}, "rear": {"end": "rear", "station": "120 in"}},
    "drivetrain": {
      "segments": {"gearbox": {"kind": "gearbox", "mass": "box"}, "case": {"kind": "transfer_case"}},
      "mounts": {"side": {"both_sides": true, "at": {"offset": "9 in"}}},
      "outputs": {"back": {"segment": "case", "end": "rear"}},
      "shafts": {"rear": {"from": "back", "to": "rear",
                          "tube": {"outside_diameter": "3 in", "wall": "0.083 in"},
                          "slip": {"closed": "40 in", "open": "45 in"}}},
      "engine": {"idle": "700 rpm", "torque_speed": "1800 rpm", "top_speed": "3000 rpm"},
      "lifts": {"both": {"takes": ["gearbox", "case"]}}}})");
}

/// "code path" of each fault with one value put at a place in the drivetrain.
std::string drivetrain_faults(const std::string& at, const std::string& value) {
  Json truck = truck_with_drivetrain();
  truck[Json::json_pointer("/drivetrain" + at)] = Json::parse(value);
  const auto read = read_build(truck.dump(2));
  std::string out;
  if (read) return out;
  for (const Diagnostic& d : read.error()) {
    EXPECT_FALSE(d.remedy.empty());
    EXPECT_TRUE(d.path.starts_with("/drivetrain")) << d.path;
    out += (out.empty() ? "" : "\n") + d.code + " " + d.path.substr(11);
  }
  return out;
}

TEST(DrivetrainChecks, ASoundOneIsTaken) { EXPECT_EQ(drivetrain_faults("/grip", "0.8"), ""); }

TEST(DrivetrainChecks, SizesThatContradictEachOther) {
  EXPECT_EQ(drivetrain_faults("/shafts/rear/tube/wall", R"("1.6 in")"),
            "build.impossible /shafts/rear/tube/wall");
  EXPECT_EQ(drivetrain_faults("/shafts/rear/bearing",
                              R"({"front_tube": {"outside_diameter": "2 in", "wall": "2 in"}})"),
            "build.impossible /shafts/rear/bearing/front_tube/wall");
  EXPECT_EQ(drivetrain_faults("/shafts/rear/slip/open", R"("39 in")"),
            "build.impossible /shafts/rear/slip/open");
  EXPECT_EQ(drivetrain_faults("/engine/idle", R"("3100 rpm")"), "build.impossible /engine/idle");
  EXPECT_EQ(drivetrain_faults("/engine/torque_speed", R"("320 rad/s")"),
            "build.impossible /engine/torque_speed");
  EXPECT_EQ(drivetrain_faults("/shafts/rear/slip/stub_length", R"("50 in")"),
            "build.impossible /shafts/rear/slip/stub_length");
  EXPECT_EQ(drivetrain_faults("/placing", R"({"least_slope": "4 deg", "most_slope": "3 deg"})"),
            "build.impossible /placing/least_slope");
  EXPECT_EQ(
      drivetrain_faults("/gaps",
                        R"({"pan": {"at": {"station": "1 in", "offset": "0 in", "height": "9 in"},
                                          "to": {"station": "1 in", "offset": "0 in", "height": "9 in"}}})"),
      "build.impossible /gaps/pan/to");
}

TEST(DrivetrainChecks, AMirroredMountIsGivenForTheLeft) {
  EXPECT_EQ(drivetrain_faults("/mounts/side/at/offset", R"("-9 in")"),
            "build.impossible /mounts/side/both_sides");
}

TEST(DrivetrainChecks, AShaftGoesToWhereItsOutputPoints) {
  EXPECT_EQ(drivetrain_faults("/shafts/rear/to", R"("front")"), "build.impossible /shafts/rear/to");
  EXPECT_EQ(drivetrain_faults("/shafts/rear/to", R"("case")"), "build.impossible /shafts/rear/to");
  EXPECT_EQ(drivetrain_faults("/shafts/rear/to", R"("gearbox")"), "");
  EXPECT_EQ(drivetrain_faults("/shafts/rear/from", R"("bak")"),
            "build.dangling_id /shafts/rear/from");
}

TEST(DrivetrainChecks, AThingIsNamedOnce) {
  EXPECT_EQ(drivetrain_faults("/segments/case/mass", R"("box")"),
            "build.listed_twice /segments/case/mass");
  EXPECT_EQ(drivetrain_faults("/lifts/both/takes", R"(["case", "case"])"),
            "build.listed_twice /lifts/both/takes/1");
}

TEST(DrivetrainChecks, ADimensionThatIsNotASpeedOfTurningSaysSo) {
  EXPECT_EQ(drivetrain_faults("/shaft_speed", R"("40 mph")"), "units.wrong_dimension /shaft_speed");
  EXPECT_EQ(drivetrain_faults("/engine/cylinders", "7"), "build.out_of_range /engine/cylinders");
}

}  // namespace
}  // namespace rig::build
