#include "driveline/from_build.h"

#include <gtest/gtest.h>

#include "build/read.h"
#include "units/factors.h"

namespace rig::driveline {
namespace {

build::Build read(const std::string& drivetrain) {
  const auto read = build::read_build(R"({"version": 1,
    "axles": {"rear": {"end": "rear", "station": "120 in", "pinion": "5 deg"},
              "front": {"end": "front", "station": "0 in", "pinion": "3 deg"}},
    "masses": {
      "engine": {"mass": "600 lb", "at": {"station": "14 in", "offset": "0 in", "height": "35 in"},
                 "size": {"shape": "box", "length": "30 in", "width": "24 in", "height": "28 in"}},
      "box": {"mass": "200 lb", "at": {"station": "44 in", "offset": "0 in", "height": "32 in"}}},
    "drivetrain": )" + drivetrain + "}");
  EXPECT_TRUE(read.has_value()) << read.error().front().message << read.error().front().path;
  return read->build;
}

const std::string kCases = R"("segments": {
  "engine": {"kind": "engine", "mass": "engine", "length": "30 in", "slope": "4 deg",
             "starts_at": {"station": "-2 in", "offset": "1 in", "height": "34 in"}},
  "old": {"kind": "gearbox", "length": "20 in", "fate": "comes_out"},
  "box": {"kind": "gearbox", "mass": "box", "length": "25 in", "fate": "goes_in"}})";

TEST(CasesFromBuild, WhatIsNotToldIsMissingAtItsPlace) {
  const build::Build build = read(R"({"segments": {"engine": {"kind": "engine"}},
    "mounts": {"left": {"segment": "engine"}}})");
  const auto lines = case_lines_from_build(build, build::Carried::kAsPlanned);
  ASSERT_EQ(lines.size(), 1U);
  std::vector<std::string> paths;
  for (const Missing& missing : lines[0].missing) paths.push_back(missing.path);
  EXPECT_EQ(paths, (std::vector<std::string>{
                       "/drivetrain/segments/engine/starts_at",
                       "/drivetrain/segments/engine/length", "/drivetrain/segments/engine/mass",
                       "/drivetrain/mounts/left/at", "/drivetrain/mounts/left/compression"}));
}

TEST(CasesFromBuild, AMountWithoutAShearRateIsAnAssumption) {
  const build::Build build = read("{" + kCases + R"(, "mounts": {"pair": {"both_sides": true,
    "segment": "engine", "compression": "1000 lbf/in", "lean": "30 deg",
    "at": {"station": "10 in", "offset": "11 in", "height": "28 in"}}}})");
  const auto lines = case_lines_from_build(build, build::Carried::kAsPlanned);
  ASSERT_TRUE(lines[0].complete());
  EXPECT_EQ(lines[0].assumptions.size(), 1U);
  const auto& mounts = lines[0].line.mounts;
  ASSERT_EQ(mounts.size(), 2U);
  EXPECT_GT(mounts[0].p_VoM_V.y(), 0);
  EXPECT_LT(mounts[1].p_VoM_V.y(), 0);
}

TEST(ShaftsFromBuild, ShaftsPointFromTheCaseToTheAxle) {
  const build::Build build = read("{" + kCases + R"(,
    "outputs": {"back": {"segment": "box", "end": "rear",
                         "joint": {"station": "60 in", "offset": "0 in", "height": "29 in"}},
                "ahead": {"segment": "box", "end": "front", "slope": "2 deg",
                          "joint": {"station": "52 in", "offset": "-12 in", "height": "27 in"}}},
    "shafts": {"rear": {"from": "back", "to": "rear", "start": {"kind": "double_cardan", "bind": "25 deg"},
                        "end_joint": {"station": "110 in", "offset": "0 in", "height": "18 in"}},
               "front": {"from": "ahead", "to": "front",
                         "end_joint": {"station": "9 in", "offset": "-12 in", "height": "17 in"}}}})");
  const auto shafts = shafts_from_build(build);
  ASSERT_EQ(shafts.size(), 2U);
  const ShaftFromBuild& rear = shafts[0];
  ASSERT_TRUE(rear.complete());
  EXPECT_EQ(rear.shaft.joints[0].kind, JointKind::kDoubleCardan);
  EXPECT_TRUE(rear.drawn.d_in_V.isApprox(build::rearward(units::rad_from_deg(4))));
  // The rear pinion's nose looks forward and up; the shaft comes to it from ahead, going down.
  EXPECT_LT(rear.drawn.d_out_V.x(), 0);
  EXPECT_LT(rear.drawn.d_out_V.z(), 0);
  const ShaftFromBuild& front = shafts[1];
  ASSERT_TRUE(front.complete());
  EXPECT_TRUE(front.drawn.d_in_V.isApprox(-build::rearward(units::rad_from_deg(2))));
  EXPECT_GT(front.drawn.d_out_V.x(), 0);
  EXPECT_LT(front.drawn.d_out_V.z(), 0);
  for (const ShaftFromBuild& shaft : shafts) {
    EXPECT_TRUE(calc_shaft_travel(shaft.shaft, std::vector{shaft.drawn}, 0).has_value());
  }
}

}  // namespace
}  // namespace rig::driveline
