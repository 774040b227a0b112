#include "serve/text_change.h"

#include <algorithm>

#include "base/require.h"

namespace rig::serve {

TextChange find_text_change(std::string_view from, std::string_view to) {
  const std::size_t shorter = std::min(from.size(), to.size());
  std::size_t front = 0;
  while (front < shorter && from[front] == to[front]) ++front;
  std::size_t back = 0;
  while (back < shorter - front && from[from.size() - 1 - back] == to[to.size() - 1 - back]) ++back;
  return {.offset = front,
          .removed = std::string(from.substr(front, from.size() - front - back)),
          .inserted = std::string(to.substr(front, to.size() - front - back))};
}

std::string apply_change(std::string_view text, const TextChange& change) {
  RIG_REQUIRE(change.offset <= text.size());
  RIG_REQUIRE(text.substr(change.offset, change.removed.size()) == change.removed);
  std::string changed;
  changed.reserve(text.size() - change.removed.size() + change.inserted.size());
  changed += text.substr(0, change.offset);
  changed += change.inserted;
  changed += text.substr(change.offset + change.removed.size());
  return changed;
}

TextChange inverse_of(const TextChange& change) {
  return {.offset = change.offset, .removed = change.inserted, .inserted = change.removed};
}

}  // namespace rig::serve
