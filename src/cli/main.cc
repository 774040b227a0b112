#include <algorithm>
#include <cstdio>
#include <iterator>
#include <string>

#include "base/memory.h"
#include "base/require.h"
#include "cli/commands.h"

namespace {

int run(int argc, char** argv) {
  CLI::App program(
      "Rigwright answers, for one truck in one file, what it weighs, how it sits, where the spring "
      "seats "
      "go, what each axle does through its travel, and what is wrong with it.\n"
      "An aid to a competent builder: have the work designed, welded and inspected by people "
      "qualified "
      "for it.",
      "rigwright");
  program.require_subcommand(1);
  const rig::cli::Command commands[]{rig::cli::add_check(program), rig::cli::add_open(program),
                                     rig::cli::add_serve(program), rig::cli::add_sweep(program)};
  const std::string first = argc > 1 ? argv[1] : "";
  if (!first.empty() && first[0] != '-' &&
      std::none_of(std::begin(commands), std::end(commands),
                   [&](const auto& command) { return command.app->get_name() == first; })) {
    std::fprintf(stderr,
                 "rigwright: there is no command \"%s\": it has check, open, serve and sweep\n",
                 first.c_str());
    return rig::cli::kUnusable;
  }
  try {
    program.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return program.exit(error) == 0 ? rig::cli::kFine : rig::cli::kUnusable;
  }
  for (const auto& command : commands) {
    if (command.app->parsed()) return command.run();
  }
  return rig::cli::kUnusable;
}

}  // namespace

int main(int argc, char** argv) {
  rig::keep_freed_memory();
  try {
    return run(argc, argv);
  } catch (const rig::LogicError& error) {
    std::fprintf(stderr, "rigwright: a mistake of the program itself: %s\n", error.what());
    return rig::cli::kUnusable;
  }
}
