#include "build/change.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "build/fixture_internal.h"
#include "build/patch.h"
#include "build/random_build_internal.h"

namespace rig::build {
namespace {

const char* const kLinkedTruck = R"({
  "version": 1,
  "masses": {
    "winch": {"mass": "90 lb", "optional_load": true},
    "tank": {"fluid": {"liquid": "water", "volume": "10 gal"}},
    "seat": {"mass": "40 lb", "on": "front"}
  },
  "load_states": {
    "road": {"label": "Road", "aboard": ["winch"], "fills": {"tank": {"fill": "50 %"}}}
  },
  "axles": {
    "front": {
      "label": "Front axle",
      "end": "front",
      "links": {
        "lower": {
          "label": "Lower link",
          "role": "lower",
          "both_sides": true,
          "frame": {"at": {"station": "40 in", "offset": "15 1/2 in", "height": "20 in"}}
        },
        "track_bar": {
          "role": "track_bar",
          "frame": {"at": {"offset": {"value": "-20 in", "from": "tape"}, "station": "+5 in"}},
          "axle": {"at": {"offset": "+1 in"}}
        }
      }
    }
  },
  "frame": {
    "rails": {"main": {"both_sides": true}},
    "plates": {"box": {"rail": "main", "side": "left"}},
    "crossmembers": {"tank": {"joint": "web", "joins": ["main"]}},
    "stages": {"cut": {"label": "Cut", "take_out": ["box", "tank"]}, "done": {"put_in": ["tank"]}}
  },
  "variants": {"light": {"changes": {"/masses/winch/mass": "60 lb"}}}
}
)";

std::shared_ptr<const Document> document() {
  auto read = read_build(kLinkedTruck);
  EXPECT_EQ(faults_of(read), "");
  return read->document;
}

std::shared_ptr<const Document> changed(const Result<std::string>& patch) {
  EXPECT_TRUE(patch.has_value());
  if (!patch) return document();
  auto read = patch_build(*document(), *patch);
  EXPECT_EQ(faults_of(read), "") << *patch;
  return read ? read->document : document();
}

TEST(FindDependants, TellsWhatNamesAThing) {
  const auto found = find_dependants(*document(), "/masses/winch");
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].path, "/load_states/road/aboard/0");
  EXPECT_EQ(found[0].label, "Road, aboard");
  EXPECT_EQ(found[1].path, "/variants/light/changes/~1masses~1winch~1mass");
  EXPECT_EQ(find_dependants(*document(), "/axles/front").size(), 1U);
  EXPECT_TRUE(find_dependants(*document(), "/masses/seat").empty());
}

TEST(RenamePatch, IsFollowedByWhateverNamesTheThing) {
  const auto after = changed(rename_patch(*document(), "/masses/winch", "front_winch"));
  EXPECT_EQ(value_at(*after, "/load_states/road/aboard"), R"(["front_winch"])");
  EXPECT_EQ(value_at(*after, "/variants/light/changes"),
            R"({"/masses/front_winch/mass": "60 lb"})");
  EXPECT_EQ(value_at(*changed(rename_patch(*document(), "/masses/tank", "cell")),
                     "/load_states/road/fills"),
            R"({"cell": {"fill": "50 %"}})");
  EXPECT_EQ(
      value_at(*changed(rename_patch(*document(), "/axles/front", "steer")), "/masses/seat/on"),
      R"("steer")");
}

TEST(Change, FollowsWhatNamesThePartsOfTheFrame) {
  const auto found = find_dependants(*document(), "/frame/crossmembers/tank");
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].path, "/frame/stages/cut/take_out/1");
  EXPECT_EQ(found[0].label, "frame, Cut, take out");
  EXPECT_EQ(find_dependants(*document(), "/frame/rails/main").size(), 2U);
  const auto renamed = changed(rename_patch(*document(), "/frame/crossmembers/tank", "hoop"));
  EXPECT_EQ(value_at(*renamed, "/frame/stages/cut/take_out"), R"(["box", "hoop"])");
  EXPECT_EQ(value_at(*renamed, "/frame/stages/done/put_in"), R"(["hoop"])");
  const auto removed = changed(remove_patch(*document(), "/frame/plates/box"));
  EXPECT_EQ(value_at(*removed, "/frame/stages/cut/take_out"), R"(["tank"])");
  const auto mirrored = changed(mirror_patch(*document(), "/frame/plates/box"));
  EXPECT_EQ(value_at(*mirrored, "/frame/plates/box_mirror/side"), R"("right")");
  EXPECT_EQ(value_at(*mirrored, "/frame/plates/box/side"), R"("left")");
}

TEST(RenamePatch, RefusesAnIdThatIsTakenOrNone) {
  for (const char* to : {"tank", "Big Winch", ""}) {
    const auto patch = rename_patch(*document(), "/masses/winch", to);
    ASSERT_FALSE(patch.has_value()) << to;
    EXPECT_EQ(patch.error().front().code, "build.bad_change");
  }
  EXPECT_FALSE(rename_patch(*document(), "/masses", "things").has_value());
  EXPECT_FALSE(rename_patch(*document(), "/masses/none", "some").has_value());
}

TEST(CopyPatch, CopiesAWholeThing) {
  const auto after = changed(copy_patch(*document(), "/axles/front/links/lower", "upper"));
  EXPECT_EQ(value_at(*after, "/axles/front/links/upper"),
            value_at(*document(), "/axles/front/links/lower"));
}

TEST(MirrorPatch, SetsTheTwoSidesApart) {
  const auto after = changed(mirror_patch(*document(), "/axles/front/links/lower"));
  EXPECT_EQ(value_at(*after, "/axles/front/links/lower"), std::nullopt);
  EXPECT_EQ(value_at(*after, "/axles/front/links/lower_left/both_sides"), std::nullopt);
  EXPECT_EQ(value_at(*after, "/axles/front/links/lower_left/frame/at/offset"), R"("15 1/2 in")");
  EXPECT_EQ(value_at(*after, "/axles/front/links/lower_right/frame/at/offset"), R"("-15 1/2 in")");
  EXPECT_EQ(value_at(*after, "/axles/front/links/lower_right/label"), R"("Lower link, right")");
}

TEST(MirrorPatch, TurnsOffsetsRoundAsTheyAreWritten) {
  const auto after = changed(mirror_patch(*document(), "/axles/front/links/track_bar"));
  EXPECT_EQ(value_at(*after, "/axles/front/links/track_bar_mirror/frame/at/offset/value"),
            R"("20 in")");
  EXPECT_EQ(value_at(*after, "/axles/front/links/track_bar_mirror/axle/at/offset"), R"("-1 in")");
  EXPECT_EQ(value_at(*after, "/axles/front/links/track_bar_mirror/frame/at/station"), R"("+5 in")");
}

TEST(RemovePatch, TakesAlongWhatNamesTheThing) {
  const auto after = changed(remove_patch(*document(), "/masses/winch"));
  EXPECT_EQ(value_at(*after, "/load_states/road/aboard"), "[]");
  EXPECT_EQ(value_at(*after, "/variants/light/changes"), "{}");
  EXPECT_EQ(value_at(*changed(remove_patch(*document(), "/axles/front")), "/masses/seat"),
            R"({"mass": "40 lb"})");
}

/// Whatever is taken out of a random build, with what names it, the rest still reads; and a new
/// name and the old one again give the very same file.
RC_GTEST_PROP(Change, LeavesARandomBuildThatReads, ()) {
  const std::string text = FileWriter::write(RandomFill::make(), false) + "\n";
  const auto read = read_build(text);
  RC_ASSERT(read.has_value());
  const auto json = nlohmann::ordered_json::parse(text);
  const auto map = *rc::gen::elementOf(
      std::vector<std::string>{"masses", "tyres", "load_states", "axles", "frame/steels",
                               "frame/rails", "frame/plates", "frame/crossmembers"});
  const auto& things = json.at(nlohmann::ordered_json::json_pointer("/" + map));
  const auto index = *rc::gen::inRange<std::size_t>(0, things.size());
  const std::string id =
      std::next(things.items().begin(), static_cast<std::ptrdiff_t>(index)).key();
  const std::string path = "/" + map + "/" + id;

  const auto removal = remove_patch(*read->document, path);
  RC_ASSERT(removal.has_value());
  const auto without = patch_build(*read->document, *removal);
  if (!without) RC_FAIL(faults_of(without));

  const auto renamed = patch_build(*read->document, *rename_patch(*read->document, path, "other"));
  if (!renamed) RC_FAIL(faults_of(renamed));
  const auto back =
      patch_build(*renamed->document, *rename_patch(*renamed->document, "/" + map + "/other", id));
  RC_ASSERT(back.has_value());
  RC_ASSERT(write_build(*back->document) == text);
}

}  // namespace
}  // namespace rig::build
