#include "serve/trials.h"

#include <gtest/gtest.h>

#include <chrono>
#include <future>
#include <optional>

namespace rig::serve {
namespace {

using std::chrono_literals::operator""ms;

TEST(Trials, NothingBegunIsNotWaitedFor) {
  Trials trials;
  trials.wait_for_begun();
  { const Trials::Turn turn(trials); }
  trials.wait_for_begun();
}

TEST(Trials, OnlyThoseBegunBeforeAreWaitedFor) {
  Trials trials;
  std::optional<Trials::Turn> first(std::in_place, trials);
  std::optional<Trials::Turn> second(std::in_place, trials);
  auto waiting = std::async(std::launch::async, [&] { trials.wait_for_begun(); });
  EXPECT_EQ(waiting.wait_for(50ms), std::future_status::timeout);
  const Trials::Turn later(trials);
  second.reset();
  EXPECT_EQ(waiting.wait_for(50ms), std::future_status::timeout);
  first.reset();
  waiting.get();  // Though the later one is still being answered.
}

}  // namespace
}  // namespace rig::serve
