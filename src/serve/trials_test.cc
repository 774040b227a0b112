#include "serve/trials.h"

#include <gtest/gtest.h>

#include <chrono>
#include <future>
#include <optional>

namespace rig::serve {
namespace {

using std::chrono_literals::operator""ms;
using std::chrono_literals::operator""s;

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
  std::promise<void> started;
  auto waiting = std::async(std::launch::async, [&] {
    started.set_value();
    trials.wait_for_begun();
  });
  started.get_future().wait();
  EXPECT_EQ(waiting.wait_for(50ms), std::future_status::timeout);
  std::optional<Trials::Turn> later(std::in_place, trials);
  second.reset();
  EXPECT_EQ(waiting.wait_for(50ms), std::future_status::timeout);
  first.reset();
  EXPECT_EQ(waiting.wait_for(10s), std::future_status::ready) << "waits for the later one";
  later.reset();
}

}  // namespace
}  // namespace rig::serve
