// The addresses of the interface's first version, for a page that still asks there. They go to the
// one build of a server that shows one file; its entry stands for the revision.
#include <fmt/format.h>

#include "check/report_json.h"
#include "serve/routes_internal.h"

namespace rig::serve::internal {
namespace {

std::shared_ptr<OpenBuild> only_build(Desk& desk) {
  const auto all = desk.shop.list();
  if (!desk.shop.is_single() || all.empty()) return nullptr;
  auto found = desk.shop.find(all.front().id);
  return found ? *found : nullptr;
}

/// The patch of an old edit; nothing when it is none.
std::optional<Json> patch_of(const Json& body) {
  if (!body.contains("edits") || !body["edits"].is_array()) return std::nullopt;
  Json patch = Json::array();
  for (const Json& edit : body["edits"]) {
    if (!edit.is_object() || !text_in(edit, "path")) return std::nullopt;
    if (edit.contains("value")) {
      patch.push_back({{"op", "add"}, {"path", edit["path"]}, {"value", edit["value"]}});
    } else {
      patch.push_back({{"op", "remove"}, {"path", edit["path"]}});
    }
  }
  return patch;
}

}  // namespace

Reply old_get(Desk& desk, const Ask& ask, const std::string&) {
  const auto build = only_build(desk);
  if (!build) return error_reply(404, "there is nothing at this address");
  const auto now = build->snapshot();
  const Answers& plain = *now->plain();
  if (ask.path == "/api/report") {
    return {.body = fmt::format("{{\"revision\": {}, \"report\": {}}}", now->entry(),
                                plain.report_json)};
  }
  if (ask.path == "/api/scene") {
    return {.body =
                fmt::format("{{\"revision\": {}, \"scene\": {}}}", now->entry(), plain.scene_json)};
  }
  const std::string file = build->path().substr(build->path().rfind('/') + 1);
  return {.body = fmt::format("{{\"revision\": {}, \"file\": {}, \"document\": {}, \"units\": {}}}",
                              now->entry(), json_text(file), plain.document_json,
                              check::units_json(plain.build.units))};
}

Reply old_pose(Desk& desk, const Ask& ask, const std::string&) {
  return post_pose(desk, ask, desk.shop.list().front().id);
}

Reply old_edit(Desk& desk, const Ask& ask, const std::string&) {
  const auto build = only_build(desk);
  const auto body = read_object(ask);
  const auto patch = body ? patch_of(*body) : std::nullopt;
  if (!build || !patch || !body->contains("revision")) return bad_body();
  const auto now = build->snapshot();
  if ((*body)["revision"] != now->entry()) {
    return error_reply(409, "the build was changed elsewhere in the meantime", {},
                       fmt::format("\"revision\": {}", now->entry()));
  }
  const auto answer = build->patch({.tag = now->tag()}, json_text(*patch));
  if (answer.refusal) return change_reply(answer, "");
  const Answers& plain = *answer.now->plain();
  return {.body = fmt::format(
              "{{\"revision\": {}, \"report\": {}, \"scene\": {}, \"document\": {}}}",
              answer.now->entry(), plain.report_json, plain.scene_json, plain.document_json)};
}

}  // namespace rig::serve::internal
