#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <future>
#include <optional>
#include <thread>
#include <type_traits>
#include <utility>
#include <vector>

namespace rig {

/// What `work` makes of each number from 0 to `count` - 1, in their order, whichever processor has
/// made it.
///
/// @param work  Called with each number once, from several threads at a time. What it throws comes
///              out here once all of them have ended.
template <typename Work>
auto make_side_by_side(std::size_t count, const Work& work) {
  using Made = std::invoke_result_t<const Work&, std::size_t>;
  std::vector<std::optional<Made>> made(count);
  std::atomic<std::size_t> next{0};
  const auto take_share = [&] {
    for (std::size_t i = next++; i < count; i = next++) made[i].emplace(work(i));
  };
  const std::size_t threads =
      std::min<std::size_t>(count, std::max(1U, std::thread::hardware_concurrency()));
  std::vector<std::future<void>> others;
  for (std::size_t t = 1; t < threads; ++t) {
    others.push_back(std::async(std::launch::async, take_share));
  }
  take_share();
  for (auto& other : others) other.get();
  std::vector<Made> out;
  out.reserve(count);
  for (auto& one : made) out.push_back(*std::move(one));
  return out;
}

}  // namespace rig
