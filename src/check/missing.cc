#include "check/missing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <unordered_map>

#include "check/left_out.h"

namespace rig::check {
namespace {

struct Rank {
  std::string_view key;
  int rank;
};
/// How early a reading is asked for: first where the axles are and how they hang, then what they
/// carry, the travel, the springs, and last what only single numbers hang on.
constexpr std::array<Rank, 8> kOfTruck{{{"masses", 6},
                                        {"corner_weighings", 6},
                                        {"load_states", 6},
                                        {"hitch", 6},
                                        {"tyres", 8},
                                        {"ride_state", 9},
                                        {"lifted_weighings", 10},
                                        {"ratings", 13}}};
constexpr std::array<Rank, 15> kOfAxle{{{"station", 2},
                                        {"height", 3},
                                        {"track", 4},
                                        {"links", 5},
                                        {"arms", 5},
                                        {"leaf_packs", 5},
                                        {"bump_travel", 7},
                                        {"droop_travel", 7},
                                        {"coils", 8},
                                        {"tyre", 8},
                                        {"drive_share", 11},
                                        {"brake_share", 11},
                                        {"bump_stops", 12},
                                        {"dampers", 12},
                                        {"anti_roll_bars", 12}}};
/// Of "/masses/".
constexpr std::size_t kItemsLength = 8;
constexpr int kAnAxle = 2, kRating = 13, kLast = 14;

std::vector<std::string_view> split(std::string_view path) {
  std::vector<std::string_view> keys;
  while (!path.empty()) {
    path.remove_prefix(1);
    const std::size_t end = std::min(path.find('/'), path.size());
    keys.push_back(path.substr(0, end));
    path.remove_prefix(end);
  }
  return keys;
}

template <std::size_t N>
int find_rank(const std::array<Rank, N>& ranks, std::string_view key) {
  const auto found =
      std::find_if(ranks.begin(), ranks.end(), [key](const Rank& r) { return r.key == key; });
  return found == ranks.end() ? kLast : found->rank;
}

int rank_of(const std::string& path) {
  const auto keys = split(path);
  if (keys.empty()) return kLast;
  if (keys.back().ends_with("rating")) return kRating;
  if (std::find(keys.begin(), keys.end(), "size") != keys.end()) return kLast;
  if (keys.front() != "axles") return find_rank(kOfTruck, keys.front());
  return keys.size() < 3 ? kAnAxle : find_rank(kOfAxle, keys[2]);
}

void merge(std::vector<Missing>& missing) {
  std::vector<Missing> kept;
  std::unordered_map<std::string, std::size_t> places;
  for (auto& entry : missing) {
    const auto [place, is_new] = places.try_emplace(entry.path, kept.size());
    if (is_new) {
      kept.push_back(std::move(entry));
    } else if (Missing& same = kept[place->second];
               same.needed.find(entry.needed) == std::string::npos) {
      same.needed += "; " + entry.needed;
    }
  }
  missing = std::move(kept);
}

void list_missing_of_axle(const build::Entry<build::Axle>& axle, Report& report) {
  const build::Axle& value = axle.value;
  const bool front = value.end == build::End::kFront;
  const char* end = front ? "front" : "rear";
  if (value.links.empty() && value.arms.empty() && value.leaf_packs.empty()) {
    report.missing.push_back({axle.path + "/links", fmt::format("links of the {} axle", end),
                              "its roll centre, steer, side-view centre and bind, and everything "
                              "that is told over the travel"});
  }
  if (value.coils.empty() && value.leaf_packs.empty()) {
    report.missing.push_back({axle.path + "/coils", fmt::format("springs of the {} axle", end),
                              "heights, spring seats, wheel rate, frequency, body roll and "
                              "articulation"});
  }
  if (!value.drive_share.known()) {
    report.missing.push_back({axle.path + "/drive_share",
                              fmt::format("share of the drive on the {} axle", end),
                              front ? "its anti-lift when driving" : "its anti-squat"});
  }
  if (!value.brake_share.known()) {
    report.missing.push_back({axle.path + "/brake_share",
                              fmt::format("share of the braking on the {} axle", end),
                              front ? "its anti-dive" : "its anti-lift when braking"});
  }
}

}  // namespace

void list_missing_parts(const build::Build& build, Report& report) {
  const bool weighed = !build.corner_weighings.empty();
  if (build.masses.empty()) {
    report.missing.push_back({"/masses", "the list of masses",
                              weighed ? "what is sprung, how it sits, and other load states"
                                      : "weights and all that rests on them"});
  }
  if (build.load_states.empty()) {
    report.missing.push_back({"/load_states", "a load state",
                              build.masses.empty() && !weighed
                                  ? "weights and how the truck sits"
                                  : "weights and heights with people, load and trailer aboard"});
  } else if (build.ride_state.id.empty()) {
    report.missing.push_back({"/ride_state", "the load state in which it must sit as drawn",
                              "ride height, spring seats, ride and articulation"});
  }
  for (const auto& axle : build.axles) list_missing_of_axle(axle, report);
}

void order_missing(Report& report) {
  merge(report.missing);
  std::unordered_map<std::string, int> items;
  for (const auto& item : collect_left_out(report)) {
    items.emplace(item.path, item.nothing_known ? 0 : 1);
  }
  const auto rank = [&items](const Missing& missing) {
    // "/masses/engine" of "/masses/engine/at/station".
    const auto item = items.find(missing.path.substr(0, missing.path.find('/', kItemsLength)));
    return item != items.end() ? item->second : rank_of(missing.path);
  };
  std::vector<std::pair<int, Missing>> ranked;
  ranked.reserve(report.missing.size());
  for (auto& missing : report.missing) {
    const int here = rank(missing);
    ranked.emplace_back(here, std::move(missing));
  }
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t i = 0; i < ranked.size(); ++i) report.missing[i] = std::move(ranked[i].second);
}

}  // namespace rig::check
