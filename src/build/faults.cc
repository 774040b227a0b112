#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "build/faults_internal.h"
#include "build/nearest_internal.h"
#include "build/utf8_internal.h"

namespace rig::build {

void Faults::add(std::string_view code, std::string path, TextPosition at, std::string message,
                 std::string remedy) {
  if (full()) return;
  list_.push_back({.code = std::string(code),
                   .path = std::move(path),
                   .message = sentence(std::move(message)),
                   .remedy = sentence(std::move(remedy)),
                   .at = at});
}

Diagnostics Faults::take() {
  const auto place = [](const Diagnostic& d) { return std::tuple(d.at->line, d.at->column); };
  std::stable_sort(list_.begin(), list_.end(),
                   [&](const Diagnostic& a, const Diagnostic& b) { return place(a) < place(b); });
  if (full()) {
    list_.push_back({.code = "build.too_many",
                     .path = "",
                     .message = fmt::format("There are {} faults or more.", kMost),
                     .remedy = "Mend these and look again.",
                     .at = list_.back().at});
  }
  return std::move(list_);
}

std::string shown(std::string_view text) {
  constexpr std::size_t kLongest = 60;
  std::string out = "\"";
  for (std::size_t i = 0; i < text.size();) {
    if (i >= kLongest) {
      return out + "...\"";
    }
    const std::size_t length = utf8_length(text.substr(i));
    const auto byte = static_cast<unsigned char>(text[i]);
    if (length == 0 || is_control(text[i])) {
      out += fmt::format("\\x{:02x}", byte);
    } else {
      out += text.substr(i, length);
    }
    i += std::max<std::size_t>(1, length);
  }
  return out + "\"";
}

std::string listed(const std::vector<std::string_view>& words) {
  constexpr std::size_t kMostWords = 12;
  const std::size_t count =
      words.size() > kMostWords + 1 ? kMostWords : words.size();  // never "and 1 more"
  std::string out;
  for (std::size_t i = 0; i < count; ++i) {
    out += (i == 0 ? "" : ", ") + std::string(words[i]);
  }
  if (count < words.size()) out += fmt::format(" and {} more", words.size() - count);
  return out;
}

std::string sentence(std::string text) {
  constexpr std::string_view kStops = ".?!";
  if (text.empty()) return text;
  if (text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  if (kStops.find(text.back()) == std::string_view::npos) text += '.';
  return text;
}

std::string suggest(std::string_view seen, const std::vector<std::string_view>& words,
                    std::string_view lead) {
  std::string out;
  if (const auto near = find_nearest(seen, words))
    out = fmt::format("Did you mean \"{}\"? ", *near);
  return fmt::format("{}{}: {}", out, lead, listed(words));
}

}  // namespace rig::build
