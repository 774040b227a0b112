#include "check/workings.h"

#include <set>

#include "check/test_builds_internal.h"

namespace rig::check {
namespace {

using testing::example_report;

/// Every number on the page opens to its working: a row has its own, or its finding has it.
TEST(Workings, EveryRowOpens) {
  for (const char* name : testing::kExamples) {
    const Report& report = example_report(name);
    for (const AxleReport& axle : report.axles) {
      for (const Row& row : axle.rows) {
        const Finding* finding = testing::find_finding(report, row.finding);
        const bool opens =
            !row.working.empty() || (finding != nullptr && !finding->working.empty());
        EXPECT_TRUE(opens) << name << " " << axle.id << " " << row.id;
        EXPECT_FALSE(row.usual.empty()) << row.id;
        EXPECT_FALSE(row.explain.empty()) << row.id;
      }
    }
  }
}

TEST(Workings, EveryLoadStateOpens) {
  const std::set<std::string> wanted{"total",  "cg",         "loads", "sprung",
                                     "factor", "side_slope", "grade"};
  for (const char* name : testing::kExamples) {
    const Report& report = example_report(name);
    for (const StateReport& state : report.states) {
      std::set<std::string> told;
      for (const Explained& number : state.explained) {
        told.insert(number.id);
        EXPECT_FALSE(number.working.empty()) << number.id;
        EXPECT_FALSE(number.usual.empty()) << number.id;
      }
      EXPECT_EQ(told, wanted) << name << " " << state.id;
    }
  }
}

TEST(Workings, EverySpringSeatOpens) {
  const Report& report = example_report(testing::kTowRig);
  for (const AxleReport& axle : report.axles) {
    for (const SeatReport& seat : axle.seats) {
      ASSERT_GE(seat.working.size(), 4U);
      EXPECT_EQ(seat.working[0].input_paths.at(0), seat.coil.path + "/rate");
    }
  }
}

/// The values put into a formula give the value that is told.
TEST(Workings, ClosesTheRollCentresSum) {
  const Report& report = example_report(testing::kTowRig);
  const AxleReport& front = *report.axle("front");
  const Row& row = front.rows.front();
  ASSERT_EQ(row.id, "roll_centre");
  EXPECT_TRUE(row.working.at(0).with_values.ends_with("= " + row.value.text));
  for (const auto& path : row.working.at(0).input_paths)
    EXPECT_TRUE(path.starts_with("/axles/front"));
}

}  // namespace
}  // namespace rig::check
