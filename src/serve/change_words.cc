#include "serve/change_words.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <ctime>

#include "build/variant.h"

namespace rig::serve {
namespace {

constexpr std::size_t kTold = 3;

std::string words_of(const build::Difference& difference) {
  const auto& [path, label, a, b, in_a, in_b] = difference;
  if (in_a && in_b) return fmt::format("{}: {} \u2192 {}", label, a, b);
  const std::string& value = in_a ? a : b;
  return fmt::format("{}{} {}", label, value == "there" ? "" : ": " + value,
                     in_a ? "taken out" : "added");
}

}  // namespace

std::string change_words(const build::Document& from, const build::Document& to) {
  const auto differences = build::find_differences(from, to);
  if (differences.empty()) return "No value changed";
  std::string words;
  for (std::size_t i = 0; i < std::min(kTold, differences.size()); ++i) {
    words += fmt::format("{}{}", i > 0 ? "; " : "", words_of(differences[i]));
  }
  if (differences.size() > kTold) {
    words += fmt::format("; and {} more", differences.size() - kTold);
  }
  return words;
}

std::int64_t now_ms() {
  return std::chrono::duration_cast<std::chrono::milliseconds>(
             std::chrono::system_clock::now().time_since_epoch())
      .count();
}

std::string time_text(std::int64_t ms) {
  const std::time_t seconds = ms / 1000;
  return fmt::format("{:%Y-%m-%dT%H:%M:%S}.{:03d}Z", fmt::gmtime(seconds), ms % 1000);
}

}  // namespace rig::serve
