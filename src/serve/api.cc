#include "serve/api.h"

#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "base/require.h"
#include "build/read.h"
#include "check/report_json.h"
#include "check/scene_json.h"
#include "serve/page_files.h"

namespace rig::serve {
namespace {

using Json = nlohmann::json;

std::string quoted(const std::string& text) {
  return Json(text).dump(-1, ' ', false, Json::error_handler_t::replace);
}

Reply error_reply(int status, const std::string& words, const Diagnostics& diagnostics = {},
                  int revision = 0) {
  std::string body = fmt::format("{{\"error\": {}, \"diagnostics\": {}", quoted(words),
                                 check::diagnostics_json(diagnostics));
  if (revision > 0) body += fmt::format(", \"revision\": {}", revision);
  return {.status = status, .body = body + "}"};
}

Reply build_reply(const Session& session) {
  const auto now = session.snapshot();
  const std::string file = std::filesystem::path(session.path()).filename().string();
  return {.body = fmt::format("{{\"revision\": {}, \"file\": {}, \"document\": {}, \"units\": {}}}",
                              now->revision, quoted(file), build::write_build(*now->document),
                              check::units_json(now->build.units))};
}

Reply pose_reply(const Session& session, const std::string& body) {
  const auto now = session.snapshot();
  const auto question = check::read_pose_question(body);
  if (!question) {
    return error_reply(400, question.error().front().message, question.error());
  }
  const auto pose = check::pose_json(now->build, now->report, *question);
  if (!pose) return error_reply(400, pose.error().front().message, pose.error());
  return {.body = fmt::format("{{\"revision\": {}, \"pose\": {}}}", now->revision, *pose)};
}

struct EditRequest {
  int revision = 0;
  std::vector<build::Edit> edits;
};

/// The body of an edit, or nothing when it is not what docs/api.md says.
std::optional<EditRequest> read_edit_request(const std::string& text) {
  const Json body = Json::parse(text, nullptr, false);
  if (!body.is_object() || !body.contains("revision") || !body.contains("edits"))
    return std::nullopt;
  const Json &revision = body["revision"], &edits = body["edits"];
  if (!revision.is_number_integer() || !edits.is_array()) return std::nullopt;
  EditRequest request;
  request.revision = revision.get<int>();
  for (const Json& edit : edits) {
    if (!edit.is_object() || !edit.contains("path") || !edit["path"].is_string())
      return std::nullopt;
    const bool remove = edit.contains("remove") && edit["remove"] == true;
    if (remove == edit.contains("value")) return std::nullopt;
    request.edits.push_back({.path = edit["path"].get<std::string>(),
                             .json = remove ? std::string() : edit["value"].dump()});
  }
  return request;
}

Reply edit_reply(Session& session, const std::string& body) {
  const auto request = read_edit_request(body);
  if (!request) return error_reply(400, "this is no edit as the page's interface describes it");
  const EditAnswer answer = session.edit(request->revision, request->edits);
  if (!answer.fault) {
    const Snapshot& now = *answer.now;
    return {.body = fmt::format(
                "{{\"revision\": {}, \"report\": {}, \"scene\": {}, \"document\": {}}}",
                now.revision, now.report_json, now.scene_json, build::write_build(*now.document))};
  }
  switch (*answer.fault) {
    case EditFault::kOldRevision:
      return error_reply(409, "the build was changed elsewhere in the meantime", answer.diagnostics,
                         answer.now->revision);
    case EditFault::kDoesNotRead:
      return error_reply(422, answer.diagnostics.front().message, answer.diagnostics);
    case EditFault::kCannotWrite:
      return error_reply(503, answer.diagnostics.front().message, answer.diagnostics);
  }
  return error_reply(500, "unknown fault");
}

Reply route(Session& session, const Ask& ask) {
  if (ask.method == "GET") {
    if (const auto file = find_page_file(ask.path)) {
      return {.type = std::string(file->type), .body = std::string(file->content)};
    }
    if (ask.path == "/api/build") return build_reply(session);
    if (ask.path == "/api/schema") return {.body = build::schema_json()};
    const auto now = session.snapshot();
    if (ask.path == "/api/report") {
      return {.body = fmt::format("{{\"revision\": {}, \"report\": {}}}", now->revision,
                                  now->report_json)};
    }
    if (ask.path == "/api/scene") {
      return {.body = fmt::format("{{\"revision\": {}, \"scene\": {}}}", now->revision,
                                  now->scene_json)};
    }
  }
  if (ask.method == "POST") {
    if (ask.path == "/api/pose") return pose_reply(session, ask.body);
    if (ask.path == "/api/edit") return edit_reply(session, ask.body);
  }
  return error_reply(404, "there is nothing at this address");
}

}  // namespace

Reply answer(Session& session, const Ask& ask) {
  try {
    return route(session, ask);
  } catch (const LogicError& error) {
    return error_reply(500, fmt::format("a mistake of the program itself: {}", error.what()));
  }
}

}  // namespace rig::serve
