// The small parts that have no state.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "check/report_json.h"
#include "check/scene_json.h"
#include "serve/ask.h"
#include "serve/change_words.h"
#include "serve/code_picture.h"
#include "serve/compare.h"
#include "serve/picture.h"
#include "serve/test_shop_internal.h"
#include "serve/understand.h"

namespace rig::serve {
namespace {

using Json = nlohmann::json;

build::ReadBuild example(const std::string& from = {}, const std::string& to = {}) {
  std::string text = *read_text(TestFolder::example().string());
  if (!from.empty()) text = with(text, from, to);
  return *build::read_build(text);
}

TEST(Ask, SplitsItsTarget) {
  Ask ask;
  set_target(ask, "/api/understand?text=41%205%2F8+in&metric=false&empty&&bad=%zz%4");
  EXPECT_EQ(ask.path, "/api/understand");
  EXPECT_EQ(ask.parameter("text"), "41 5/8 in");
  EXPECT_EQ(ask.parameter("metric"), "false");
  EXPECT_EQ(ask.parameter("empty"), "");
  EXPECT_EQ(ask.parameter("bad"), "%zz%4");
  EXPECT_EQ(ask.query.size(), 4U);
}

TEST(Event, IsOneOfAStream) {
  const std::string text = event_text({.tag = "ab", .entry = 7, .by = {"one", "A\nB"}});
  EXPECT_EQ(text,
            "event: head\ndata: {\"etag\":\"ab\",\"entry\":7,\"screen\":\"one\",\"who\":\"A\\nB\"}"
            "\n\n");
}

TEST(TimeText, IsIso8601) { EXPECT_EQ(time_text(1772357400250), "2026-03-01T09:30:00.250Z"); }

TEST(Understand, AddsTheUnitThatWasLeftOut) {
  const units::UnitChoices inches{.metric = false, .fraction_of_inch = 16};
  const auto bare = *understand("length", " 41 5/8 ", inches);
  EXPECT_DOUBLE_EQ(bare.si, 41.625 * 0.0254);
  EXPECT_EQ(bare.written, "41 5/8 in");
  EXPECT_EQ(bare.text, "41 5/8 in");
  EXPECT_EQ(bare.also, "1057 mm");
  const auto metric = *understand("length", "41 5/8 in", {.metric = true});
  EXPECT_EQ(metric.written, "41 5/8 in");
  EXPECT_EQ(metric.text, "1057 mm");
  EXPECT_EQ(metric.also, "41 5/8 in");
  EXPECT_EQ(understand("length", "12 lb", inches).error().front().code, "units.wrong_dimension");
  EXPECT_EQ(understand("length", "  ", inches).error().front().code, "units.empty");
  EXPECT_EQ(understand("taste", "1", inches).error().front().code, "serve.unknown_dimension");
}

TEST(Understand, KnowsEveryDimensionOfTheInterface) {
  const Json units = Json::parse(check::units_json({}));
  for (const auto& [dimension, unit] : units["per_si"].items()) {
    EXPECT_TRUE(understand(dimension, "1", {}).has_value()) << dimension;
  }
}

TEST(ChangeWords, TellWhatWasChanged) {
  const auto a = example(), b = example("\"name\": \"", "\"name\": \"New ");
  EXPECT_NE(change_words(*a.document, *b.document).find("New "), std::string::npos);
  EXPECT_EQ(change_words(*a.document, *a.document), "No value changed");
  const auto parts = [](const char* text) {
    return build::read_build(fmt::format(R"({{"version": 1, {}}})", text));
  };
  const auto none = parts(R"("masses": {})");
  const auto box = parts(R"("masses": {"box": {"mass": "90 lb"}})");
  const auto bare = parts(R"("masses": {"box": {}})");
  ASSERT_TRUE(none && box && bare);
  EXPECT_EQ(change_words(*none->document, *box->document), "box added");
  EXPECT_EQ(change_words(*box->document, *none->document), "box taken out");
  EXPECT_EQ(change_words(*bare->document, *box->document), "box, mass: 90 lb added");
  EXPECT_EQ(change_words(*box->document, *bare->document), "box, mass: 90 lb taken out");
}

TEST(CompareWords, TellVerdictsAndNumbers) {
  const auto a = example(), b = example("\"bump_travel\": \"", "\"bump_travel\": \"1");
  const auto before = check::check(a.build), after = check::check(b.build);
  EXPECT_TRUE(compare_words(before, before).empty());
  const auto words = compare_words(before, after);
  EXPECT_TRUE(std::any_of(words.begin(), words.end(), [](const std::string& sentence) {
    return sentence.find("was ") != std::string::npos;
  })) << words.size();
}

TEST(Picture, DrawsTheScene) {
  const auto read = example();
  const std::string scene = check::scene_json(read.build, check::check(read.build));
  const std::string svg = picture_svg(scene);
  EXPECT_TRUE(svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\""));
  EXPECT_TRUE(svg.ends_with("</svg>"));
  const auto count = [&](const std::string& what) {
    std::size_t n = 0;
    for (auto at = svg.find(what); at != std::string::npos; at = svg.find(what, at + 1)) ++n;
    return n;
  };
  EXPECT_EQ(count("<circle class=\"tyre\""), 4U);
  EXPECT_EQ(count("<polygon class=\"rail\""), 2U);
  EXPECT_EQ(svg.find("nan"), std::string::npos);
}

TEST(CodePicture, IsSquareAndQuiet) {
  const std::string picture = code_picture("http://192.168.1.4:8080/#pair=123456");
  EXPECT_FALSE(picture.empty());
  // 29 modules (version 3 holds 42 bytes at level M, ISO/IEC 18004 table 7) and 4 quiet on each
  // side, two rows a line.
  EXPECT_EQ(std::count(picture.begin(), picture.end(), '\n'), 19);
  EXPECT_TRUE(code_picture(std::string(5000, 'x')).empty());
}

}  // namespace
}  // namespace rig::serve
