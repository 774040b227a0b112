#include "base/side_by_side.h"

#include <gtest/gtest.h>

#include <memory>
#include <stdexcept>

namespace rig {
namespace {

TEST(SideBySide, KeepsTheOrder) {
  const auto squares = make_side_by_side(1000, [](std::size_t i) { return i * i; });
  ASSERT_EQ(squares.size(), 1000U);
  for (std::size_t i = 0; i < squares.size(); ++i) EXPECT_EQ(squares[i], i * i);
}

TEST(SideBySide, MakesWhatCanOnlyBeMoved) {
  const auto owners = make_side_by_side(3, [](std::size_t i) { return std::make_unique<int>(i); });
  EXPECT_EQ(*owners[2], 2);
}

TEST(SideBySide, OfNothingMakesNothing) {
  EXPECT_TRUE(make_side_by_side(0, [](std::size_t i) { return i; }).empty());
}

TEST(SideBySide, PassesOnWhatIsThrown) {
  const auto odd_throws = [](std::size_t i) {
    if (i % 2 != 0) throw std::runtime_error("odd");
    return i;
  };
  EXPECT_THROW(make_side_by_side(8, odd_throws), std::runtime_error);
}

}  // namespace
}  // namespace rig
