#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"

namespace rig::build {

/// Gathers what is wrong with a file, up to a number that someone would still read.
class Faults {
 public:
  /// Enough to mend a file by; a file with more is not a build file at all.
  static constexpr std::size_t kMost = 200;

  /// Message and remedy are given without capital and full stop and made sentences here.
  void add(std::string_view code, std::string path, TextPosition at, std::string message,
           std::string remedy);

  bool empty() const { return list_.empty(); }
  bool full() const { return list_.size() >= kMost; }

  /// All of them in the order of the text; a last one says so if there may be more.
  Diagnostics take();

 private:
  Diagnostics list_;
};

/// A user's text for use in a message: in double quotes, cut to a readable length, control
/// characters made visible. Valid UTF-8 in gives valid UTF-8 out.
std::string shown(std::string_view text);

/// The words as a list of at most a dozen: "a, b, c and 4 more".
std::string listed(const std::vector<std::string_view>& words);

/// A capital in front and a full stop behind, where they are missing.
std::string sentence(std::string text);

/// "Did you mean X? Known here: ..." with the nearest of the words, if one is near, and `lead` in
/// front of all of them.
std::string suggest(std::string_view seen, const std::vector<std::string_view>& words,
                    std::string_view lead);

}  // namespace rig::build
