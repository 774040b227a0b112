#pragma once

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <utility>

#include "base/result.h"
#include "build/faults_internal.h"
#include "build/tree_internal.h"

namespace rig::build {

/// Lines of a patch, written as they come.
class PatchLines {
 public:
  void replace(std::string_view path, std::string_view json) {
    line("replace", path, "value", json);
  }
  void add(std::string_view path, std::string_view json) { line("add", path, "value", json); }
  void remove(std::string_view path) { line("remove", path, {}, {}); }
  void move(std::string_view from, std::string_view path) {
    line("move", path, "from", quote(from));
  }
  void copy(std::string_view from, std::string_view path) {
    line("copy", path, "from", quote(from));
  }
  std::string text() const { return "[" + lines_ + "]"; }

 private:
  void line(std::string_view op, std::string_view path, std::string_view key,
            std::string_view json) {
    lines_ +=
        fmt::format(R"({}{{"op": "{}", "path": {})", lines_.empty() ? "" : ", ", op, quote(path));
    if (!key.empty()) lines_ += fmt::format(R"(, "{}": {})", key, json);
    lines_ += "}";
  }
  std::string lines_;
};

inline Failure bad_change(std::string_view path, std::string message, std::string remedy) {
  return Failure{{{.code = "build.bad_change",
                   .path = std::string(path),
                   .message = sentence(std::move(message)),
                   .remedy = sentence(std::move(remedy)),
                   .at = {}}}};
}

}  // namespace rig::build
