#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "build/read.h"

/// Named changes laid over a build: `variants` in the file.
namespace rig::build {

/// The build with a variant's changes laid over it; its document has no `variants`.
/// @errors build.no_variant, and all of `read_build`.
Result<ReadBuild> vary_build(const Document& document, std::string_view variant);

/// `document` with the variant's changes replaced by those that make `varied` of it; a variant that
/// isn't there yet is made.
/// @errors all of `read_build`.
Result<ReadBuild> set_variant(const Document& document, std::string_view variant,
                              const Document& varied);

/// One value that differs between two builds.
struct Difference {
  std::string path;
  std::string label;  ///< In the shop's words: "Front axle, coil, upper seat height".
  std::string a, b;   ///< As written; "not given" when there is none, "there" for a whole thing.
  bool in_a = true, in_b = true;  ///< Whether it is there at all.
};

/// What differs between two documents, value by value, in the order of the file; their variants
/// too.
std::vector<Difference> find_differences(const Document& a, const Document& b);

}  // namespace rig::build
