#include <benchmark/benchmark.h>

#include "base/memory.h"

int main(int argc, char** argv) {
  rig::keep_freed_memory();  // As the program does.
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  benchmark::RunSpecifiedBenchmarks();
  benchmark::Shutdown();
  return 0;
}
