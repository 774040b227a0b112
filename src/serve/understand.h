#pragma once

#include <string>

#include "base/result.h"
#include "units/quantity.h"

namespace rig::serve {

/// How the program reads what somebody types into a field.
struct Understood {
  double si = 0;
  std::string text;     ///< In the build's units.
  std::string written;  ///< What to put in the file: as typed, with the unit if it was left out.
  std::string also;     ///< In the other system of units.
};

/// @param dimension  "length", "mass" ... as in docs/api.md, units.
/// @errors serve.unknown_dimension, and those of `units::parse_quantity`.
Result<Understood> understand(const std::string& dimension, const std::string& text,
                              const units::UnitChoices& choices);

}  // namespace rig::serve
