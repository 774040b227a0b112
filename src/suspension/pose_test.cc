#include "suspension/pose.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "suspension/drawing_board.h"
#include "suspension/elements.h"
#include "suspension/pose_numbers_internal.h"
#include "suspension/sweep.h"
#include "tests/support/test_axles.h"

namespace rig::suspension {
namespace {

using testing::make_a_arm_rear;
using testing::make_parallel_rear;
using testing::make_three_link_front;
using testing::make_triangulated_rear;

using testing::kTruck;

std::vector<AxleModel> all_axles() {
  return {make_three_link_front(), make_triangulated_rear(), make_a_arm_rear(),
          make_parallel_rear()};
}

LinkagePose solved(const Linkage& linkage, double heave_m, double roll_rad) {
  LinkagePose pose = linkage.drawn();
  constexpr int kSteps = 20;
  for (int i = 1; i <= kSteps; ++i) {
    EXPECT_TRUE(
        linkage.solve(linkage.axle().p_VC.z() + heave_m * i / kSteps, roll_rad * i / kSteps, pose));
  }
  return pose;
}

double worst_misfit(const AxleModel& axle, const LinkagePose& pose) {
  double worst = 0;
  for (std::size_t i = 0; i < axle.bars.size(); ++i) {
    const double length = calc_bar_length(axle.bars[i], axes_from_coordinates(pose.q)).value;
    worst = std::max(worst, std::abs(length - axle.bars[i].length_m));
  }
  return worst;
}

TEST(Linkage, IdealBarsKeepTheirLength) {
  for (const auto& axle : {make_three_link_front(), make_triangulated_rear(), make_a_arm_rear()}) {
    const Linkage linkage = Linkage::make(axle);
    for (const double heave : {-0.25, 0.1, 0.3}) {
      for (const double roll : {-0.3, 0.0, 0.2}) {
        EXPECT_LT(worst_misfit(axle, solved(linkage, heave, roll)), 1e-14);
      }
    }
  }
}

TEST(Linkage, StiffBushesApproachIdealBars) {
  AxleModel axle = make_triangulated_rear();
  const LinkagePose ideal = solved(Linkage::make(axle), 0.2, 0.15);
  axle.compliance_m_per_N.diagonal().setConstant(1e-12);
  const LinkagePose stiff = solved(Linkage::make(axle), 0.2, 0.15);
  EXPECT_LT((ideal.q - stiff.q).norm(), 1e-10);
}

// definitions: "Pose does not depend on a common k; forces do."
TEST(Linkage, PoseDoesNotDependOnACommonBushRate) {
  AxleModel axle = make_parallel_rear();
  axle.compliance_m_per_N = Eigen::MatrixXd::Identity(5, 5) / 4e6;
  const LinkagePose soft = solved(Linkage::make(axle), 0.15, 0.2);
  axle.compliance_m_per_N /= 10;
  const LinkagePose hard = solved(Linkage::make(axle), 0.15, 0.2);
  EXPECT_LT((soft.q - hard.q).norm(), 1e-12);
  EXPECT_GT(soft.bind_N.norm(), 10);
  EXPECT_LT((10 * soft.bind_N - hard.bind_N).norm(), 1e-7 * hard.bind_N.norm());
}

// The moment that holds a bound axle in roll is the slope of the energy in its bushes.
TEST(Linkage, BindMomentIsTheSlopeOfTheBushEnergy) {
  const AxleModel axle = make_parallel_rear();
  const Linkage linkage = Linkage::make(axle);
  const auto energy = [&](double roll) {
    const LinkagePose pose = solved(linkage, 0.1, roll);
    return 0.5 * pose.bind_N.dot(axle.compliance_m_per_N * pose.bind_N);
  };
  constexpr double kStep = 1e-4;
  const SweptPose swept = calc_swept_pose(axle, kTruck, solved(linkage, 0.1, 0.2));
  const double slope = (energy(0.2 + kStep) - energy(0.2 - kStep)) / (2 * kStep);
  EXPECT_GT(std::abs(slope), 1);
  EXPECT_NEAR(swept.numbers.bind_roll_Nm, slope, 1e-5 * std::abs(slope));
}

TEST(Derivatives, AgreeWithDifferencesOfPoses) {
  constexpr double kStep = 1e-4;
  for (const auto& axle : all_axles()) {
    const Linkage linkage = Linkage::make(axle);
    const LinkagePose at = solved(linkage, 0.12, 0.1);
    const auto dq = calc_pose_derivatives(axle, at);
    for (const int held : {0, 1}) {
      const double dz = held == 0 ? kStep : 0, dr = held == 1 ? kStep : 0;
      LinkagePose up = at, down = at;
      ASSERT_TRUE(linkage.solve(at.q[kZ] + dz, at.q[kRoll] + dr, up));
      ASSERT_TRUE(linkage.solve(at.q[kZ] - dz, at.q[kRoll] - dr, down));
      EXPECT_LT((dq.col(held) - (up.q - down.q) / (2 * kStep)).norm(), 2e-7) << axle.bars[2].name;
    }
  }
}

/// Forces in four bars, heave force and roll moment of the ground that balance a load on the axle.
Eigen::Matrix<double, 6, 1> balance(const AxleModel& axle, const Vec6& q, const Vec3& force_V,
                                    const Vec3& moment_about_C_V) {
  const AxleAxes axes = axes_from_coordinates(q);
  Eigen::Matrix<double, 6, 6> A = Eigen::Matrix<double, 6, 6>::Zero();
  for (int i = 0; i < 4; ++i) {
    const Bar& bar = axle.bars[static_cast<std::size_t>(i)];
    const Vec3 arm = axes.R_VA * bar.p_AQ;
    const Vec3 pull = (bar.p_VP - axes.p_VC - arm).normalized();
    A.block<3, 1>(0, i) = pull;
    A.block<3, 1>(3, i) = arm.cross(pull);
  }
  A(2, 4) = 1;                          // Heave force at C.
  A.block<3, 1>(3, 5) = Vec3::UnitX();  // Roll moment about C.
  Eigen::Matrix<double, 6, 1> load;
  load << -force_V, -moment_about_C_V;
  return A.fullPivLu().solve(load);
}

struct ThreeRoutes : public ::testing::TestWithParam<int> {};

// The same numbers by the implicit function theorem, by differences of solved poses, by the statics
// of the links and by the drawing board, for linkages alike left and right, all through the travel.
TEST_P(ThreeRoutes, AgreeOnSymmetricLinkages) {
  const AxleModel axle = GetParam() == 0 ? make_triangulated_rear() : make_a_arm_rear();
  const double r = axle.loaded_radius_m;
  const Linkage linkage = Linkage::make(axle);
  for (const double heave : {-0.2, -0.05, 0.0, 0.1, 0.2}) {
    const LinkagePose pose = solved(linkage, heave, 0);
    const SweptPose swept = calc_swept_pose(axle, kTruck, pose);
    const PoseNumbers& n = swept.numbers;

    // Differences.
    constexpr double kStep = 5e-5;
    LinkagePose up = pose, down = pose;
    ASSERT_TRUE(linkage.solve(pose.q[kZ] + kStep, 0, up));
    ASSERT_TRUE(linkage.solve(pose.q[kZ] - kStep, 0, down));
    const auto contact_x = [&](const LinkagePose& p) {
      // The point r below C that moves with the housing, marked at this pose.
      const Vec3 mark = axes_from_coordinates(pose.q).R_VA.transpose() * Vec3(0, 0, -r);
      return (p.q.head<3>() + axes_from_coordinates(p.q).R_VA * mark).x();
    };
    EXPECT_NEAR(n.contact_slope, (contact_x(up) - contact_x(down)) / (2 * kStep), 1e-6);

    LinkagePose left = pose, right = pose;
    ASSERT_TRUE(linkage.solve(pose.q[kZ], kStep, left));
    ASSERT_TRUE(linkage.solve(pose.q[kZ], -kStep, right));
    const Mat3 dR =
        (axes_from_coordinates(left.q).R_VA - axes_from_coordinates(right.q).R_VA) / (2 * kStep);
    const Mat3 spin = dR * axes_from_coordinates(pose.q).R_VA.transpose();
    const double y_rate = (left.q[kY] - right.q[kY]) / (2 * kStep);
    EXPECT_NEAR(n.roll_centre_height_m, r + y_rate / spin(2, 1), 1e-6);
    const auto heading = [](const LinkagePose& p) {
      const Mat3 R = axes_from_coordinates(p.q).R_VA;
      return std::atan2(-R(0, 1), R(1, 1));
    };
    const auto tilt = [](const LinkagePose& p) {
      return std::asin(axes_from_coordinates(p.q).R_VA(2, 1));
    };
    EXPECT_NEAR(n.roll_steer, (heading(left) - heading(right)) / (tilt(left) - tilt(right)), 1e-6);

    // Statics: a forward push at the contact point is answered by a heave force of minus the slope;
    // a sideways push at C by a roll moment of minus the sideways travel per roll.
    const Vec3 push = Vec3::UnitX();
    const auto driven = balance(axle, pose.q, push, Vec3(0, 0, -r).cross(push));
    EXPECT_NEAR(n.contact_slope, -driven[4], 1e-6);
    const auto shoved = balance(axle, pose.q, Vec3::UnitY(), Vec3::Zero());
    EXPECT_NEAR(n.roll_centre_height_m, r - shoved[5], 1e-6);

    // Drawing board.
    const DrawingBoard board = find_drawing_board(axle, pose.q);
    EXPECT_EQ(board.fails_because, "");
    ASSERT_TRUE(board.contact_slope && board.roll_centre_height_m && board.roll_steer);
    EXPECT_NEAR(n.contact_slope, *board.contact_slope, 1e-6);
    EXPECT_NEAR(n.roll_centre_height_m, *board.roll_centre_height_m, 1e-6);
    EXPECT_NEAR(n.roll_axis_slope, *board.roll_steer, 1e-6);
    EXPECT_NEAR(n.roll_steer, *board.roll_steer, 1e-6);
    ASSERT_TRUE(n.instant_centre_ahead_m.has_value());
    EXPECT_NEAR(*n.instant_centre_ahead_m, board.instant_centre_V->x() - pose.q[kX],
                1e-6 * std::abs(*n.instant_centre_ahead_m));

    EXPECT_DOUBLE_EQ(n.anti_drive, -n.contact_slope * 2.6 / 0.75 * 0.5);
    EXPECT_DOUBLE_EQ(n.anti_brake, -n.contact_slope * 2.6 / 0.75 * 0.4);
  }
}
INSTANTIATE_TEST_SUITE_P(SymmetricLinkages, ThreeRoutes, ::testing::Values(0, 1));

TEST(DrawingBoard, SaysWhereItFails) {
  const AxleModel axle = make_three_link_front();
  EXPECT_NE(find_drawing_board(axle, axle.drawn()).fails_because, "");
  const AxleModel barred = make_parallel_rear();
  EXPECT_NE(find_drawing_board(barred, barred.drawn()).fails_because, "");
}

TEST(DrawingBoard, ParallelPairsHaveNoInstantCentre) {
  // Links alike and parallel in side view at slope 0.1: SU-13, the slope itself.
  const AxleModel axle = testing::make_axle("rear", false, 0, 0.4,
                                            {{"lower.left", {1, 0.4, 0.4}, {0, 0.5, 0.3}},
                                             {"lower.right", {1, -0.4, 0.4}, {0, -0.5, 0.3}},
                                             {"upper.left", {1, 0.5, 0.7}, {0, 0.1, 0.6}},
                                             {"upper.right", {1, -0.5, 0.7}, {0, -0.1, 0.6}}});
  const DrawingBoard board = find_drawing_board(axle, axle.drawn());
  EXPECT_FALSE(board.instant_centre_V.has_value());
  EXPECT_NEAR(*board.contact_slope, -0.1, 1e-12);
  const auto swept = calc_swept_pose(axle, kTruck, Linkage::make(axle).drawn());
  EXPECT_NEAR(swept.numbers.contact_slope, -0.1, 1e-12);
  EXPECT_FALSE(swept.numbers.instant_centre_ahead_m.has_value());
}

AxleModel mirrored(const AxleModel& axle) {
  AxleModel other = axle;
  for (auto& bar : other.bars) {
    bar.p_VP.y() *= -1;
    bar.p_AQ.y() *= -1;
  }
  return other;
}

RC_GTEST_PROP(Sweep, MirroredAxleGivesMirroredAnswers, ()) {
  const double heave = *rc::gen::inRange(-150, 200) * 1e-3;
  const double roll = *rc::gen::inRange(-200, 200) * 1e-3;
  const std::vector<Target> to{{heave, roll}}, mirror_to{{heave, -roll}};
  for (const auto& axle : all_axles()) {
    const auto a = sweep_axle(axle, kTruck, to), b = sweep_axle(mirrored(axle), kTruck, mirror_to);
    RC_ASSERT(a->poses.size() == 1U && b->poses.size() == 1U);
    const PoseNumbers &n = a->poses[0].numbers, &m = b->poses[0].numbers;
    RC_ASSERT(std::abs(n.lateral_shift_m + m.lateral_shift_m) < 1e-9);
    RC_ASSERT(std::abs(n.nose_up_rad - m.nose_up_rad) < 1e-9);
    RC_ASSERT(std::abs(n.heading_rad + m.heading_rad) < 1e-9);
    RC_ASSERT(std::abs(n.roll_centre_height_m - m.roll_centre_height_m) < 1e-8);
    RC_ASSERT(std::abs(n.roll_steer - m.roll_steer) < 1e-8);
    RC_ASSERT(std::abs(n.anti_drive - m.anti_drive) < 1e-8);
  }
}

}  // namespace
}  // namespace rig::suspension
