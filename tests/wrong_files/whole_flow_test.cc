// Files that read but make no sense as a truck, through the whole flow: never a crash, a hang, a
// number that is none, or an answer that says nothing.

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

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
/// the text "unknown".
void expect_told(const Json& value, const std::string& where) {
  if (value.is_object()) {
    if (value.contains("si") && value["si"].is_null()) {
      EXPECT_EQ(value.value("text", ""), "unknown") << where;
    }
    for (const auto& [key, child] : value.items()) expect_told(child, where + "/" + key);
  } else if (value.is_array()) {
    for (std::size_t i = 0; i < value.size(); ++i) {
      expect_told(value[i], where + "/" + std::to_string(i));
    }
  } else if (value.is_string()) {
    const auto& text = value.get_ref<const std::string&>();
    for (const char* none : {" nan", " inf", " -nan", " -inf"}) {
      EXPECT_EQ((" " + text).find(none), std::string::npos) << where << ": " << text;
    }
  }
}

void expect_answered(const std::string& text, const std::string& name) {
  SCOPED_TRACE(name);
  const auto read = build::read_build(text);
  if (!read) {
    for (const auto& diagnostic : read.error()) {
      EXPECT_FALSE(diagnostic.message.empty());
      EXPECT_TRUE(diagnostic.at.has_value());
    }
    return;
  }
  const check::Report report = check::check(read->build);
  expect_told(Json::parse(check::report_json(read->build, report)), "");
  EXPECT_TRUE(Json::accept(check::scene_json(read->build, report)));
  for (const auto& finding : report.findings) {
    EXPECT_FALSE(finding.sentence.empty());
    EXPECT_FALSE(finding.basis.empty());
  }
  if (report.findings.empty()) {
    EXPECT_FALSE(report.missing.empty() && report.diagnostics.empty());
  }
}

/// Every so many of all the trucks that could be tried: fewer where properties are held against
/// fewer random inputs, as under the sanitizers. No stride may have a factor in common with the six
/// slips of a number, or the same ones are tried everywhere.
constexpr std::size_t kFewer = RIG_RANDOM_CASES < 100 ? 11 : 1;
constexpr std::size_t kDamageStride = 29 * kFewer;
constexpr std::size_t kSlipStride = 13 * kFewer;
constexpr std::size_t kLeastTried = 200 / kFewer;

TEST(WholeFlow, ExamplesAnswer) {
  ASSERT_GE(examples().size(), 1U);
  for (const auto& path : examples()) expect_answered(file_text(path), path.filename().string());
}

TEST(WholeFlow, DamagedFilesAnswer) {
  for (const auto& path : examples()) {
    for (const auto& mutated :
         make_mutated_files(path.filename().string(), file_text(path), kDamageStride)) {
      expect_answered(mutated.text, mutated.name);
    }
  }
}

/// What a slipped finger or unit makes of a quantity, by the end of its writing.
std::vector<std::string> slips(const std::string& written) {
  const auto with = [&](std::string_view unit) {
    std::vector<std::string> all;
    for (const char* number : {"0", "-3", "0.001", "40", "4000", "1e9"}) {
      all.push_back(std::string(number) + " " + std::string(unit));
    }
    return all;
  };
  for (const char* unit :
       {"lbf/in", "lb/in", "N/mm", "kN/m", "in", "mm", "lbf", "lb", "kg", "deg"}) {
    if (written.ends_with(std::string(" ") + unit)) return with(unit);
  }
  return {};
}

void collect_leaves(const Json& value, const std::string& path,
                    std::vector<std::pair<std::string, std::string>>& leaves) {
  if (value.is_object()) {
    for (const auto& [key, child] : value.items()) collect_leaves(child, path + "/" + key, leaves);
  } else if (value.is_string()) {
    leaves.emplace_back(path, value.get<std::string>());
  }
}

TEST(WholeFlow, SlippedNumbersAnswer) {
  std::size_t written_slips = 0;
  std::size_t tried = 0;
  for (const auto& path : examples()) {
    const std::string text = file_text(path);
    const auto read = build::read_build(text);
    ASSERT_TRUE(read.has_value());
    std::vector<std::pair<std::string, std::string>> leaves;
    collect_leaves(Json::parse(text), "", leaves);
    for (const auto& [place, written] : leaves) {
      for (const std::string& slip : slips(written)) {
        if (++written_slips % kSlipStride != 0) continue;
        const auto edited = build::edit_build(*read->document, {{place, Json(slip).dump()}});
        if (!edited) continue;
        ++tried;
        expect_answered(build::write_build(*edited->document), place + " = " + slip);
      }
    }
  }
  // About half are turned away when the file is read: zero and less, and sizes that can't be.
  EXPECT_GE(tried, kLeastTried);
}

}  // namespace
}  // namespace rig
