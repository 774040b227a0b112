#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/result.h"
#include "serve/door.h"
#include "serve/shop.h"

namespace rig::serve {

struct ServeOptions {
  int port = 0;      ///< 0: any free one.
  bool lan = false;  ///< Other machines may reach it, once paired.
};

/// What a person who starts the server is told.
struct ServeNews {
  /// The page is at this address, for the browser on this machine.
  std::function<void(const std::string& address)> on_listening;
  /// The code for the next pairing, and the addresses from other machines, likeliest first; only
  /// with `lan`.
  std::function<void(const NewCode& code, const std::vector<std::string>& addresses)> on_code;
};

/// Serves the page and docs/openapi.json until the process is told to stop (SIGINT, SIGTERM).
/// @errors serve.cannot_listen.
Result<int> serve_shop(Shop& shop, const ServeOptions& options, const ServeNews& news);

}  // namespace rig::serve
