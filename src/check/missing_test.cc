#include "check/missing.h"

#include <gtest/gtest.h>

#include "check/test_builds_internal.h"

namespace rig::check {
namespace {

using testing::read_text;

/// Wheelbase, tracks, one wheel centre's height and one axle's link ends; no masses, no springs.
constexpr const char* kFiveTapes = R"({"version": 1,
  "axles": {
    "front": {"end": "front", "track": "60 in"},
    "rear": {"end": "rear", "station": "110 in", "height": "15 in", "track": "60 in",
      "links": {
        "lower": {"role": "lower", "both_sides": true,
          "frame": {"at": {"station": "80 in", "offset": "14 in", "height": "17 in"}},
          "axle": {"at": {"station": "109 in", "offset": "20 in", "height": "13 in"}}},
        "upper": {"role": "upper", "both_sides": true,
          "frame": {"at": {"station": "84 in", "offset": "16 in", "height": "24 in"}},
          "axle": {"at": {"station": "109 in", "offset": "6 in", "height": "23 in"}}}}}}})";

std::size_t place_of(const Report& report, const std::string& path) {
  for (std::size_t i = 0; i < report.missing.size(); ++i) {
    if (report.missing[i].path == path) return i;
  }
  ADD_FAILURE() << "not missing: " << path;
  return 0;
}

const Row* find_row(const AxleReport& axle, const std::string& id) {
  for (const auto& row : axle.rows) {
    if (row.id == id) return &row;
  }
  return nullptr;
}

TEST(Missing, FiveTapesTellOfOneAxleAndAskForTheNextInOrder) {
  const Report report = check(read_text(kFiveTapes).build);
  EXPECT_TRUE(report.diagnostics.empty());
  const AxleReport* rear = report.axle("rear");
  ASSERT_NE(rear, nullptr);
  // Side view: lower line rises 4 in over 29 in of run, upper 1 in over 25 in; they meet where
  // 13 + 4/29 d = 23 + 1/25 d, d from station 109 forward: the wheel line is 1 in behind that.
  const double d = 10 / (4.0 / 29 - 1.0 / 25);
  const Row* ahead = find_row(*rear, "instant_centre");
  const Row* height = find_row(*rear, "instant_centre_height");
  ASSERT_TRUE(ahead != nullptr && height != nullptr);
  EXPECT_NEAR(ahead->value.si, (d + 1) * 0.0254, 1e-6);
  EXPECT_NEAR(height->value.si, (13 + 4.0 / 29 * d) * 0.0254, 1e-6);
  EXPECT_NE(find_row(*rear, "roll_centre"), nullptr);
  EXPECT_NE(find_row(*rear, "roll_steer"), nullptr);

  const auto links = place_of(report, "/axles/front/links");
  const auto masses = place_of(report, "/masses");
  const auto bump = place_of(report, "/axles/rear/bump_travel");
  const auto springs = place_of(report, "/axles/rear/coils");
  const auto share = place_of(report, "/axles/rear/drive_share");
  EXPECT_LT(place_of(report, "/axles/front/height"), links);
  EXPECT_LT(links, masses);
  EXPECT_LT(masses, bump);
  EXPECT_LT(bump, springs);
  EXPECT_LT(springs, share);
  for (const auto& missing : report.missing) EXPECT_FALSE(missing.needed.empty()) << missing.path;
}

TEST(Missing, SpringlessAxleIsAskedForItsSprings) {
  const auto read =
      testing::edited(testing::read_example(testing::kTowRig), {{"/axles/front/coils", ""}});
  const Report report = check(read.build);
  const auto& entry = report.missing[place_of(report, "/axles/front/coils")];
  EXPECT_EQ(entry.what, "springs of the front axle");
  EXPECT_NE(entry.needed.find("frequency"), std::string::npos);
}

// Nothing listed, no load state: four scales on a known wheelbase and tracks. 1200, 1100, 900, 950
// lb over 110 in and 60, 61 in; statics.
TEST(Missing, ScalesAloneStillWeigh) {
  const Report report = check(read_text(R"({"version": 1,
    "tyres": {"mud": {"rating": "2000 lb", "wheel_rating": "1900 lb"}},
    "axles": {"front": {"end": "front", "track": "60 in", "tyre": "mud", "rating": "3000 lb"},
              "rear": {"end": "rear", "station": "110 in", "track": "61 in", "tyre": "mud"}},
    "corner_weighings": {"pads": {"front_left": "1200 lb", "front_right": "1100 lb",
                                  "rear_left": "900 lb", "rear_right": "950 lb"}},
    "ratings": {"gross_vehicle": "5000 lb"}})")
                                  .build);
  ASSERT_EQ(report.states.size(), 1U);
  EXPECT_EQ(report.states[0].label, "As it stands");
  const auto* standing = report.states[0].standing();
  ASSERT_NE(standing, nullptr);
  constexpr double kInch = 0.0254, kPound = 0.45359237;
  EXPECT_NEAR(standing->truck.mass_kg, 4150 * kPound, 1e-9);
  EXPECT_NEAR(-standing->truck.p_VoBcm_V.x(), 110 * kInch * 1850 / 4150, 1e-12);
  EXPECT_NEAR(standing->truck.p_VoBcm_V.y(), (100 * 30.0 - 50 * 30.5) / 4150 * kInch, 1e-12);
  const Finding* cross = testing::find_finding(report, "cross_weight");
  ASSERT_NE(cross, nullptr);
  EXPECT_NEAR(cross->value->si, 2150.0 / 4150, 1e-12);
  const Finding* tyre = testing::find_finding(report, "rating.tyre.front");
  ASSERT_NE(tyre, nullptr);
  EXPECT_NEAR(tyre->limit->si - tyre->value->si, 800 * kPound, 1e-9);
  EXPECT_EQ(testing::find_finding(report, "side_slope"), nullptr);
  EXPECT_NE(report.missing[place_of(report, "/lifted_weighings")].needed.find("side slope"),
            std::string::npos);
}

}  // namespace
}  // namespace rig::check
