#pragma once

#include <optional>
#include <string_view>

namespace rig::serve {

/// A file of the page, built into the program.
struct PageFile {
  std::string_view content;
  std::string_view type;  ///< Its media type.
};

/// The file at a request path ("/", "/page.js", ...); nothing when there is none.
std::optional<PageFile> find_page_file(std::string_view path);

/// docs/openapi.json.
std::string_view openapi_json();

}  // namespace rig::serve
