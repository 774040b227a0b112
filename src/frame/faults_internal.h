#pragma once

#include <fmt/format.h>

#include <cstddef>
#include <string>
#include <utility>

#include "base/result.h"

namespace rig::frame {

/// What a fault calls a thing: by its place in the file where it has one, else by its number.
inline std::string named(const std::string& place, const char* kind, std::size_t i) {
  return place.empty() ? fmt::format("{} {}", kind, i + 1) : place;
}

/// One more of the faults that are all told in one pass.
inline void add_fault(Diagnostics& faults, std::string code, std::string path, std::string message,
                      std::string remedy = {}) {
  faults.push_back(
      fail(std::move(code), std::move(path), std::move(message), std::move(remedy)).diagnostics[0]);
}

}  // namespace rig::frame
