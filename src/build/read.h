#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "build/types.h"

namespace rig::build {

/// The build file's own text as an ordered tree; keeps key order and the writing of every quantity.
/// Opaque here so that no other module depends on the JSON library's compile time.
class Document;

struct ReadBuild {
  Build build;
  std::shared_ptr<const Document> document;
};

/// Reads a build file's text.
///
/// All faults are found in one pass; each names its JSON pointer, line and column, and what would
/// be right (nearest known key or id for a typo). Keys may be left out: their values stay unknown.
///
/// @errors build.not_json, build.too_deep, build.too_large, build.too_many (only after 200 others),
///         build.duplicate_key, build.unknown_key, build.missing_key, build.wrong_type,
///         build.unknown_word, build.bad_text, build.bad_id, build.dangling_id, build.listed_twice,
///         build.not_optional, build.out_of_range, build.version, build.mass_and_fluid,
///         build.datum, build.impossible, and every units.* code. docs/build-file.md says what each
///         means.
Result<ReadBuild> read_build(std::string_view text);

/// Writes the document back in its own order, every value in its own writing. Indented by two, ends
/// with a newline; a list or group that stood on one line stays on one while it fits in 140
/// columns.
std::string write_build(const Document& document);

/// One change: the JSON pointer of a value and its new JSON text; an empty text removes it.
struct Edit {
  std::string path;
  std::string json;
};

/// A new document with the edits applied in order, read and checked; all are applied or none. A
/// missing parent is made: a list if the step into it is a number or `-` (the place behind a list's
/// last item), else an object. Faults found by reading have the lines of the text that
/// `write_build` makes.
/// @errors build.bad_edit, and all of `read_build`.
Result<ReadBuild> edit_build(const Document& document, const std::vector<Edit>& edits);

/// The published JSON Schema (draft 2020-12), made from the same description as the reader.
std::string schema_json();

}  // namespace rig::build
