// Files that read but make no sense as a truck, through the whole flow: never a crash, a hang, a
// number that is none, or an answer that says nothing.

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <stdexcept>

#include "build/read.h"
#include "check/report.h"
#include "check/report_json.h"
#include "check/scene_json.h"
#include "mutations.h"

namespace rig {
namespace {

using Json = nlohmann::ordered_json;

std::string file_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::vector<std::filesystem::path> examples() {
  std::vector<std::filesystem::path> found;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator(RIG_SOURCE_DIR "/examples")) {
    const auto& path = entry.path();
    const bool wrong = path.parent_path().filename() == "wrong";
    if (path.string().ends_with(".rig.json") && !wrong) found.push_back(path);
  }
  std::sort(found.begin(), found.end());
  return found;
}

/// Every number of the JSON is finite: the writer turns others into null, and null only goes with
/// the text "unknown". Looked for in the text, which takes a tenth of the time that its tree does.
void expect_told(const std::string& json) {
  EXPECT_TRUE(Json::accept(json));
  const auto around = [&](std::size_t at) {
    return json.substr(at - std::min<std::size_t>(at, 200), 400);
  };
  constexpr std::string_view kNull = R"("si":null)", kUnknown = R"(,"text":"unknown")";
  for (std::size_t at = json.find(kNull); at != json.npos; at = json.find(kNull, at + 1)) {
    EXPECT_EQ(json.compare(at + kNull.size(), kUnknown.size(), kUnknown), 0) << around(at);
  }
  for (const std::string_view none : {"nan", "inf"}) {
    for (std::size_t at = json.find(none, 2); at != json.npos; at = json.find(none, at + 1)) {
      const char before = json[at - 1] == '-' ? json[at - 2] : json[at - 1];
      EXPECT_FALSE(before == ' ' || before == '"') << around(at);
    }
  }
}

/// @param before  A report of almost the same truck, as a page that edits it has, or null.
void expect_answered(const build::Build& build, const std::string& name,
                     const check::Report* before = nullptr) {
  SCOPED_TRACE(name);
  const check::Report report = check::check(build, check::Thorough::kWithAdvice, before);
  expect_told(check::report_json(build, report));
  EXPECT_TRUE(Json::accept(check::scene_json(build, report)));
  for (const auto& finding : report.findings) {
    EXPECT_FALSE(finding.sentence.empty());
    EXPECT_FALSE(finding.basis.empty());
  }
  if (report.findings.empty()) {
    EXPECT_FALSE(report.missing.empty() && report.diagnostics.empty());
  }
}

void expect_answered_or_refused(const std::string& text, const std::string& name) {
  const auto read = build::read_build(text);
  if (read) {
    expect_answered(read->build, name);
    return;
  }
  for (const auto& diagnostic : read.error()) {
    EXPECT_FALSE(diagnostic.message.empty()) << name;
    EXPECT_TRUE(diagnostic.at.has_value()) << name;
  }
}

/// Every so many of all the trucks that could be tried: fewer where properties are held against
/// fewer random inputs, as under the sanitizers.
constexpr std::size_t kFewer = RIG_RANDOM_CASES < 100 ? 11 : 1;
constexpr std::size_t kDamageStride = 211 * kFewer;
constexpr std::size_t kLeftOutStride = 7 * kFewer;

TEST(WholeFlow, ExamplesAnswer) {
  ASSERT_GE(examples().size(), 1U);
  for (const auto& path : examples()) {
    const auto read = build::read_build(file_text(path));
    ASSERT_TRUE(read.has_value()) << path;
    expect_answered(read->build, path.filename().string());
  }
}

TEST(WholeFlow, DamagedFilesAnswer) {
  ASSERT_GE(examples().size(), 1U);
  for (const auto& mutated :
       make_mutated_files("truck", file_text(examples().front()), kDamageStride)) {
    expect_answered_or_refused(mutated.text, mutated.name);
  }
}

void collect_places(const Json& value, const std::string& here, std::vector<std::string>& places) {
  if (!here.empty()) places.push_back(here);
  if (value.is_object()) {
    for (const auto& [key, child] : value.items()) collect_places(child, here + "/" + key, places);
  } else if (value.is_array()) {
    for (std::size_t i = 0; i < value.size(); ++i) {
      collect_places(value[i], here + "/" + std::to_string(i), places);
    }
  }
}

/// Makes one edit at every how-manieth kind of place in the examples, the first that the reader
/// takes of those wished for there, and expects an answer. Returns how many it made.
template <typename Wishes>
std::size_t edit_kinds_of_places(std::size_t stride, const Wishes& wishes) {
  std::map<std::string, std::size_t> kinds;
  std::set<std::string> done;
  for (const auto& path : examples()) {
    const std::string text = file_text(path);
    const auto read = build::read_build(text);
    if (!read) throw std::runtime_error(path.string());
    const check::Report before = check::check(read->build);
    const Json json = Json::parse(text);
    std::vector<std::string> places;
    collect_places(json, "", places);
    for (const std::string& place : places) {
      const std::vector<std::string> wished = wishes(json.at(Json::json_pointer(place)));
      const std::string kind = kind_of_place(place);
      if (wished.empty() || done.contains(kind)) continue;
      // The first kind begins with the first wish, the next with the second, and so on; the added
      // part is there as places come in threes.
      const std::size_t index = kinds.emplace(kind, kinds.size()).first->second;
      if (index % stride != 0) continue;
      const std::size_t turn = index / stride + index / stride / wished.size();
      for (std::size_t i = 0; i < wished.size() && !done.contains(kind); ++i) {
        const std::string& wish = wished[(turn + i) % wished.size()];
        const auto edited = build::edit_build(*read->document, {{place, wish}});
        if (!edited) continue;
        done.insert(kind);
        expect_answered(edited->build, place + " = " + wish, &before);
      }
    }
  }
  return done.size();
}

/// What a slipped finger or unit makes of a quantity, by the end of its writing.
std::vector<std::string> slips(const Json& value) {
  if (!value.is_string()) return {};
  const auto& written = value.get_ref<const std::string&>();
  for (const char* unit :
       {"lbf/in", "lb/in", "N/mm", "kN/m", "in", "mm", "lbf", "lb", "kg", "deg"}) {
    if (!written.ends_with(std::string(" ") + unit)) continue;
    std::vector<std::string> all;
    for (const char* number : {"0", "-3", "0.001", "40", "4000", "1e9"}) {
      all.push_back(Json(std::string(number) + " " + unit).dump());
    }
    return all;
  }
  return {};
}

TEST(WholeFlow, SlippedNumbersAnswer) {
  EXPECT_GE(edit_kinds_of_places(kFewer, slips), 200 / kFewer);
}

TEST(WholeFlow, TrucksWithPartsLeftOutAnswer) {
  const auto leave_out = [](const Json&) { return std::vector<std::string>{""}; };
  EXPECT_GE(edit_kinds_of_places(kLeftOutStride, leave_out), 400 / kLeftOutStride);
}

}  // namespace
}  // namespace rig
