#include "serve/digest.h"

#include <fmt/format.h>
#include <openssl/crypto.h>
#include <openssl/evp.h>
#include <openssl/rand.h>

#include <array>
#include <vector>

#include "base/require.h"

namespace rig::serve {
namespace {

std::string hex_of(const unsigned char* bytes, std::size_t count) {
  std::string hex;
  hex.reserve(2 * count);
  for (std::size_t i = 0; i < count; ++i) {
    fmt::format_to(std::back_inserter(hex), "{:02x}", bytes[i]);
  }
  return hex;
}

}  // namespace

std::string sha256_hex(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned size = 0;
  RIG_REQUIRE(EVP_Digest(bytes.data(), bytes.size(), digest.data(), &size, EVP_sha256(), nullptr) ==
              1);
  return hex_of(digest.data(), size);
}

std::string tag_of(std::string_view text) { return sha256_hex(text).substr(0, 16); }

std::string random_hex(std::size_t bytes) {
  std::vector<unsigned char> random(bytes);
  RIG_REQUIRE(RAND_bytes(random.data(), static_cast<int>(bytes)) == 1);
  return hex_of(random.data(), bytes);
}

unsigned random_below(unsigned below) {
  RIG_REQUIRE(below > 0);
  constexpr unsigned kAll = 1U << 24U;
  RIG_REQUIRE(below <= kAll);
  const unsigned fair = kAll - kAll % below;
  for (;;) {
    std::array<unsigned char, 3> bytes{};
    RIG_REQUIRE(RAND_bytes(bytes.data(), 3) == 1);
    const unsigned value = (unsigned{bytes[0]} << 16U) | (unsigned{bytes[1]} << 8U) | bytes[2];
    if (value < fair) return value % below;
  }
}

bool same_secret(std::string_view a, std::string_view b) {
  return a.size() == b.size() && CRYPTO_memcmp(a.data(), b.data(), a.size()) == 0;
}

}  // namespace rig::serve
