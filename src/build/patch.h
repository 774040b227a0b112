#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "build/read.h"

/// Changing a document by JSON Patch (RFC 6902), and what two changes have to do with each other.
namespace rig::build {

/// A new document with the patch applied, read and checked; all of it or nothing.
/// @param patch  An RFC 6902 document: a list of add, remove, replace, move, copy and test.
/// @errors build.bad_patch (not a patch or over 1000 lines, a place that isn't there, a test that
///         fails, text and copies over 8 MiB), and all of `read_build`.
Result<ReadBuild> patch_build(const Document& document, std::string_view patch);

/// The pointers of the values that a patch reads, sets or takes out, in its order.
/// @errors build.bad_patch.
Result<std::vector<std::string>> touched_paths(std::string_view patch);

/// The value at a pointer as compact JSON, quantities as written; nothing when there is none.
std::optional<std::string> value_at(const Document& document, std::string_view pointer);

/// One value that both sides changed since `base`.
struct Conflict {
  std::string path;
  std::optional<std::string> base, theirs, yours;  ///< Compact JSON; nothing: not there.
};

/// The values that `patch`, made on `base`, touches and that are another in `head`. None: the patch
/// may be applied to `head`.
/// @errors build.bad_patch.
Result<std::vector<Conflict>> find_conflicts(const Document& base, const Document& head,
                                             std::string_view patch);

}  // namespace rig::build
