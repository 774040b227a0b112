#include "serve/compare.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace rig::serve {
namespace {

using check::Finding;
using check::Report;
using check::Verdict;

const char* words_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::kGood:
      return "good";
    case Verdict::kLook:
      return "worth a look";
    case Verdict::kStop:
      return "a stop";
  }
  return "";
}

/// "Front axle: roll centre height 14 in, was 12 in."
void compare_rows(const check::AxleReport& a, const check::AxleReport& b,
                  std::vector<std::string>& words) {
  for (const auto& row : b.rows) {
    const auto before = std::find_if(a.rows.begin(), a.rows.end(),
                                     [&](const check::Row& r) { return r.id == row.id; });
    if (before == a.rows.end() || before->value.text == row.value.text) continue;
    words.push_back(
        fmt::format("{}: {} {}, was {}.", b.label, row.label, row.value.text, before->value.text));
  }
}

}  // namespace

std::vector<std::string> compare_words(const Report& a, const Report& b) {
  std::vector<std::string> words, numbers;
  for (const Finding& now : b.findings) {
    const Finding* before = a.finding(now.id);
    if (before != nullptr && before->verdict != now.verdict) {
      words.push_back(fmt::format("{}: {}, was {}. {}", now.subject, words_of(now.verdict),
                                  words_of(before->verdict), now.sentence));
    } else if (before != nullptr && before->value && now.value &&
               before->value->text != now.value->text) {
      numbers.push_back(
          fmt::format("{}: {} Was {}.", now.subject, now.sentence, before->value->text));
    } else if (before == nullptr && now.verdict != Verdict::kGood) {
      words.push_back(
          fmt::format("{}: now {}. {}", now.subject, words_of(now.verdict), now.sentence));
    }
  }
  for (const Finding& before : a.findings) {
    if (before.verdict != Verdict::kGood && b.finding(before.id) == nullptr) {
      words.push_back(fmt::format("{}: was {}, and is nothing to look at any more.", before.subject,
                                  words_of(before.verdict)));
    }
  }
  words.insert(words.end(), numbers.begin(), numbers.end());
  for (const auto& axle : b.axles) {
    if (const auto* before = a.axle(axle.id)) compare_rows(*before, axle, words);
  }
  return words;
}

}  // namespace rig::serve
