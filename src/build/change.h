#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "build/read.h"

/// Changes to whole things, each given as the JSON Patch that makes it.
namespace rig::build {

/// Something that names another thing.
struct Dependant {
  std::string path;   ///< Of the value that names it.
  std::string label;  ///< In the shop's words: "load state Towing".
};

/// What names the thing at `path`, or anything in it, from outside it.
std::vector<Dependant> find_dependants(const Document& document, std::string_view path);

/// Gives the thing at `path` another id at the same place in order; whatever names it follows.
/// @errors build.bad_change (no such thing, id taken or not an id).
Result<std::string> rename_patch(const Document& document, std::string_view path,
                                 std::string_view to);

/// A copy beside the thing, under the id `to`.
/// @errors build.bad_change.
Result<std::string> copy_patch(const Document& document, std::string_view path,
                               std::string_view to);

/// The mirror of a thing: for one that is given once for both sides, the same two apart (left and
/// right); for any other, a copy with every offset and side turned round.
/// @errors build.bad_change.
Result<std::string> mirror_patch(const Document& document, std::string_view path);

/// Takes a thing out, and what names it too: from lists the name, else the key that holds it.
/// @errors build.bad_change (no such thing; a dependant can't be without it).
Result<std::string> remove_patch(const Document& document, std::string_view path);

}  // namespace rig::build
