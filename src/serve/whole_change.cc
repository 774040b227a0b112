#include "build/change.h"
#include "build/move_cases.h"
#include "serve/whole_change_internal.h"

namespace rig::serve::internal {
namespace {

std::string beside(const std::string& path, const std::string& id) {
  return path.substr(0, path.rfind('/') + 1) + id;
}

}  // namespace

std::optional<WholeChange> whole_change(const build::Document& document, const Json& body) {
  const auto kind = text_in(body, "kind"), path = text_in(body, "path"), to = text_in(body, "to");
  if (kind == "move_cases") {
    const auto typed = [&](const char* key) { return text_in(body, key).value_or(""); };
    return WholeChange{
        build::move_cases_patch(document, {path.value_or(""), typed("rearward"), typed("left"),
                                           typed("up"), typed("tilt")}),
        path.value_or("/drivetrain/segments")};
  }
  if (!kind || !path) return std::nullopt;
  if (*kind == "rename" && to) {
    return WholeChange{build::rename_patch(document, *path, *to), beside(*path, *to)};
  }
  if (*kind == "copy" && to) {
    return WholeChange{build::copy_patch(document, *path, *to), beside(*path, *to)};
  }
  if (*kind == "mirror") return WholeChange{build::mirror_patch(document, *path), *path};
  if (*kind == "remove") {
    return WholeChange{build::remove_patch(document, *path), beside(*path, "")};
  }
  return std::nullopt;
}

}  // namespace rig::serve::internal
