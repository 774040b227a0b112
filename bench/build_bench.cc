#include <benchmark/benchmark.h>

#include <cstdint>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "base/require.h"
#include "build/read.h"

namespace rig::build {
namespace {

std::string full_file() {
  std::ifstream file(std::string(RIG_SOURCE_DIR) + "/src/build/fixtures/full.rig.json");
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

void read_full_file(benchmark::State& state) {
  const std::string text = full_file();
  for (auto _ : state) {
    const auto read = read_build(text);
    RIG_REQUIRE(read.has_value());
    benchmark::DoNotOptimize(read->build.axles.data());
  }
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(text.size()));
}
BENCHMARK(read_full_file)->Unit(benchmark::kMicrosecond);

void write_full_file(benchmark::State& state) {
  const std::string text = full_file();
  const auto read = read_build(text);
  RIG_REQUIRE(read.has_value() && write_build(*read->document) == text);
  for (auto _ : state) benchmark::DoNotOptimize(write_build(*read->document));
}
BENCHMARK(write_full_file)->Unit(benchmark::kMicrosecond);

/// As the page does for each value typed: change, write, read anew.
void edit_one_value(benchmark::State& state) {
  const auto read = read_build(full_file());
  RIG_REQUIRE(read.has_value());
  const std::vector<Edit> edits = {{.path = "/axles/rear/track", .json = "\"63 1/2 in\""}};
  for (auto _ : state) {
    const auto edited = edit_build(*read->document, edits);
    RIG_REQUIRE(edited.has_value());
    benchmark::DoNotOptimize(edited->build.axles.data());
  }
}
BENCHMARK(edit_one_value)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace rig::build
