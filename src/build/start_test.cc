#include "build/start.h"

#include <gtest/gtest.h>

#include "build/fixture_internal.h"

namespace rig::build {
namespace {

ReadBuild started(const std::map<std::string, std::string>& answers) {
  auto read = start_build(answers);
  EXPECT_EQ(faults_of(read), "");
  return read ? *std::move(read) : ReadBuild{};
}

TEST(StartBuild, AsksADozenQuestions) {
  const auto questions = start_questions();
  EXPECT_EQ(questions.size(), 12U);
  for (const Question& question : questions) {
    EXPECT_FALSE(question.label.empty()) << question.id;
    EXPECT_TRUE(question.needed || !question.usual.empty()) << question.id;
  }
}

TEST(StartBuild, KeepsAnswersAsTheyWereTypedAndMarksTheRest) {
  const Build build = started({{"name", "Crew truck"},
                               {"wheelbase", " 9' 7 1/2\""},
                               {"track", "64"},
                               {"front_weight", "2710 lb"}})
                          .build;
  EXPECT_EQ(build.name, "Crew truck");
  const Axle& rear = find(build.axles, "rear")->value;
  EXPECT_DOUBLE_EQ(rear.station.si, 115.5 * 0.0254);
  EXPECT_EQ(rear.station.from, From::kTape);
  EXPECT_DOUBLE_EQ(rear.track.si, 64 * 0.0254);
  EXPECT_EQ(rear.height.from, From::kEstimate);
  EXPECT_EQ(find(build.masses, "trip_load")->value.mass.from, From::kEstimate);
}

TEST(StartBuild, WeighsWhatTheScalesSaid) {
  const Build build = started({{"name", "a"},
                               {"front_weight", "1200 kg"},
                               {"rear_weight", "900 kg"},
                               {"wheelbase", "3000 mm"},
                               {"units", "millimetres"}})
                          .build;
  double mass_kg = 0, moment_kg_m = 0;
  for (const auto& item : build.masses) {
    if (item.value.optional_load) continue;
    mass_kg += item.value.mass.si;
    moment_kg_m += item.value.mass.si * item.value.at.station.si;
  }
  // As printed: to the whole kilogram and millimetre.
  EXPECT_NEAR(mass_kg, 2100, 1.5);
  EXPECT_NEAR(moment_kg_m / 3.0, 900, 2);
}

TEST(StartBuild, KeepsTheAxlesWeightsAsTypedBesideTheMassesMadeOfThem) {
  const Build build = started({{"name", "a"}, {"front_weight", "2710"}}).build;
  for (const char* id : {"body", "front_axle", "rear_axle"}) {
    const Mass& mass = find(build.masses, id)->value.mass;
    EXPECT_EQ(mass.from, From::kEstimate) << id;
    EXPECT_EQ(mass.note, "Of the axles' weights as told: front 2710 lb, rear 2000 lb (usual)")
        << id;
  }
  EXPECT_EQ(find(started({{"name", "a"}}).build.masses, "body")->value.mass.note, "");
}

TEST(StartBuild, TakesATripWithNothingAboard) {
  const Build build =
      started({{"name", "a"}, {"trip_load", "0 lb"}, {"tyre_diameter", "35"}}).build;
  EXPECT_EQ(find(build.masses, "trip_load")->value.mass.si, 0);
  EXPECT_EQ(find(build.tyres, "tyre")->value.free_radius.from, From::kTape);
}

TEST(StartBuild, NamesTheQuestionWhoseAnswerNoTruckCanHave) {
  EXPECT_EQ(
      faults_of(start_build({{"name", "a"}, {"front_weight", "1e300 lb"}, {"track", "1 in"}})),
      "build.bad_answer track\nbuild.bad_answer front_weight");
}

TEST(StartBuild, SaysWhichAnswersCantBeUsed) {
  EXPECT_EQ(faults_of(start_build({{"name", "a"},
                                   {"wheelbase", "110 lb"},
                                   {"track", "-3 in"},
                                   {"front_layout", "air"},
                                   {"colour", "red"}})),
            "build.bad_answer colour\nbuild.bad_answer wheelbase\nbuild.bad_answer track\n"
            "build.bad_answer front_layout");
}

class StartLayouts : public testing::TestWithParam<std::tuple<int, int>> {};

TEST_P(StartLayouts, ReadsWithAnyTwo) {
  const auto layouts = start_questions()[7].choices;
  const auto [front, rear] = GetParam();
  const ReadBuild read = started({{"name", "a"},
                                  {"front_layout", layouts[static_cast<std::size_t>(front)].first},
                                  {"rear_layout", layouts[static_cast<std::size_t>(rear)].first}});
  EXPECT_EQ(read.build.axles.size(), 2U);
}

INSTANTIATE_TEST_SUITE_P(Any, StartLayouts,
                         testing::Combine(testing::Range(0, 5), testing::Range(0, 5)));

}  // namespace
}  // namespace rig::build
