#include <algorithm>

#include "build/nearest_internal.h"

namespace rig::build {
namespace {

char small(char letter) {
  return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
}

}  // namespace

std::size_t calc_edit_distance(std::string_view a, std::string_view b, std::size_t limit) {
  const std::size_t difference = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
  if (difference > limit) return limit + 1;

  // Rows of the table: before[j] and so on are distances from a's first i-2, i-1 and i letters to
  // b's first j.
  std::vector<std::size_t> two_before(b.size() + 1);
  std::vector<std::size_t> before(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::swap(two_before, before);
    std::swap(before, row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = small(a[i - 1]) == small(b[j - 1]);
      row[j] = std::min({before[j] + 1, row[j - 1] + 1, before[j - 1] + (same ? 0 : 1)});
      const bool swapped = i > 1 && j > 1 && small(a[i - 1]) == small(b[j - 2]) &&
                           small(a[i - 2]) == small(b[j - 1]);
      if (swapped) row[j] = std::min(row[j], two_before[j - 2] + 1);
    }
    if (*std::min_element(row.begin(), row.end()) > limit) return limit + 1;
  }
  return std::min(row[b.size()], limit + 1);
}

std::optional<std::string_view> find_nearest(std::string_view seen,
                                             const std::vector<std::string_view>& words) {
  std::optional<std::string_view> nearest;
  std::size_t limit = std::clamp<std::size_t>(seen.size() / 3, 1, 3);
  for (const std::string_view word : words) {
    const std::size_t distance = calc_edit_distance(seen, word, limit);
    if (distance > limit) continue;
    nearest = word;
    if (distance == 0) break;
    limit = distance - 1;
  }
  return nearest;
}

}  // namespace rig::build
