#include "serve/ask.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <optional>

namespace rig::serve {
namespace {

std::optional<int> digit_of(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return std::nullopt;
}

/// A broken escape stands for itself.
std::string unescape(const std::string& text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '+') {
      plain += ' ';
      continue;
    }
    if (text[i] == '%' && i + 2 < text.size()) {
      const auto high = digit_of(text[i + 1]), low = digit_of(text[i + 2]);
      if (high && low) {
        plain += static_cast<char>(16 * *high + *low);
        i += 2;
        continue;
      }
    }
    plain += text[i];
  }
  return plain;
}

}  // namespace

void set_target(Ask& ask, const std::string& target) {
  const auto mark = target.find('?');
  ask.path = target.substr(0, mark);
  if (mark == std::string::npos) return;
  std::size_t begin = mark + 1;
  while (begin <= target.size()) {
    const std::size_t end = std::min(target.find('&', begin), target.size());
    const std::string pair = target.substr(begin, end - begin);
    const auto equals = pair.find('=');
    if (!pair.empty()) {
      ask.query[unescape(pair.substr(0, equals))] =
          equals == std::string::npos ? std::string() : unescape(pair.substr(equals + 1));
    }
    begin = end + 1;
  }
}

std::string event_text(const HeadEvent& event) {
  const nlohmann::ordered_json data{{"etag", event.tag},
                                    {"entry", event.entry},
                                    {"screen", event.by.screen},
                                    {"who", event.by.initials}};
  return fmt::format("event: head\ndata: {}\n\n",
                     data.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
}

}  // namespace rig::serve
