#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "serve/routes.h"

/// What the handlers of the routes share. Private to `serve`.
namespace rig::serve::internal {

using Json = nlohmann::ordered_json;

/// JSON text whatever bytes there are in it.
std::string json_text(const Json& json);

/// @param more  Members to add, such as `"etag": "..."`; may be empty.
Reply error_reply(int status, const std::string& words, const Diagnostics& diagnostics = {},
                  const std::string& more = {});

/// The status that a failure's code means, with its words.
Reply failure_reply(const Diagnostics& diagnostics);

/// The body as a JSON object that is not deep; else nothing.
std::optional<Json> read_object(const Ask& ask);

/// A text member of an object; nothing when it is missing or no text.
std::optional<std::string> text_in(const Json& object, const char* key);

/// A whole number of the query, or what is usual; nothing when it isn't one.
std::optional<std::int64_t> number_in(const Ask& ask, const char* key, std::int64_t usual);

/// What changing requests say in their headers; else the reply that says what is wrong with them.
struct ReadChange {
  ChangeRequest request;
  std::optional<Reply> refusal;
};
ReadChange read_change(const Ask& ask);

/// Adds the entity tag.
Reply tagged(Reply reply, const std::string& tag);

/// The answer to a change.
/// @param more  As in `error_reply`; only when the change was made.
Reply change_reply(const ChangeAnswer& answer, const std::string& variant,
                   const std::string& more = {});

Reply bad_body();

using Answerer = Reply(Desk& desk, const Ask& ask, const std::string& id);

Answerer get_shop, get_questions, post_builds, post_archive;
Answerer get_build, get_file, get_report, get_scene, get_picture, post_pose, post_trial, get_next;
Answerer get_frame_drawing, get_frame_sections;
Answerer get_compare, get_dependants, get_events, get_history;
Answerer patch_build, post_undo, post_redo, post_restore, post_change, post_versions;
Answerer get_understand, get_schema, get_openapi, post_pair, get_door;

}  // namespace rig::serve::internal
