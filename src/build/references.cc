#include <fmt/format.h>

#include <map>
#include <unordered_set>

#include "build/read_internal.h"

namespace rig::build {
namespace {

/// The ids of one top-level map.
struct Ids {
  std::vector<std::string_view> in_order;
  std::unordered_set<std::string_view> set;
};

Ids ids_of(const Node& root, std::string_view target) {
  Ids ids;
  const Member* map = root.find(target);
  if (map == nullptr) return ids;
  for (const Member& member : map->value.members) {
    if (member.value.kind == Kind::kNull) continue;
    ids.in_order.push_back(member.key);
    ids.set.insert(member.key);
  }
  return ids;
}

}  // namespace

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
    faults.add("build.dangling_id", use.path, use.at,
               fmt::format("\"{}\" has nothing with the id {}", use.target, shown(use.id)),
               ids.in_order.empty()
                   ? fmt::format("\"{}\" is empty: put it in there first", use.target)
                   : suggest(use.id, ids.in_order, "There are"));
  }
}

}  // namespace rig::build
