#pragma once

#include <vector>

namespace rig::frame {

/// Places for nodes so that those tied to each other stand close: Cuthill and McKee's order,
/// reversed, from an end of each connected part of the net.
/// @param groups  Nodes, each from 0, that are all tied to each other.
/// @return        Place of each node, from 0.
/// @source        E. Cuthill, J. McKee, Proc. 24th ACM Conf. 1969; reversed: A. George 1971 (from
///                memory).
std::vector<int> order_nodes(int count, const std::vector<std::vector<int>>& groups);

}  // namespace rig::frame
