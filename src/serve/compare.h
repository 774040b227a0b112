#pragma once

#include <string>
#include <vector>

#include "serve/answers.h"

namespace rig::serve {

/// What is another in `b` than in `a`, in sentences: verdicts first, then numbers.
std::vector<std::string> compare_words(const check::Report& a, const check::Report& b);

}  // namespace rig::serve
