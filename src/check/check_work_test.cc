// What is told while a hand moves something is what the whole check tells.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "check/json_internal.h"
#include "check/report_json.h"
#include "check/test_builds_internal.h"

namespace rig::check {
namespace {

using testing::edited;
using testing::example_report;
using testing::kExamples;
using testing::kTowRig;
using testing::read_example;

constexpr Work kWorks[] = {Work::kWeigh, Work::kAxles, Work::kFrame, Work::kDrivetrain};

Json trial_of(const build::Build& build, Work work, const Report* last) {
  return Json::parse(trial_json(build, check_work(build, work, last), {.work = work, .axle = {}}));
}

/// Without the workings, but for those of the drivetrain's rows.
void leave_out_workings(Json& json) {
  for (auto it = json.begin(); it != json.end(); ++it) {
    if (json.is_object() && it.key().ends_with("working")) *it = Json::array();
    if (it->is_structured()) leave_out_workings(*it);
  }
}

/// What the sheet of a work shows of a whole report; of the frame all but its stages.
Json part_of(const Json& whole, Work work) {
  Json part{{"work", work_name(work)}};
  if (work != Work::kFrame) part["summary"] = whole["summary"][work_name(work)];
  for (const char* key : work == Work::kWeigh   ? std::vector<const char*>{"states"}
                         : work == Work::kAxles ? std::vector<const char*>{"axles", "articulation"}
                                                : std::vector<const char*>{work_name(work)}) {
    part[key] = whole[key];
  }
  if (work == Work::kFrame && !part["frame"].is_null()) part["frame"]["stages"] = Json::array();
  part["findings"] = Json::array();
  for (const Json& finding : whole["findings"]) {
    const bool is_of_stage = finding["id"].get<std::string>().starts_with("frame.stage.");
    if (finding["work"] == work_name(work) && !is_of_stage) part["findings"].push_back(finding);
  }
  leave_out_workings(work == Work::kDrivetrain ? part["findings"] : part);
  return part;
}

void expect_parts_of_the_whole(const build::Build& build, const Report* last) {
  const Json whole = Json::parse(report_json(build, check(build, Thorough::kWithoutAdvice)));
  for (const Work work : kWorks) {
    SCOPED_TRACE(work_name(work));
    const Json part = part_of(whole, work), trial = trial_of(build, work, last);
    EXPECT_EQ(trial.size(), part.size());
    for (const auto& [key, value] : part.items()) EXPECT_EQ(trial.value(key, Json()), value) << key;
  }
}

TEST(CheckWork, TellsOfAWorkWhatTheWholeCheckDoes) {
  for (const char* name : kExamples) {
    SCOPED_TRACE(name);
    expect_parts_of_the_whole(read_example(name).build, nullptr);
  }
}

TEST(CheckWork, TellsTheSameOfABuildThatWasChangedSinceTheLastReport) {
  const build::ReadBuild read = read_example(kTowRig);
  const std::string crossmember = read.build.frame.crossmembers.front().path;
  const std::string mount = read.build.drivetrain.mounts.front().path;
  const std::vector<build::Edit> edits{
      testing::set_length("/axles/front/links/lower/frame/at/height", 0.51),
      testing::set_length("/axles/rear/station", 3.4),
      testing::set_length(crossmember + "/at/station", -0.3),
      testing::set_length(mount + "/at/height", 0.7),
      {read.build.masses.front().path + "/mass", "\"400 kg\""},
      {"/units/metric", "true"}};
  // Where properties are held against fewer random inputs, these are fewer too.
  constexpr std::size_t kStride = RIG_RANDOM_CASES < 100 ? 3 : 1;
  for (std::size_t i = 0; i < edits.size(); i += kStride) {
    SCOPED_TRACE(edits[i].path);
    expect_parts_of_the_whole(edited(read, {edits[i]}).build, &example_report(kTowRig));
  }
}

TEST(CheckWork, TellsTheAxleThatIsShown) {
  const build::Build build = read_example(kTowRig).build;
  const Report report = check_work(build, Work::kAxles, nullptr);
  const auto axles = [&](const std::string& shown) {
    return Json::parse(trial_json(build, report, {.work = Work::kAxles, .axle = shown}))["axles"];
  };
  ASSERT_EQ(axles("").size(), 2U);
  ASSERT_EQ(axles("rear").size(), 1U);
  EXPECT_EQ(axles("rear")[0], axles("")[1]);
}

TEST(CheckWork, KnowsItsWorksByName) {
  for (const Work work : kWorks) EXPECT_EQ(find_work(work_name(work)), work);
  EXPECT_EQ(find_work("history"), std::nullopt);
}

}  // namespace
}  // namespace rig::check
