#pragma once

#include <limits>

namespace rig {

/// A number that is not known.
inline constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

}  // namespace rig
