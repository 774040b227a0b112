#include "build/drivetrain_lookup.h"

#include <gtest/gtest.h>

#include "build/fixture_internal.h"
#include "units/factors.h"

namespace rig::build {
namespace {

/// Engine and gearbox bolted together on two mounts, a case that stands apart on one.
Build truck() {
  const auto read = read_build(R"({"version": 1,
    "masses": {"engine": {"mass": "600 lb"}, "box": {"mass": "200 lb"}, "case": {"mass": "100 lb"},
               "seat": {"mass": "40 lb"}},
    "drivetrain": {
      "segments": {
        "engine": {"kind": "engine", "mass": "engine", "length": "30 in", "slope": "4 deg",
                   "starts_at": {"station": "-2 in", "offset": "1 in", "height": "34 in"}},
        "old": {"kind": "gearbox", "length": "20 in", "fate": "comes_out"},
        "box": {"kind": "gearbox", "mass": "box", "length": "25 in", "fate": "goes_in"},
        "case": {"kind": "transfer_case", "mass": "case", "length": "12 in",
                 "starts_at": {"station": "70 in", "offset": "0 in", "height": "25 in"}}},
      "mounts": {
        "pair": {"both_sides": true, "segment": "engine", "compression": "1000 lbf/in",
                 "lean": "30 deg", "at": {"station": "10 in", "offset": "11 in", "height": "28 in"}},
        "tail": {"segment": "box", "compression": "800 lbf/in",
                 "at": {"station": "50 in", "offset": "0 in", "height": "22 in"}},
        "made": {"segment": "engine", "fate": "comes_out"},
        "cradle": {"segment": "case"}}}})");
  EXPECT_EQ(faults_of(read), "");
  return read->build;
}

TEST(DrivetrainLookup, FacesFollowEachOtherDownTheSlope) {
  const Build build = truck();
  const auto faces = find_faces(build.drivetrain, Carried::kAsPlanned);
  ASSERT_EQ(faces.size(), 3U);
  EXPECT_EQ(faces[1].segment->id, "box");
  const double length_m = units::m_from_inch(55), slope = units::rad_from_deg(4);
  EXPECT_NEAR(faces[1].p_VoR_V.x(), units::m_from_inch(2) - length_m * std::cos(slope), 1e-12);
  EXPECT_NEAR(faces[1].p_VoR_V.z(), units::m_from_inch(34) - length_m * std::sin(slope), 1e-12);
  EXPECT_NEAR(faces[1].p_VoR_V.y(), units::m_from_inch(1), 1e-12);
  EXPECT_EQ(faces[1].line, 0);
  EXPECT_EQ(faces[2].line, 1);
  EXPECT_EQ(find_faces(build.drivetrain, Carried::kAsMade)[1].segment->id, "old");
}

TEST(DrivetrainLookup, AMountGivenForTheLeftLeansInwardOnBothSides) {
  const Build build = truck();
  const DriveMount& pair = build.drivetrain.mounts[0].value;
  const auto sides = find_sides(pair);
  ASSERT_EQ(sides.size(), 2U);
  EXPECT_TRUE(sides[0].axis_V.isApprox(Vec3(0, -0.5, std::sqrt(0.75))));
  EXPECT_TRUE(sides[1].axis_V.isApprox(Vec3(0, 0.5, std::sqrt(0.75))));
  EXPECT_TRUE(sides[1].p_VoM_V.isApprox(Vec3(1, -1, 1).cwiseProduct(sides[0].p_VoM_V)));
  const double rate = units::N_per_m_from_lbf_per_inch(1000);
  const Mat3 K = mount_stiffness(pair, sides[0]);
  EXPECT_TRUE((K * sides[0].axis_V).isApprox(rate * sides[0].axis_V));
  EXPECT_NEAR(K(0, 0), rate / 3, 1e-6 * rate);
}

TEST(DrivetrainLookup, AMountOfLikeRatesIsAlikeInAllDirections) {
  const Vec3 axis = Vec3(0, -0.5, 1).normalized();
  EXPECT_TRUE(mount_stiffness(axis, 7, 7, 7).isApprox(7 * Mat3::Identity()));
  const Mat3 K = mount_stiffness(axis, 9, 3, 2);
  EXPECT_TRUE((K * axis).isApprox(9 * axis));
  EXPECT_TRUE((K * Vec3::UnitX()).isApprox(2 * Vec3::UnitX()));
}

TEST(DrivetrainLookup, ACaseIsCarriedByAllMountsOfItsLine) {
  const Build build = truck();
  const auto ids = [&](const std::string& mass) {
    std::string out;
    for (const auto* mount : find_carriers(build.drivetrain, mass)) out += mount->id + " ";
    return out;
  };
  EXPECT_EQ(ids("engine"), "pair tail ");
  EXPECT_EQ(ids("box"), "pair tail ");
  EXPECT_EQ(ids("case"), "cradle ");
  EXPECT_EQ(ids("seat"), "");
}

}  // namespace
}  // namespace rig::build
