// What is taken over from an earlier report changes no answer.

#include "check/known_frame.h"

#include <gtest/gtest.h>

#include "check/report_json.h"
#include "check/test_builds_internal.h"

namespace rig::check {
namespace {

using testing::edited;
using testing::example_report;
using testing::kTowRig;
using testing::read_example;

TEST(KnownFrame, AnswersAreTheSameWithAndWithoutAnEarlierReport) {
  build::ReadBuild read = read_example(kTowRig);
  Report last = example_report(kTowRig);
  const std::string crossmember = read.build.frame.crossmembers.front().path;
  const std::string stage = read.build.frame.stages.front().path;
  const std::vector<build::Edit> edits{
      testing::set_length("/axles/front/links/lower/frame/at/height", 0.51),
      testing::set_length(crossmember + "/at/station", -0.3),
      {read.build.frame.plates.front().path + "/thickness", "\"1/4 in\""},
      {stage + "/label", "\"Another name\""},
      {read.build.frame.steels.front().path + "/modulus", "\"27000 ksi\""},
      {read.build.frame.steels.front().path + "/label", "\"Another name\""},
      testing::set_length("/axles/rear/station", 3.4),
      {"/units/metric", "true"},
      {"/frame/stages", ""}};
  // Where properties are held against fewer random inputs, these are fewer too.
  constexpr std::size_t kStride = RIG_RANDOM_CASES < 100 ? 4 : 1;
  for (std::size_t i = 0; i < edits.size(); i += kStride) {
    const build::Edit& edit = edits[i];
    SCOPED_TRACE(edit.path);
    read = edited(read, {edit});
    Report report = check(read.build, Thorough::kWithAdvice, &last);
    EXPECT_EQ(report_json(read.build, report), report_json(read.build, check(read.build)));
    last = std::move(report);
  }
}

TEST(KnownFrame, IsTakenOverWhereNothingOfTheFrameChanges) {
  const build::ReadBuild read = read_example(kTowRig);
  KnownFrame known(read.build, nullptr);
  const auto planned = build::planned_parts(read.build.frame);
  const double twist = known.with(planned).told->whole->torsion.stiffness_Nm_per_rad;
  ASSERT_NE(known.boxing(), nullptr);
  EXPECT_NEAR(known.boxing()->now.torsion_Nm_per_rad, twist, 1e-9 * twist);
  const auto moved =
      edited(read, {testing::set_length("/axles/front/links/lower/frame/at/height", 0.51)});
  const std::size_t solved = known.sections().size();
  KnownFrame after(moved.build, &known);
  EXPECT_EQ(after.with(planned).told->whole->torsion.stiffness_Nm_per_rad, twist);
  EXPECT_EQ(after.sections().size(), solved);
}

}  // namespace
}  // namespace rig::check
