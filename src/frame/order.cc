#include <algorithm>

#include "frame/order_internal.h"

namespace rig::frame {

namespace {

using Net = std::vector<std::vector<int>>;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

Net make_net(int count, const std::vector<std::vector<int>>& groups) {
  Net net(at(count));
  for (const auto& group : groups) {
    for (const int a : group) {
      for (const int b : group) {
        if (a != b) net[at(a)].push_back(b);
      }
    }
  }
  for (auto& others : net) {
    std::sort(others.begin(), others.end());
    others.erase(std::unique(others.begin(), others.end()), others.end());
  }
  const auto fewer = [&net](int a, int b) {
    const auto ties_a = net[at(a)].size(), ties_b = net[at(b)].size();
    return ties_a != ties_b ? ties_a < ties_b : a < b;
  };
  Net sorted = net;
  for (auto& others : sorted) std::sort(others.begin(), others.end(), fewer);
  return sorted;
}

/// Nodes in the order in which a walk from one of them meets them, by waves.
std::vector<int> walk(const Net& net, int start, std::vector<int>& met_by, int mark) {
  std::vector<int> out{start};
  met_by[at(start)] = mark;
  for (std::size_t i = 0; i < out.size(); ++i) {
    for (const int other : net[at(out[i])]) {
      if (met_by[at(other)] == mark) continue;
      met_by[at(other)] = mark;
      out.push_back(other);
    }
  }
  return out;
}

}  // namespace

std::vector<int> order_nodes(int count, const std::vector<std::vector<int>>& groups) {
  const Net net = make_net(count, groups);
  std::vector<int> met_by(at(count), 0), place(at(count), -1);
  int mark = 0, next = count;
  for (int node = 0; node < count; ++node) {
    if (place[at(node)] >= 0) continue;
    // The last one met stands at an end; twice, as the first start stood anywhere.
    int end = walk(net, node, met_by, ++mark).back();
    end = walk(net, end, met_by, ++mark).back();
    for (const int met : walk(net, end, met_by, ++mark)) place[at(met)] = --next;
  }
  return place;
}

}  // namespace rig::frame
