#pragma once

#include <functional>
#include <string>

#include "serve/session.h"

namespace rig::serve {

struct HttpOptions {
  std::string address = "127.0.0.1";  ///< Where to listen; loopback unless asked.
  int port = 0;                       ///< 0: any free one.
};

/// Serves the page and docs/api.md until the process is told to stop (SIGINT, SIGTERM).
///
/// Requests whose Host is not this server's own address, or whose Origin is another site's, are
/// refused; bodies over 1 MiB are too.
/// @param on_listening  Called once with the page's address, such as "http://127.0.0.1:40123/".
/// @errors serve.cannot_listen.
Result<int> serve_http(Session& session, const HttpOptions& options,
                       const std::function<void(const std::string&)>& on_listening);

/// True when a Host header names this server: its own address or "localhost" on loopback, with its
/// port; any numeric address when it listens on all of them.
bool is_own_host(const std::string& host, const std::string& address, int port);

}  // namespace rig::serve
