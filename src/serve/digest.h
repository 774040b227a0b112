#pragma once

#include <string>
#include <string_view>

namespace rig::serve {

/// SHA-256 (FIPS 180-4) in hexadecimal.
std::string sha256_hex(std::string_view bytes);

/// The entity tag of a text, without quotes: the first 16 digits of its SHA-256.
std::string tag_of(std::string_view text);

/// Bytes from the system's source of secrets, in hexadecimal.
std::string random_hex(std::size_t bytes);

/// A number below `below`, each as likely, from the system's source of secrets.
unsigned random_below(unsigned below);

/// Whether two texts are the same, taking as long whatever they hold.
bool same_secret(std::string_view a, std::string_view b);

}  // namespace rig::serve
