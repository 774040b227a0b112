#include "serve/routes.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/require.h"
#include "serve/page_files.h"
#include "serve/routes_internal.h"

namespace rig::serve {
namespace {

using namespace internal;

constexpr std::uint64_t kSmall = 4U << 10U;
constexpr std::uint64_t kPatch = 1U << 20U;
constexpr std::uint64_t kImport = 8U << 20U;

constexpr Route kRoutes[] = {
    {"GET", "/api/shop", get_shop},
    {"GET", "/api/shop/questions", get_questions},
    {"POST", "/api/shop/builds", post_builds, false, kImport},
    {"POST", "/api/shop/archive", post_archive, false, kSmall},
    {"GET", "/api/builds/{id}", get_build},
    {"PATCH", "/api/builds/{id}", patch_build, false, kPatch},
    {"GET", "/api/builds/{id}/file", get_file},
    {"GET", "/api/builds/{id}/report", get_report},
    {"GET", "/api/builds/{id}/scene", get_scene},
    {"GET", "/api/builds/{id}/picture.svg", get_picture},
    {"POST", "/api/builds/{id}/pose", post_pose, false, kSmall},
    {"POST", "/api/builds/{id}/trial", post_trial, false, kPatch},
    {"POST", "/api/builds/{id}/undo", post_undo, false, kSmall},
    {"POST", "/api/builds/{id}/redo", post_redo, false, kSmall},
    {"POST", "/api/builds/{id}/restore", post_restore, false, kSmall},
    {"POST", "/api/builds/{id}/change", post_change, false, kSmall},
    {"GET", "/api/builds/{id}/history", get_history},
    {"POST", "/api/builds/{id}/versions", post_versions, false, kSmall},
    {"GET", "/api/builds/{id}/dependants", get_dependants},
    {"GET", "/api/builds/{id}/next", get_next},
    {"GET", "/api/builds/{id}/frame/drawing", get_frame_drawing},
    {"GET", "/api/builds/{id}/frame/sections", get_frame_sections},
    {"GET", "/api/builds/{id}/compare", get_compare},
    {"GET", "/api/builds/{id}/events", get_events},
    {"GET", "/api/understand", get_understand},
    {"GET", "/api/schema", get_schema},
    {"GET", "/api/openapi.json", get_openapi},
    {"POST", "/api/pair", post_pair, true, kSmall},
    {"GET", "/api/door", get_door, true},
};

constexpr std::size_t kLongestKnownId = 64;

bool is_id(std::string_view text) {
  return !text.empty() && text.size() <= kLongestKnownId &&
         std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
         });
}

/// Whether a path is the route's; the id in it, if there is one.
bool matches(std::string_view pattern, std::string_view path, std::string& id) {
  constexpr std::string_view kMark = "{id}";
  const auto mark = pattern.find(kMark);
  if (mark == std::string_view::npos) return pattern == path;
  const std::string_view tail = pattern.substr(mark + kMark.size());
  if (!path.starts_with(pattern.substr(0, mark))) return false;
  path.remove_prefix(mark);
  if (!path.ends_with(tail)) return false;
  path.remove_suffix(tail.size());
  if (!is_id(path)) return false;
  id = path;
  return true;
}

struct Found {
  const Route* route = nullptr;
  std::string id;
  bool is_known_path = false;  ///< Another method would do.
};

Found find_route(const Ask& ask) {
  Found found;
  for (const Route& route : kRoutes) {
    std::string id;
    if (!matches(route.path, ask.path, id)) continue;
    found.is_known_path = true;
    if (route.method == ask.method) return {&route, id, true};
  }
  return found;
}

bool is_page_file(const Ask& ask) { return find_page_file(ask.path) != nullptr; }

/// The server's own names: the address where it was reached, and "localhost" on loopback.
bool is_own_host(const Ask& ask, int port) {
  const std::string host = ask.header("host");
  if (host == ask.local) return true;
  const std::string suffix = fmt::format(":{}", port);
  const std::string local = ask.local.substr(0, ask.local.rfind(':'));
  if (port == 80 && (host == local || host == "localhost")) return true;
  return host == "localhost" + suffix && local.starts_with("127.");
}

/// A page of another site may send requests here, but not without saying so.
bool is_from_own_page(const Ask& ask) {
  const std::string origin = ask.header("origin");
  if (!origin.empty() && origin != "http://" + ask.header("host")) return false;
  const std::string site = ask.header("sec-fetch-site");
  return site.empty() || site == "same-origin" || site == "none" || is_page_file(ask);
}

/// The value of this server's cookie.
std::string secret_in(const Ask& ask, int port) {
  const std::string cookies = "; " + ask.header("cookie");
  const std::string name = fmt::format("; rig_{}=", port);
  const auto at = cookies.find(name);
  if (at == std::string::npos) return {};
  const auto begin = at + name.size();
  return cookies.substr(begin, cookies.find(';', begin) - begin);
}

bool has_right_type(const Ask& ask) {
  const std::string type =
      ask.header("content-type").substr(0, ask.header("content-type").find(';'));
  if (ask.method == "PATCH") return type == "application/json-patch+json";
  // Undo and redo say all in their headers.
  return type == "application/json" || (type.empty() && ask.header("content-length") == "0");
}

/// A browser may keep the page, but asks each time whether it is still the program's.
Reply page_reply(const PageFile& file, const Ask& ask) {
  Reply reply = internal::tagged({.type = std::string(file.type)}, file.tag);
  reply.headers.emplace_back("Cache-Control", "no-cache");
  if (ask.header("if-none-match") == "\"" + file.tag + "\"") {
    reply.status = 304;
  } else {
    reply.body = file.content;
  }
  return reply;
}

}  // namespace

std::span<const Route> all_routes() { return kRoutes; }

Admission admit(const Desk& desk, const Ask& ask) {
  const auto refuse = [](int status, const std::string& words) {
    return Admission{.refusal = error_reply(status, words)};
  };
  if (!is_own_host(ask, desk.port)) return refuse(403, "that is not this server's address");
  if (!is_from_own_page(ask)) return refuse(403, "another site's page may not ask here");
  if (ask.headers.contains("content-encoding")) return refuse(415, "bodies must come plain");
  if (ask.headers.contains("transfer-encoding"))
    return refuse(411, "bodies must tell their length");
  if (ask.method == "GET" && is_page_file(ask)) return {};
  const Found found = find_route(ask);
  if (found.route == nullptr && found.is_known_path) {
    return refuse(405, "that can't be done at this address");
  }
  const bool is_paired = desk.door.lets_in(secret_in(ask, desk.port));
  if (!is_paired && (found.route == nullptr || !found.route->is_open)) {
    return refuse(401, "this screen is not paired yet");
  }
  if (found.route == nullptr) return refuse(404, "there is nothing at this address");
  if (ask.method != "GET" && !has_right_type(ask)) {
    return refuse(415, ask.method == "PATCH" ? "a patch must be application/json-patch+json"
                                             : "the body must be application/json");
  }
  return {.largest_body = found.route->largest_body};
}

Reply answer(Desk& desk, const Ask& ask) {
  try {
    if (ask.method == "GET") {
      if (const PageFile* file = find_page_file(ask.path)) return page_reply(*file, ask);
    }
    const Found found = find_route(ask);
    if (found.route == nullptr) return error_reply(404, "there is nothing at this address");
    return found.route->answer(desk, ask, found.id);
  } catch (const LogicError& error) {
    return error_reply(500, fmt::format("a mistake of the program itself: {}", error.what()));
  }
}

namespace internal {

Reply get_door(Desk& desk, const Ask& ask, const std::string&) {
  const bool needed = desk.door.is_locked();
  constexpr auto kMinutes = std::chrono::duration_cast<std::chrono::minutes>(Door::kGoodFor);
  return {.body = json_text({{"paired", desk.door.lets_in(secret_in(ask, desk.port))},
                             {"needed", needed},
                             {"code_minutes", kMinutes.count()}})};
}

Reply post_pair(Desk& desk, const Ask& ask, const std::string&) {
  const auto body = read_object(ask);
  const auto code = body ? text_in(*body, "code") : std::nullopt;
  if (!code) return bad_body();
  if (!desk.door.is_locked()) return {.status = 204};
  const PairAnswer pairing = desk.door.pair(*code, Door::Clock::now());
  switch (pairing.result) {
    case Pairing::kPaired:
      break;
    case Pairing::kWrongCode:
      return error_reply(403, "that is not the code: look again where Rigwright runs");
    case Pairing::kRanOut:
      return error_reply(403, "that code has run out: the new one stands where Rigwright runs");
    case Pairing::kWait:
      return error_reply(429, "too many wrong codes: wait a minute, then take the new one");
  }
  constexpr int kYear_s = 365 * 24 * 3600;
  return {.status = 204,
          .headers = {
              {"Set-Cookie", fmt::format("rig_{}={}; HttpOnly; SameSite=Strict; Path=/; Max-Age={}",
                                         desk.port, pairing.secret, kYear_s)}}};
}

}  // namespace internal
}  // namespace rig::serve
