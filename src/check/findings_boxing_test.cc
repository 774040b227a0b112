// What is told of boxing plates, of tubes through them and of holes.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "check/test_builds_internal.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using testing::check_edited;
using testing::edited;
using testing::example_report;
using testing::find_finding;
using testing::kExamples;
using testing::kShopTruck;
using testing::kTowRig;
using testing::read_example;
using testing::says;
using units::kInch_m;

Finding told(const Report& report, const std::string& id) {
  const Finding* finding = find_finding(report, id);
  if (finding != nullptr) return *finding;
  ADD_FAILURE() << id << " is not told";
  return {};
}

/// With its plate at the link brackets alone.
Report check_tow_rig(std::vector<build::Edit> edits) {
  for (const char* other : {"nose", "kick"}) {
    edits.push_back({std::string("/frame/plates/") + other + "/fate", "\"temporary\""});
  }
  return check_edited(kTowRig, edits);
}

TEST(BoxingFindings, AreTheSameWithoutAdviceButForNumbers) {
  for (const char* name : kExamples) {
    const build::Build build = read_example(name).build;
    const Report& with = example_report(name);
    const Report without = check(build, Thorough::kWithoutAdvice);
    ASSERT_EQ(with.findings.size(), without.findings.size()) << name;
    for (const Finding& finding : with.findings) {
      EXPECT_EQ(told(without, finding.id).verdict, finding.verdict) << finding.id;
    }
  }
}

TEST(BoxingFindings, GoodOnesRestOnNoAssumption) {
  for (const char* name : kExamples) {
    for (const Finding& finding : example_report(name).findings) {
      if (finding.verdict == Verdict::kGood) {
        EXPECT_EQ(finding.assumption, "") << finding.id;
      }
      EXPECT_FALSE(finding.advice.empty()) << finding.id;
      EXPECT_FALSE(finding.sentence.empty()) << finding.id;
    }
  }
}

TEST(BoxingFindings, TellWhatAPlateAddsAndWhereMoreWould) {
  const Report report = check_tow_rig({});
  const Finding box = told(report, "frame.box.box");
  EXPECT_GT(box.value->si, 0);
  EXPECT_TRUE(says(box.sentence, "just ahead of it")) << box.sentence;
  EXPECT_TRUE(says(box.advice, "Run it")) << box.advice;
  const Finding more = told(report, "frame.boxing");
  EXPECT_GT(more.value->si, report.frame->twist_stiffness_Nm_per_rad());
  EXPECT_TRUE(says(more.sentence, "for each lb of plate")) << more.sentence;
}

TEST(BoxingFindings, ATubeThatStopsAtAWallIsTold) {
  const Report report = check_tow_rig({{"/frame/crossmembers/gearbox_tube/joint", "\"butted\""}});
  const Finding tube = told(report, "frame.tube_joint.gearbox_tube");
  EXPECT_EQ(tube.verdict, Verdict::kLook);
  const Report through = check_tow_rig({});
  // Through both walls it is the frame of the example again.
  EXPECT_NEAR(tube.value->si, through.frame->state("planned")->whole->lozenging.stiffness_N_per_m,
              1e-6 * tube.value->si);
  EXPECT_EQ(find_finding(through, "frame.tube_joint.gearbox_tube"), nullptr);
}

TEST(PlateFindings, TellTheCutInTheShopsUnits) {
  // 6 in less two flanges of 1/4 in less 1/16 in.
  const Finding cut = told(check_tow_rig({}), "frame.plate_cut.box");
  EXPECT_NEAR(cut.value->si, (6 - 2 * 0.25 - 1.0 / 16) * kInch_m, 1e-9);
  EXPECT_TRUE(says(cut.advice, "5 7/16 in wide")) << cut.advice;
  // Over the tips: 6 in less twice 1/4 in.
  const Finding over = told(check_tow_rig({{"/frame/plates/box/inset", "\"0 in\""},
                                           {"/frame/plates/box/fit", "\"over_tips\""}}),
                            "frame.plate_cut.box");
  EXPECT_TRUE(says(over.advice, "5 1/2 in wide")) << over.advice;
}

TEST(PlateFindings, AnEndOnAWeldIsMovedClearOfIt) {
  const Finding far = told(check_tow_rig({}), "frame.plate_end.box.rear");
  EXPECT_NEAR(far.value->si, 8.75 * kInch_m, 1e-9);
  const Finding near =
      told(check_tow_rig({{"/frame/plates/box/to", "\"53 in\""}}), "frame.plate_end.box.rear");
  EXPECT_EQ(near.verdict, Verdict::kLook);
  EXPECT_TRUE(says(near.sentence, "Ends on the weld of the gearbox through-tube")) << near.sentence;
  EXPECT_TRUE(says(near.advice, "59 1/4 in")) << near.advice;
  EXPECT_TRUE(says(near.advice, "taper")) << near.advice;
  const Finding tapered = told(check_tow_rig({{"/frame/plates/box/to", "\"53 in\""},
                                              {"/frame/plates/box/taper", "\"6 in\""}}),
                               "frame.plate_end.box.rear");
  EXPECT_FALSE(says(tapered.advice, "taper")) << tapered.advice;
}

// What the advice says of the truck with the plate ended elsewhere is what that truck says itself.
TEST(PlateFindings, AnEndThatIsMovedIsSolvedAnew) {
  const Finding near =
      told(check_tow_rig({{"/frame/plates/box/to", "\"53 in\""}}), "frame.plate_end.box.rear");
  const Report moved = check_tow_rig({{"/frame/plates/box/to", "\"59.25 in\""}});
  const auto& ends = moved.frame->plate_ends;
  const auto rear = std::find_if(ends.begin(), ends.end(), [](const auto& end) {
    return end.plate_path == "/frame/plates/box" && !end.front;
  });
  ASSERT_NE(rear, ends.end());
  const Printer print(read_example(kTowRig).build.units);
  const std::string stress = print.text(rear->von_mises_Pa, units::Dimension::kStress);
  const std::string twist =
      print.text(moved.frame->twist_stiffness_Nm_per_rad(), units::Dimension::kAngularStiffness);
  EXPECT_TRUE(says(near.advice, "stressed by " + stress)) << near.advice << " / " << stress;
  EXPECT_TRUE(says(near.advice, "then has " + twist)) << near.advice << " / " << twist;
}

TEST(HoleFindings, TubesNeedOneHoleInBothRails) {
  const Finding hole = told(check_tow_rig({}), "frame.tube_hole.gearbox_tube");
  EXPECT_EQ(hole.verdict, Verdict::kGood);
  EXPECT_NEAR(hole.value->si, 2.5 * kInch_m, 1e-9);
  EXPECT_TRUE(says(hole.sentence, "station 52 in, its middle 3 in above")) << hole.sentence;
  // Its top 1 1/4 in higher: into the upper flange's bend.
  const Finding high =
      told(check_tow_rig({{"/frame/crossmembers/gearbox_tube/at/height", "\"25 3/4 in\""}}),
           "frame.tube_hole.gearbox_tube");
  EXPECT_EQ(high.verdict, Verdict::kLook);
}

TEST(HoleFindings, ADrainClearsTheWater) {
  EXPECT_EQ(told(check_tow_rig({{"/frame/holes", "{}"}}), "frame.drain.box").verdict,
            Verdict::kLook);
  const Report report = check_tow_rig(
      {{"/frame/holes", R"({"drain": {"rail": "main", "wall": "plate", "station": "34 in",
        "above_lower_edge": "1 1/2 in", "diameter": "1/2 in", "purpose": "drain"}})"}});
  EXPECT_EQ(told(report, "frame.drain.box").verdict, Verdict::kGood);
  EXPECT_EQ(told(report, "frame.hole.drain").subject, "Drain");
}

// One that is filled carries no water off, and is wall again.
TEST(HoleFindings, AFilledDrainIsNone) {
  const Report report = check_tow_rig({{"/frame/holes/box_drain/fate", "\"comes_out\""}});
  EXPECT_EQ(told(report, "frame.drain.box").verdict, Verdict::kLook);
  EXPECT_EQ(find_finding(report, "frame.hole.box_drain"), nullptr);
  EXPECT_NE(find_finding(report, "frame.hole.kick_drain"), nullptr);
}

TEST(HoleFindings, TellTheStressAtTheEdge) {
  const auto web = [](const char* above) {
    return check_tow_rig(
        {{"/frame/holes",
          std::string(R"({"line": {"rail": "main", "wall": "web", "station": "80 in",
        "diameter": "1 in", "above_lower_edge": ")") +
              above + "\"}}"}});
  };
  const Report middle = web("3 in"), low = web("1 1/2 in"), bend = web("0.8 in");
  const double middle_Pa = told(middle, "frame.hole.line").value->si;
  EXPECT_GT(middle_Pa, 0);
  EXPECT_GT(told(low, "frame.hole.line").value->si, 1.2 * middle_Pa);
  EXPECT_EQ(told(bend, "frame.hole.line").verdict, Verdict::kLook);
  // Both sides, over all cases.
  EXPECT_EQ(middle.frame->holes.size(), 2U);
}

}  // namespace
}  // namespace rig::check
