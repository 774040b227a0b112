#include "base/shared.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace rig {
namespace {

TEST(Shared, CopiesAreTheOneValue) {
  const Shared<std::string> rail = std::string("rail");
  const std::vector<Shared<std::string>> copies(3, rail);
  for (const std::string& copy : copies) EXPECT_EQ(&copy, &*rail);
  EXPECT_EQ(rail->size(), 4U);
}

TEST(Shared, TakesAnotherValueWithoutChangingItsCopies) {
  Shared<std::string> rail = std::string("left rail");
  const Shared<std::string> copy = rail;
  rail = std::string("right rail");
  EXPECT_EQ(*copy, "left rail");
  EXPECT_EQ(*rail, "right rail");
}

}  // namespace
}  // namespace rig
