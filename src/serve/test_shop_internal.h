#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "serve/file.h"

/// What the tests of `serve` share.
namespace rig::serve {

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

  /// A copy of the first example under this name; its path.
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

inline void write_plainly(const std::string& path, const std::string& text) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << text;
}

/// The text with the first `from` in it made `to`.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  return text.replace(text.find(from), from.size(), to);
}

}  // namespace rig::serve
