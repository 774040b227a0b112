#pragma once

#include <optional>
#include <string>
#include <vector>

namespace rig {

/// A place in a text file, both counted from 1; `column` counts bytes.
struct TextPosition {
  int line = 0;
  int column = 0;
};

/// One thing that is wrong with what the user gave, or with what the numbers did.
struct Diagnostic {
  std::string code;     ///< Stable, `module.fault`, such as "build.unknown_key".
  std::string path;     ///< JSON pointer (RFC 6901) of the place; empty for the whole file.
  std::string message;  ///< What is wrong, with the value seen, in shop words.
  std::string remedy;   ///< What would be right, or what to do.
  std::optional<TextPosition> at;  ///< Where in the file, if it came from one.
};

using Diagnostics = std::vector<Diagnostic>;

/// Something the user has not given yet. Not an error: only what needs it is left out.
struct Missing {
  std::string path;    ///< JSON pointer where it would stand.
  std::string what;    ///< The thing, in shop words: "track of the front axle".
  std::string needed;  ///< What is left out without it: "roll stiffness".
};

}  // namespace rig
