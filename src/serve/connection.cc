#include <boost/asio/post.hpp>
#include <boost/asio/write.hpp>
#include <chrono>

#include "serve/connection_internal.h"

namespace rig::serve::internal {
namespace {

using std::chrono::seconds;

/// What a refused client still sends is read and thrown away up to here, so that it gets to read
/// its answer.
constexpr std::size_t kMostDrained = 4U << 20U;
constexpr int kDrain_s = 2;

Reply plain_error(int status, const std::string& words) {
  return {.status = status, .body = "{\"error\": \"" + words + "\", \"diagnostics\": []}"};
}

void set_headers(http::fields& fields, const Reply& reply) {
  fields.set(http::field::content_type, reply.type);
  fields.set(http::field::cache_control, "no-store");
  fields.set("X-Content-Type-Options", "nosniff");
  fields.set("Referrer-Policy", "no-referrer");
  fields.set("Cross-Origin-Resource-Policy", "same-origin");
  fields.set("Content-Security-Policy",
             "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; "
             "frame-ancestors 'none'; base-uri 'none'; form-action 'none'");
  for (const auto& [name, value] : reply.headers) fields.set(name, value);
}

}  // namespace

bool Usage::take(const std::string& client, std::size_t most, std::size_t most_of_client) {
  std::size_t& of_client = by_client[client];
  if (total >= most || of_client >= most_of_client) {
    if (of_client == 0) by_client.erase(client);
    return false;
  }
  ++total;
  ++of_client;
  return true;
}

void Usage::give_back(const std::string& client) {
  --total;
  if (--by_client[client] == 0) by_client.erase(client);
}

Connection::Connection(Hall& hall, Socket socket, std::string client, std::string local)
    : hall_(hall),
      stream_(std::move(socket)),
      client_(std::move(client)),
      local_(std::move(local)),
      heart_(stream_.get_executor()) {}

Connection::~Connection() {
  ++hall_.let_go;
  if (events_) {
    events_->stop_listening(listener_);
    hall_.streams.give_back(client_);
  }
  hall_.connections.give_back(client_);
}

void Connection::read_head() {
  parser_.emplace();
  parser_->header_limit(static_cast<std::uint32_t>(hall_.limits.largest_head));
  parser_->body_limit(hall_.limits.largest_body);
  stream_.expires_after(seconds(hall_.limits.head_s));
  http::async_read_header(
      stream_, buffer_, *parser_,
      [self = shared_from_this()](Error error, std::size_t) { self->on_head(error); });
}

void Connection::on_head(Error error) {
  if (error == http::error::header_limit) {
    return write(plain_error(431, "the request's head is too long"), false);
  }
  if (error == http::error::body_limit) {
    return write(plain_error(413, "that is more than is taken at once"), false);
  }
  if (error && error.category() == http::make_error_code(http::error::bad_method).category() &&
      error != http::error::end_of_stream && error != http::error::partial_message) {
    return write(plain_error(400, "this is no request that can be understood"), false);
  }
  if (error) return;  // Gone, or too slow.
  Admission admission;
  try {
    admission = hall_.service.admit(make_ask());
  } catch (const std::exception&) {
    return write(plain_error(500, "a mistake of the program itself"), false);
  }
  if (admission.refusal) return write(std::move(*admission.refusal), false);
  const auto length = parser_->content_length();
  if (length && *length > admission.largest_body) {
    return write(plain_error(413, "that is more than is taken at once"), false);
  }
  parser_->body_limit(admission.largest_body);
  stream_.expires_after(seconds(hall_.limits.body_s));
  http::async_read(stream_, buffer_, *parser_,
                   [self = shared_from_this()](Error read, std::size_t) { self->on_body(read); });
}

void Connection::on_body(Error error) {
  if (error == http::error::body_limit) {
    return write(plain_error(413, "that is more than is taken at once"), false);
  }
  if (error == beast::error::timeout || error == http::error::partial_message) return;
  if (error) return write(plain_error(400, "this is no request that can be understood"), false);
  hand_on();
}

Ask Connection::make_ask() const {
  const auto& request = parser_->get();
  Ask ask{.method = std::string(request.method_string()), .local = local_};
  set_target(ask, std::string(request.target()));
  for (const auto& field : request) {
    std::string name(field.name_string());
    for (char& c : name) {
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    // Twice the same header: told as both, which no check takes for one of them.
    std::string& value = ask.headers[name];
    if (!value.empty()) value += ", ";
    value += std::string(field.value());
  }
  return ask;
}

void Connection::hand_on() {
  Ask ask = make_ask();
  const bool keep = parser_->get().keep_alive();
  ask.body = std::move(parser_->get().body());
  stream_.expires_never();
  asio::post(hall_.workers, [self = shared_from_this(), ask = std::move(ask), keep]() mutable {
    auto reply = std::make_shared<Reply>();
    try {
      *reply = self->hall_.service.answer(ask);
    } catch (const std::exception&) {
      *reply = plain_error(500, "a mistake of the program itself");
    }
    // Handed back whole: a connection ends its life on its own thread.
    auto executor = self->stream_.get_executor();
    asio::post(executor, [self = std::move(self), reply, keep] {
      if (reply->events) {
        self->start_events(std::move(*reply));
      } else {
        self->write(std::move(*reply), keep);
      }
    });
  });
}

void Connection::write(Reply reply, bool keep) {
  response_ = {};
  response_.version(11);
  response_.result(static_cast<unsigned>(reply.status));
  set_headers(response_, reply);
  response_.keep_alive(keep);
  response_.body() = std::move(reply.body);
  response_.prepare_payload();
  stream_.expires_after(seconds(hall_.limits.answer_s));
  http::async_write(stream_, response_,
                    [self = shared_from_this(), keep](Error error, std::size_t) {
                      self->on_written(error, keep);
                    });
}

void Connection::on_written(Error error, bool keep) {
  response_ = {};
  ++hall_.let_go;
  if (error) return;
  if (keep) return read_head();
  stream_.socket().shutdown(Socket::shutdown_send, error);
  if (!error) linger();
}

void Connection::linger() {
  if (drained_ == 0) stream_.expires_after(seconds(kDrain_s));
  buffer_.clear();
  stream_.async_read_some(buffer_.prepare(64U << 10U),
                          [self = shared_from_this()](Error error, std::size_t size) {
                            self->drained_ += size;
                            if (!error && self->drained_ < kMostDrained) self->linger();
                          });
}

void Connection::start_events(Reply reply) {
  if (!hall_.streams.take(client_, hall_.limits.streams, hall_.limits.streams_per_client)) {
    return write(plain_error(429, "too many pages are listening already"), true);
  }
  events_ = std::move(reply.events);
  stream_head_.version(11);
  stream_head_.result(http::status::ok);
  set_headers(stream_head_, reply);
  stream_head_.keep_alive(false);
  waiting_.push_back(std::move(reply.body));
  listener_ = events_->listen([weak = weak_from_this(),
                               executor = stream_.get_executor()](const HeadEvent& event) {
    asio::post(executor, [weak, text = event_text(event), is_over = event.entry == 0]() mutable {
      const auto self = weak.lock();
      if (!self) return;
      if (!is_over) return self->send(std::move(text));
      // The page connects anew, to the build as it is opened then.
      self->heart_.cancel();
      self->stream_.close();
    });
  });
  wait_for_leaving();
  stream_writer_.emplace(stream_head_);
  stream_.expires_after(seconds(hall_.limits.answer_s));
  http::async_write_header(stream_, *stream_writer_,
                           [self = shared_from_this()](Error error, std::size_t) {
                             if (error) return;
                             self->send_next();
                             self->beat();
                           });
}

/// A stream's client has nothing more to say: whatever comes, even the end, ends it.
void Connection::wait_for_leaving() {
  stream_.expires_never();
  buffer_.clear();
  stream_.async_read_some(buffer_.prepare(64), [self = shared_from_this()](Error, std::size_t) {
    self->heart_.cancel();
    self->stream_.close();
  });
}

void Connection::send(std::string text) {
  if (waiting_.size() >= hall_.limits.waiting_events) return stream_.close();
  waiting_.push_back(std::move(text));
  // One is being written already, or the head is.
  if (waiting_.size() == 1 && stream_writer_->is_header_done()) send_next();
}

void Connection::send_next() {
  if (waiting_.empty()) return;
  stream_.expires_after(seconds(hall_.limits.answer_s));
  asio::async_write(stream_, asio::buffer(waiting_.front()),
                    [self = shared_from_this()](Error error, std::size_t) {
                      if (error) return self->stream_.close();
                      self->waiting_.pop_front();
                      self->send_next();
                    });
}

void Connection::beat() {
  heart_.expires_after(seconds(hall_.limits.heartbeat_s));
  heart_.async_wait([self = shared_from_this()](Error error) {
    if (error || !self->stream_.socket().is_open()) return;
    self->send(": here\n\n");
    self->beat();
  });
}

}  // namespace rig::serve::internal
