// The whole flow on the example trucks, from the file's text to the report's JSON. The time of a
// whole `rigwright check` process is this plus some 3 ms of start-up: time it with `perf stat` or a
// loop.

#include <benchmark/benchmark.h>

#include <fstream>
#include <future>
#include <sstream>

#include "build/read.h"
#include "check/frame.h"
#include "check/report.h"
#include "check/report_json.h"
#include "check/scene_json.h"

namespace rig {
namespace {

std::string file_text(const std::string& path) {
  std::ifstream in(RIG_SOURCE_DIR "/examples/" + path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

void WholeCheck(benchmark::State& state, const char* path) {
  const std::string text = file_text(path);
  for (auto _ : state) {
    const auto read = build::read_build(text);
    if (!read) {
      state.SkipWithError("the example does not read");
      return;
    }
    const check::Report report = check::check(read->build);
    if (report.findings.empty()) state.SkipWithError("nothing was found");
    benchmark::DoNotOptimize(check::report_json(read->build, report));
  }
}
BENCHMARK_CAPTURE(WholeCheck, tow_rig, "01_tow_rig/tow_rig.rig.json")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(WholeCheck, crawler, "02_crawler/crawler.rig.json")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(WholeCheck, shop_truck, "03_shop_truck/shop_truck.rig.json")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

/// A check after an edit that moves a link of the front axle, as on the page.
void CheckOfEdit(benchmark::State& state, const char* path) {
  auto read = build::read_build(file_text(path));
  check::Report last = check::check(read->build);
  build::Length& height = read->build.axles.front().value.links.front().value.frame.at.height;
  for (auto _ : state) {
    height.si += 1e-4;
    last = check::check(read->build, check::Thorough::kWithAdvice, &last);
    benchmark::DoNotOptimize(check::report_json(read->build, last));
  }
}
BENCHMARK_CAPTURE(CheckOfEdit, tow_rig, "01_tow_rig/tow_rig.rig.json")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

/// What a trial works out and writes while a hand moves the same link, or a crossmember, on a
/// sheet.
void CheckOfTrial(benchmark::State& state, check::Work work) {
  const std::string text = file_text("01_tow_rig/tow_rig.rig.json");
  auto read = build::read_build(text);
  const check::Report last = check::check(read->build);
  build::Length& height = read->build.axles.front().value.links.front().value.frame.at.height;
  std::size_t size = 0;
  for (auto _ : state) {
    height.si += 1e-4;
    const check::Report report = check::check_work(read->build, work, &last);
    size = check::trial_json(read->build, report, {.work = work, .axle = "front"}).size() +
           check::scene_json(read->build, report).size();
  }
  state.counters["bytes"] = static_cast<double>(size);
}
BENCHMARK_CAPTURE(CheckOfTrial, weigh, check::Work::kWeigh)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(CheckOfTrial, axles, check::Work::kAxles)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(CheckOfTrial, frame, check::Work::kFrame)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(CheckOfTrial, drivetrain, check::Work::kDrivetrain)
    ->Unit(benchmark::kMillisecond);

/// The frame alone, from the file's parts to the answers: stiffness as it came, as planned and
/// after each stage, all load cases, what each stage's cuts do. The truck has settled under them
/// before.
void FrameOfExample(benchmark::State& state, const char* path) {
  const auto read = build::read_build(file_text(path));
  check::Report report = check::check(read->build, check::Thorough::kWithoutAdvice);
  const check::Printer print(read->build.units);
  const auto cases = check::make_frame_cases(read->build, report);
  for (auto _ : state) {
    check::KnownFrame known(read->build, nullptr);
    auto frames = check::begin_stage_frames(read->build, known.sections());
    check::add_frame(read->build, check::Thorough::kWithAdvice, known, report);
    // Side by side, as in a check.
    auto stages =
        std::async(std::launch::async, check::solve_stages, std::cref(read->build),
                   std::cref(report.states), check::find_standing(cases, read->build.ride_state.id),
                   print, std::move(frames), known.sections());
    check::add_frame_cases(read->build, cases, known.sections(), report);
    check::add_frame_stresses(read->build, print, report);
    check::add_stages(read->build, stages.get(), report);
  }
  state.counters["cases"] = static_cast<double>(report.frame->cases.size());
  state.counters["stages"] = static_cast<double>(report.frame->stages.size());
  if (report.frame->cases.empty()) state.SkipWithError("no case is told");
}
BENCHMARK_CAPTURE(FrameOfExample, tow_rig, "01_tow_rig/tow_rig.rig.json")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(FrameOfExample, crawler, "02_crawler/crawler.rig.json")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

}  // namespace
}  // namespace rig
