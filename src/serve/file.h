#pragma once

#include <string>

#include "base/result.h"

namespace rig::serve {

/// The whole file as text.
/// @errors serve.cannot_read, serve.too_large (over 8 MiB).
Result<std::string> read_text(const std::string& path);

/// Replaces a file so that a crash or a full disk leaves either the old text or the new, whole:
/// written beside it, flushed to disk, then renamed over it. Returns the number of bytes.
/// @errors serve.cannot_write; the old file is then as it was.
Result<std::size_t> write_text(const std::string& path, const std::string& text);

}  // namespace rig::serve
