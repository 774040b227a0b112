#include "driveline/cases.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/LU>

#include "driveline/test_cases_internal.h"
#include "tests/support/random_values.h"

namespace rig::driveline {
namespace {

using testing::kGravity_V;
using testing::make_case;
using testing::make_mount;
using testing::make_three_cases;

/// Inside a property only.
double between(double low, double high) { return low + (high - low) * test::real(0, 1000); }

Vec3 random_vector(double size) {
  return {between(-size, size), between(-size, size), between(-size, size)};
}

/// What a frame might give under a line's mounts: as much as the rubbers do, each with the others.
Eigen::MatrixXd random_frame(std::size_t mounts) {
  const auto n = static_cast<Eigen::Index>(3 * mounts);
  Eigen::MatrixXd A(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j) A(i, j) = between(-1, 1);
  }
  const double share = 1 / static_cast<double>(n);
  return 3e-6 * (share * A * A.transpose() + 0.2 * Eigen::MatrixXd::Identity(n, n));
}

/// Any line, stiff or bending, on three to six mounts, on a frame that gives or stands still.
CaseLine random_cases() {
  CaseLine line = make_three_cases();
  for (Case& one : line.cases) {
    one.p_VoCm_V += random_vector(0.08);
    if (between(0, 1) > 0.5) {
      one.bending_Nm2 = between(1e5, 1e7);
    }
  }
  const auto more = *rc::gen::inRange(0, 4);
  for (int i = 0; i < more; ++i) {
    const auto on = *rc::gen::inRange<std::size_t>(0, 3);
    line.mounts.push_back(make_mount(on, line.cases[on].p_VoCm_V + random_vector(0.2),
                                     between(1e4, 1e6), between(1e4, 1e6)));
  }
  if (between(0, 1) > 0.5) line.frame_m_per_N = random_frame(line.mounts.size());
  return line;
}

TEST(Cases, AWeightBetweenTwoSupportsIsSharedByTheLever) {
  CaseLine line;
  line.cases = {make_case(0, 2, 100, 0.5)};
  line.mounts = {make_mount(0, {0, 0.2, 0}, 1e5, 1e5), make_mount(0, {0, -0.2, 0}, 1e5, 1e5),
                 make_mount(0, {-2, 0, 0}, 1e5, 1e5)};
  const auto rest = solve_cases(line, {.felt_V = kGravity_V});
  ASSERT_TRUE(rest.has_value());
  const double weight_N = 100 * units::g;
  EXPECT_NEAR(rest->mounts[2].along_N, 0.25 * weight_N, 1e-9 * weight_N);
  EXPECT_NEAR(rest->mounts[0].along_N, 0.375 * weight_N, 1e-9 * weight_N);
  EXPECT_TRUE(rest->flanges.empty());
}

RC_GTEST_PROP(Cases, MountsCarryWhatActsAndFlangesClose, ()) {
  const CaseLine line = random_cases();
  CaseLoads loads{.felt_V = kGravity_V + random_vector(5)};
  for (std::size_t i = 0; i < line.cases.size(); ++i) loads.t_V.push_back(random_vector(2000));
  const auto rest = solve_cases(line, loads);
  RC_ASSERT(rest.has_value());
  Vec3 f = Vec3::Zero(), t = Vec3::Zero();
  double size = 1;
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    f += rest->mounts[m].f_V;
    t += line.mounts[m].p_VoM_V.cross(rest->mounts[m].f_V);
    size += rest->mounts[m].f_V.norm();
  }
  for (std::size_t i = 0; i < line.cases.size(); ++i) {
    const Case& one = line.cases[i];
    f += one.mass_kg * loads.felt_V;
    t += one.p_VoCm_V.cross(one.mass_kg * loads.felt_V) + loads.t_V[i];
  }
  RC_ASSERT(f.norm() < 1e-6 * size);
  RC_ASSERT(t.norm() < 1e-6 * size);
  // What passes the last face is what is left of the balance: nothing.
  const CutLoad end = calc_cut_load(line, loads, *rest, line.cases.size() - 1, 1);
  RC_ASSERT(end.f_V.norm() < 1e-6 * size);
  RC_ASSERT(end.t_V.norm() < 1e-6 * size);
}

RC_GTEST_PROP(Cases, AMirroredLineIsLoadedLikeItsMirror, ()) {
  CaseLine line = random_cases();
  const CaseLoads loads{.felt_V = kGravity_V + random_vector(5)};
  const auto rest = solve_cases(line, loads);
  const Mat3 mirror = Vec3(1, -1, 1).asDiagonal();
  for (Case& one : line.cases) one.p_VoCm_V = mirror * one.p_VoCm_V;
  for (CaseMount& mount : line.mounts) {
    mount.p_VoM_V = mirror * mount.p_VoM_V;
    mount.K_V = mirror * mount.K_V * mirror;
    mount.axis_V = mirror * mount.axis_V;
  }
  for (Eigen::Index i = 0; i < line.frame_m_per_N.rows(); ++i) {
    for (Eigen::Index j = 0; j < line.frame_m_per_N.cols(); ++j) {
      if ((i % 3 == 1) != (j % 3 == 1)) line.frame_m_per_N(i, j) *= -1;
    }
  }
  const auto mirrored = solve_cases(line, {.felt_V = mirror * loads.felt_V});
  RC_ASSERT(rest.has_value() && mirrored.has_value());
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    RC_ASSERT((mirror * rest->mounts[m].f_V - mirrored->mounts[m].f_V).norm() < 1e-5);
  }
}

// Two springs in series, 1 / k = 1 / k_1 + 1 / k_2.
TEST(Cases, ARubberAndTheFrameUnderItAreInSeries) {
  CaseLine line;
  line.cases = {make_case(0, 1, 100, 0.5)};
  for (const double y : {0.3, -0.3}) {
    for (const double x : {-0.2, -0.8}) line.mounts.push_back(make_mount(0, {x, y, 0}, 1e5, 1e5));
  }
  line.frame_m_per_N = Eigen::MatrixXd::Identity(12, 12) / 3e5;
  const auto rest = solve_cases(line, {.felt_V = kGravity_V});
  ASSERT_TRUE(rest.has_value());
  const double each_N = 100 * units::g / 4;
  for (const MountLoad& mount : rest->mounts) {
    EXPECT_NEAR(mount.along_N, each_N, 1e-9 * each_N);
    EXPECT_NEAR(mount.squeeze_V.z(), -each_N / 1e5, 1e-12);
    EXPECT_NEAR(mount.travel_V.z(), -each_N / 1e5 - each_N / 3e5, 1e-12);
  }
}

// The frame's motions as freedoms of their own: the least of the springs' energy.
RC_GTEST_PROP(Cases, AFrameThatGivesIsTheLeastOfTheEnergy, ()) {
  CaseLine line = make_three_cases();
  line.frame_m_per_N = random_frame(line.mounts.size());
  const CaseLoads loads{.felt_V = kGravity_V + random_vector(5)};
  const auto rest = solve_cases(line, loads);
  RC_ASSERT(rest.has_value());
  const auto n = static_cast<Eigen::Index>(3 * line.mounts.size());
  Eigen::MatrixXd J(n, 6 + n);  // squeeze of the rubbers by the cases' [u; theta] and the frame
  Eigen::MatrixXd K_mounts = Eigen::MatrixXd::Zero(n, n);
  const Vec3 p_VoCm_V = line.p_VoCm_V();
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    const auto at = static_cast<Eigen::Index>(3 * m);
    for (int way = 0; way < 3; ++way) {
      J.block<3, 1>(at, way) = Vec3::Unit(way);
      J.block<3, 1>(at, 3 + way) = Vec3::Unit(way).cross(line.mounts[m].p_VoM_V - p_VoCm_V).eval();
    }
    K_mounts.block<3, 3>(at, at) = line.mounts[m].K_V;
  }
  J.rightCols(n) = -Eigen::MatrixXd::Identity(n, n);
  Eigen::MatrixXd K = J.transpose() * K_mounts * J;
  K.bottomRightCorner(n, n) += line.frame_m_per_N.inverse();
  Eigen::VectorXd f = Eigen::VectorXd::Zero(6 + n);
  f.head<3>() = line.mass_kg() * loads.felt_V;
  const Eigen::VectorXd squeeze = J * K.fullPivLu().solve(f);
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    const Vec3 expected =
        -line.mounts[m].K_V * squeeze.segment<3>(static_cast<Eigen::Index>(3 * m));
    RC_ASSERT((rest->mounts[m].f_V - expected).norm() < 1e-5 * (1 + expected.norm()));
  }
}

RC_GTEST_PROP(Cases, PlacesOfAStiffLineMoveAsOneBody, ()) {
  const CaseLine line = make_three_cases();
  const auto rest = solve_cases(line, {.felt_V = kGravity_V + random_vector(5)});
  RC_ASSERT(rest.has_value());
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    const CaseMotion motion =
        calc_case_motion(line, *rest, line.mounts[m].on, line.mounts[m].p_VoM_V);
    RC_ASSERT((motion.travel_V - rest->mounts[m].travel_V).norm() < 1e-12);
    RC_ASSERT((motion.turn_V - rest->front_turn_V[0]).norm() < 1e-12);
  }
}

TEST(Cases, AVeryStiffBendingCaseActsAsAStiffOne) {
  CaseLine line = make_three_cases();
  line.mounts.push_back(make_mount(2, {-1.8, 0, -0.1}, 4e5, 1e5));
  const auto stiff = solve_cases(line, {.felt_V = kGravity_V});
  for (Case& one : line.cases) one.bending_Nm2 = 1e10;
  const auto bending = solve_cases(line, {.felt_V = kGravity_V});
  ASSERT_TRUE(stiff.has_value() && bending.has_value());
  for (std::size_t i = 0; i < stiff->flanges.size(); ++i) {
    EXPECT_NEAR(stiff->flanges[i].bending_Nm, bending->flanges[i].bending_Nm, 0.05);
  }
}

TEST(Cases, AStopTakesOverWhereTheGapIsUsedUp) {
  CaseLine line;
  line.cases = {make_case(0, 1, 100, 0.5)};
  for (const double y : {0.3, -0.3}) {
    for (const double x : {-0.2, -0.8}) line.mounts.push_back(make_mount(0, {x, y, 0}, 1e5, 1e5));
  }
  for (CaseMount& mount : line.mounts) {
    mount.snub_gap_m = 0.004;
    mount.snub_rate_N_per_m = 9e5;
  }
  const auto rest = solve_cases(line, {.felt_V = kGravity_V});
  const auto bump = solve_cases(line, {.felt_V = 4 * kGravity_V}, &*rest);
  ASSERT_TRUE(rest.has_value() && bump.has_value());
  // Each of four: 3 more weights over the gap at one rate, the rest at ten times it.
  const double more_N = 3 * 100 * units::g / 4;
  const double past_m = (more_N - 1e5 * 0.004) / 1e6;
  for (const MountLoad& mount : bump->mounts) {
    EXPECT_TRUE(mount.snubbed);
    EXPECT_NEAR(mount.travel_V.z() - rest->mounts[0].travel_V.z(), -(0.004 + past_m), 1e-9);
    EXPECT_NEAR(mount.along_N, 100 * units::g, 1e-6);
  }
}

// Several loads at once, some of which push a mount on its stop and some not, as each alone.
RC_GTEST_PROP(Cases, SeveralLoadsAtOnceAreAsEachAlone, ()) {
  CaseLine line = make_three_cases();
  if (*rc::gen::arbitrary<bool>()) line.cases[0].bending_Nm2 = 5e6;
  for (CaseMount& mount : line.mounts) {
    mount.snub_gap_m = test::real(1, 8);
    mount.snub_rate_N_per_m = 9e5;
  }
  std::vector<CaseLoads> loads{{.felt_V = kGravity_V}};
  for (int i = 0; i < 5; ++i) {
    const double across = test::real(-10000, 10000), up = test::real(-30000, 30000);
    loads.push_back({.felt_V = kGravity_V + Vec3(0, across, up),
                     .t_V = {Vec3(test::real(-2000000, 2000000), 0, 0)}});
  }
  const auto together = *solve_loads(line, loads);
  const CasesAtRest rest = *solve_cases(line, loads.front());
  for (std::size_t l = 0; l < loads.size(); ++l) {
    const CasesAtRest alone = l == 0 ? rest : *solve_cases(line, loads[l], &rest);
    for (std::size_t m = 0; m < line.mounts.size(); ++m) {
      RC_ASSERT(together[l].mounts[m].snubbed == alone.mounts[m].snubbed);
      RC_ASSERT(together[l].mounts[m].f_V.isApprox(alone.mounts[m].f_V, 1e-12));
    }
    for (std::size_t i = 0; i < alone.flanges.size(); ++i) {
      RC_ASSERT(together[l].flanges[i].t_V.isApprox(alone.flanges[i].t_V, 1e-9));
    }
  }
}

TEST(Cases, WhatIsNotHeldSaysHowItCanMove) {
  CaseLine line;
  line.cases = {make_case(0, 1, 100, 0.5)};
  const auto none = solve_cases(line, {});
  ASSERT_FALSE(none.has_value());
  EXPECT_EQ(none.error().front().code, "driveline.no_mounts");
  // All mounts on one line lengthwise: it can roll over.
  line.mounts = {make_mount(0, {-0.1, 0, 0}, 1e5, 1e5), make_mount(0, {-0.9, 0, 0}, 1e5, 1e5)};
  const auto rolls = solve_cases(line, {});
  ASSERT_FALSE(rolls.has_value());
  EXPECT_EQ(rolls.error().front().code, "driveline.not_held");
  EXPECT_NE(rolls.error().front().message.find("over to a side"), std::string::npos);
}

}  // namespace
}  // namespace rig::driveline
