#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace rig::build {

/// Number of letters to insert, delete, change or swap with their neighbour to make one word of the
/// other (optimal string alignment), capital and small letters taken as one.
///
/// @return  The distance, or `limit + 1` if it is more than `limit`.
std::size_t calc_edit_distance(std::string_view a, std::string_view b, std::size_t limit);

/// The word that was probably meant: the nearest, the first of equals. None if all are further away
/// than a third of what was seen (at least 1 letter, at most 3).
std::optional<std::string_view> find_nearest(std::string_view seen,
                                             const std::vector<std::string_view>& words);

}  // namespace rig::build
