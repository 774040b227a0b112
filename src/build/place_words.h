#pragma once

#include <string>
#include <string_view>

#include "build/read.h"

namespace rig::build {

/// A place in the file in the shop's words: "Front axle, Upper link, axle end, height".
std::string place_words(const Document& document, std::string_view pointer);

/// True for the keys whose value is a map of things by id, such as "masses".
bool is_collection(std::string_view key);

}  // namespace rig::build
