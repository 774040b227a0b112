#pragma once

#include <CLI/CLI.hpp>
#include <functional>

/// One subcommand each; every `add_` gives the program one more word and, when that word was used,
/// what to run. The returned function's result is the exit code.
namespace rig::cli {

/// Exit codes of every subcommand.
inline constexpr int kFine = 0;
inline constexpr int kStops = 1;     ///< `check`: a finding stops the work.
inline constexpr int kUnusable = 2;  ///< The file, or what was asked, can't be used.

struct Command {
  const CLI::App* app = nullptr;
  std::function<int()> run;
};

Command add_check(CLI::App& program);
Command add_open(CLI::App& program);
Command add_serve(CLI::App& program);
Command add_sweep(CLI::App& program);

}  // namespace rig::cli
