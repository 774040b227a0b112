#include "check/left_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <unordered_set>

#include "check/finding.h"
#include "check/words.h"

namespace rig::check {
namespace {

/// Findings that rest on the masses without naming them in their working.
constexpr std::array<std::string_view, 6> kLoaded{"flat_ride",   "stop_room.", "coil_solid.",
                                                  "coil_loose.", "bind.",      "articulation."};
/// Findings about the worst of all load states.
constexpr std::array<std::string_view, 5> kOfAllStates{"rating.", "side_slope", "stability_factor",
                                                       "grade.", "stop_room."};
/// Findings that the trailer's papers settle by themselves.
constexpr std::array<std::string_view, 3> kOfTheTrailer{"rating.tongue", "rating.trailer",
                                                        "tongue_share."};

bool starts_with(std::string_view text, std::string_view start) {
  return text.substr(0, start.size()) == start;
}

template <std::size_t N>
bool is_one_of(const Finding& finding, const std::array<std::string_view, N>& starts) {
  return std::any_of(starts.begin(), starts.end(),
                     [&](std::string_view start) { return starts_with(finding.id, start); });
}

bool rests_on_masses(const Finding& finding) {
  if (is_one_of(finding, kOfTheTrailer)) return false;
  if (is_one_of(finding, kLoaded)) return true;
  return std::any_of(finding.working.begin(), finding.working.end(), [](const WorkingStep& step) {
    return std::any_of(step.input_paths.begin(), step.input_paths.end(),
                       [](const std::string& path) { return starts_with(path, "/masses"); });
  });
}

std::string list_words(const std::vector<weigh::LeftOut>& items) {
  std::vector<std::string> words;
  words.reserve(items.size());
  for (const auto& item : items) words.push_back("the " + uncapitalised(item.label));
  return join_words(words);
}

void doubt_items(const Report& report, std::vector<Finding>& findings) {
  const auto of_all = collect_left_out(report);
  const StateReport* ride = report.ride();
  for (auto& finding : findings) {
    if (!rests_on_masses(finding)) continue;
    const auto& items =
        is_one_of(finding, kOfAllStates) || ride == nullptr ? of_all : ride->weigh.left_out;
    if (items.empty()) continue;
    assume(finding,
           fmt::format("It leaves out {}: mass or place is not told yet.", list_words(items)));
    if (finding.advice == "Nothing to do.") {
      finding.advice = fmt::format("Give mass and place of {}.", list_words(items));
    }
  }
}

/// Labels of the states that lack what a finding about all of them is made of.
std::string state_words(const Report& report, const Finding& finding) {
  const bool of_ratings = starts_with(finding.id, "rating.");
  const bool of_stops = starts_with(finding.id, "stop_room.");
  std::vector<std::string> labels;
  for (const auto& state : report.states) {
    const weigh::Standing* standing = state.standing();
    const bool told = of_stops     ? state.settled.has_value()
                      : of_ratings ? standing != nullptr && standing->axle_loads.has_value()
                                   : standing != nullptr && standing->stability.has_value();
    if (!told) labels.push_back('"' + state.label + '"');
  }
  return join_words(labels);
}

void doubt_states(const Report& report, std::vector<Finding>& findings) {
  for (auto& finding : findings) {
    if (!is_one_of(finding, kOfAllStates) || is_one_of(finding, kOfTheTrailer)) continue;
    const std::string words = state_words(report, finding);
    if (words.empty()) continue;
    assume(finding,
           fmt::format("{} could not be looked at and may be worse: see what is missing.", words));
    if (starts_with(finding.advice, "Nothing to do")) {
      finding.advice = fmt::format("Give what {} lacks.", words);
    }
  }
}

}  // namespace

std::vector<weigh::LeftOut> collect_left_out(const Report& report) {
  std::vector<weigh::LeftOut> all;
  std::unordered_set<std::string> known;
  for (const auto& state : report.states) {
    for (const auto& item : state.weigh.left_out) {
      if (known.insert(item.id).second) all.push_back(item);
    }
  }
  return all;
}

std::string left_out_words(const StateReport& state) { return list_words(state.weigh.left_out); }

bool is_lower_bound(const StateReport& state) {
  return !state.weigh.left_out.empty() && !(state.weigh.scaled && state.weigh.scaled->standing);
}

void doubt_what_is_left_out(const Report& report, std::vector<Finding>& findings) {
  doubt_items(report, findings);
  doubt_states(report, findings);
}

}  // namespace rig::check
