#include "build/patch.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <nlohmann/json.hpp>

#include "build/fixture_internal.h"
#include "build/random_build_internal.h"

namespace rig::build {
namespace {

using Json = nlohmann::ordered_json;

const char* const kTruck = R"({
  "version": 1,
  "masses": {
    "winch": {"mass": "90 lb"},
    "bumper": {"mass": "120 lb"},
    "tank": {"mass": "30 lb"}
  },
  "load_states": {"road": {"aboard": []}}
}
)";

std::shared_ptr<const Document> document_of(const std::string& text) {
  auto read = read_build(text);
  EXPECT_EQ(faults_of(read), "");
  return read ? read->document : nullptr;
}

std::string patched(const std::string& patch, const std::string& text = kTruck) {
  const auto after = patch_build(*document_of(text), patch);
  return after ? write_build(*after->document) : faults_of(after);
}

std::string masses_after(const std::string& patch) {
  const auto after = patch_build(*document_of(kTruck), patch);
  return after ? value_at(*after->document, "/masses").value_or("") : faults_of(after);
}

TEST(PatchBuild, ChangesOneValueAndNoOtherByte) {
  std::string expected = kTruck;
  expected.replace(expected.find("90 lb"), 5, "95 lb");
  EXPECT_EQ(patched(R"([{"op": "replace", "path": "/masses/winch/mass", "value": "95 lb"}])"),
            expected);
}

TEST(PatchBuild, KeepsItsPlaceInOrderWhenAThingIsRenamed) {
  EXPECT_EQ(
      masses_after(R"([{"op": "move", "from": "/masses/bumper", "path": "/masses/bar"}])"),
      R"({"winch": {"mass": "90 lb"}, "bar": {"mass": "120 lb"}, "tank": {"mass": "30 lb"}})");
}

TEST(PatchBuild, PutsACopyBesideWhatItIsACopyOf) {
  EXPECT_EQ(masses_after(R"([{"op": "copy", "from": "/masses/winch", "path": "/masses/other"}])"),
            R"({"winch": {"mass": "90 lb"}, "other": {"mass": "90 lb"}, )"
            R"("bumper": {"mass": "120 lb"}, "tank": {"mass": "30 lb"}})");
}

TEST(PatchBuild, TakesAllOrNothing) {
  EXPECT_EQ(patched(R"([{"op": "remove", "path": "/masses/tank"},
                        {"op": "replace", "path": "/masses/tank/mass", "value": "31 lb"}])"),
            "build.bad_patch /masses/tank/mass");
}

TEST(PatchBuild, ReportsWhatDoesNotRead) {
  const auto after =
      patch_build(*document_of(kTruck),
                  R"([{"op": "replace", "path": "/masses/winch/mass", "value": "95 in"}])");
  ASSERT_FALSE(after.has_value());
  EXPECT_EQ(after.error().front().path, "/masses/winch/mass");
}

/// RFC 6902, appendix A: the examples' kinds of error, on a truck.
TEST(PatchBuild, RefusesWhatTheStandardRefuses) {
  for (const char* patch : {
           R"([{"op": "add", "path": "/nothing/here", "value": 1}])",             // A.12
           R"([{"op": "test", "path": "/masses/winch/mass", "value": "1 lb"}])",  // A.9
           R"([{"op": "remove", "path": "/masses/none"}])",
           R"([{"op": "replace", "path": "/masses/none", "value": {}}])",
           R"([{"op": "move", "from": "/masses", "path": "/masses/winch"}])",
           R"([{"op": "add", "path": "/load_states/road/aboard/1", "value": "x"}])",
           R"([{"op": "add", "path": "", "value": {}}])",
           R"([{"op": "turn", "path": "/masses"}])",
           R"([{"op": "add", "path": "masses", "value": {}}])",
           R"([{"op": "add", "path": "/masses"}])",
           R"({"op": "remove", "path": "/masses"})",
           R"([{"op": "remove", "path": "/masses"},])",
           "[1]",
           "",
       }) {
    const auto after = patch_build(*document_of(kTruck), patch);
    ASSERT_FALSE(after.has_value()) << patch;
    EXPECT_EQ(after.error().front().code, "build.bad_patch") << patch;
    EXPECT_FALSE(after.error().front().remedy.empty()) << patch;
  }
}

TEST(PatchBuild, RefusesCopiesThatDoubleTheFileAgainAndAgain) {
  Json patch = Json::array();
  for (int i = 0; i < 40; ++i) {
    patch.push_back(
        {{"op", "copy"}, {"from", "/masses"}, {"path", "/masses/a" + std::to_string(i)}});
  }
  EXPECT_EQ(patched(patch.dump()).substr(0, 25), "build.bad_patch /masses/a");
}

TEST(PatchBuild, RefusesMoreLinesThanAnyEditHas) {
  const Json line = {{"op", "test"}, {"path", "/version"}, {"value", 1}};
  Json patch(1000, line);
  EXPECT_EQ(patched(patch.dump()), kTruck);
  patch.push_back(line);
  EXPECT_EQ(patched(patch.dump()), "build.bad_patch ");
}

/// Against another implementation of RFC 6902: the difference it makes between two builds, applied
/// here, gives the second build, and gives what it gives itself.
RC_GTEST_PROP(PatchBuild, AgreesWithAnotherReaderOfTheStandard, ()) {
  const auto text = [] { return FileWriter::write(RandomFill::make(), false) + "\n"; };
  const std::string before = text(), after = text();
  const Json patch = Json::diff(Json::parse(before), Json::parse(after));
  const auto read = read_build(before);
  RC_ASSERT(read.has_value());
  const auto mine = patch_build(*read->document, patch.dump());
  if (!mine) RC_FAIL(mine.error().front().message);
  RC_ASSERT(nlohmann::json::parse(write_build(*mine->document)) == nlohmann::json::parse(after));
}

std::vector<Conflict> conflicts(const std::string& yours, const std::string& theirs) {
  const auto base = document_of(kTruck);
  const auto head = patch_build(*base, theirs);
  EXPECT_EQ(faults_of(head), "");
  const auto found = find_conflicts(*base, *head->document, yours);
  EXPECT_TRUE(found.has_value());
  return *found;
}

TEST(FindConflicts, LetsEditsOfDifferentValuesStand) {
  EXPECT_TRUE(conflicts(R"([{"op": "replace", "path": "/masses/winch/mass", "value": "95 lb"}])",
                        R"([{"op": "replace", "path": "/masses/tank/mass", "value": "33 lb"}])")
                  .empty());
}

TEST(FindConflicts, ShowsTheValueThatBothChanged) {
  const auto found =
      conflicts(R"([{"op": "replace", "path": "/masses/winch/mass", "value": "95 lb"}])",
                R"([{"op": "replace", "path": "/masses/winch/mass", "value": "99 lb"}])");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].path, "/masses/winch/mass");
  EXPECT_EQ(found[0].base, R"("90 lb")");
  EXPECT_EQ(found[0].theirs, R"("99 lb")");
  EXPECT_EQ(found[0].yours, R"("95 lb")");
}

TEST(FindConflicts, HasNoneWhenBothWantTheSame) {
  const char* const same = R"([{"op": "replace", "path": "/masses/winch/mass", "value": "99 lb"}])";
  EXPECT_TRUE(conflicts(same, same).empty());
}

TEST(FindConflicts, SeesThatWhatHeldTheValueIsGone) {
  const auto found =
      conflicts(R"([{"op": "add", "path": "/masses/winch/label", "value": "Winch"}])",
                R"([{"op": "remove", "path": "/masses/winch"}])");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].theirs, std::nullopt);
}

TEST(FindConflicts, DoesNotTakeOutWhatOthersWorkedOn) {
  EXPECT_EQ(conflicts(R"([{"op": "remove", "path": "/masses/winch"}])",
                      R"([{"op": "replace", "path": "/masses/winch/mass", "value": "99 lb"}])")
                .size(),
            1U);
}

TEST(FindConflicts, CountsWhatThePatchItselfMadeAsItsOwn) {
  EXPECT_TRUE(conflicts(R"([{"op": "add", "path": "/masses/seat", "value": {}},
                            {"op": "add", "path": "/masses/seat/mass", "value": "40 lb"}])",
                        R"([{"op": "remove", "path": "/masses/winch"}])")
                  .empty());
}

TEST(FindConflicts, TakesAListAsOneValue) {
  EXPECT_EQ(conflicts(R"([{"op": "add", "path": "/load_states/road/aboard/-", "value": "tank"}])",
                      R"([{"op": "add", "path": "/masses/tank/optional_load", "value": true},
                          {"op": "add", "path": "/load_states/road/aboard/-", "value": "tank"}])")
                .front()
                .path,
            "/load_states/road/aboard");
}

}  // namespace
}  // namespace rig::build
