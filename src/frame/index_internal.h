#pragma once

#include <cstddef>

namespace rig::frame {

/// An index as containers want it.
inline std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace rig::frame
