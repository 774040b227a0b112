#include "serve/page_files.h"

#include "serve/digest.h"

// Begin and end of each file, from page_files.S.
extern "C" {
extern const char rig_page_index_html[];      // NOLINT(modernize-avoid-c-arrays)
extern const char rig_page_index_html_end[];  // NOLINT(modernize-avoid-c-arrays)
extern const char rig_page_js[];              // NOLINT(modernize-avoid-c-arrays)
extern const char rig_page_js_end[];          // NOLINT(modernize-avoid-c-arrays)
extern const char rig_page_css[];             // NOLINT(modernize-avoid-c-arrays)
extern const char rig_page_css_end[];         // NOLINT(modernize-avoid-c-arrays)
extern const char rig_openapi_json[];         // NOLINT(modernize-avoid-c-arrays)
extern const char rig_openapi_json_end[];     // NOLINT(modernize-avoid-c-arrays)
}

namespace rig::serve {
namespace {

std::string_view span(const char* begin, const char* end) {
  return {begin, static_cast<std::size_t>(end - begin)};
}

}  // namespace

std::string_view openapi_json() { return span(rig_openapi_json, rig_openapi_json_end); }

const PageFile* find_page_file(std::string_view path) {
  const auto make = [](std::string_view content, std::string_view type) {
    return PageFile{content, type, tag_of(content)};
  };
  static const PageFile kIndex =
      make(span(rig_page_index_html, rig_page_index_html_end), "text/html; charset=utf-8");
  static const PageFile kScript =
      make(span(rig_page_js, rig_page_js_end), "text/javascript; charset=utf-8");
  static const PageFile kStyle =
      make(span(rig_page_css, rig_page_css_end), "text/css; charset=utf-8");
  if (path == "/" || path == "/index.html") return &kIndex;
  if (path == "/page.js") return &kScript;
  if (path == "/page.css") return &kStyle;
  return nullptr;
}

}  // namespace rig::serve
