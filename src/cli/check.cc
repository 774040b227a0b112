#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "check/report.h"
#include "check/report_json.h"
#include "check/text.h"
#include "cli/commands.h"
#include "cli/file.h"

namespace rig::cli {
namespace {

struct CheckAsked {
  std::string file;
  bool json = false;
};

int run(const CheckAsked& asked) {
  const auto read = read_file(asked.file);
  if (!read) {
    if (asked.json) {
      fmt::print("{{\"diagnostics\":{}}}\n", check::diagnostics_json(read.error()));
    } else {
      print_diagnostics(asked.file, read.error());
    }
    return kUnusable;
  }
  const auto report = check::check(read->build);
  fmt::print("{}\n", asked.json ? check::report_json(read->build, report)
                                : check::report_text(read->build, report));
  const bool stops =
      !report.diagnostics.empty() ||
      std::any_of(report.findings.begin(), report.findings.end(),
                  [](const auto& finding) { return finding.verdict == check::Verdict::kStop; });
  return stops ? kStops : kFine;
}

}  // namespace

Command add_check(CLI::App& program) {
  auto* app = program.add_subcommand(
      "check", "Weigh, settle and sweep a build and tell what is right and wrong with it.");
  const auto asked = std::make_shared<CheckAsked>();
  app->add_option("FILE", asked->file, "The build file, NAME.rig.json")->required();
  app->add_flag("--json", asked->json, "Write the report as JSON (docs/api.md) instead of text");
  app->footer("Exit code: 0 nothing stops the work, 1 something does, 2 the file can't be used.");
  return {app, [asked] { return run(*asked); }};
}

}  // namespace rig::cli
