#include "serve/listener.h"

#include <fmt/format.h>
#include <malloc.h>

#include <algorithm>
#include <boost/asio/io_context.hpp>
#include <boost/asio/signal_set.hpp>
#include <thread>

#include "serve/connection_internal.h"

namespace rig::serve {
namespace {

using namespace internal;
using asio::ip::tcp;
using std::chrono::milliseconds;

class Listener {
 public:
  Listener(ListenOptions options, const Service& service)
      : options_(std::move(options)),
        hall_{options_.limits, service, workers_},
        acceptor_(io_),
        again_(io_),
        ticker_(io_),
        signals_(io_, SIGINT, SIGTERM) {}

  /// The port, or why it can't be had.
  Result<int> bind() {
    beast::error_code error;
    const auto address = asio::ip::make_address(options_.address, error);
    const tcp::endpoint endpoint(address, static_cast<unsigned short>(options_.port));
    if (!error) acceptor_.open(endpoint.protocol(), error);
    if (!error) acceptor_.set_option(asio::socket_base::reuse_address(true), error);
    if (!error) acceptor_.bind(endpoint, error);
    if (!error) acceptor_.listen(asio::socket_base::max_listen_connections, error);
    if (error) {
      return fail("serve.cannot_listen", "",
                  fmt::format("can't listen on {} port {}: {}", options_.address, options_.port,
                              error.message()),
                  "another program has the port, or the address is not this machine's: try "
                  "--port 0");
    }
    return static_cast<int>(acceptor_.local_endpoint().port());
  }

  void run() {
    signals_.async_wait([this](const beast::error_code&, int) { io_.stop(); });
    accept();
    tick();
    io_.run();
    // What is being worked on is finished, so that its changes are whole.
    workers_.join();
  }

 private:
  static std::string text_of(const tcp::endpoint& endpoint) {
    return endpoint.address().to_string();
  }

  void accept() {
    acceptor_.async_accept([this](const beast::error_code& error, Socket socket) {
      if (error) {
        // Out of descriptors, most likely: some will be given back.
        again_.expires_after(milliseconds(100));
        return again_.async_wait([this](const beast::error_code&) { accept(); });
      }
      welcome(std::move(socket));
      accept();
    });
  }

  void welcome(Socket socket) {
    beast::error_code error;
    const auto remote = socket.remote_endpoint(error);
    const auto local = socket.local_endpoint(error);
    if (error) return;
    socket.set_option(tcp::no_delay(true), error);
    std::string client = text_of(remote);
    const auto& limits = options_.limits;
    if (!hall_.connections.take(client, limits.connections, limits.connections_per_client)) return;
    std::make_shared<Connection>(hall_, std::move(socket), std::move(client),
                                 fmt::format("{}:{}", text_of(local), local.port()))
        ->start();
  }

  void tick() {
    ticker_.expires_after(milliseconds(options_.limits.tick_ms));
    ticker_.async_wait([this](const beast::error_code& error) {
      if (error) return;
      // The next one only after this one, however long it takes.
      asio::post(workers_, [this] {
        try {
          hall_.service.tick();
          give_back_memory();
        } catch (const std::exception&) {
          // A mistake of the program itself: the screens are still served, and it is tried again.
        }
        asio::post(io_, [this] { tick(); });
      });
    });
  }

  /// What large requests took goes back to the machine, which has other work too.
  void give_back_memory() {
    if (hall_.let_go.exchange(0) > 0) ::malloc_trim(0);
  }

  static std::size_t worker_count() {
    return std::max<std::size_t>(4, std::thread::hardware_concurrency());
  }

  ListenOptions options_;
  asio::thread_pool workers_{worker_count()};
  Hall hall_;
  // After the hall: connections end with it.
  asio::io_context io_{1};
  tcp::acceptor acceptor_;
  asio::steady_timer again_, ticker_;
  asio::signal_set signals_;
};

/// One arena for all threads: of others the C library gives nothing back, and each would keep what
/// its largest request took.
void share_one_arena() { ::mallopt(M_ARENA_MAX, 1); }

}  // namespace

Result<int> listen(const ListenOptions& options, const Service& service,
                   const std::function<void(int)>& on_listening) {
  share_one_arena();
  Listener listener(options, service);
  auto port = listener.bind();
  if (!port) return port;
  on_listening(*port);
  listener.run();
  return port;
}

}  // namespace rig::serve
