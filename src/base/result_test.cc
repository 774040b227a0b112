#include "base/result.h"

#include <gtest/gtest.h>

#include <memory>

namespace rig {
namespace {

Result<int> half_of(int number) {
  if (number % 2 != 0) return fail("test.odd", "/number", "is odd", "give an even number");
  return number / 2;
}

TEST(Result, HoldsAValue) {
  const auto half = half_of(8);
  ASSERT_TRUE(half.has_value());
  EXPECT_EQ(*half, 4);
}

TEST(Result, GivesItsValueAway) {
  Result<std::unique_ptr<int>> owner(std::make_unique<int>(4));
  const std::unique_ptr<int> taken = *std::move(owner);
  EXPECT_EQ(*taken, 4);
}

TEST(Result, HoldsWhyThereIsNone) {
  const auto half = half_of(7);
  ASSERT_FALSE(half.has_value());
  EXPECT_EQ(half.error().front().code, "test.odd");
  EXPECT_EQ(half.error().front().path, "/number");
}

TEST(Result, AsksForTheWrongSideAreLogicErrors) {
  EXPECT_THROW((void)half_of(7).value(), LogicError);
  EXPECT_THROW((void)half_of(8).error(), LogicError);
  EXPECT_THROW(static_cast<void>(Result<int>(Failure{})), LogicError);
}

}  // namespace
}  // namespace rig
