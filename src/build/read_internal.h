#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "build/document_internal.h"
#include "build/faults_internal.h"
#include "build/types.h"

namespace rig::build {

/// A hundred times a full build file; what is larger is something else.
inline constexpr std::size_t kLargest_bytes = 8U << 20U;

/// An id in the file that must be a key of the map `target`: "masses", "frame/rails", or one of
/// two, "frame/crossmembers|frame/plates".
struct IdUse {
  std::string id;
  std::string path;
  TextPosition at;
  std::string_view target;
};

/// True for what can be an id.
bool is_id(std::string_view text);
inline constexpr std::string_view kIdRemedy =
    "an id begins with a small letter and goes on with small letters, digits, - and _, 40 in all";

/// Reads the tree into a build: types, words, ranges, ids. What is wrong is reported and stays
/// unknown. Every use of an id is added to `uses`, unchecked.
void read_tree(const Node& root, Build& build, std::vector<IdUse>& uses, Faults& faults);

/// The JSON pointers of the maps that a target names.
std::vector<std::string> target_ways(std::string_view target);

/// Reports the ids that lead to nothing.
void check_references(const Node& root, const std::vector<IdUse>& uses, Faults& faults);

/// Reports the variants that don't read with their changes laid over the build.
void check_variants(const Node& root, Faults& faults);

/// Reports values that can't be true together.
void check_together(const Node& root, const Build& build, Faults& faults);

}  // namespace rig::build
