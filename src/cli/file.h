#pragma once

#include <string>

#include "base/result.h"
#include "build/read.h"

namespace rig::cli {

/// Reads and checks a build file from disk.
/// @errors serve.cannot_read, serve.too_large, and all of `build::read_build`.
Result<build::ReadBuild> read_file(const std::string& path);

/// Prints diagnostics to stderr, one a paragraph: `FILE:LINE:COLUMN: message`, where, what to do.
void print_diagnostics(const std::string& path, const Diagnostics& diagnostics);

}  // namespace rig::cli
