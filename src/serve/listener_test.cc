#include "serve/listener.h"

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <csignal>
#include <future>
#include <stdexcept>

namespace rig::serve {
namespace {

/// What comes back for one request over a connection of its own.
std::string asked(int port, const std::string& target) {
  const int number = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(static_cast<std::uint16_t>(port));
  to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  // The socket interface takes every kind of address by this type.
  const auto* address = static_cast<const sockaddr*>(static_cast<const void*>(&to));
  EXPECT_EQ(::connect(number, address, sizeof(to)), 0);
  const std::string request = "GET " + target + " HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n";
  EXPECT_EQ(::send(number, request.data(), request.size(), 0),
            static_cast<ssize_t>(request.size()));
  std::string answer;
  std::array<char, 4096> piece{};
  for (ssize_t size = 0; (size = ::recv(number, piece.data(), piece.size(), 0)) > 0;) {
    answer.append(piece.data(), static_cast<std::size_t>(size));
  }
  ::close(number);
  return answer;
}

TEST(Listener, OutlivesWhatItsServiceThrows) {
  std::atomic<int> ticks = 0;
  const Service service{.admit = [](const Ask& ask) -> Admission {
                          if (ask.path == "/bad_admit") throw std::logic_error("admit");
                          return {};
                        },
                        .answer = [](const Ask& ask) -> Reply {
                          if (ask.path == "/bad_answer") throw std::logic_error("answer");
                          return {.body = "good"};
                        },
                        .tick =
                            [&] {
                              ++ticks;
                              throw std::logic_error("tick");
                            }};
  ListenOptions options;
  options.limits.tick_ms = 2;
  std::promise<int> listening;
  auto done = std::async(std::launch::async, [&] {
    return listen(options, service, [&](int port) { listening.set_value(port); });
  });
  const int port = listening.get_future().get();
  EXPECT_EQ(asked(port, "/bad_admit").substr(0, 12), "HTTP/1.1 500");
  EXPECT_EQ(asked(port, "/bad_answer").substr(0, 12), "HTTP/1.1 500");
  EXPECT_EQ(asked(port, "/").substr(0, 12), "HTTP/1.1 200");
  while (ticks < 5) ::usleep(1000);
  ::kill(::getpid(), SIGTERM);
  EXPECT_TRUE(done.get().has_value());
}

}  // namespace
}  // namespace rig::serve
