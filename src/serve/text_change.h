#pragma once

#include <string>
#include <string_view>

namespace rig::serve {

/// What makes one text of another: at `offset`, `removed` is taken out and `inserted` put in.
struct TextChange {
  std::size_t offset = 0;
  std::string removed;
  std::string inserted;

  bool operator==(const TextChange&) const = default;
};

/// The shortest change that leaves a beginning and an end as they are.
TextChange find_text_change(std::string_view from, std::string_view to);

/// The text with the change made. The change must fit: `removed` stands at `offset`.
std::string apply_change(std::string_view text, const TextChange& change);

/// The change that takes this one back.
TextChange inverse_of(const TextChange& change);

}  // namespace rig::serve
