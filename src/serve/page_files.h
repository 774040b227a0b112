#pragma once

#include <string>
#include <string_view>

namespace rig::serve {

/// A file of the page, built into the program.
struct PageFile {
  std::string_view content;
  std::string_view type;  ///< Its media type.
  std::string tag;        ///< Its entity tag, without quotes.
};

/// The file at a request path ("/", "/page.js", ...); null when there is none.
const PageFile* find_page_file(std::string_view path);

/// docs/openapi.json.
std::string_view openapi_json();

}  // namespace rig::serve
