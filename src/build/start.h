#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "build/read.h"

/// A new build from a dozen plain questions.
namespace rig::build {

/// One question to begin with.
struct Question {
  std::string id;
  std::string label;
  std::string doc;
  std::string kind;                                          ///< "quantity", "word" or "text".
  std::string dimension;                                     ///< Of a quantity.
  std::vector<std::pair<std::string, std::string>> choices;  ///< Of a word: value, label.
  std::string usual;  ///< Taken, as an estimate, when there is no answer; empty: left unknown.
  bool needed = false;
};

std::vector<Question> start_questions();

/// A build that settles, made from the answers; whatever was not answered is marked `estimate`.
/// @param answers  By the question's id, as typed.
/// @errors build.bad_answer (path: the question's id), and all of `read_build`.
Result<ReadBuild> start_build(const std::map<std::string, std::string>& answers);

}  // namespace rig::build
