#include "cli/file.h"

#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <system_error>

#include "serve/file.h"

namespace rig::cli {

Result<build::ReadBuild> read_file(const std::string& path) {
  std::error_code error;
  if (std::filesystem::is_directory(path, error)) {
    return fail("cli.is_folder", "", path + " is a folder",
                "name the build file in it, NAME.rig.json");
  }
  const auto text = serve::read_text(path);
  if (!text) return Failure{text.error()};
  return build::read_build(*text);
}

void print_diagnostics(const std::string& path, const Diagnostics& diagnostics) {
  for (const auto& diagnostic : diagnostics) {
    const std::string at =
        diagnostic.at ? fmt::format("{}:{}", diagnostic.at->line, diagnostic.at->column) : "";
    // Some messages begin with the file's name themselves: it is printed once.
    if (diagnostic.message.starts_with(path + " ")) {
      fmt::print(stderr, "{}\n", diagnostic.message);
    } else {
      fmt::print(stderr, "{}{}{}: {}\n", path, at.empty() ? "" : ":", at, diagnostic.message);
    }
    if (!diagnostic.path.empty()) fmt::print(stderr, "  at {}\n", diagnostic.path);
    if (!diagnostic.remedy.empty()) fmt::print(stderr, "  {}\n", diagnostic.remedy);
    fmt::print(stderr, "  [{}]\n", diagnostic.code);
  }
}

}  // namespace rig::cli
