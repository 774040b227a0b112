#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "build/read.h"
#include "mutations.h"

namespace rig {
namespace {

namespace fs = std::filesystem;

const fs::path kSource = RIG_SOURCE_DIR;
/// Where the mutated files and their faults are put for schema_agreement.py, one a line.
const char* const kCorpus = RIG_CORPUS_FILE;

std::string read_file(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  EXPECT_TRUE(file.is_open()) << path;
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::vector<fs::path> files_in(const fs::path& folder) {
  std::vector<fs::path> files;
  if (!fs::exists(folder)) return files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.path().string().ends_with(".rig.json")) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

bool is_wrong_example(const fs::path& path) { return path.parent_path().filename() == "wrong"; }

/// What holds for every fault of a file, whatever it is.
void expect_located(const Diagnostic& d, const std::string& text) {
  EXPECT_TRUE(d.code.rfind("build.", 0) == 0 || d.code.rfind("units.", 0) == 0) << d.code;
  EXPECT_FALSE(d.message.empty()) << d.code;
  EXPECT_FALSE(d.remedy.empty()) << d.code << " " << d.message;
  EXPECT_LT(d.message.size() + d.remedy.size(), 1000U) << d.message;
  EXPECT_TRUE(d.path.empty() || d.path[0] == '/') << d.path;
  ASSERT_TRUE(d.at.has_value()) << d.code;
  ASSERT_GE(d.at->line, 1);
  ASSERT_GE(d.at->column, 1);
  // The line is one of the text's, and the column on it or just behind it.
  std::size_t start = 0;
  for (int line = 1; line < d.at->line; ++line) {
    start = text.find('\n', start);
    ASSERT_NE(start, std::string::npos) << d.code << " line " << d.at->line;
    ++start;
  }
  const std::size_t length = std::min(text.find('\n', start), text.size()) - start;
  EXPECT_LE(static_cast<std::size_t>(d.at->column), length + 1) << d.code << " line " << d.at->line;
  // Throws if anything in it is not UTF-8.
  EXPECT_NO_THROW((void)nlohmann::json({d.message, d.remedy, d.path}).dump());
}

/// Whether a pointer leads to something in the file, or to where something is missing in it.
void expect_leads_somewhere(const std::string& path, const nlohmann::json& json) {
  const nlohmann::json::json_pointer pointer(path);
  EXPECT_TRUE(json.contains(pointer) || json.contains(pointer.parent_pointer())) << path;
}

void expect_stable(const build::ReadBuild& read, const std::string& name) {
  const std::string once = build::write_build(*read.document);
  const auto again = build::read_build(once);
  ASSERT_TRUE(again.has_value()) << name;
  EXPECT_EQ(build::write_build(*again->document), once) << name;
}

/// Every so many of all damages: fewer where properties are held against fewer random inputs, as
/// under the sanitizers. A value has 20 of them, a quantity 36: strides without a factor in common
/// with these take all in turn.
constexpr bool kFewer = RIG_RANDOM_CASES < 100;
constexpr std::size_t kFullStride = kFewer ? 31 : 7;
constexpr std::size_t kTapeStride = kFewer ? 7 : 1;
constexpr std::size_t kExampleStride = kFewer ? 211 : 53;
constexpr std::size_t kLeastFiles = kFewer ? 1000 : 4000;

TEST(WrongFiles, MutatedFilesGiveLocatedFaultsOrAreValid) {
  std::vector<MutatedFile> files = make_mutated_files(
      "full", read_file(kSource / "src/build/fixtures/full.rig.json"), kFullStride);
  const auto add = [&](std::vector<MutatedFile> more) {
    files.insert(files.end(), more.begin(), more.end());
  };
  add(make_mutated_files("tape", read_file(kSource / "src/build/fixtures/tape.rig.json"),
                         kTapeStride));
  for (const fs::path& example : files_in(kSource / "examples")) {
    if (!is_wrong_example(example)) {
      add(make_mutated_files(example.stem().stem().string(), read_file(example), kExampleStride));
    }
  }

  std::ofstream corpus(kCorpus);
  std::map<std::string, int> seen;
  std::chrono::steady_clock::duration slowest{};
  for (const MutatedFile& file : files) {
    SCOPED_TRACE(file.name);
    const auto start = std::chrono::steady_clock::now();
    const auto read = build::read_build(file.text);
    slowest = std::max(slowest, std::chrono::steady_clock::now() - start);
    EXPECT_FALSE(file.wrong && read.has_value()) << "was let through";
    const auto json = nlohmann::json::parse(file.text, nullptr, /*allow_exceptions=*/false);
    nlohmann::json faults = nlohmann::json::array();
    if (read.has_value()) {
      ++seen["valid"];
      expect_stable(*read, file.name);
    } else {
      for (const Diagnostic& d : read.error()) {
        ++seen[d.code];
        faults.push_back({d.code, d.path});
        expect_located(d, file.text);
        if (!json.is_discarded()) expect_leads_somewhere(d.path, json);
      }
    }
    if (!json.is_discarded() && file.text.size() < 100000) {
      corpus << nlohmann::json{{"name", file.name}, {"text", file.text}, {"faults", faults}}
             << "\n";
    }
  }
  // None hangs: the largest have a megabyte and more, and take some 20 ms.
  EXPECT_LT(slowest, std::chrono::seconds(2));
  EXPECT_GE(files.size(), kLeastFiles);
  const std::chrono::duration<double, std::milli> slowest_ms = slowest;
  std::cout << files.size() << " files, " << seen["valid"] << " of them valid; slowest read "
            << slowest_ms.count() << " ms; faults seen:\n";
  for (const auto& [code, count] : seen) std::cout << "  " << code << " " << count << "\n";
  // The mutations reach what a damaged file can be told.
  EXPECT_GE(seen.size(), 20U);
}

TEST(WrongFiles, ExamplesGiveExactlyTheirFaults) {
  const auto files = files_in(kSource / "examples/wrong");
  EXPECT_GE(files.size(), 12U);
  for (const fs::path& path : files) {
    const std::string text = read_file(path);
    const auto read = build::read_build(text);
    ASSERT_FALSE(read.has_value()) << path;
    std::string faults;
    for (const Diagnostic& d : read.error()) {
      faults += d.code + " " + d.path + "\n";
      expect_located(d, text);
    }
    fs::path expected = path;
    expected.replace_extension().replace_extension(".expected");
    EXPECT_EQ(faults, read_file(expected)) << path;
  }
}

TEST(WrongFiles, OtherExamplesAreValidAndWrittenStably) {
  for (const fs::path& path : files_in(kSource / "examples")) {
    if (is_wrong_example(path)) continue;
    const auto read = build::read_build(read_file(path));
    ASSERT_TRUE(read.has_value()) << path << ": " << read.error().front().path << " "
                                  << read.error().front().message;
    expect_stable(*read, path.string());
  }
}

}  // namespace
}  // namespace rig
