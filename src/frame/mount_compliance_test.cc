#include "frame/mount_compliance.h"

#include <gtest/gtest.h>

#include <Eigen/Eigenvalues>
#include <cmath>

#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using testing::at;

/// Two rails of length L, B apart, with a crossmember at each end and in the middle. Joints: front
/// left 0, front right 1, rear left 2, rear right 3, middle left 4, middle right 5, middle 6.
struct Grillage {
  double E = 205e9, L = 2.5, B = 0.8, I_rail = 3e-6, I_cross = 1.5e-6;

  Structure make() const {
    Structure s;
    for (const double x : {0.0, -L, -L / 2}) {
      for (const double y : {B / 2, -B / 2}) s.joints.push_back({.p_VoJ_V = {x, y, 0.5}});
    }
    s.joints.push_back({.p_VoJ_V = {-L / 2, 0, 0.5}});
    s.members = {{"frame", "frame"}};
    // Without twist stiffness to speak of, so that rails and crossmember bend apart.
    s.sections = {testing::make_plain(E, 79e9, 2e-3, I_rail, 2e-6, 1e-12),
                  testing::make_plain(E, 79e9, 2e-3, I_cross, 1e-6, 1e-12)};
    for (const auto& [from, to] : {std::pair{2, 4}, {4, 0}, {3, 5}, {5, 1}}) {
      s.beams.push_back(testing::make_beam(s, from, to, 0, Vec3::UnitY()));
    }
    for (const auto& [from, to] : {std::pair{1, 0}, {3, 2}, {5, 6}, {6, 4}}) {
      s.beams.push_back(testing::make_beam(s, from, to, 1, Vec3::UnitX()));
    }
    return s;
  }
};

JointPoint point_of(const Structure& s, int joint) { return {joint, s.joints[at(joint)].p_VoJ_V}; }

AxlePoints corners_of(const Structure& s) {
  return {point_of(s, 0), point_of(s, 1), point_of(s, 2), point_of(s, 3)};
}

// AISC Manual Table 3-23 case 7, P L^3 / 48 E I: half of the force on either rail, and the
// crossmember between them a beam of its own.
TEST(MountCompliance, IsThatOfSimpleBeams) {
  const Grillage grillage;
  const Structure s = grillage.make();
  const auto solver = Solver::make(s);
  ASSERT_TRUE(solver.has_value());
  const JointPoint middle = point_of(s, 6);
  const auto C = calc_mount_compliance(*solver, corners_of(s), {&middle, 1});
  ASSERT_TRUE(C.has_value());
  const double rail = std::pow(grillage.L, 3) / (48 * grillage.E * grillage.I_rail) / 2;
  const double cross = std::pow(grillage.B, 3) / (48 * grillage.E * grillage.I_cross);
  EXPECT_NEAR((*C)(2, 2), rail + cross, 1e-5 * (rail + cross));
}

TEST(MountCompliance, NothingGivesRightOverASupport) {
  const Structure s = Grillage().make();
  const auto solver = Solver::make(s);
  // The same force on all four supports moves none of them against the others.
  const AxlePoints corners = corners_of(s);
  const auto C = calc_mount_compliance(*solver, corners, corners);
  ASSERT_TRUE(C.has_value());
  for (int way = 0; way < 3; ++way) {
    Eigen::VectorXd alike = Eigen::VectorXd::Zero(12);
    for (int corner = 0; corner < 4; ++corner) alike[3 * corner + way] = 1;
    EXPECT_LT((*C * alike).cwiseAbs().maxCoeff(), 1e-15) << way;
  }
}

TEST(MountCompliance, IsSymmetricAndNeverPushesBack) {
  const Structure s = Grillage().make();
  const auto solver = Solver::make(s);
  const std::array<JointPoint, 3> points{point_of(s, 4), point_of(s, 5), point_of(s, 6)};
  const auto C = calc_mount_compliance(*solver, corners_of(s), points);
  ASSERT_TRUE(C.has_value());
  EXPECT_EQ(*C, C->transpose());
  const Eigen::VectorXd values = Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(*C).eigenvalues();
  EXPECT_GT(values.minCoeff(), -1e-12 * values.maxCoeff());
  // Left and right alike.
  EXPECT_NEAR((*C)(2, 2), (*C)(5, 5), 1e-12 * (*C)(2, 2));
}

TEST(MountCompliance, SupportsInOneLineHoldNothing) {
  const Structure s = Grillage().make();
  const auto solver = Solver::make(s);
  const JointPoint left = point_of(s, 0), rear = point_of(s, 2), middle = point_of(s, 6);
  const auto C = calc_mount_compliance(*solver, {left, rear, left, rear}, {&middle, 1});
  ASSERT_FALSE(C.has_value());
  EXPECT_EQ(C.error().front().code, "frame.points_in_line");
  const JointPoint nowhere{99, Vec3::Zero()};
  EXPECT_EQ(calc_mount_compliance(*solver, corners_of(s), {&nowhere, 1}).error().front().code,
            "frame.unknown_joint");
}

}  // namespace
}  // namespace rig::frame
