#include "serve/http.h"

#include <fmt/format.h>
#include <httplib.h>

#include <algorithm>
#include <csignal>
#include <thread>

#include "serve/api.h"

namespace rig::serve {
namespace {

constexpr std::size_t kLargestBody = 1U << 20U;
constexpr time_t kTimeout_s = 10;

bool is_loopback(const std::string& address) {
  return address == "localhost" || address.starts_with("127.") || address == "::1";
}

bool is_numeric(const std::string& host) {
  return !host.empty() && std::all_of(host.begin(), host.end(),
                                      [](char c) { return (c >= '0' && c <= '9') || c == '.'; });
}

/// The library would compress a plain body on the fly, which costs more than loopback or a shop's
/// network saves; a content provider it sends as it is.
void send(const Reply& reply, httplib::Response& response) {
  response.status = reply.status;
  response.set_header("Cache-Control", "no-store");
  response.set_header("X-Content-Type-Options", "nosniff");
  response.set_header(
      "Content-Security-Policy",
      "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:");
  auto body = std::make_shared<const std::string>(reply.body);
  response.set_content_provider(
      body->size(), reply.type,
      [body](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
        return sink.write(body->data() + offset, length);
      });
}

/// Blocks the stopping signals in this thread and those it starts, and waits for one of them.
class StopSignals {
 public:
  StopSignals() {
    sigemptyset(&set_);
    sigaddset(&set_, SIGINT);
    sigaddset(&set_, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &set_, nullptr);
  }
  void wait() const {
    int signal = 0;
    sigwait(&set_, &signal);
  }

 private:
  sigset_t set_{};
};

}  // namespace

bool is_own_host(const std::string& host, const std::string& address, int port) {
  const std::string suffix = fmt::format(":{}", port);
  if (!host.ends_with(suffix)) return false;
  const std::string name = host.substr(0, host.size() - suffix.size());
  if (address == "0.0.0.0") return is_numeric(name) || name == "localhost";
  return name == address || (is_loopback(address) && name == "localhost");
}

Result<int> serve_http(Session& session, const HttpOptions& options,
                       const std::function<void(const std::string&)>& on_listening) {
  const StopSignals signals;
  httplib::Server server;
  server.set_payload_max_length(kLargestBody);
  server.set_read_timeout(kTimeout_s);
  server.set_write_timeout(kTimeout_s);
  server.set_keep_alive_max_count(1000);
  server.set_tcp_nodelay(true);

  int port = options.port;
  const bool bound = port == 0 ? (port = server.bind_to_any_port(options.address)) > 0
                               : server.bind_to_port(options.address, port);
  if (!bound) {
    return fail("serve.cannot_listen", "",
                fmt::format("can't listen on {} port {}", options.address, options.port),
                "another program has the port, or the address is not this machine's: try --port 0");
  }
  server.set_pre_routing_handler([&](const httplib::Request& request, httplib::Response& response) {
    const std::string host = request.get_header_value("Host");
    const std::string origin = request.get_header_value("Origin");
    if (is_own_host(host, options.address, port) &&
        (origin.empty() || origin == "http://" + host)) {
      return httplib::Server::HandlerResponse::Unhandled;
    }
    response.status = 403;
    return httplib::Server::HandlerResponse::Handled;
  });
  const auto handler = [&](const httplib::Request& request, httplib::Response& response) {
    send(answer(session, {request.method, request.path, request.body}), response);
  };
  server.Get(".*", handler);
  server.Post(".*", handler);

  std::thread listening([&] { server.listen_after_bind(); });
  const std::string shown = options.address == "0.0.0.0" ? "127.0.0.1" : options.address;
  on_listening(fmt::format("http://{}:{}/", shown, port));
  signals.wait();
  server.stop();
  listening.join();
  return 0;
}

}  // namespace rig::serve
