#include "check/report_json.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "check/json_internal.h"
#include "check/scene_json.h"
#include "check/test_builds_internal.h"

namespace rig::check {
namespace {

using testing::example_report;
using testing::kCrawler;
using testing::kExamples;
using testing::kShopTruck;
using testing::kTowRig;
using testing::read_example;

Json report_of(const build::Build& build) { return Json::parse(report_json(build, check(build))); }
Json report_of(const char* example) {
  return Json::parse(report_json(read_example(example).build, example_report(example)));
}

void expect_number(const Json& number, const std::string& where) {
  ASSERT_TRUE(number.is_object()) << where;
  ASSERT_EQ(number.size(), 2U) << where;
  ASSERT_TRUE(number.at("text").is_string()) << where;
  if (number.at("si").is_null()) {
    EXPECT_EQ(number.at("text"), "unknown") << where;
  } else {
    EXPECT_TRUE(std::isfinite(number.at("si").get<double>())) << where;
  }
}

void expect_keys(const Json& object, const std::vector<const char*>& keys,
                 const std::string& where) {
  for (const char* key : keys) EXPECT_TRUE(object.contains(key)) << where << "/" << key;
  EXPECT_EQ(object.size(), keys.size()) << where << ": " << object.dump();
}

// docs/api.md, "report": the keys as literals.
TEST(ReportJson, HasTheShapeOfTheContract) {
  for (const char* example : kExamples) {
    const Json report = report_of(example);
    expect_keys(report,
                {"name", "notice", "verdicts", "summary", "diagnostics", "missing", "states",
                 "axles", "articulation", "frame", "drivetrain", "findings"},
                example);
    expect_keys(report["verdicts"], {"good", "look", "stop"}, "verdicts");
    expect_keys(report["summary"], {"weigh", "axles", "frame", "drivetrain"}, "summary");
    for (const auto& state : report["states"]) {
      expect_keys(state,
                  {"id", "label", "total", "plus_minus", "cg", "p_VoCm", "sprung", "unsprung",
                   "loads", "stability", "settled", "sentence", "shares", "explained"},
                  "state");
      for (const char* key : {"total", "plus_minus", "sprung"}) expect_number(state[key], key);
      for (const char* key : {"station", "offset", "height"}) expect_number(state["cg"][key], key);
      expect_keys(state["stability"], {"factor", "tilt", "side_slope", "up_grade", "down_grade"},
                  "");
      ASSERT_EQ(state["p_VoCm"].size(), 3U);
      ASSERT_EQ(state["loads"].size(), 2U);
      for (const auto& load : state["loads"]) {
        expect_keys(load, {"axle", "left", "right", "total", "rating", "verdict", "measured"},
                    "load");
        EXPECT_EQ(load["verdict"], "good");
        EXPECT_NEAR(load["left"]["si"].get<double>() + load["right"]["si"].get<double>(),
                    load["total"]["si"].get<double>(), 1e-6);
      }
      for (const char* key : {"front", "left", "cross"}) expect_number(state["shares"][key], key);
      expect_keys(state["settled"], {"heave", "roll", "pitch", "corners"}, "settled");
      ASSERT_EQ(state["settled"]["corners"].size(), 4U);
      for (const auto& corner : state["settled"]["corners"]) {
        expect_keys(corner, {"axle", "side", "height_error", "load"}, "corner");
      }
    }
    for (const auto& axle : report["axles"]) {
      expect_keys(axle,
                  {"id", "label", "end", "travel", "rows", "curves", "seats", "links",
                   "links_working", "locks"},
                  "axle");
      EXPECT_GE(axle["rows"].size(), 10U);
      for (const auto& row : axle["rows"]) {
        expect_keys(row,
                    {"id", "label", "value", "verdict", "low", "high", "finding", "explain",
                     "usual", "working"},
                    "row");
        expect_number(row["value"], row["id"]);
      }
      for (const auto& curve : axle["curves"]) {
        expect_keys(
            curve,
            {"id", "label", "x_label", "x", "y", "x_dimension", "y_dimension", "low", "high"},
            "curve");
        EXPECT_EQ(curve["x"].size(), curve["y"].size());
        EXPECT_GE(curve["x"].size(), 30U) << curve["id"];
      }
      for (const auto& seat : axle["seats"]) {
        expect_keys(seat,
                    {"name", "path", "load", "free", "loaded", "drawn", "tack", "below_free",
                     "move", "bump_left", "frequency", "sentence", "working"},
                    "seat");
      }
      for (const auto& link : axle["links"]) {
        expect_keys(link, {"name", "path", "force", "swing_frame", "swing_axle", "limit"}, "link");
      }
    }
    expect_keys(report["frame"], {"states", "stages", "cases", "worst", "points", "left_out"},
                "frame");
    EXPECT_GE(report["frame"]["points"].size(), 10U);
    for (const auto& point : report["frame"]["points"]) {
      expect_keys(point,
                  {"label", "path", "side", "where", "case", "von_mises", "yield", "share_of_yield",
                   "near_joint", "distorts"},
                  "point");
      for (const char* key : {"von_mises", "yield", "share_of_yield"}) {
        expect_number(point[key], key);
      }
    }
    for (const char* which : {"ramp", "cross"}) {
      const auto& found = report["articulation"][which];
      expect_keys(found, {"distance", "height", "index", "first_lifted", "loads"}, which);
    }
    for (const auto& finding : report["findings"]) {
      expect_keys(finding,
                  {"id", "verdict", "work", "subject", "sentence", "value", "limit", "basis",
                   "advice", "assumption", "path", "working"},
                  "finding");
      EXPECT_FALSE(finding["advice"].get<std::string>().empty()) << finding["id"];
      EXPECT_FALSE(finding["basis"].get<std::string>().empty()) << finding["id"];
      const bool assumed = !finding["assumption"].get<std::string>().empty();
      EXPECT_FALSE(assumed && finding["verdict"] == "good") << finding["id"];
      for (const auto& step : finding["working"]) {
        expect_keys(step, {"formula", "with_values", "source", "input_paths"}, "step");
      }
    }
  }
}

TEST(ReportJson, FindingIdsAreUniqueAndRowsLeadToThem) {
  for (const char* example : kExamples) {
    const Json report = report_of(example);
    std::vector<std::string> ids;
    for (const auto& finding : report["findings"]) ids.push_back(finding["id"]);
    auto sorted = ids;
    std::sort(sorted.begin(), sorted.end());
    EXPECT_EQ(std::adjacent_find(sorted.begin(), sorted.end()), sorted.end())
        << *std::adjacent_find(sorted.begin(), sorted.end());
    for (const auto& axle : report["axles"]) {
      for (const auto& row : axle["rows"]) {
        if (row["finding"].is_null()) continue;
        EXPECT_TRUE(
            std::binary_search(sorted.begin(), sorted.end(), row["finding"].get<std::string>()));
      }
    }
  }
}

// A file that tells almost nothing is told what is missing, and nothing is made up.
TEST(ReportJson, AlmostEmptyBuildListsWhatIsMissing) {
  const auto read = testing::read_text(R"({"version": 1, "name": "Stub"})");
  const Json report = report_of(read.build);
  EXPECT_EQ(report["findings"].size(), 0U);
  EXPECT_GE(report["missing"].size(), 2U);
  EXPECT_TRUE(report["articulation"]["ramp"].is_null());
}

TEST(ReportJson, MissingTyreRateLeavesOutOnlyWhatNeedsIt) {
  const auto read = testing::edited(read_example(kTowRig), {{"/tyres/all_terrain/rate", ""}});
  const Json report = report_of(read.build);
  EXPECT_TRUE(report["states"][0]["settled"].is_null());
  EXPECT_FALSE(report["states"][0]["total"]["si"].is_null());
  bool told = false;
  for (const auto& missing : report["missing"])
    told = told || missing["path"] == "/tyres/all_terrain/rate";
  EXPECT_TRUE(told);
  bool shift = false;
  for (const auto& finding : report["findings"])
    shift = shift || finding["id"] == "lateral_shift.front";
  EXPECT_TRUE(shift);
}

TEST(ReportJson, RigidRedundantLinksAreADiagnosticOfThatAxle) {
  const auto read =
      testing::edited(read_example(kShopTruck), {{"/axles/rear/links/lower/frame/bushing", ""},
                                                 {"/axles/rear/links/lower/axle/bushing", ""},
                                                 {"/axles/rear/links/upper/frame/bushing", ""},
                                                 {"/axles/rear/links/upper/axle/bushing", ""},
                                                 {"/axles/rear/links/track_bar/frame/bushing", ""},
                                                 {"/axles/rear/links/track_bar/axle/bushing", ""}});
  const Report report = check(read.build);
  ASSERT_FALSE(report.diagnostics.empty());
  EXPECT_EQ(report.diagnostics.front().code, "suspension.redundant_ideal");
  EXPECT_EQ(report.diagnostics.front().path, "/axles/rear");
  EXPECT_NE(report.axle("front"), nullptr);
}

TEST(SceneJson, DrawsEveryPartOnItsBody) {
  const auto read = read_example(kTowRig);
  const Json scene = Json::parse(scene_json(read.build, example_report(kTowRig)));
  EXPECT_EQ(scene["bodies"], Json::array({"frame", "front", "rear"}));
  EXPECT_LT(scene["extent"]["rear_x"].get<double>(), -4);
  std::map<std::string, int> kinds;
  for (const auto& part : scene["parts"]) ++kinds[part["kind"].get<std::string>()];
  EXPECT_EQ(kinds["bar"], 4);
  EXPECT_EQ(kinds["leaf"], 2);
  EXPECT_EQ(kinds["coil"], 2);
  EXPECT_EQ(kinds["tyre"], 4);
  EXPECT_EQ(kinds["rail"], 2);
  EXPECT_EQ(kinds["crossmember"], static_cast<int>(read.build.frame.crossmembers.size()));
  EXPECT_EQ(kinds["cg"], 4);
  EXPECT_EQ(kinds["hitch"], 1);
}

TEST(PoseJson, DrawnPoseMovesNothingAndBumpRaisesTheAxle) {
  const auto read = read_example(kCrawler);
  const Report& report = example_report(kCrawler);
  const auto ask = [&](const char* body) {
    const auto question = read_pose_question(body);
    EXPECT_TRUE(question.has_value());
    const auto answer = pose_json(read.build, report, *question);
    EXPECT_TRUE(answer.has_value());
    return Json::parse(*answer);
  };
  const Json still = ask("{}");
  for (const char* body : {"frame", "front", "rear"}) {
    for (std::size_t i = 0; i < 3; ++i) {
      EXPECT_NEAR(still["bodies"][body]["p"][i].get<double>(), 0, 1e-12);
      EXPECT_NEAR(still["bodies"][body]["R"][i][i].get<double>(), 1, 1e-12);
    }
  }
  const Json bumped = ask(R"({"heave": {"front": 0.05}, "roll": {"front": 0.02}})");
  EXPECT_TRUE(bumped["locked"].is_null());
  EXPECT_EQ(bumped["numbers"]["front"][0]["id"], "heave");
  EXPECT_NEAR(bumped["numbers"]["front"][0]["value"]["si"].get<double>(), 0.05, 1e-9);
  // A point of the axle on its centre line: C goes up by the heave.
  const auto& moved = bumped["bodies"]["front"];
  const Vec3 C = report.axle("front")->model.p_VC;
  double z = moved["p"][2].get<double>();
  for (std::size_t i = 0; i < 3; ++i) {
    z += moved["R"][2][i].get<double>() * C[static_cast<Eigen::Index>(i)];
  }
  EXPECT_NEAR(z - C.z(), 0.05, 1e-9);

  const Json settled = ask(R"({"state": "full", "settled": true})");
  EXPECT_LT(settled["bodies"]["frame"]["p"][2].get<double>(), 0.1);
}

TEST(PoseJson, WrongQuestionsAreToldApart) {
  const auto code = [](std::string_view body) {
    return read_pose_question(body).error().front().code;
  };
  EXPECT_EQ(code("nonsense"), "check.bad_pose");
  EXPECT_EQ(code(R"({"heave": {"front": "up"}})"), "check.bad_pose");
  EXPECT_EQ(code(R"({"heave": {"front": 1e9}})"), "check.bad_pose");
  const auto read = read_example(kTowRig);
  const Report& report = example_report(kTowRig);
  EXPECT_EQ(pose_json(read.build, report, {.state = "moon"}).error().front().code,
            "check.unknown_state");
  EXPECT_EQ(pose_json(read.build, report, {.axles = {{"middle", {}}}}).error().front().code,
            "check.unknown_axle");
}

TEST(UnitsJson, FactorsTurnSiIntoTheUnit) {
  const Json inches = Json::parse(units_json({.metric = false, .fraction_of_inch = 16}));
  EXPECT_EQ(inches["per_si"]["length"]["unit"], "in");
  EXPECT_NEAR(inches["per_si"]["length"]["factor"].get<double>(), 39.3700787, 1e-6);
  EXPECT_EQ(inches["per_si"]["ratio"]["factor"], 100.0);
}

}  // namespace
}  // namespace rig::check
