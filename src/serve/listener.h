#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "base/result.h"
#include "serve/ask.h"

namespace rig::serve {

/// Bounds on what clients may take up.
struct ListenLimits {
  std::uint64_t largest_head = 16U << 10U;  ///< Request line and headers, bytes.
  std::uint64_t largest_body = 8U << 20U;   ///< Whatever is admitted, bytes.
  int head_s = 20;                          ///< For a head to come in, idle time before it too.
  int body_s = 30;
  int answer_s = 30;  ///< For an answer to be taken.
  std::size_t connections = 256;
  std::size_t connections_per_client = 96;
  std::size_t streams = 96;
  std::size_t streams_per_client = 24;
  std::size_t waiting_events = 64;  ///< A stream that is further behind is ended.
  int heartbeat_s = 10;
  int tick_ms = 500;
};

struct ListenOptions {
  std::string address = "127.0.0.1";
  int port = 0;  ///< 0: any free one.
  ListenLimits limits = {};
};

/// What is thought of a request by its head alone.
struct Admission {
  std::optional<Reply> refusal;
  std::uint64_t largest_body = 0;  ///< Bytes.
};

/// Who answers. `admit` is called on the one thread that does all reading and writing, so it must
/// be quick; the others on a few worker threads.
struct Service {
  std::function<Admission(const Ask&)> admit;
  std::function<Reply(const Ask&)> answer;
  std::function<void()> tick;  ///< Every `tick_ms`.
};

/// Speaks HTTP/1.1 (RFC 9112) until the process is told to stop (SIGINT, SIGTERM). A client that is
/// slow, or many, holds no worker thread: requests are handed on when they are whole.
/// @param on_listening  Called once with the port.
/// @errors serve.cannot_listen.
Result<int> listen(const ListenOptions& options, const Service& service,
                   const std::function<void(int)>& on_listening);

}  // namespace rig::serve
