#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <tuple>

#include "build/document_internal.h"
#include "build/fixture_internal.h"
#include "build/utf8_internal.h"

namespace rig::build {
namespace {

std::string json_faults(const std::string& text) {
  Faults faults;
  (void)parse_json(text, faults);
  return faults.empty() ? "" : faults_of(Failure{faults.take()});
}

TEST(ParseJson, KeepsOrderWritingAndPlaces) {
  Faults faults;
  const auto root = parse_json("{\n  \"b\": [1.50, \"\\u00bd in\"],\r\n\t\"a\": {} }", faults);
  ASSERT_TRUE(faults.empty());
  ASSERT_EQ(root->members.size(), 2U);
  EXPECT_EQ(root->members[0].key, "b");
  const Node& list = root->members[0].value;
  EXPECT_EQ(std::tuple(list.at.line, list.at.column), std::tuple(2, 8));
  EXPECT_TRUE(list.one_line);
  EXPECT_EQ(list.elements[0].raw, "1.50");
  EXPECT_EQ(list.elements[1].raw, "\"\\u00bd in\"");
  EXPECT_EQ(list.elements[1].text, "\u00BD in");
  EXPECT_EQ(root->members[1].key_at.line, 3);
  EXPECT_EQ(root->members[1].key_at.column, 2);
  EXPECT_FALSE(root->one_line);
}

TEST(ParseJson, ResolvesEveryEscape) {
  Faults faults;
  const auto root =
      parse_json(R"("\" \\ \/ \b\f\n\r\t \u0041 \u00e9 \u20AC \ud83d\uDE9A")", faults);
  ASSERT_TRUE(faults.empty());
  EXPECT_EQ(root->text, "\" \\ / \b\f\n\r\t A \u00E9 \u20AC \U0001F69A");
}

TEST(ParseJson, SkipsAByteOrderMark) { EXPECT_EQ(json_faults("\xEF\xBB\xBF{}"), ""); }

struct Slip {
  const char* name;
  std::string text;
  std::string faults;
};

class ParseJsonSlip : public testing::TestWithParam<Slip> {};

TEST_P(ParseJsonSlip, IsReportedWhereItIs) {
  EXPECT_EQ(json_faults(GetParam().text), GetParam().faults);
}

using namespace std::string_literals;

INSTANTIATE_TEST_SUITE_P(
    Kinds, ParseJsonSlip,
    testing::Values(
        Slip{"Empty", "", "1:1 build.not_json "}, Slip{"Blank", " \n ", "2:2 build.not_json "},
        Slip{"Utf16", "\xFF\xFE{\0}\0"s, "1:1 build.not_json "},
        Slip{"Binary",
             "\x7F"
             "ELF\2\1\0\0"s,
             "1:1 build.not_json "},
        Slip{"TwoRoots", "{} {}", "1:4 build.not_json "},
        Slip{"Unclosed", "{\"a\": {\"b\": [1,\n", "2:1 build.not_json /a/b"},
        Slip{"WrongBracket", "{\"a\": [1}}", "1:9 build.not_json /a"},
        Slip{"CommaMissing", "{\"a\": 1\n \"b\": [1 \"x\"]}",
             "1:8 build.not_json \n2:9 build.not_json /b"},
        Slip{"CommaTooMany", "{\"a\": [1,],}", "1:10 build.not_json /a\n1:12 build.not_json "},
        Slip{"ColonMissing", "{\"a\" 1}", "1:6 build.not_json /a"},
        Slip{"ValueMissing", "{\"a\": , \"b\": }", "1:7 build.not_json /a\n1:14 build.not_json /b"},
        Slip{"KeyMissing", "{: 1}", "1:2 build.not_json "},
        Slip{"KeyBare", "{a: 1}", "1:2 build.not_json "},
        Slip{"Comments", "{ // x\n /* y\n */ \"a\": 1 # z\n}",
             "1:3 build.not_json \n2:2 build.not_json \n3:12 build.not_json "},
        Slip{"CommentUnclosed", "{ /* ", "1:3 build.not_json \n1:6 build.not_json "},
        Slip{"BareQuantity", "{\"a\": 41 5/8 in, \"b\": 12in, \"c\": front}",
             "1:7 build.not_json /a\n1:23 build.not_json /b\n1:34 build.not_json /c"},
        Slip{"SingleQuotes", "{\"a\": '12 in'}", "1:7 build.not_json /a"},
        Slip{"CurlyQuotes", "{\u201Ca\u201D: 1}", "1:2 build.not_json "},
        Slip{"NotNumbers", "[NaN, -Infinity, inf]",
             "1:2 build.not_json /0\n1:7 build.not_json /1\n1:18 build.not_json /2"},
        Slip{"BadNumbers", "[01, .5, +1, 1., 1e, 0x10, --1]",
             "1:2 build.not_json /0\n1:6 build.not_json /1\n1:10 build.not_json /2\n"
             "1:14 build.not_json /3\n1:18 build.not_json /4\n1:22 build.not_json /5\n"
             "1:28 build.not_json /6"},
        Slip{"Capitals", "[True, Null]", "1:2 build.not_json /0\n1:8 build.not_json /1"},
        Slip{"QuoteMissing", "{\"a\": \"41 in,\n \"b\": 1}", "1:7 build.not_json /a"},
        Slip{"InchMarkInside", "{\"a\": \"41 5/8\"\", \"b\": \"1 in\"}", "1:15 build.not_json "},
        Slip{"TabInside", "[\"a\tb\"]", "1:4 build.not_json /0"},
        Slip{"BadEscape", R"(["\q", "\u12G4", "\ud800", "\udc00\ud800", "\ud800\u0041"])",
             "1:3 build.not_json /0\n1:9 build.not_json /1\n1:19 build.not_json /2\n"
             "1:29 build.not_json /3\n1:35 build.not_json /3\n1:45 build.not_json /4"},
        Slip{"NotUtf8", "[\"\xBD in\", \"\xC0\x80\", \"\xED\xA0\x80\"]",
             "1:3 build.not_json /0\n1:11 build.not_json /1\n1:12 build.not_json /1\n"
             "1:17 build.not_json /2\n1:18 build.not_json /2\n1:19 build.not_json /2"},
        Slip{"TwoKeys", "{\"a\": 1, \"b/~\": {\"c\": 1, \"c\": 2}, \"a\": 3}",
             "1:26 build.duplicate_key /b~1~0/c\n1:35 build.duplicate_key /a"},
        Slip{"NulInside", "{\"a\": 1\0}"s, "1:8 build.not_json "}),
    [](const auto& slip) { return slip.param.name; });

TEST(ParseJson, StopsAtADepthNoBuildHas) {
  EXPECT_EQ(json_faults(std::string(64, '[') + std::string(64, ']')), "");
  const std::string path = [] {
    std::string out;
    for (int i = 0; i < 64; ++i) out += "/0";
    return out;
  }();
  EXPECT_EQ(json_faults(std::string(65, '[') + std::string(65, ']')),
            "1:65 build.too_deep " + path);
  EXPECT_EQ(json_faults(std::string(1000000, '[')), "1:65 build.too_deep " + path);
}

TEST(ParseJson, StopsCountingSomewhere) {
  std::string text = "[";
  for (int i = 0; i < 100000; ++i) text += "x,";
  Faults faults;
  EXPECT_FALSE(parse_json(text, faults).has_value());
  Diagnostics all = faults.take();
  EXPECT_EQ(all.size(), Faults::kMost + 1);
}

// The JSON library is the referee: both must agree on what is JSON, and on what it says.
void expect_same_tree(const Node& node, const nlohmann::ordered_json& json) {
  switch (node.kind) {
    case Kind::kNull:
      EXPECT_TRUE(json.is_null());
      break;
    case Kind::kBoolean:
      EXPECT_EQ(json, node.raw == "true");
      break;
    case Kind::kNumber:
      EXPECT_EQ(json.get<double>(), number_from_raw(node.raw));
      break;
    case Kind::kString:
      EXPECT_EQ(json.get<std::string>(), node.text);
      break;
    case Kind::kArray:
      ASSERT_EQ(json.size(), node.elements.size());
      for (std::size_t i = 0; i < node.elements.size(); ++i) {
        expect_same_tree(node.elements[i], json[i]);
      }
      break;
    case Kind::kObject: {
      ASSERT_EQ(json.size(), node.members.size());
      auto member = node.members.begin();
      for (const auto& [key, value] : json.items()) {
        EXPECT_EQ(key, member->key);
        expect_same_tree(member->value, value);
        ++member;
      }
    }
  }
}

TEST(ParseJson, AgreesWithTheJsonLibraryOnAFullFile) {
  const std::string text = read_source_file("src/build/fixtures/full.rig.json");
  Faults faults;
  const auto root = parse_json(text, faults);
  ASSERT_TRUE(root && faults.empty());
  expect_same_tree(*root, nlohmann::ordered_json::parse(text));
}

TEST(ParseJson, AgreesWithTheJsonLibraryOnEveryCutAndEveryChangedByte) {
  const std::string text =
      "{\"a\": [1, -2.5e+3, 0.1], \"\\u00e9\u00BD\": {\"b\\n\": true, \"c\": null}, \"d\": \"x\"}";
  const auto expect_agreement = [](const std::string& damaged) {
    Faults faults;
    const auto root = parse_json(damaged, faults);
    const Diagnostics found = faults.take();
    // The library takes the second of two equal keys and says nothing.
    const bool twice = std::any_of(found.begin(), found.end(), [](const Diagnostic& d) {
      return d.code == "build.duplicate_key";
    });
    EXPECT_TRUE(twice || found.empty() == nlohmann::json::accept(damaged)) << damaged;
    EXPECT_TRUE(root || !found.empty());
  };
  for (std::size_t cut = 0; cut < text.size(); ++cut) expect_agreement(text.substr(0, cut));
  for (std::size_t i = 0; i < text.size(); ++i) {
    for (int byte = 0; byte < 256; ++byte) {
      std::string damaged = text;
      damaged[i] = static_cast<char>(byte);
      expect_agreement(damaged);
    }
    expect_agreement(text.substr(0, i) + text.substr(i + 1));
  }
}

// Unicode 15, table 3-7: the whole of it, against a decoder that goes by the numbers.
TEST(Utf8, IsWellFormedExactlyWhereUnicodeSaysSo) {
  for (std::uint32_t code = 0; code <= 0x10FFFF; ++code) {
    if (code >= 0xD800 && code <= 0xDFFF) continue;
    std::string text;
    append_utf8(text, code);
    ASSERT_EQ(utf8_length(text), text.size()) << code;
    ASSERT_EQ(text.size(), code < 0x80 ? 1U : code < 0x800 ? 2U : code < 0x10000 ? 3U : 4U);
    if (text.size() > 1) {
      ASSERT_EQ(utf8_length(text.substr(0, text.size() - 1)), 0U);
    }
  }
  for (const char* bad : {"\x80", "\xC1\xBF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
                          "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFF", "\xC3("}) {
    EXPECT_EQ(utf8_length(bad), 0U) << bad;
  }
}

TEST(Pointer, SplitsAndEscapes) {
  EXPECT_EQ(split_pointer("/a~1b/~0/0"), (std::vector<std::string>{"a/b", "~", "0"}));
  EXPECT_EQ(split_pointer(""), std::vector<std::string>{});
  EXPECT_FALSE(split_pointer("a").has_value());
  EXPECT_FALSE(split_pointer("/~2").has_value());
  EXPECT_FALSE(split_pointer("/~").has_value());
  EXPECT_EQ(escape_pointer("a/b~"), "a~1b~0");
}

}  // namespace
}  // namespace rig::build
