// What can't be true of a hole in a rail, told at its place.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "build/fixture_internal.h"

namespace rig::build {
namespace {

/// "code path" of each fault of one hole, and of a second if there is one, in a channel rail of 6
/// by 2 in from station 0 to 100 in, plated from 20 to 60 in on the left.
std::string faults_of_holes(const std::string& first, const std::string& second = "") {
  auto file = nlohmann::ordered_json::parse(R"({"version": 1, "frame": {
    "rails": {"main": {
      "both_sides": true,
      "section": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "3/16 in"},
      "line": [{"station": "0 in", "offset": "16 in"}, {"station": "100 in", "offset": "16 in"}],
      "stretches": {"tail": {"from": "80 in", "to": "100 in", "section": {"shape": "rectangular_tube"}}}}},
    "plates": {"box": {"rail": "main", "side": "left", "from": "20 in", "to": "60 in"}}}})");
  auto& holes = file["frame"]["holes"];
  holes["a"] = nlohmann::ordered_json::parse(first);
  if (!second.empty()) holes["b"] = nlohmann::ordered_json::parse(second);
  for (auto& hole : holes) hole["rail"] = "main";
  const auto read = read_build(file.dump(2));
  std::string out;
  if (read) return out;
  for (const Diagnostic& d : read.error()) {
    EXPECT_FALSE(d.remedy.empty());
    EXPECT_TRUE(d.at.has_value()) << d.path;
    out += (out.empty() ? "" : "\n") + d.code + " " + d.path.substr(6);
  }
  return out;
}

TEST(HoleChecks, SoundHolesAreTaken) {
  EXPECT_EQ(
      faults_of_holes(
          R"({"wall": "web", "station": "10 in", "above_lower_edge": "3 in", "diameter": "1 in"})",
          R"({"wall": "web", "station": "10 in", "above_lower_edge": "4 in", "diameter": "1 in"})"),
      "");
  EXPECT_EQ(
      faults_of_holes(
          R"({"wall": "plate", "side": "left", "station": "60 in", "purpose": "drain"})",
          R"({"wall": "upper_flange", "from_web": "1 1/2 in", "station": "10 in", "diameter": "1 in"})"),
      "");
}

TEST(HoleChecks, WhatCantBeIsToldAtItsPlace) {
  EXPECT_EQ(faults_of_holes(R"({"station": "10 in"})"), "build.missing_key /holes/a/wall");
  EXPECT_EQ(faults_of_holes(R"({"wall": "side", "station": "10 in"})"),
            "build.unknown_word /holes/a/wall");
  EXPECT_EQ(faults_of_holes(R"({"wall": "web", "station": "101 in"})"),
            "build.outside_rail /holes/a/station");
  EXPECT_EQ(faults_of_holes(R"({"wall": "web", "station": "90 in"})"),
            "build.wrong_shape /holes/a/wall");
  EXPECT_EQ(faults_of_holes(R"({"wall": "web", "from_web": "1 in"})"),
            "build.impossible /holes/a/from_web");
  EXPECT_EQ(faults_of_holes(R"({"wall": "lower_flange", "above_lower_edge": "1 in"})"),
            "build.impossible /holes/a/above_lower_edge");
  EXPECT_EQ(faults_of_holes(R"({"wall": "plate", "station": "30 in"})"),
            "build.no_plate /holes/a/wall");
  EXPECT_EQ(faults_of_holes(R"({"wall": "plate", "side": "left", "station": "61 in"})"),
            "build.no_plate /holes/a/wall");
}

TEST(HoleChecks, AHoleLeavesMetalAndTakesNoOthers) {
  EXPECT_EQ(
      faults_of_holes(
          R"({"wall": "web", "station": "10 in", "above_lower_edge": "5 3/4 in", "diameter": "1 in"})"),
      "build.impossible /holes/a/above_lower_edge");
  EXPECT_EQ(
      faults_of_holes(
          R"({"wall": "lower_flange", "station": "10 in", "from_web": "1/4 in", "diameter": "1 in"})"),
      "build.impossible /holes/a/from_web");
  EXPECT_EQ(
      faults_of_holes(
          R"({"wall": "web", "station": "10 in", "above_lower_edge": "3 in", "diameter": "1 in"})",
          R"({"wall": "web", "station": "10.5 in", "above_lower_edge": "3.5 in", "diameter": "1 in"})"),
      "build.overlap /holes/b/station");
}

TEST(HoleChecks, TapersAreNoLongerThanTheirPlate) {
  const auto faults = [](const char* taper) {
    const auto read = read_build(fmt::format(
        R"({{"version": 1, "frame": {{"plates": {{"box": {{"from": "10 in", "to": "20 in", "taper": "{}"}}}}}}}})",
        taper));
    return read ? "" : read.error().front().path;
  };
  EXPECT_EQ(faults("5 in"), "");
  EXPECT_EQ(faults("5 1/16 in"), "/frame/plates/box/taper");
}

}  // namespace
}  // namespace rig::build
