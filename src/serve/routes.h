#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "serve/ask.h"
#include "serve/door.h"
#include "serve/listener.h"
#include "serve/shop.h"

/// docs/openapi.json as code.
namespace rig::serve {

/// What the routes answer from.
struct Desk {
  Shop& shop;
  Door& door;
  int port = 0;
};

/// One line of the interface.
struct Route {
  std::string_view method;
  std::string_view path;  ///< "{id}" stands for a build's id.
  Reply (*answer)(Desk& desk, const Ask& ask, const std::string& id) = nullptr;
  bool is_open = false;  ///< Answered to screens that are not paired, too.
  std::uint64_t largest_body = 0;
};

/// Every route but the page's own files.
std::span<const Route> all_routes();

/// What is thought of a request before its body is read: who asks, for what, and how much he
/// brings.
Admission admit(const Desk& desk, const Ask& ask);

/// Answers a request that was admitted. Never throws but for want of memory: a mistake of the
/// program itself is answered with 500.
Reply answer(Desk& desk, const Ask& ask);

}  // namespace rig::serve
