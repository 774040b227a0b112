#pragma once

#include <string>

#include "build/values.h"

namespace rig::driveline {

/// What the shop calls a thing.
template <typename T>
std::string name_of_entry(const build::Entry<T>& entry) {
  return entry.value.label.empty() ? entry.id : entry.value.label;
}

}  // namespace rig::driveline
