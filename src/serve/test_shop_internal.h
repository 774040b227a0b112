#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "serve/file.h"

/// What the tests of `serve` share.
namespace rig::serve {

inline void write_plainly(const std::string& path, const std::string& text) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << text;
}

/// A build that weighs and has findings, but neither springs nor frame: for all that is told of the
/// file, its history and its changes.
inline const char* small_build() {
  return R"({
  "version": 1,
  "name": "Pony",
  "load_states": {"road": {"label": "Road", "aboard": ["tools"]}},
  "masses": {
    "truck": {"mass": "4000 lb", "at": {"station": "50 in", "offset": "0 in", "height": "30 in"}},
    "tools": {"optional_load": true, "mass": "90 lb",
              "at": {"station": "100 in", "offset": "5 in", "height": "40 in"}}
  },
  "tyres": {"all_terrain": {"label": "All-terrain"}},
  "axles": {
    "front": {"end": "front", "station": "0 in", "track": "62 in", "tyre": "all_terrain"},
    "rear": {"end": "rear", "station": "110 in", "track": "62 in", "tyre": "all_terrain"}
  }
}
)";
}

/// A folder of its own, in memory where that can be had (flushing costs nothing there); gone
/// afterwards.
class TestFolder {
 public:
  TestFolder() {
    static int count = 0;
    std::filesystem::path parent = "/dev/shm";
    if (!std::filesystem::exists(parent)) parent = std::filesystem::temp_directory_path();
    path_ = std::filesystem::canonical(parent) /
            ("rig_serve_" + std::to_string(::getpid()) + "_" + std::to_string(count++));
    std::filesystem::create_directories(path_);
  }
  ~TestFolder() { std::filesystem::remove_all(path_); }
  TestFolder(const TestFolder&) = delete;
  TestFolder& operator=(const TestFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  std::string in(const std::string& name) const { return (path_ / name).string(); }

  /// `small_build` under this name; its path.
  std::string add_small(const std::string& name) const {
    write_plainly(in(name), small_build());
    return in(name);
  }

  /// A copy of the first example under this name; its path. It takes twenty times as long to check.
  std::string add_example(const std::string& name) const {
    std::filesystem::copy_file(example(), in(name));
    return in(name);
  }

  static std::filesystem::path example() {
    return std::filesystem::path(RIG_SOURCE_DIR) / "examples/01_tow_rig/tow_rig.rig.json";
  }

 private:
  std::filesystem::path path_;
};

/// The text with the first `from` in it made `to`.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  return text.replace(text.find(from), from.size(), to);
}

}  // namespace rig::serve
