#pragma once

#include <atomic>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <string>

#include "serve/listener.h"

/// One client's connection. Private to `listener`.
namespace rig::serve::internal {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = boost::beast::http;
using Socket = asio::ip::tcp::socket;

/// How much of each limit is used up, by client address. Only touched by the thread of the
/// connections.
struct Usage {
  std::size_t total = 0;
  std::map<std::string, std::size_t> by_client;

  bool take(const std::string& client, std::size_t most, std::size_t most_of_client);
  void give_back(const std::string& client);
};

/// What all connections share.
struct Hall {
  const ListenLimits& limits;
  const Service& service;
  asio::thread_pool& workers;
  Usage connections = {}, streams = {};
  std::atomic<std::size_t> let_go =
      0;  ///< Answers and connections since memory was last given back.
};

/// Reads a request, has it answered, writes the answer, and begins again; or, after a request for
/// events, writes those until the client goes.
class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(Hall& hall, Socket socket, std::string client, std::string local);
  ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  void start() { read_head(); }

 private:
  using Error = beast::error_code;

  void read_head();
  void on_head(Error error);
  void on_body(Error error);
  Ask make_ask() const;
  void hand_on();
  void write(Reply reply, bool keep);
  void on_written(Error error, bool keep);
  void linger();

  void start_events(Reply reply);
  void wait_for_leaving();
  void send(std::string text);
  void send_next();
  void beat();

  Hall& hall_;
  beast::tcp_stream stream_;
  std::string client_, local_;
  beast::flat_buffer buffer_;
  std::optional<http::request_parser<http::string_body>> parser_;
  http::response<http::string_body> response_;
  std::size_t drained_ = 0;

  std::shared_ptr<OpenBuild> events_;  ///< Set once this is a stream of events.
  int listener_ = 0;
  std::deque<std::string> waiting_;
  http::response<http::empty_body> stream_head_;
  std::optional<http::response_serializer<http::empty_body>> stream_writer_;
  asio::steady_timer heart_;
};

}  // namespace rig::serve::internal
