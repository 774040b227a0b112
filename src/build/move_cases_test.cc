#include "build/move_cases.h"

#include <gtest/gtest.h>

#include "build/drivetrain_lookup.h"
#include "build/fixture_internal.h"
#include "build/patch.h"
#include "units/factors.h"

namespace rig::build {
namespace {

const char* const kDrivenTruck = R"({
  "version": 1,
  "masses": {
    "engine": {"mass": "600 lb", "at": {"station": "14 in", "offset": "0 in", "height": "35 in"}},
    "tank": {"mass": "100 lb", "at": {"station": "90 in", "offset": "9 in", "height": "25 in"}}
  },
  "drivetrain": {
    "segments": {
      "engine": {"kind": "engine", "mass": "engine", "length": "30 in",
                 "starts_at": {"station": "-2 in", "offset": "1 in",
                               "height": {"value": "34 in", "from": "tape"}}},
      "box": {"kind": "gearbox", "length": "20 in"},
      "apart": {"kind": "transfer_case", "length": "10 in", "slope": "2 deg",
                "starts_at": {"station": "70 in", "offset": "0 in", "height": "30 in"}}
    },
    "mounts": {
      "side": {"segment": "engine", "at": {"station": "10 in", "offset": "11 in", "height": "28 in"}},
      "rear": {"segment": "apart", "at": {"station": "75 in", "offset": "0 in", "height": "26 in"}}
    },
    "outputs": {"back": {"segment": "box", "end": "rear", "slope": "3 deg",
                         "joint": {"station": "50 in", "offset": "0 in", "height": "32 in"}}},
    "gaps": {"pan": {"segment": "engine",
                     "at": {"station": "5 in", "offset": "0 in", "height": "26 in"},
                     "to": {"station": "5 in", "offset": "0 in", "height": "22 in"}}}
  }
})";

std::shared_ptr<const Document> driven() {
  auto read = read_build(kDrivenTruck);
  EXPECT_EQ(faults_of(read), "");
  return read->document;
}

AskedMove by(std::string AskedMove::*way, const char* typed, AskedMove also = {}) {
  also.*way = typed;
  return also;
}

Build moved(const AskedMove& move) {
  const auto document = driven();
  const auto patch = move_cases_patch(*document, move);
  EXPECT_TRUE(patch.has_value());
  const auto after = patch_build(*document, *patch);
  EXPECT_EQ(faults_of(after), "");
  return after->build;
}

std::vector<Vec3> moved_points(const Build& build) {
  const auto faces = find_faces(build.drivetrain, Carried::kAsPlanned);
  return {faces[0].p_VoF_V,
          faces[0].p_VoR_V,
          faces[1].p_VoR_V,
          build.masses[0].value.at.p_VP(),
          build.drivetrain.mounts[0].value.at.p_VP(),
          build.drivetrain.outputs[0].value.joint.p_VP(),
          build.drivetrain.gaps[0].value.at.p_VP()};
}

TEST(MoveCases, TheLineMovesAsOnePiece) {
  const auto before = moved_points(read_build(kDrivenTruck)->build);
  const Build build = moved(by(&AskedMove::tilt, "2 deg",
                               by(&AskedMove::up, "-3/4", by(&AskedMove::rearward, "1 1/2 in"))));
  const auto after = moved_points(build);
  constexpr double kWritten_m = 3e-5;  // a thousandth of an inch in three directions
  for (std::size_t i = 0; i < before.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      EXPECT_NEAR((after[i] - after[j]).norm(), (before[i] - before[j]).norm(), kWritten_m);
    }
  }
  const Vec3 move = after[0] - before[0];
  EXPECT_NEAR(move.x(), -1.5 * units::kInch_m, kWritten_m);
  EXPECT_NEAR(move.z(), -0.75 * units::kInch_m, kWritten_m);
  EXPECT_NEAR(build.drivetrain.segments[0].value.slope.si, units::rad_from_deg(2), 1e-5);
  EXPECT_NEAR(build.drivetrain.outputs[0].value.slope.si, units::rad_from_deg(5), 1e-5);
  // Down to the rear: what is behind the front face has gone down more than it.
  EXPECT_LT((after[2] - before[2]).z(), move.z());
}

TEST(MoveCases, WhatStandsApartOrOnTheFrameStays) {
  const Build before = read_build(kDrivenTruck)->build;
  const Build after = moved(by(&AskedMove::tilt, "1 deg", by(&AskedMove::left, "1 in")));
  EXPECT_EQ(after.drivetrain.segments[2], before.drivetrain.segments[2]);
  EXPECT_EQ(after.drivetrain.mounts[1], before.drivetrain.mounts[1]);
  EXPECT_EQ(after.drivetrain.gaps[0].value.to, before.drivetrain.gaps[0].value.to);
  EXPECT_EQ(after.masses[1].value.at, before.masses[1].value.at);
}

TEST(MoveCases, ALineThatStandsApartMovesByItself) {
  const Build before = read_build(kDrivenTruck)->build;
  const Build after =
      moved(by(&AskedMove::segment, "/drivetrain/segments/apart", by(&AskedMove::up, "1 in")));
  EXPECT_EQ(after.drivetrain.segments[0], before.drivetrain.segments[0]);
  EXPECT_EQ(after.drivetrain.mounts[0], before.drivetrain.mounts[0]);
  constexpr double kWritten_m = 3e-5;
  const Vec3 up = units::kInch_m * Vec3::UnitZ();
  EXPECT_TRUE(after.drivetrain.segments[2].value.starts_at.p_VP().isApprox(
      before.drivetrain.segments[2].value.starts_at.p_VP() + up, kWritten_m));
  EXPECT_TRUE(after.drivetrain.mounts[1].value.at.p_VP().isApprox(
      before.drivetrain.mounts[1].value.at.p_VP() + up, kWritten_m));
}

TEST(MoveCases, AnyCaseNamesItsLine) {
  const Build first = moved(by(&AskedMove::up, "1 in"));
  const Build second =
      moved(by(&AskedMove::segment, "/drivetrain/segments/box", by(&AskedMove::up, "1 in")));
  EXPECT_EQ(first.drivetrain.segments, second.drivetrain.segments);
  EXPECT_EQ(first.drivetrain.mounts, second.drivetrain.mounts);
}

TEST(MoveCases, HowAValueIsKnownIsKept) {
  const auto patch = move_cases_patch(*driven(), by(&AskedMove::up, "1 in"));
  const auto after = patch_build(*driven(), *patch);
  EXPECT_EQ(value_at(*after->document, "/drivetrain/segments/engine/starts_at/height"),
            R"({"value": "35.000 in", "from": "tape"})");
  // Nothing that has not moved is written anew.
  EXPECT_EQ(value_at(*after->document, "/drivetrain/segments/engine/starts_at/station"),
            R"("-2 in")");
}

std::string fault_of(const Document& document, const AskedMove& move) {
  const auto patch = move_cases_patch(document, move);
  return patch ? "" : patch.error().front().code + " " + patch.error().front().path;
}

TEST(MoveCases, SaysWhatItCannotDo) {
  const auto document = driven();
  EXPECT_EQ(fault_of(*document, by(&AskedMove::up, "2 lb")), "build.bad_change up");
  EXPECT_EQ(fault_of(*document, by(&AskedMove::tilt, "steep")), "build.bad_change tilt");
  const auto pair = patch_build(
      *document, R"([{"op": "add", "path": "/drivetrain/mounts/side/both_sides", "value": true}])");
  EXPECT_EQ(fault_of(*pair->document, by(&AskedMove::left, "1 in")),
            "build.bad_change /drivetrain/mounts/side/both_sides");
  EXPECT_EQ(fault_of(*pair->document, by(&AskedMove::up, "1 in")), "");
  EXPECT_FALSE(moves_sideways(pair->build.drivetrain, 0));
  EXPECT_TRUE(moves_sideways(pair->build.drivetrain, 1));
  const AskedMove other = by(&AskedMove::segment, "/drivetrain/segments/other");
  EXPECT_EQ(fault_of(*document, other), "build.bad_change /drivetrain/segments/other");
  const auto none = read_build(R"({"version": 1})");
  EXPECT_EQ(fault_of(*none->document, by(&AskedMove::up, "1 in")),
            "build.bad_change /drivetrain/segments");
}

}  // namespace
}  // namespace rig::build
