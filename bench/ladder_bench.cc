// One ladder frame (tests/shells, frame A), asked the same by beams and by shells: stiffness in
// torsion, bending and lozenging, stress at the case's points. CalculiX takes half of the frame
// with the loads that are alike left and right, on its coarse mesh; the beams all of it.

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>

#include "tests/frame_model/shell_cases.h"

namespace rig::frame {
namespace {

void LadderA_Beams(benchmark::State& state) {
  const auto shell_case = testing::read_case("A");
  const auto build = testing::make_build(shell_case);
  double twist = 0;
  for (auto _ : state) {
    const auto model = make_model(build, build::planned_parts(build.frame));
    if (!model) {
      state.SkipWithError(model.error().front().message.c_str());
      return;
    }
    const auto answers = testing::solve_load_cases(shell_case, *model);
    for (const auto& point : shell_case["stress_points"]) {
      for (const auto& [load, stiffness] : answers.stiffness) {
        benchmark::DoNotOptimize(testing::stress_at(point, *model, answers, load));
      }
    }
    twist = answers.stiffness.at("torsion");
  }
  state.counters["twist_Nm_per_rad"] = twist;
}
BENCHMARK(LadderA_Beams)->Unit(benchmark::kMillisecond);

void LadderA_Shells_CalculiX(benchmark::State& state) {
  const auto folder = std::filesystem::temp_directory_path() / "rigwright_ladder_bench";
  const std::string make = fmt::format(
      "cd {}/tests/shells && /usr/bin/python3 -c \"import json, run; "
      "run.run_frame(json.load(open('cases/A.json')), 'coarse', '{}')\"",
      RIG_SOURCE_DIR, folder.string());
  if (std::system(make.c_str()) != 0) {
    state.SkipWithError("the shell model could not be made: is CalculiX installed?");
    return;
  }
  const std::string solve =
      fmt::format("cd '{}' && OMP_NUM_THREADS=1 ccx -i model > log", folder.string());
  for (auto _ : state) {
    if (std::system(solve.c_str()) != 0) state.SkipWithError("ccx failed");
  }
  std::filesystem::remove_all(folder);
}
BENCHMARK(LadderA_Shells_CalculiX)->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();

}  // namespace
}  // namespace rig::frame
