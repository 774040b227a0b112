#include "build/variant.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "build/fixture_internal.h"
#include "build/patch.h"
#include "build/random_build_internal.h"

namespace rig::build {
namespace {

std::string truck(const std::string& changes) {
  return R"({
  "version": 1,
  "masses": {"winch": {"label": "Winch", "mass": "90 lb"}, "tank": {"mass": "30 lb"}},
  "axles": {"front": {"label": "Front axle", "end": "front", "track": "60 in"}},
  "variants": {"wide": {"label": "Wide", "changes": )" +
         changes + "}}\n}\n";
}

ReadBuild read_well(const std::string& text) {
  auto read = read_build(text);
  EXPECT_EQ(faults_of(read), "");
  return read ? *std::move(read) : ReadBuild{};
}

TEST(VaryBuild, LaysItsChangesOver) {
  const auto read = read_well(truck(
      R"({"/axles/front/track": "64 in", "/masses/winch": null, "/hitch/ball/station": "9 ft"})"));
  const auto varied = vary_build(*read.document, "wide");
  ASSERT_EQ(faults_of(varied), "");
  EXPECT_DOUBLE_EQ(varied->build.axles[0].value.track.si, 64 * 0.0254);
  EXPECT_EQ(find(varied->build.masses, "winch"), nullptr);
  EXPECT_DOUBLE_EQ(varied->build.hitch->ball.station.si, 9 * 0.3048);
  EXPECT_TRUE(varied->build.variants.empty());
  EXPECT_DOUBLE_EQ(read.build.axles[0].value.track.si, 60 * 0.0254);
}

TEST(VaryBuild, SaysThatThereIsNone) {
  const auto varied = vary_build(*read_well(truck("{}")).document, "narrow");
  EXPECT_EQ(faults_of(varied), "build.no_variant /variants/narrow");
}

TEST(ReadBuild, PointsAtTheChangeThatDoesNotRead) {
  EXPECT_EQ(faults_in(truck(R"({"/axles/front/track": "64 lb"})")),
            "5:54 units.wrong_dimension /variants/wide/changes/~1axles~1front~1track");
  EXPECT_EQ(faults_in(truck(R"({"/axles/front/track/left": "64 in"})")),
            "5:54 build.bad_change /variants/wide/changes/~1axles~1front~1track~1left");
  EXPECT_EQ(faults_in(truck(R"({"/variants/wide": null})")),
            "5:54 build.bad_change /variants/wide/changes/~1variants~1wide");
  EXPECT_EQ(faults_in(truck(R"({"/axles/front/tyre": "mud"})")),
            "5:54 build.dangling_id /variants/wide/changes/~1axles~1front~1tyre");
}

TEST(SetVariant, KeepsWhatDiffersAndNothingElse) {
  const auto read = read_well(truck("{}"));
  const auto varied = vary_build(*read.document, "wide");
  const auto edited = patch_build(
      *varied->document, R"([{"op": "replace", "path": "/axles/front/track", "value": "66 in"},
                             {"op": "remove", "path": "/masses/tank"}])");
  ASSERT_EQ(faults_of(edited), "");
  const auto kept = set_variant(*read.document, "wide", *edited->document);
  ASSERT_EQ(faults_of(kept), "");
  EXPECT_EQ(value_at(*kept->document, "/variants/wide/changes"),
            R"({"/masses/tank": null, "/axles/front/track": "66 in"})");
}

/// Whatever a variant is made of comes back from its changes.
RC_GTEST_PROP(SetVariant, GivesBackTheVariedBuild, ()) {
  const auto text = [] { return FileWriter::write(RandomFill::make(), false) + "\n"; };
  const auto base = read_build(text()), other = read_build(text());
  RC_ASSERT(base.has_value() && other.has_value());
  const auto kept = set_variant(*base->document, "other", *other->document);
  if (!kept) RC_FAIL(kept.error().front().message);
  const auto varied = vary_build(*kept->document, "other");
  RC_ASSERT(varied.has_value());
  for (const Difference& difference : find_differences(*varied->document, *other->document)) {
    RC_ASSERT(difference.path == "/variants");
  }
}

TEST(FindDifferences, SaysWhatDiffersInTheShopsWords) {
  const auto read = read_well(truck(
      R"({"/axles/front/track": {"value": "64 in", "from": "tape"}, "/masses/winch": null})"));
  const auto varied = vary_build(*read.document, "wide");
  const auto found = find_differences(*read.document, *varied->document);
  ASSERT_EQ(found.size(), 3U);
  EXPECT_EQ(found[2].path, "/variants");
  EXPECT_EQ(found[0].label, "Winch");
  EXPECT_EQ(found[0].a, "there");
  EXPECT_EQ(found[0].b, "not given");
  EXPECT_EQ(found[1].label, "Front axle, track");
  EXPECT_EQ(found[1].a, "60 in");
  EXPECT_EQ(found[1].b, "64 in");
}

TEST(FindDifferences, TellsWhatAVariantChanges) {
  const auto before = read_well(truck("{}"));
  const auto after = read_well(truck(R"({"/axles/front/track": "64 in"})"));
  const auto found = find_differences(*before.document, *after.document);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].label, "Wide, Front axle, track");
  EXPECT_EQ(found[0].a, "not given");
  EXPECT_EQ(found[0].b, "64 in");
}

}  // namespace
}  // namespace rig::build
