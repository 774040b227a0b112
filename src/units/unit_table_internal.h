#pragma once

#include <span>
#include <string>
#include <string_view>

#include "units/quantity.h"

/// The units this module knows and the spellings that lead to each; private to `units`.
namespace rig::units::internal {

struct Unit {
  std::string_view name;  ///< As printed.
  Dimension dimension = Dimension::kRatio;
  double si = 0;             ///< One of it, in SI.
  std::string_view aliases;  ///< Canonical spellings (see `canonical_unit`), separated by blanks.
};

/// Every known unit; those of one dimension stand together, the commonest first.
std::span<const Unit> all_units();

/// One spelling for many: takes text out of `fold_to_ascii` and removes the differences that don't
/// matter. "lbf - ft" -> "lbf*ft", "in." -> "in", "N m / deg" -> "N*m/deg", "in^3" -> "in3".
std::string canonical_unit(std::string_view folded);

/// The unit with this canonical spelling, or null. Where several dimensions share a spelling (psi
/// is a pressure and a stress), that of `preferred` if it is one of them. Capitals matter only
/// where nothing else tells two units apart: a single letter must be written as it stands.
const Unit* find_unit(std::string_view canonical, Dimension preferred);

/// The known unit whose spelling needs the fewest single-letter changes (two at most, and fewer
/// than its length), preferring those of `dimension`; null when none is near.
const Unit* find_nearest_unit(std::string_view canonical, Dimension dimension);

/// "in, ft, mm, cm or m".
std::string list_units(Dimension dimension);

}  // namespace rig::units::internal
