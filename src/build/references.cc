#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <unordered_set>

#include "build/read_internal.h"
#include "build/tree_internal.h"

namespace rig::build {
namespace {

/// The ids of one map of things, or of either of two.
struct Ids {
  std::vector<std::string_view> in_order;
  std::unordered_set<std::string_view> set;
};

Ids ids_of(const Node& root, std::string_view target) {
  Ids ids;
  for (const std::string& way : target_ways(target)) {
    const Node* map = find_node(root, way);
    if (map == nullptr) continue;
    for (const Member& member : map->members) {
      if (member.value.kind == Kind::kNull) continue;
      ids.in_order.push_back(member.key);
      ids.set.insert(member.key);
    }
  }
  return ids;
}

/// "masses", "rails" of the frame, "crossmembers" or "plates".
std::string target_words(std::string_view target) {
  std::string words;
  for (const std::string& way : target_ways(target)) {
    words += fmt::format("{}\"{}\"", words.empty() ? "" : " or ", way.substr(way.rfind('/') + 1));
  }
  return words;
}

}  // namespace

std::vector<std::string> target_ways(std::string_view target) {
  std::vector<std::string> ways;
  while (!target.empty()) {
    const std::size_t end = std::min(target.find('|'), target.size());
    ways.push_back(fmt::format("/{}", target.substr(0, end)));
    target.remove_prefix(std::min(end + 1, target.size()));
  }
  return ways;
}

void check_references(const Node& root, const std::vector<IdUse>& uses, Faults& faults) {
  std::map<std::string_view, Ids> ids_by_target;
  for (const IdUse& use : uses) {
    if (faults.full()) return;
    auto found = ids_by_target.find(use.target);
    if (found == ids_by_target.end()) {
      found = ids_by_target.emplace(use.target, ids_of(root, use.target)).first;
    }
    const Ids& ids = found->second;
    if (ids.set.count(use.id) > 0) continue;
    const std::string words = target_words(use.target);
    faults.add("build.dangling_id", use.path, use.at,
               fmt::format("{} has nothing with the id {}", words, shown(use.id)),
               ids.in_order.empty() ? fmt::format("{} is empty: put it in there first", words)
                                    : suggest(use.id, ids.in_order, "There are"));
  }
}

}  // namespace rig::build
