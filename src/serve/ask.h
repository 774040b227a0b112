#pragma once

#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "serve/open_build.h"

namespace rig::serve {

/// One request, as far as the program cares for it.
struct Ask {
  std::string method;
  std::string path;  ///< Without the query, as sent.
  std::map<std::string, std::string> query;
  std::map<std::string, std::string> headers;  ///< Names in small letters.
  std::string local;                           ///< "127.0.0.1:8080": where the client reached us.
  std::string body;

  /// Empty if there is none.
  std::string header(const std::string& name) const {
    const auto found = headers.find(name);
    return found == headers.end() ? std::string() : found->second;
  }
  std::string parameter(const std::string& name) const {
    const auto found = query.find(name);
    return found == query.end() ? std::string() : found->second;
  }
};

struct Reply {
  int status = 200;
  std::string type = "application/json";
  std::string body;
  std::vector<std::pair<std::string, std::string>> headers = {};
  /// Set: the reply is a stream of this build's events, and the body is what it begins with.
  std::shared_ptr<OpenBuild> events = nullptr;
};

/// Splits a request's target into path and query; percent signs and plus are resolved in the query.
void set_target(Ask& ask, const std::string& target);

/// One event for the screens, as a stream of server-sent events carries it (HTML Living Standard,
/// 9.2).
std::string event_text(const HeadEvent& event);

}  // namespace rig::serve
