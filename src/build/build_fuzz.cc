#include <cstddef>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>

#include "base/require.h"
#include "build/patch.h"
#include "build/read.h"

// Anything at all as a build file, and as an edit of a small one. Run with the fixtures and the
// wrong examples as a corpus: build_fuzz -max_len=20000 -dict=src/build/build.dict CORPUS_DIR
namespace {

using rig::Result;
using rig::build::ReadBuild;

/// What the reader promises for any text.
void check(const Result<ReadBuild>& read) {
  if (read) {
    const std::string once = rig::build::write_build(*read->document);
    const auto again = rig::build::read_build(once);
    RIG_REQUIRE(again.has_value());
    RIG_REQUIRE(rig::build::write_build(*again->document) == once);
    return;
  }
  for (const rig::Diagnostic& d : read.error()) {
    RIG_REQUIRE(!d.code.empty() && !d.message.empty() && !d.remedy.empty());
    RIG_REQUIRE(d.path.empty() || d.path[0] == '/' || d.code == "build.bad_edit");
    RIG_REQUIRE(d.code == "build.bad_edit" || d.code == "build.bad_patch" ||
                (d.at && d.at->line >= 1 && d.at->column >= 1));
  }
}

bool has_syntax_fault(const Result<ReadBuild>& read) {
  if (read) return false;
  for (const rig::Diagnostic& d : read.error()) {
    if (d.code == "build.not_json") return true;
  }
  return false;
}

/// Beyond what JSON says, as the reader sees it: deep, and twice the same key.
bool is_told_apart(const Result<ReadBuild>& read) {
  if (read) return false;
  for (const rig::Diagnostic& d : read.error()) {
    if (d.code == "build.too_deep" || d.code == "build.too_many") return true;
  }
  return false;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(data, data + size);
  const auto read = rig::build::read_build(text);
  check(read);
  // The JSON library refuses what isn't JSON, but also numbers that no double holds, and takes a
  // zero byte for the end.
  const bool apart = text.find_first_of(std::string("eE\0", 3)) != std::string::npos ||
                     text.size() > 300 || is_told_apart(read);
  if (!apart) {
    RIG_REQUIRE(has_syntax_fault(read) == !nlohmann::json::accept(text));
  }

  static const ReadBuild base =
      rig::build::read_build(R"({"version": 1, "masses": {"winch": {"mass": "80 lb"}},
                                 "frame": {"rails": {"main": {"line": [{"station": "0 in"}]}}}})")
          .value();
  check(rig::build::patch_build(*base.document, text));
  const std::size_t split = text.find('\n');
  if (split == std::string::npos) return 0;
  check(rig::build::edit_build(*base.document,
                               {{.path = text.substr(0, split), .json = text.substr(split + 1)}}));
  return 0;
}
