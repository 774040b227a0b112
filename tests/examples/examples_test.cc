// Each example says what its README says.

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "command.h"

namespace rig::testing {
namespace {

using Json = nlohmann::json;

constexpr double kInch_m = 0.0254, kPound_kg = 0.45359237, kPoundForce_N = 4.4482216152605;

Json check_example(const std::string& name, int exit_code) {
  const Ran ran = run("check --json " + example(name));
  EXPECT_EQ(ran.exit_code, exit_code) << ran.err;
  return Json::parse(ran.out);
}

Json find(const Json& list, const std::string& id) {
  for (const auto& entry : list) {
    if (entry["id"] == id) return entry;
  }
  ADD_FAILURE() << "no " << id;
  return Json::object();
}

void expect_finding(const Json& report, const std::string& id, const std::string& verdict,
                    double value_si, double tolerance_si) {
  const Json finding = find(report["findings"], id);
  EXPECT_EQ(finding["verdict"], verdict) << id << ": " << finding["sentence"];
  EXPECT_NEAR(finding["value"]["si"].get<double>(), value_si, tolerance_si) << id;
}

std::string advice(const Json& report, const std::string& id) {
  return find(report["findings"], id)["advice"];
}

/// Every `si` is a number, or null with the text "unknown".
void expect_numbers(const Json& value, const std::string& where) {
  if (value.is_object() && value.contains("si")) {
    EXPECT_TRUE(value["si"].is_number() || value["text"] == "unknown") << where;
  }
  if (value.is_string()) {
    const auto& text = value.get_ref<const std::string&>();
    EXPECT_EQ(text.find("nan"), std::string::npos) << where << ": " << text;
  }
  if (!value.is_structured()) return;
  for (auto it = value.begin(); it != value.end(); ++it) {
    expect_numbers(*it, value.is_object() ? where + "/" + it.key() : where + "/-");
  }
}

TEST(Examples, EveryNumberIsOne) {
  expect_numbers(check_example("01_tow_rig/tow_rig", 1), "01");
  expect_numbers(check_example("02_crawler/crawler", 0), "02");
  expect_numbers(check_example("03_shop_truck/shop_truck", 0), "03");
}

TEST(Examples, AreMostlyGoodAndNothingIsLeftOut) {
  for (const auto& [name, exit_code] :
       {std::pair("01_tow_rig/tow_rig", 1), std::pair("02_crawler/crawler", 0),
        std::pair("03_shop_truck/shop_truck", 0)}) {
    const Json report = check_example(name, exit_code);
    const auto& verdicts = report["verdicts"];
    EXPECT_GE(verdicts["good"].get<int>(),
              2 * (verdicts["look"].get<int>() + verdicts["stop"].get<int>()))
        << name;
    EXPECT_GE(verdicts["look"].get<int>(), 1) << name;
    EXPECT_LE(verdicts["stop"].get<int>(), 4) << name;
    EXPECT_TRUE(report["missing"].empty()) << name << report["missing"];
    EXPECT_TRUE(report["diagnostics"].empty()) << name << report["diagnostics"];
    EXPECT_NE(report["notice"].get<std::string>().find("Invented"), std::string::npos) << name;
  }
}

TEST(Examples, TowRig) {
  const Json report = check_example("01_tow_rig/tow_rig", 1);
  const Json road = find(report["states"], "road");
  EXPECT_NEAR(road["total"]["si"].get<double>(), 5960 * kPound_kg, 0.5);
  const Json front = find(report["axles"], "front");
  const Json& seat = front["seats"][0];
  EXPECT_EQ(seat["name"], "left front coil");
  EXPECT_NEAR(seat["load"]["si"].get<double>(), 1241 * kPoundForce_N, 3 * kPoundForce_N);
  EXPECT_EQ(seat["loaded"]["text"], "13 5/8 in");
  EXPECT_EQ(seat["tack"]["text"], "11 5/8 in");
  EXPECT_EQ(seat["below_free"]["text"], "7 7/8 in");
  // Common practice: compression plus lift below the free position.
  EXPECT_NEAR(seat["below_free"]["si"].get<double>(),
              seat["free"]["si"].get<double>() - seat["loaded"]["si"].get<double>() + 2 * kInch_m,
              1e-9);
  expect_finding(report, "lateral_shift.front", "stop", 0.875 * kInch_m, kInch_m / 32);
  EXPECT_NE(
      advice(report, "lateral_shift.front").find("the axle end of the track bar 2 13/16 in up"),
      std::string::npos)
      << advice(report, "lateral_shift.front");
  expect_finding(report, "shock.front.shock.droop", "stop", -0.3125 * kInch_m, kInch_m / 32);
  // 620 lbf on the ball of 5200 lb.
  expect_finding(report, "tongue_share.towing", "good", 620.0 / 5200.0, 1e-9);
  expect_finding(report, "roll_steer.rear", "look", 0.151, 0.0005);
}

TEST(Examples, Crawler) {
  const Json report = check_example("02_crawler/crawler", 0);
  EXPECT_NEAR(find(report["states"], "trail")["total"]["si"].get<double>(), 1874, 1e-6);
  expect_finding(report, "anti_squat.rear", "look", 0.398, 0.0005);
  EXPECT_NE(advice(report, "anti_squat.rear").find("the frame ends of the lower links 11 mm up"),
            std::string::npos)
      << advice(report, "anti_squat.rear");
  expect_finding(report, "frequency.front", "look", 1.15, 0.005);
  expect_finding(report, "pinion.rear", "good", 2.77 * M_PI / 180, 0.005 * M_PI / 180);
  expect_finding(report, "roll_gradient", "look", 15.1 * M_PI / 180, 0.05 * M_PI / 180);
}

TEST(Examples, ShopTruck) {
  const Json report = check_example("03_shop_truck/shop_truck", 0);
  const Json road = find(report["states"], "road");
  EXPECT_NEAR(road["total"]["si"].get<double>(), 4842 * kPound_kg, 0.5);
  EXPECT_EQ(road["plus_minus"]["text"], "46 lb");
  expect_finding(report, "caster.front", "look", 5.045 * M_PI / 180, 0.005 * M_PI / 180);
  expect_finding(report, "anti_dive.front", "look", 1.216, 0.0005);
  EXPECT_NE(advice(report, "anti_dive.front").find("only brings it to 97.2 %"), std::string::npos)
      << advice(report, "anti_dive.front");
  expect_finding(report, "anti_squat.rear", "good", 0.408, 0.0005);
  // One wheel's load bounds the bind; neither axle reaches it.
  for (const char* axle : {"bind.front", "bind.rear"}) {
    const Json bind = find(report["findings"], axle);
    EXPECT_LT(bind["value"]["si"].get<double>(), bind["limit"]["si"].get<double>()) << axle;
  }
}

}  // namespace
}  // namespace rig::testing
