#include "serve/server.h"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <ifaddrs.h>
#include <net/if.h>

#include <algorithm>
#include <array>
#include <memory>

#include "serve/door.h"
#include "serve/listener.h"
#include "serve/routes.h"

namespace rig::serve {
namespace {

/// The addresses of this machine that others may reach, those of shop networks (RFC 1918) first.
std::vector<std::string> own_addresses() {
  ifaddrs* list = nullptr;
  if (::getifaddrs(&list) != 0) return {};
  const std::unique_ptr<ifaddrs, void (*)(ifaddrs*)> owner(list, ::freeifaddrs);
  std::vector<std::string> addresses;
  for (const ifaddrs* one = list; one != nullptr; one = one->ifa_next) {
    if (one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET) continue;
    if ((one->ifa_flags & IFF_UP) == 0 || (one->ifa_flags & IFF_LOOPBACK) != 0) continue;
    std::array<char, INET_ADDRSTRLEN> text{};
    // The kernel gives an address of the family it names.
    const auto* inet = reinterpret_cast<const sockaddr_in*>(one->ifa_addr);
    if (::inet_ntop(AF_INET, &inet->sin_addr, text.data(), text.size()) != nullptr) {
      addresses.emplace_back(text.data());
    }
  }
  std::stable_partition(addresses.begin(), addresses.end(), [](const std::string& address) {
    return address.starts_with("192.168.") || address.starts_with("10.");
  });
  return addresses;
}

}  // namespace

Result<int> serve_shop(Shop& shop, const ServeOptions& options, const ServeNews& news) {
  const ListenOptions listening{.address = options.lan ? "0.0.0.0" : "127.0.0.1",
                                .port = options.port};
  std::unique_ptr<Door> door;
  std::unique_ptr<Desk> desk;
  const Service service{.admit = [&](const Ask& ask) { return admit(*desk, ask); },
                        .answer = [&](const Ask& ask) { return answer(*desk, ask); },
                        .tick =
                            [&] {
                              shop.look_around();
                              door->tick(Door::Clock::now());
                            }};
  return listen(listening, service, [&](int port) {
    std::string local = fmt::format("http://127.0.0.1:{}/", port);
    if (options.lan) {
      std::vector<std::string> addresses = own_addresses();
      for (auto& address : addresses) address = fmt::format("http://{}:{}/", address, port);
      door = std::make_unique<Door>(
          shop.folder() + "/.rigwright-paired",
          [addresses, &news](const NewCode& code) { news.on_code(code, addresses); },
          Door::Clock::now());
      local += "#pair=" + door->invite();
    } else {
      door = std::make_unique<Door>();
    }
    desk = std::make_unique<Desk>(Desk{shop, *door, port});
    news.on_listening(local);
  });
}

}  // namespace rig::serve
