#include "driveline/support.h"

#include <gtest/gtest.h>

#include "driveline/test_cases_internal.h"

namespace rig::driveline {
namespace {

using testing::kGravity_V;
using testing::make_mount;
using testing::make_three_cases;

/// The transfer case hangs far behind its last mount.
CaseLine overhung() {
  CaseLine line = make_three_cases();
  line.mounts[2].p_VoM_V.x() = -1.0;
  line.cases[2].mass_kg = 120;
  return line;
}

TEST(Support, ASupportUnderAnOverhungCaseEasesItsFlange) {
  const CaseLine line = overhung();
  const std::vector<CaseLoads> loads{{.felt_V = kGravity_V}, {.felt_V = 3 * kGravity_V}};
  const auto before = find_worst_flange(line, loads);
  const auto place = find_support_place(line, loads, 300e3);
  ASSERT_TRUE(before.has_value() && place.has_value());
  ASSERT_TRUE(before->has_value() && place->has_value());
  EXPECT_EQ((*before)->load, 1U);
  EXPECT_LT((*place)->worst.cut.bending_Nm, 0.7 * (*before)->cut.bending_Nm);
  EXPECT_EQ((*place)->on, 2U);
  EXPECT_GT((*place)->greatest_load_N, 0);
  // No place a hand's breadth to either side is better.
  for (const double step_m : {0.05, -0.05}) {
    CaseLine moved = line;
    moved.mounts.push_back(make_mount(2, (*place)->p_VoM_V + Vec3(step_m, 0, 0), 300e3, 100e3));
    const auto other = find_worst_flange(moved, loads);
    EXPECT_GE((*other)->cut.bending_Nm, (*place)->worst.cut.bending_Nm - 1e-3);
  }
}

TEST(Support, NothingIsAdvisedWhereTheLastCaseIsCarried) {
  const CaseLine line = [] {
    CaseLine carried = make_three_cases();
    carried.mounts.push_back(make_mount(2, {-1.8, 0, -0.1}, 4e5, 1e5));
    return carried;
  }();
  const std::vector<CaseLoads> loads{{.felt_V = kGravity_V}};
  const auto place = find_support_place(line, loads, 300e3);
  ASSERT_TRUE(place.has_value());
  EXPECT_FALSE(place->has_value());
}

TEST(Support, ABetterRateIsFoundForAHardRearMount) {
  CaseLine line = make_three_cases();
  // A very hard pair far behind: it takes the torque that the soft front pair should.
  line.mounts[2] = make_mount(2, {-1.8, 0.2, -0.1}, 2e7, 1e5);
  line.mounts.push_back(make_mount(2, {-1.8, -0.2, -0.1}, 2e7, 1e5));
  line.mounts.push_back(make_mount(1, {-1.0, 0, -0.1}, 3e5, 1e5));
  for (std::size_t m : {2U, 3U}) line.mounts[m].path = "/drivetrain/mounts/rear";
  const std::vector<CaseLoads> loads{{.felt_V = kGravity_V}};
  const auto rate = find_better_rate(line, loads);
  const auto now = find_worst_flange(line, loads);
  ASSERT_TRUE(rate.has_value() && rate->has_value());
  EXPECT_LT((*rate)->worst.cut.bending_Nm, 0.9 * (*now)->cut.bending_Nm);
}

}  // namespace
}  // namespace rig::driveline
