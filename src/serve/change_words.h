#pragma once

#include <cstdint>
#include <string>

#include "build/read.h"

namespace rig::serve {

/// What was changed from one document to another, in one line: "Front axle, track: 62 in → 63 in".
std::string change_words(const build::Document& from, const build::Document& to);

/// Milliseconds since 1970-01-01 UTC, now.
std::int64_t now_ms();

/// A moment as ISO 8601: "2026-03-01T09:30:00.250Z".
std::string time_text(std::int64_t ms);

}  // namespace rig::serve
