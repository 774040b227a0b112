#include "build/read.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>

#include "build/fixture_internal.h"
#include "units/factors.h"

namespace rig::build {
namespace {

TEST(ReadBuild, ReadsEveryKindOfValue) {
  const Build build = read_fixture("full.rig.json").build;
  EXPECT_EQ(build.version, 1);
  EXPECT_EQ(build.name, "Ridge Mule");
  EXPECT_FALSE(build.units.metric);
  EXPECT_EQ(build.units.fraction_of_inch, 32);
  EXPECT_EQ(build.ride_state.id, "trail");

  ASSERT_EQ(build.masses.size(), 7U);
  const auto& frame = build.masses[0];
  EXPECT_EQ(frame.id, "frame");
  EXPECT_EQ(frame.path, "/masses/frame");
  EXPECT_DOUBLE_EQ(frame.value.mass.si, units::kg_from_lb(410));
  EXPECT_DOUBLE_EQ(frame.value.mass.plus_minus_si, units::kg_from_lb(25));
  EXPECT_EQ(frame.value.mass.from, From::kEstimate);
  EXPECT_EQ(frame.value.mass.note, "rails and crossmembers");
  EXPECT_DOUBLE_EQ(frame.value.at.p_VP().x(), -units::m_from_inch(62));
  EXPECT_DOUBLE_EQ(frame.value.at.p_VP().z(), units::m_from_inch(24.5));

  const Axle& axle = find(build.axles, "front")->value;
  EXPECT_DOUBLE_EQ(axle.brake_share.si, 0.62);
  EXPECT_DOUBLE_EQ(axle.drive_share.si, 0.5);
  EXPECT_DOUBLE_EQ(axle.pinion.si, units::rad_from_deg(5.5));
  EXPECT_TRUE(axle.steered);
  const auto& lower = axle.links.front();
  EXPECT_EQ(lower.path, "/axles/front/links/lower");
  EXPECT_TRUE(lower.value.both_sides);
  ASSERT_TRUE(lower.value.frame.bushing.has_value());
  EXPECT_DOUBLE_EQ(lower.value.frame.bushing->radial.si, units::N_per_m_from_lbf_per_inch(30000));
  EXPECT_FALSE(lower.value.axle.bushing.has_value());
  EXPECT_EQ(axle.links.back().value.role, LinkRole::kTrackBar);

  const LoadState& trail = find(build.load_states, "trail")->value;
  ASSERT_EQ(trail.aboard.size(), 2U);
  EXPECT_EQ(trail.aboard[1].id, "toolbox");
  EXPECT_DOUBLE_EQ(find(trail.fills, "fuel")->value.fill.si, 0.5);

  const Rail& rail = find(build.frame.rails, "main")->value;
  EXPECT_EQ(rail.line.size(), 3U);
  EXPECT_DOUBLE_EQ(rail.section->thickness.si, 3.0 / 16 * 0.0254);
  EXPECT_EQ(find(rail.stretches, "tail")->value.section->shape, SectionShape::kRectangularTube);
  const Crossmember& front = find(build.frame.crossmembers, "front")->value;
  EXPECT_EQ(front.opens, Facing::kRearward);
  EXPECT_EQ(front.bolts->count, 4);
  EXPECT_EQ(build.frame.stages[1].value.put_in[1].id, "tube");
  EXPECT_DOUBLE_EQ(build.frame.steels[1].value.yield.si, 500e6);
}

TEST(ReadBuild, LeavesWhatIsLeftOutOrNullUnknown) {
  const Build build = read_fixture("tape.rig.json").build;
  EXPECT_FALSE(build.axles[0].value.links[0].value.frame.at.station.known());
  EXPECT_TRUE(build.axles[0].value.links[0].value.frame.at.offset.known());
  EXPECT_FALSE(build.axles[0].value.track.known());
  EXPECT_DOUBLE_EQ(build.axles[1].value.station.si, 2.997);
  EXPECT_FALSE(build.hitch.has_value());
  EXPECT_EQ(build.units.fraction_of_inch, 16);
}

TEST(ReadBuild, PutsTheFrontAxleAtItsOwnLine) {
  const Build build = read_fixture("tape.rig.json").build;
  EXPECT_EQ(build.axles[0].value.station.si, 0);
}

TEST(ReadBuild, ReadsTheExampleOfTheManual) {
  const std::string manual = read_source_file("docs/build-file.md");
  const std::string fence = "```json\n";
  const std::size_t start = manual.find(fence) + fence.size();
  const std::string example = manual.substr(start, manual.find("```", start) - start);
  const auto read = read_build(example);
  ASSERT_EQ(faults_of(read), "");
  EXPECT_EQ(write_build(*read->document), example);
}

TEST(ReadBuild, TakesNullForAnyKeyButARequiredOne) {
  EXPECT_EQ(faults_in(R"({"version": 1, "name": null, "units": null, "masses": {"a": null},
    "tyres": null, "axles": {"a": {"end": "rear", "tyre": null, "steered": null, "track": null}}})"),
            "");
  EXPECT_EQ(faults_in(R"({"version": null})"), "1:1 build.missing_key /version");
}

/// A wrong file's text, with an @ in front of each place that must be pointed at, and what must be
/// said of these places in the order of the text, as `code path`.
struct Wrong {
  const char* name;
  std::string marked;
  std::vector<std::string> faults;
};

std::string without_marks(const std::string& marked) {
  std::string text;
  std::copy_if(marked.begin(), marked.end(), std::back_inserter(text),
               [](char c) { return c != '@'; });
  return text;
}

std::string expected_faults(const Wrong& wrong) {
  std::string out;
  int line = 1;
  int column = 1;
  auto fault = wrong.faults.begin();
  for (const char c : wrong.marked) {
    if (c == '@') {
      out += fmt::format("{}{}:{} {}", out.empty() ? "" : "\n", line, column, *fault++);
      continue;
    }
    column = c == '\n' ? 1 : column + 1;
    if (c == '\n') ++line;
  }
  EXPECT_EQ(fault, wrong.faults.end());
  return out;
}

class ReadBuildWrong : public testing::TestWithParam<Wrong> {};

TEST_P(ReadBuildWrong, IsReportedWhereItIs) {
  EXPECT_EQ(faults_in(without_marks(GetParam().marked)), expected_faults(GetParam()));
}

/// Some content of the whole file.
Wrong file(const char* name, const std::string& marked, std::vector<std::string> faults) {
  return {name, fmt::format("{{\"version\": 1,\n{}}}", marked), std::move(faults)};
}
/// Some content of one mass item.
Wrong mass(const char* name, const std::string& marked, const std::string& code,
           const std::string& below = "/mass") {
  return file(name, "\"masses\": {\"x\":\n {" + marked + "}}", {code + " /masses/x" + below});
}
/// Some content of the front axle, and what must be said of its places.
Wrong axle(const char* name, const std::string& marked, const std::string& code,
           const std::string& below) {
  return file(name, "\"axles\": {\"f\": {\"end\": \"front\",\n" + marked + "}}",
              {code + " /axles" + below});
}

INSTANTIATE_TEST_SUITE_P(
    Whole, ReadBuildWrong,
    testing::Values(
        Wrong{"NotJson", R"({"version": 1,@})", {"build.not_json "}},
        Wrong{"NotAGroup", "@[]", {"build.wrong_type "}},
        Wrong{"VersionMissing", R"(@{"name": "x"})", {"build.missing_key /version"}},
        Wrong{"VersionNewer", R"({"version": @2, "nmae": 1})", {"build.version /version"}},
        Wrong{"VersionZero", R"({"version": @0})", {"build.version /version"}},
        Wrong{"VersionBroken", R"({"version": @1.5})", {"build.version /version"}},
        Wrong{"VersionHuge", R"({"version": @1e999})", {"build.version /version"}},
        Wrong{"VersionText", R"({"version": @"1"})", {"build.wrong_type /version"}},
        file("UnknownKey", R"(@"nmae": 1)", {"build.unknown_key /nmae"}),
        file("UnknownWord", R"("axles": {"a": {"end": @"frnt"}})",
             {"build.unknown_word /axles/a/end"}),
        file("WordWrong", R"("axles": {"a": {"end": @1}})", {"build.wrong_type /axles/a/end"}),
        file("EndMissing", R"("axles": {"a": @{}, "b": @{"end": null}})",
             {"build.missing_key /axles/a/end", "build.missing_key /axles/b/end"}),
        file("TextWrong", R"("name": @5)", {"build.wrong_type /name"}),
        file("TextControl", R"("name": @"a\nb")", {"build.bad_text /name"}),
        file("TextLong", "\"name\": @\"" + std::string(401, 'x') + "\"", {"build.bad_text /name"}),
        file("FlagWrong", R"("units": {"metric": @1})", {"build.wrong_type /units/metric"}),
        file("FractionWrong", R"("units": {"fraction_of_inch": @12})",
             {"build.out_of_range /units/fraction_of_inch"}),
        file("BadId", R"("masses": {@"Winch": {}, @"9": {}, @"": {}, @"a b": {}})",
             {"build.bad_id /masses/Winch", "build.bad_id /masses/9", "build.bad_id /masses/",
              "build.bad_id /masses/a b"}),
        file("LongId", "\"masses\": {@\"" + std::string(41, 'a') + "\": {}}",
             {"build.bad_id /masses/" + std::string(41, 'a')}),
        file("MapWrong", R"("masses": @[])", {"build.wrong_type /masses"}),
        file("EntryWrong", R"("masses": {"a": @"12 lb"})", {"build.wrong_type /masses/a"}),
        file("ListWrong", R"("frame": {"rails": {"a": {"line": @{}}}})",
             {"build.wrong_type /frame/rails/a/line"}),
        file("PointWrong", R"("frame": {"rails": {"a": {"line": [@null, @3]}}})",
             {"build.wrong_type /frame/rails/a/line/0", "build.wrong_type /frame/rails/a/line/1"}),
        file("DanglingId", R"("ride_state": @"raod")", {"build.dangling_id /ride_state"}),
        file("DanglingNull", R"("ride_state": @"a", "load_states": {"a": null})",
             {"build.dangling_id /ride_state"}),
        file("ReferenceWrong", R"("ride_state": @4)", {"build.wrong_type /ride_state"}),
        file("AntiSquat", R"("limits": {"anti_squat_min": "90 %", "anti_squat_max": @"80 %"})",
             {"build.impossible /limits/anti_squat_max"}),
        file("PercentForgotten", R"("limits": {"anti_squat_min": @"60"})",
             {"build.out_of_range /limits/anti_squat_min"}),
        file("Aboard", R"("masses": {"a": {"optional_load": true}, "b": {}},
 "load_states": {"s": {"aboard": ["a", @"a", @"b", @"c", @4]}})",
             {"build.listed_twice /load_states/s/aboard/1",
              "build.not_optional /load_states/s/aboard/2",
              "build.dangling_id /load_states/s/aboard/3",
              "build.wrong_type /load_states/s/aboard/4"}),
        file("FillOfWhat", R"("masses": {"a": {}, "t": {"fluid": {}}},
 "load_states": {"s": {"fills": {"t": {}, @"a": {}, @"b": {}, @"B": {}}}})",
             {"build.dangling_id /load_states/s/fills/a",
              "build.dangling_id /load_states/s/fills/b", "build.bad_id /load_states/s/fills/B"})),
    [](const auto& wrong) { return wrong.param.name; });

INSTANTIATE_TEST_SUITE_P(
    Quantity, ReadBuildWrong,
    testing::Values(
        mass("NoUnit", R"("mass": @12)", "units.no_unit"),
        mass("NoUnitHuge", R"("mass": @1e999)", "units.no_unit"),
        mass("Empty", R"("mass": @"")", "units.empty"),
        mass("NaNText", R"("mass": @"NaN")", "units.not_a_number"),
        mass("NaNUnitText", R"("mass": @"nan lb")", "units.not_a_number"),
        mass("NoUnitText", R"("mass": @"12")", "units.no_unit"),
        mass("UnknownUnit", R"("mass": @"12 libs")", "units.unknown_unit"),
        mass("WrongDimension", R"("mass": @"12 lbf")", "units.wrong_dimension"),
        mass("TextAfter", R"("mass": @"12 lb 3 lb")", "units.trailing_text"),
        mass("TooFar", R"("mass": @"1e400 lb")", "units.out_of_range"),
        mass("LongText", "\"mass\": @\"12 lb" + std::string(100, ' ') + "\"", "units.not_a_number"),
        mass("Flag", R"("mass": @true)", "build.wrong_type"),
        mass("List", R"("mass": @["12 lb"])", "build.wrong_type"),
        mass("Negative", R"("mass": @"-12 lb")", "build.out_of_range"),
        mass("Huge", R"("mass": @"1e9 lb")", "build.out_of_range"),
        mass("Tiny", R"("mass": @"1e-9 kg")", "build.out_of_range"),
        mass("LongForm", R"("mass": {"value": @"-12 lb"})", "build.out_of_range", "/mass/value"),
        mass("LongFormKey", R"("mass": {@"vlaue": "2 lb"})", "build.unknown_key", "/mass/vlaue"),
        mass("LongFormPlusMinus", R"("mass": {"plus_minus": @"-1 lb"})", "build.out_of_range",
             "/mass/plus_minus"),
        mass("LongFormFrom", R"("mass": {"from": @"tpae"})", "build.unknown_word", "/mass/from"),
        mass("LongFormNote", R"("mass": {"note": @7})", "build.wrong_type", "/mass/note"),
        mass("RatioPercent", R"("fluid": {"fill": @60})", "build.out_of_range", "/fluid/fill"),
        mass("RatioHuge", R"("fluid": {"fill": @"120 %"})", "build.out_of_range", "/fluid/fill"),
        mass("FarAway", R"("at": {"station": @"5000 in"})", "build.out_of_range", "/at/station")),
    [](const auto& wrong) { return wrong.param.name; });

INSTANTIATE_TEST_SUITE_P(
    Together, ReadBuildWrong,
    testing::Values(
        mass("MassAndFluid", R"("mass": "1 lb", "fluid": @{})", "build.mass_and_fluid", "/fluid"),
        axle("CoilSolid", R"("coils": {"c": {"free_length": "8 in", "solid_length": @"8 in"}})",
             "build.impossible", "/f/coils/c/solid_length"),
        axle("CoilUpsideDown",
             R"("coils": {"c": {"upper": {"height": @"20 in"}, "lower": {"height": "20 in"}}})",
             "build.impossible", "/f/coils/c/upper/height"),
        axle("DamperClosed",
             R"("dampers": {"d": {"closed_length": "20 in", "open_length": @"12 in"}})",
             "build.impossible", "/f/dampers/d/open_length"),
        axle("TubeWall",
             R"("links": {"l": {"role": "lower", "tube": {"outside_diameter": "2 in",
                                                          "wall": @"1.1 in"}}})",
             "build.impossible", "/f/links/l/tube/wall"),
        axle("LeafEyes",
             R"("leaf_packs": {"l": {"front_eye": {"station": "20 in"},
                                     "rear_eye": {"station": @"20 in"}}})",
             "build.impossible", "/f/leaf_packs/l/rear_eye/station"),
        axle("StopTravel", R"("bump_stops": {"s": {"free_height": "3 in", "end_travel": @"3 in"}})",
             "build.impossible", "/f/bump_stops/s/end_travel"),
        axle("StopRate",
             R"("bump_stops": {"s": {"rate": "300 lbf/in", "end_rate": @"200 lbf/in"}})",
             "build.impossible", "/f/bump_stops/s/end_rate"),
        axle("MirroredRight",
             R"("coils": {"c": {"both_sides": @true, "upper": {"offset": "-5 in"},
                                "lower": {"offset": "-5 in"}}})",
             "build.impossible", "/f/coils/c/both_sides"),
        axle("RoleMissing", R"("links": {"l": @{}})", "build.missing_key", "/f/links/l/role"),
        axle("KindMissing", R"("arms": {"a": @{}})", "build.missing_key", "/f/arms/a/kind"),
        axle("Datum", R"("station": @"3 in")", "build.datum", "/f/station"),
        axle("TwoFront", R"("label": "x"}, "r": {"end": @"front")", "build.impossible", "/r/end"),
        axle("RearInFront", R"("label": "x"}, "r": {"end": "rear", "station": @"-100 in")",
             "build.impossible", "/r/station"),
        axle("ThreeAxles", R"("label": "x"}, "r": {"end": "rear"}, "t": @{"end": "rear")",
             "build.impossible", "/t"),
        axle("BrakeShares", R"("brake_share": 0.7}, "r": {"end": "rear", "brake_share": @0.4)",
             "build.impossible", "/r/brake_share"),
        axle("DriveShares",
             R"("drive_share": "60 %"}, "r": {"end": "rear", "drive_share": @"60 %")",
             "build.impossible", "/r/drive_share")),
    [](const auto& wrong) { return wrong.param.name; });

std::string remedy_in(const std::string& text) {
  const auto read = read_build(text);
  return read ? "" : read.error().front().message + " " + read.error().front().remedy;
}

TEST(ReadBuild, SaysWhatWouldBeRight) {
  EXPECT_EQ(remedy_in(R"({"version": 1, "axles": {"a": {}}})"),
            "\"end\" is missing here: Which end of the truck. Give one of: front, rear.");
  EXPECT_EQ(remedy_in("{}"), "\"version\" is missing here: Format of the file. Give one of: 1.");
  EXPECT_EQ(remedy_in(R"({"version": 1, "units": {"metric": "yes"}})"),
            "Text \"yes\" stands here where true or false should. Give true or false, or leave the "
            "key out while it is not known.");
  EXPECT_EQ(
      remedy_in(R"({"version": 1, "limits": []})"),
      "A list [ ] stands here where limits in { } should. Give limits in { }, or leave the key "
      "out while it is not known.");
  EXPECT_EQ(remedy_in(R"({"version": 1, "masses": {"x": {"at": {"sation": "1 in"}}}})"),
            "\"sation\" is not a key of a point. Did you mean \"station\"? Known here: station, "
            "offset, height.");
  EXPECT_EQ(remedy_in(R"({"version": 1, "axles": {"a": {"end": "raer"}}})"),
            "\"raer\" is not a word known here. Did you mean \"rear\"? Give one of: front, rear.");
  EXPECT_EQ(
      remedy_in(R"({"version": 1, "ride_state": "raod", "load_states": {"road": {}, "full": {}}})"),
      "\"load_states\" has nothing with the id \"raod\". Did you mean \"road\"? There are: "
      "road, full.");
  EXPECT_EQ(remedy_in(R"({"version": 1, "axles": {"a": {"end": "front", "track": "-3 in"}}})"),
            "\"-3 in\" is out of range. Give more than 0 in and at most 1968 1/2 in.");
  EXPECT_EQ(remedy_in(R"({"version": 1, "units": {"metric": true},
                          "axles": {"a": {"end": "front", "track": "-3 in"}}})"),
            "\"-3 in\" is out of range. Give more than 0 mm and at most 50000 mm.");
  EXPECT_EQ(remedy_in(R"({"version": 1, "axles": {"a": {"end": "front", "track": 62.25}}})"),
            "The bare number \"62.25\" has no unit. Give a length as text with its unit, such as "
            "\"62.25 in\".");
  EXPECT_EQ(
      remedy_in(R"({"version": 7})"),
      "The file is of version \"7\", made by a newer Rigwright. This one knows version 1; use "
      "the newer program.");
}

TEST(ReadBuild, FindsAllFaultsInOnePassInTheOrderOfTheText) {
  const Wrong wrong{"All",
                    R"({"ride_state": @"road",
 "name": @4,
 "axles": {"a": {"end": @"up"@ @"trck": 1}},
 "version": 1, @"version": 1})",
                    {"build.dangling_id /ride_state", "build.wrong_type /name",
                     "build.unknown_word /axles/a/end", "build.not_json /axles/a",
                     "build.unknown_key /axles/a/trck", "build.duplicate_key /version"}};
  EXPECT_EQ(faults_in(without_marks(wrong.marked)), expected_faults(wrong));
}

TEST(ReadBuild, RefusesWhatIsTooLargeOrHasTooManyFaults) {
  const std::string large(std::size_t{8} * 1024 * 1024 + 1, ' ');
  EXPECT_EQ(faults_in(large), "1:1 build.too_large ");
  std::string many = R"({"version": 1, "masses": {)";
  for (int i = 0; i < 5000; ++i) many += "\"a" + std::to_string(i) + "\": {\"mas\": 1},\n";
  const auto read = read_build(many + "\"z\": {}}}");
  ASSERT_FALSE(read.has_value());
  EXPECT_EQ(read.error().size(), 201U);
  EXPECT_EQ(read.error().back().code, "build.too_many");
}

TEST(ReadBuild, ShowsNothingInAMessageThatCouldUpsetATerminal) {
  const auto read = read_build(R"({"version": 1, "\u001b[2J)" + std::string(5000, 'x') + "\": 1}");
  ASSERT_FALSE(read.has_value());
  const std::string& message = read.error().front().message;
  EXPECT_EQ(message.find('\x1b'), std::string::npos);
  EXPECT_LT(message.size(), 200U);
}

// Nothing may be more than a little slower than the size of the file calls for.
TEST(ReadBuild, StaysQuickOnFilesMadeToBeSlow) {
  std::string aboard = R"({"version": 1, "masses": {)";
  for (int i = 0; i < 50000; ++i) {
    aboard += "\"a" + std::to_string(i) + R"(": {"optional_load": true}, )";
  }
  aboard += R"("z": {}}, "load_states": {"s": {"aboard": ["a0")";
  for (int i = 1; i < 50000; ++i) aboard += ", \"a" + std::to_string(i) + "\"";
  EXPECT_EQ(faults_in(aboard + "]}}}"), "");
}

}  // namespace
}  // namespace rig::build
