#include <gtest/gtest.h>

#include "build/fixture_internal.h"
#include "build/read.h"

namespace rig::build {
namespace {

std::string written(const std::string& text) {
  const auto read = read_build(text);
  EXPECT_EQ(faults_of(read), "");
  return read ? write_build(*read->document) : "";
}

TEST(WriteBuild, GivesBackTheFixturesByteForByte) {
  for (const char* name : {"full.rig.json", "tape.rig.json"}) {
    const std::string text = read_source_file(std::string("src/build/fixtures/") + name);
    EXPECT_EQ(written(text), text) << name;
  }
}

TEST(WriteBuild, KeepsOrderAndTheWritingOfValues) {
  EXPECT_EQ(
      written("{\"name\" :\"\\u0041 \\/ B\",\t\"masses\":{ \"z\" : {\"mass\":\"1.50 lb\"} ,\r\n"
              "\"a\":{ }}, \"version\":1.0}"),
      "{\n"
      "  \"name\": \"\\u0041 \\/ B\",\n"
      "  \"masses\": {\n"
      "    \"z\": {\"mass\": \"1.50 lb\"},\n"
      "    \"a\": {}\n"
      "  },\n"
      "  \"version\": 1.0\n"
      "}\n");
}

TEST(WriteBuild, BreaksALineThatGrowsTooLong) {
  const std::string label(100, 'x');
  EXPECT_EQ(written("{\"version\": 1, \"masses\": {\"a\": {\"label\": \"" + label + "\"}}}"),
            "{\n"
            "  \"version\": 1,\n"
            "  \"masses\": {\"a\": {\"label\": \"" +
                label +
                "\"}}\n"
                "}\n");
  const std::string longer(150, 'x');
  EXPECT_EQ(written("{\"version\": 1, \"masses\": {\"a\": {\"label\": \"" + longer + "\"}}}"),
            "{\n"
            "  \"version\": 1,\n"
            "  \"masses\": {\n"
            "    \"a\": {\n"
            "      \"label\": \"" +
                longer +
                "\"\n"
                "    }\n"
                "  }\n"
                "}\n");
}

TEST(WriteBuild, StaysAtOneLineOf140ColumnsWithItsComma) {
  const auto text_of = [](int letters) {
    return "{\n  \"version\": 1,\n  \"units\": {\"metric\": true},\n  \"masses\": {\"a\": "
           "{\"label\": \"" +
           std::string(static_cast<std::size_t>(letters), 'x') + "\"}},\n  \"tyres\": {}\n}\n";
  };
  // 32 columns stand in front of the letters and behind them, and one is the comma's.
  EXPECT_EQ(written(text_of(107)), text_of(107));
  EXPECT_NE(written(text_of(108)), text_of(108));
  EXPECT_EQ(written(written(text_of(108))), written(text_of(108)));
}

std::string edited(const std::string& text, const std::vector<Edit>& edits) {
  const auto read = read_build(text);
  const auto after = edit_build(*read->document, edits);
  return after ? write_build(*after->document) : faults_of(after);
}

TEST(EditBuild, ChangesOneValueAndNothingElse) {
  const std::string text = read_source_file("src/build/fixtures/full.rig.json");
  std::string expected = text;
  const std::string before = R"("pinion": "8 deg")";
  expected.replace(expected.find(before), before.size(), R"("pinion": "7 3/4 deg")");
  const auto after = edit_build(*read_fixture("full.rig.json").document,
                                {{"/axles/rear/pinion", "\"7 3/4 deg\""}});
  ASSERT_EQ(faults_of(after), "");
  EXPECT_EQ(write_build(*after->document), expected);
  EXPECT_NEAR(find(after->build.axles, "rear")->value.pinion.si, 7.75 * 3.14159265358979 / 180,
              1e-12);
}

TEST(EditBuild, MakesMissingParents) {
  EXPECT_EQ(
      edited("{\n  \"version\": 1\n}", {{"/axles/front/end", "\"front\""},
                                        {"/frame/rails/main/line/-/station", "\"3 in\""},
                                        {"/frame/rails/main/line/1", "{\"station\": \"40 in\"}"}}),
      R"({
  "version": 1,
  "axles": {
    "front": {
      "end": "front"
    }
  },
  "frame": {
    "rails": {
      "main": {
        "line": [
          {
            "station": "3 in"
          },
          {"station": "40 in"}
        ]
      }
    }
  }
}
)");
}

TEST(EditBuild, TakesNullForMissing) {
  EXPECT_EQ(edited("{\n  \"version\": 1,\n  \"units\": null\n}", {{"/units/metric", "true"}}),
            "{\n  \"version\": 1,\n  \"units\": {\n    \"metric\": true\n  }\n}\n");
}

TEST(EditBuild, RemovesKeysAndItems) {
  const std::string text = R"({
  "version": 1,
  "masses": {"a": {"optional_load": true}, "b": {"optional_load": true}},
  "load_states": {"s": {"label": "x", "aboard": ["a", "b"]}}
}
)";
  EXPECT_EQ(
      edited(text,
             {{"/load_states/s/aboard/0", ""}, {"/masses/a", ""}, {"/load_states/s/label", ""}}),
      R"({
  "version": 1,
  "masses": {"b": {"optional_load": true}},
  "load_states": {"s": {"aboard": ["b"]}}
}
)");
}

TEST(EditBuild, AppliesEditsInOrder) {
  EXPECT_EQ(edited("{\"version\": 1}",
                   {{"/masses/b", "{}"}, {"/masses/b/mass", "\"2 lb\""}, {"/masses/b", ""}}),
            "{\"version\": 1, \"masses\": {}}\n");
}

TEST(EditBuild, RefusesAnEditThatLeadsNowhere) {
  const std::string text =
      R"({"version": 1, "name": "x", "frame": {"rails": {"main": {"line": [{}, {}]}}}})";
  const auto refused = [&](const std::string& path, const std::string& json) {
    return edited(text, {{path, json}});
  };
  EXPECT_EQ(refused("", "{}"), "build.bad_edit ");
  EXPECT_EQ(refused("name", "1"), "build.bad_edit name");
  EXPECT_EQ(refused("/a~2", "1"), "build.bad_edit /a~2");
  std::string deep;
  for (int i = 0; i < 1000000; ++i) deep += "/a";
  EXPECT_EQ(refused(deep, "1"), "build.bad_edit " + deep);
  EXPECT_EQ(refused("/name/x", "1"), "build.bad_edit /name/x");
  EXPECT_EQ(refused("/frame/rails/main/line/3", "{}"), "build.bad_edit /frame/rails/main/line/3");
  EXPECT_EQ(refused("/frame/rails/main/line/01", "{}"), "build.bad_edit /frame/rails/main/line/01");
  EXPECT_EQ(refused("/frame/rails/main/line/x", "{}"), "build.bad_edit /frame/rails/main/line/x");
  EXPECT_EQ(refused("/frame/rails/main/line/2", ""), "build.bad_edit /frame/rails/main/line/2");
  EXPECT_EQ(refused("/masses/a", ""), "build.bad_edit /masses/a");
  EXPECT_EQ(refused("/name", "12 in"), "build.bad_edit /name");
  EXPECT_EQ(refused("/name", "\"x\" 1"), "build.bad_edit /name");
  EXPECT_EQ(refused("/name", " "), "build.bad_edit /name");
}

TEST(EditBuild, ChecksTheWholeAfterwards) {
  EXPECT_EQ(edited("{\n  \"version\": 1\n}", {{"/masses/a/mass", "12"}}),
            "5:15 units.no_unit /masses/a/mass");
  EXPECT_EQ(edited("{\n  \"version\": 1\n}", {{"/masses/a\"\n\\", "{}"}}),
            "4:5 build.bad_id /masses/a\"\n\\");
  EXPECT_EQ(edited("{\n  \"version\": 1\n}", {{"/version", ""}}), "1:1 build.missing_key /version");
}

TEST(EditBuild, LeavesTheOldDocumentAlone) {
  const auto read = read_fixture("tape.rig.json");
  const std::string before = write_build(*read.document);
  ASSERT_TRUE(edit_build(*read.document, {{"/name", "\"other\""}}).has_value());
  EXPECT_EQ(write_build(*read.document), before);
}

}  // namespace
}  // namespace rig::build
