#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>

#include "build/read.h"
#include "check/report.h"

namespace rig::check {
namespace {

build::Build read_tow_rig() {
  std::ifstream file(RIG_SOURCE_DIR "/examples/01_tow_rig/tow_rig.rig.json");
  std::stringstream text;
  text << file.rdbuf();
  auto read = build::read_build(text.str());
  EXPECT_TRUE(read.has_value());
  return std::move(read->build);
}

/// The coil of the front axle, with a wire in place of its rate.
build::Coil& give_wire(build::Build& build, double turns) {
  const auto axle = std::find_if(build.axles.begin(), build.axles.end(), [](const auto& entry) {
    return entry.value.end == build::End::kFront;
  });
  build::Coil& coil = axle->value.coils.front().value;
  coil.rate = {};
  coil.wire = build::CoilWire{};
  coil.wire->diameter.si = 0.0165;
  coil.wire->mean_diameter.si = 0.130;
  coil.wire->active_turns.si = turns;
  return coil;
}

std::vector<Finding> worked_out(const build::Build& build) {
  std::vector<Finding> found = check(build).findings;
  std::erase_if(found, [](const Finding& f) { return !f.id.starts_with("worked_out."); });
  return found;
}

TEST(WorkedOut, NothingWhereTheRateIsGiven) { EXPECT_TRUE(worked_out(read_tow_rig()).empty()); }

TEST(WorkedOut, RateOfACoilWithItsWorking) {
  build::Build build = read_tow_rig();
  give_wire(build, 8.5);
  const auto found = worked_out(build);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].id, "worked_out.front.coils.coil.rate");
  EXPECT_EQ(found[0].path, "/axles/front/coils/coil/rate");
  EXPECT_EQ(found[0].verdict, Verdict::kGood);
  const double rate = 79.3e9 * std::pow(0.0165, 4) / (8 * std::pow(0.130, 3) * 8.5);
  EXPECT_NEAR(found[0].value->si, rate, 1e-6);
  ASSERT_EQ(found[0].working.size(), 1U);
  EXPECT_NE(found[0].working[0].with_values.find("d = 0.650 in"), std::string::npos);
  EXPECT_EQ(found[0].working[0].input_paths.size(), 3U);
  // Everything that needs the rate is told.
  const Report report = check(build);
  for (const auto& axle : report.axles) EXPECT_FALSE(std::isnan(axle.ride_frequency_Hz));
}

TEST(WorkedOut, AsksForALookWhereItIsDoubtful) {
  build::Build build = read_tow_rig();
  give_wire(build, 4).solid_length = {};
  const auto found = worked_out(build);
  ASSERT_EQ(found.size(), 2U);
  const auto rate = std::find_if(found.begin(), found.end(),
                                 [](const Finding& f) { return f.id.ends_with(".rate"); });
  EXPECT_EQ(rate->verdict, Verdict::kLook);
  EXPECT_NE(rate->advice.find("chrome-silicon"), std::string::npos);
  EXPECT_NE(rate->advice.find("scale"), std::string::npos);
}

}  // namespace
}  // namespace rig::check
