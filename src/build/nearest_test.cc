#include <gtest/gtest.h>

#include "build/nearest_internal.h"

namespace rig::build {
namespace {

TEST(EditDistance, CountsLettersPutInTakenOutChangedAndSwapped) {
  EXPECT_EQ(calc_edit_distance("track", "track", 3), 0U);
  EXPECT_EQ(calc_edit_distance("trac", "track", 3), 1U);
  EXPECT_EQ(calc_edit_distance("ttrack", "track", 3), 1U);
  EXPECT_EQ(calc_edit_distance("trakc", "track", 3), 1U);
  EXPECT_EQ(calc_edit_distance("Track", "track", 3), 0U);
  EXPECT_EQ(calc_edit_distance("tires", "tyres", 3), 1U);
  EXPECT_EQ(calc_edit_distance("", "abc", 3), 3U);
}

// Wagner and Fischer's own kind of example, from memory: kitten -> sitting takes three.
TEST(EditDistance, KittenToSittingIsThree) {
  EXPECT_EQ(calc_edit_distance("kitten", "sitting", 5), 3U);
}

TEST(EditDistance, StopsPastTheLimit) {
  EXPECT_EQ(calc_edit_distance("kitten", "sitting", 2), 3U);
  EXPECT_EQ(calc_edit_distance("a", "abcdefgh", 2), 3U);
}

TEST(FindNearest, TakesTheNearestAndTheFirstOfEquals) {
  EXPECT_EQ(find_nearest("sation", {"offset", "station", "height"}), "station");
  EXPECT_EQ(find_nearest("hight", {"right", "height"}), "right");
  EXPECT_EQ(find_nearest("heigt", {"right", "height"}), "height");
}

TEST(FindNearest, IsEmptyWhenNothingIsNear) {
  EXPECT_FALSE(find_nearest("colour", {"offset", "station", "height"}).has_value());
  EXPECT_FALSE(find_nearest("at", {"on", "it's far"}).has_value());
  EXPECT_FALSE(find_nearest("x", {}).has_value());
}

}  // namespace
}  // namespace rig::build
