// What must not change an answer: swapping left and right, and the units a file is written in.

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "check/test_builds_internal.h"

namespace rig::check {
namespace {

using testing::example_report;
using testing::kExamples;
using testing::mirrored;
using testing::read_example;

std::string swap_sides(std::string id) {
  const auto left = id.rfind(".left"), right = id.rfind(".right");
  if (left != std::string::npos) return id.replace(left, 5, ".right");
  if (right != std::string::npos) return id.replace(right, 6, ".left");
  return id;
}

TEST(Symmetry, MirroredTruckGivesMirroredFindings) {
  for (const char* example : kExamples) {
    build::Build build = read_example(example).build;
    // All engines turn the same way; the frame's torque of the shafts is mirrored.
    build.drivetrain.engine.reset();
    const Report drawn = check(build), other = check(mirrored(build));
    ASSERT_EQ(drawn.findings.size(), other.findings.size()) << example;
    for (const auto& finding : drawn.findings) {
      // The ramp is always under the left front wheel, so it shows another side of the mirrored
      // truck; what the frame carries there goes with it, and holes are told of their worst case.
      if (finding.id.starts_with("articulation.") || finding.id.ends_with("_up") ||
          finding.id.starts_with("frame.hole.")) {
        continue;
      }
      const Finding* same = testing::find_finding(other, swap_sides(finding.id));
      ASSERT_NE(same, nullptr) << finding.id;
      EXPECT_EQ(finding.verdict, same->verdict) << example << " " << finding.id;
      ASSERT_EQ(finding.value.has_value(), same->value.has_value());
      if (!finding.value) continue;
      // Told with its side: to the left, or of one of the two diagonals.
      const double mirror = finding.id == "scales.offset"  ? -same->value->si
                            : finding.id == "cross_weight" ? 1 - same->value->si
                                                           : same->value->si;
      EXPECT_NEAR(finding.value->si, mirror, 1e-7 * (1 + std::abs(finding.value->si)))
          << example << " " << finding.id;
    }
  }
}

/// "16 3/4 in" as "0.42545 m", and so on; what is no quantity stays.
std::string in_metric(const std::string& written) {
  using units::Dimension;
  static constexpr std::pair<const char*, std::pair<Dimension, const char*>> kUnits[] = {
      {" lbf·s/in", {Dimension::kDamping, "N·s/m"}},
      {" lb-ft/deg", {Dimension::kAngularStiffness, "N·m/rad"}},
      {" lbf/in", {Dimension::kStiffness, "N/m"}},
      {" lbf", {Dimension::kForce, "N"}},
      {" lb", {Dimension::kMass, "kg"}},
      {" ksi", {Dimension::kStress, "Pa"}},
      {" gal", {Dimension::kVolume, "m3"}},
      {" in", {Dimension::kLength, "m"}}};
  for (const auto& [suffix, unit] : kUnits) {
    if (!written.ends_with(suffix)) continue;
    const auto reading = units::parse_quantity(written, unit.first);
    if (!reading) continue;
    char text[64];
    std::snprintf(text, sizeof text, "%.17g %s", reading->si, unit.second);
    return text;
  }
  return written;
}

void turn_round(nlohmann::ordered_json& value, const std::string& key, int& turned) {
  if (value.is_structured()) {
    for (auto it = value.begin(); it != value.end(); ++it) {
      turn_round(*it, value.is_object() ? it.key() : key, turned);
    }
  } else if (value.is_string() && key != "label" && key != "note" && key != "name") {
    const std::string before = value.get<std::string>();
    value = in_metric(before);
    turned += value.get<std::string>() != before ? 1 : 0;
  }
}

TEST(Symmetry, SameBuildInMetricUnitsGivesTheSameSi) {
  for (const char* example : {testing::kTowRig, testing::kShopTruck}) {
    const std::string text = testing::example_text(example);
    auto json = nlohmann::ordered_json::parse(text);
    int turned = 0;
    turn_round(json, "", turned);
    EXPECT_GT(turned, 100);
    json["units"] = {{"metric", true}};
    const Report& inches = example_report(example);
    const Report metric = check(testing::read_text(json.dump()).build);
    ASSERT_EQ(inches.findings.size(), metric.findings.size());
    for (const auto& finding : inches.findings) {
      const Finding* same = testing::find_finding(metric, finding.id);
      ASSERT_NE(same, nullptr) << finding.id;
      EXPECT_EQ(finding.verdict, same->verdict) << finding.id;
      ASSERT_EQ(finding.value.has_value(), same->value.has_value());
      if (!finding.value) continue;
      EXPECT_NEAR(finding.value->si, same->value->si, 1e-9 * (1 + std::abs(finding.value->si)))
          << finding.id;
    }
    for (std::size_t a = 0; a < inches.axles.size(); ++a) {
      for (std::size_t s = 0; s < inches.axles[a].seats.size(); ++s) {
        EXPECT_NEAR(inches.axles[a].seats[s].seat.tack_length_m,
                    metric.axles[a].seats[s].seat.tack_length_m, 1e-9);
      }
    }
  }
}

}  // namespace
}  // namespace rig::check
