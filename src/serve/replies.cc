// What the handlers of the routes share.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "check/report_json.h"
#include "serve/routes_internal.h"

namespace rig::serve::internal {
namespace {

/// No body of ours is deeper.
constexpr int kDeepest = 8;
constexpr std::size_t kLongestScreen = 64;
constexpr std::size_t kLongestInitials = 16;

int status_of(const std::string& code) {
  static const std::map<std::string, int, std::less<>> kStatuses{
      {"serve.no_build", 404},     {"serve.no_entry", 404},
      {"build.no_variant", 404},   {"frame.no_case", 404},
      {"serve.disk", 507},         {"serve.cannot_write", 507},
      {"serve.journal_held", 409}, {"serve.journal_damaged", 409},
      {"serve.single", 409},       {"serve.file_exists", 409},
      {"serve.name_taken", 409}};
  const auto found = kStatuses.find(code);
  return found == kStatuses.end() ? 422 : found->second;
}

bool is_plain(const std::string& text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

/// `"TAG"`, strong, one.
std::optional<std::string> read_tag(const std::string& header) {
  constexpr std::size_t kTagLength = 16;
  if (header.size() != kTagLength + 2 || header.front() != '"' || header.back() != '"') {
    return std::nullopt;
  }
  const std::string tag = header.substr(1, kTagLength);
  const bool is_hex = tag.find_first_not_of("0123456789abcdef") == std::string::npos;
  return is_hex ? std::optional(tag) : std::nullopt;
}

std::string json_or_null(const std::optional<std::string>& json) { return json.value_or("null"); }

Reply refusal_reply(const ChangeAnswer& answer) {
  const std::string tag = fmt::format("\"etag\": \"{}\"", answer.now->tag());
  const auto& diagnostics = answer.diagnostics;
  const std::string words =
      diagnostics.empty() ? "the build was changed in the meantime" : diagnostics.front().message;
  switch (*answer.refusal) {
    case Refusal::kConflict: {
      std::string conflicts;
      for (const auto& conflict : answer.conflicts) {
        conflicts += fmt::format("{}{{\"path\": {}, \"base\": {}, \"theirs\": {}, \"yours\": {}}}",
                                 conflicts.empty() ? "" : ", ", json_text(conflict.path),
                                 json_or_null(conflict.base), json_or_null(conflict.theirs),
                                 json_or_null(conflict.yours));
      }
      return error_reply(412, words, diagnostics,
                         fmt::format("\"conflicts\": [{}], {}", conflicts, tag));
    }
    case Refusal::kNothing:
      return error_reply(diagnostics.front().code == "serve.no_entry" ? 404 : 409, words,
                         diagnostics, tag);
    case Refusal::kFileFault:
      return error_reply(409, "the file was changed outside and can't be read: mend it, or go back",
                         diagnostics, tag);
    case Refusal::kDoesNotRead:
    case Refusal::kDisk:
    case Refusal::kGone:
      return failure_reply(diagnostics);
  }
  return error_reply(500, "unknown refusal");
}

}  // namespace

std::string json_text(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Reply error_reply(int status, const std::string& words, const Diagnostics& diagnostics,
                  const std::string& more) {
  return {
      .status = status,
      .body = fmt::format("{{\"error\": {}, \"diagnostics\": {}{}{}}}", json_text(words),
                          check::diagnostics_json(diagnostics), more.empty() ? "" : ", ", more)};
}

Reply failure_reply(const Diagnostics& diagnostics) {
  const Diagnostic& first = diagnostics.front();
  return error_reply(status_of(first.code), first.message, diagnostics);
}

Reply bad_body() { return error_reply(400, "the body is not what docs/openapi.json says"); }

std::optional<Json> read_object(const Ask& ask) {
  bool is_shallow = true;
  Json body = Json::parse(
      ask.body,
      [&](int depth, Json::parse_event_t, const Json&) {
        if (depth > kDeepest) is_shallow = false;
        return depth <= kDeepest;
      },
      /*allow_exceptions=*/false);
  if (!is_shallow || !body.is_object()) return std::nullopt;
  return body;
}

std::optional<std::string> text_in(const Json& object, const char* key) {
  const auto found = object.find(key);
  if (found == object.end() || !found->is_string()) return std::nullopt;
  return found->get<std::string>();
}

std::optional<std::int64_t> number_in(const Ask& ask, const char* key, std::int64_t usual) {
  if (!ask.query.contains(key)) return usual;
  const std::string text = ask.parameter(key);
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || number < 0) return std::nullopt;
  return number;
}

ReadChange read_change(const Ask& ask) {
  if (!ask.headers.contains("if-match")) {
    return {.refusal = error_reply(428, "say what the change was made on: If-Match is missing")};
  }
  const auto tag = read_tag(ask.header("if-match"));
  if (!tag) return {.refusal = error_reply(400, "If-Match is not one of this server's tags")};
  const std::string screen = ask.header("rig-screen"), initials = ask.header("rig-initials");
  if (screen.size() > kLongestScreen || initials.size() > kLongestInitials || !is_plain(screen) ||
      !is_plain(initials)) {
    return {.refusal =
                error_reply(400, "Rig-Screen or Rig-Initials is too long or not plain text")};
  }
  return {.request = {.tag = *tag,
                      .variant = ask.parameter("variant"),
                      .by = {.screen = screen, .initials = initials}}};
}

Reply tagged(Reply reply, const std::string& tag) {
  reply.headers.emplace_back("ETag", fmt::format("\"{}\"", tag));
  return reply;
}

Reply change_reply(const ChangeAnswer& answer, const std::string& variant,
                   const std::string& more) {
  if (answer.refusal) return tagged(refusal_reply(answer), answer.now->tag());
  const Snapshot& now = *answer.now;
  // An undo may have taken the variant away: then it is the build itself that is told.
  const auto varied = now.answers(variant);
  const Answers& told = varied ? **varied : *now.plain();
  return tagged(
      {.body = fmt::format(
           "{{\"etag\": \"{}\", \"entry\": {}, \"document\": {}, \"report\": {}, \"scene\": {}, "
           "\"merged\": {}, \"can_undo\": {}, \"can_redo\": {}{}{}}}",
           now.tag(), now.entry(), told.document_json, told.report_json, told.scene_json,
           answer.merged, now.can_undo(), now.can_redo(), more.empty() ? "" : ", ", more)},
      now.tag());
}

}  // namespace rig::serve::internal
