#include "cli/file.h"

#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

namespace rig::cli {
namespace {

/// No build file comes near this; a disk image given by mistake does.
constexpr std::uintmax_t kLargest_bytes = 64U << 20U;

}  // namespace

Result<build::ReadBuild> read_file(const std::string& path) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) {
    return fail("cli.no_file", "", "there is no such file",
                "give the path of a NAME.rig.json file");
  }
  const auto size = std::filesystem::file_size(path, error);
  if (error || size > kLargest_bytes) {
    return fail("cli.too_large", "", "the file is too large for a build file",
                "give the path of a NAME.rig.json file");
  }
  std::ifstream file(path, std::ios::binary);
  std::string text(static_cast<std::size_t>(size), '\0');
  file.read(text.data(), static_cast<std::streamsize>(size));
  if (!file) return fail("cli.no_file", "", "the file can't be read", "look at its permissions");
  return build::read_build(text);
}

void print_diagnostics(const std::string& path, const Diagnostics& diagnostics) {
  for (const auto& diagnostic : diagnostics) {
    const std::string at =
        diagnostic.at ? fmt::format("{}:{}", diagnostic.at->line, diagnostic.at->column) : "";
    fmt::print(stderr, "{}{}{}: {}\n", path, at.empty() ? "" : ":", at, diagnostic.message);
    if (!diagnostic.path.empty()) fmt::print(stderr, "  at {}\n", diagnostic.path);
    if (!diagnostic.remedy.empty()) fmt::print(stderr, "  {}\n", diagnostic.remedy);
    fmt::print(stderr, "  [{}]\n", diagnostic.code);
  }
}

}  // namespace rig::cli
