#pragma once

#include <optional>
#include <string>

#include "build/read.h"
#include "serve/routes_internal.h"

/// Changes that the program makes by itself. Private to `serve`.
namespace rig::serve::internal {

/// A change to a whole thing, as the patch that makes it, and where the thing is afterwards.
struct WholeChange {
  Result<std::string> patch;
  std::string path;
};

/// @param body  As in docs/openapi.json, Change; nothing when it is none.
std::optional<WholeChange> whole_change(const build::Document& document, const Json& body);

}  // namespace rig::serve::internal
