#pragma once

#include <string>

#include "base/result.h"

namespace rig::serve {

/// The whole file as text.
/// @errors serve.cannot_read, serve.too_large (over 8 MiB).
Result<std::string> read_text(const std::string& path);

/// Writes a text, flushed to disk, to where it waits before it takes a file's place:
/// `.NAME.new` beside NAME. Returns the number of bytes.
/// @errors serve.cannot_write; the file itself is as it was.
Result<std::size_t> write_beside(const std::string& path, const std::string& text);

/// Puts what waits beside a file in its place, in one step, and flushes the folder.
/// @errors serve.cannot_write; the file is then as it was.
Result<std::size_t> put_in_place(const std::string& path);

/// Where `write_beside` leaves a text.
std::string path_beside(const std::string& path);

/// Replaces a file so that a crash or a full disk leaves either the old text or the new, whole.
/// @errors serve.cannot_write; the old file is then as it was.
Result<std::size_t> write_text(const std::string& path, const std::string& text);

/// Makes a file that wasn't there, whole or not at all.
/// @errors serve.cannot_write, serve.file_exists.
Result<std::size_t> write_new_text(const std::string& path, const std::string& text);

/// Flushes the names in the folder that holds `path`.
void flush_folder_of(const std::string& path);

}  // namespace rig::serve
