#include "frame/stiffness.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/nan.h"
#include "frame/wall_mode.h"
#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using testing::at;

/// Joints: front left 0, front right 1, rear left 2, rear right 3, middle left 4, middle right 5.
struct Ladder {
  double L = 2.5, B = 0.8;
  BeamSection rail = testing::make_plain(205e9, 79e9, 2e-3, 3e-6, 2e-6, 3.5e-6);
  BeamSection cross = testing::make_plain(205e9, 79e9, 2e-3, 1.5e-6, 1e-6, 1.5e-6);

  Structure make() const {
    Structure s;
    for (const double x : {0.0, -L, -L / 2}) {
      for (const double y : {B / 2, -B / 2}) s.joints.push_back({.p_VoJ_V = {x, y, 0.5}});
    }
    s.members = {{"frame", "frame"}};
    s.sections = {rail, cross};
    for (const auto& [from, to] : {std::pair{2, 4}, {4, 0}, {3, 5}, {5, 1}}) {
      s.beams.push_back(testing::make_beam(s, from, to, 0, Vec3::UnitY()));
    }
    s.beams.push_back(testing::make_beam(s, 1, 0, 1, Vec3::UnitX()));
    s.beams.push_back(testing::make_beam(s, 3, 2, 1, Vec3::UnitX()));
    return s;
  }
};

MeasuringPoints points_of(const Structure& s) {
  const auto point = [&](int joint) { return JointPoint{joint, s.joints[at(joint)].p_VoJ_V}; };
  return {.front_left = point(0),
          .front_right = point(1),
          .rear_left = point(2),
          .rear_right = point(3),
          .middle_left = point(4),
          .middle_right = point(5)};
}

// FR-16, FR-17: Castigliano on the grillage.
TEST(TorsionStiffness, IsThatOfTheGrillage) {
  const Ladder ladder;
  const double E = 205e9, G = 79e9, L = ladder.L, B = ladder.B;
  const double f_s = L * L * L / (12 * E * 3e-6) + L * L * B / (4 * G * 1.5e-6);
  const double f_c = B * B * B / (12 * E * 1.5e-6) + B * B * L / (4 * G * 3.5e-6);
  const double K = B * B / 2 * (1 / f_s + 1 / f_c);
  const Structure s = ladder.make();
  const auto answer = solve_torsion_stiffness(*Solver::make(s), points_of(s));
  ASSERT_TRUE(answer.has_value());
  EXPECT_NEAR(answer->stiffness_Nm_per_rad, K, 1e-9 * K);
  EXPECT_NEAR(answer->stiffness_Nm_per_rad, 2.27106e5, 0.5);
  // 1 N m at the front, positive about x, and the twist that it makes.
  const Loads& loads = answer->measured.loads;
  EXPECT_NEAR(loads.points[0].f_P_V.z() * B, 1, 1e-12);
  EXPECT_NEAR(loads.points[2].f_P_V.z() * B, -1, 1e-12);
  const auto& u = answer->measured.response.displacement_V;
  EXPECT_NEAR((u[0].z() - u[1].z() - u[2].z() + u[3].z()) / B, 1 / K, 1e-9 / K);
}

// Two rails on two supports, P L^3 / 48 E I each.
TEST(BendingStiffness, IsThatOfTwoRails) {
  Ladder ladder;
  ladder.cross.properties.torsion_constant_m4 = ladder.cross.properties.cells_torsion_constant_m4 =
      1e-18;
  const Structure s = ladder.make();
  const auto answer = solve_bending_stiffness(*Solver::make(s), points_of(s));
  ASSERT_TRUE(answer.has_value());
  const double k = 2 * 48 * 205e9 * 3e-6 / std::pow(ladder.L, 3);
  EXPECT_NEAR(answer->stiffness_N_per_m, k, 1e-9 * k);
  const auto& u = answer->measured.response.displacement_V;
  EXPECT_NEAR((u[0] + u[2]).z() / 2 - u[4].z(), 1 / k, 1e-9 / k);
}

// One bay of four beams with rigid corners, out of square by g: corners turn until the beams'
// moments agree, M = 6 E I / length times what is left, so K = 4 / B^2 / (B / 6EI_c + L / 6EI_s).
TEST(LozengingStiffness, IsThatOfOneBay) {
  const Ladder ladder;
  const double E = 205e9, L = ladder.L, B = ladder.B;
  const double K = 4 / (B * B) / (B / (6 * E * 1e-6) + L / (6 * E * 2e-6));
  // A level crossmember bends about its upright axis, z of its section as its y lies along x.
  const Structure s = ladder.make();
  const auto answer = solve_lozenging_stiffness(*Solver::make(s), points_of(s));
  ASSERT_TRUE(answer.has_value());
  EXPECT_NEAR(answer->stiffness_N_per_m, K, 1e-9 * K);
  const auto& u = answer->measured.response.displacement_V;
  const double yaw = (u[0] + u[1] - u[2] - u[3]).y() / 2 / L;
  EXPECT_NEAR((u[0] + u[2] - u[1] - u[3]).x() / 2 + B * yaw, 1 / K, 1e-9 / K);
}

// Any frame: the loads balance, the energy in it is half of what a unit does, and four supports
// stay in a plane.
RC_GTEST_PROP(Stiffness, FitsItsOwnMeasurement, ()) {
  const auto seed = *rc::gen::arbitrary<unsigned>();
  std::mt19937 random(seed);
  Ladder ladder;
  ladder.rail = testing::make_steel(testing::make_rail());
  Structure s = ladder.make();
  s.scalars.resize(6);
  for (std::size_t b = 0; b < 4; ++b) {
    s.beams[b].warp_from = s.beams[b].from;
    s.beams[b].warp_to = s.beams[b].to;
  }
  for (std::size_t j = 0; j < s.joints.size(); ++j) {
    const Vec3 shake = testing::random_vector(random, 0.2);
    s.joints[j].p_VoJ_V += shake;
    for (Beam& beam : s.beams) {
      if (at(beam.from) == j) beam.p_VoF_V += shake;
      if (at(beam.to) == j) beam.p_VoT_V += shake;
    }
  }
  const auto solver = Solver::make(s);
  const MeasuringPoints points = points_of(s);
  const auto fits = [&](const Measurement& m, double stiffness) {
    const Resultant left = calc_resultant(s, m.loads);
    double size_N = 0;
    for (const PointLoad& load : m.loads.points) size_N += load.f_P_V.norm();
    RC_ASSERT(left.f_V.norm() + left.t_Vo_V.norm() < 1e-12 * size_N);
    const double energy_J = calc_member_energy_J(s, m.loads, m.response)[0];
    RC_ASSERT(stiffness > 0 && std::abs(2 * energy_J * stiffness - 1) < 1e-8);
  };
  const auto torsion = solve_torsion_stiffness(*solver, points);
  const auto bending = solve_bending_stiffness(*solver, points);
  const auto lozenging = solve_lozenging_stiffness(*solver, points);
  fits(torsion->measured, torsion->stiffness_Nm_per_rad);
  fits(bending->measured, bending->stiffness_N_per_m);
  fits(lozenging->measured, lozenging->stiffness_N_per_m);
  double twist = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    twist += torsion->measured.loads.points[i].f_P_V.z() *
             bending->measured.response.displacement_V[i].z();
  }
  RC_ASSERT(std::abs(twist) < 1e-8 / bending->stiffness_N_per_m);
}

// The same frame seen in a mirror is as stiff.
TEST(Stiffness, IsTheSameForTheMirroredFrame) {
  // One front corner stands out; which one is what the mirror exchanges.
  const auto make = [](int corner) {
    Ladder ladder;
    ladder.rail = testing::make_steel(mirror_section(testing::make_rail()));
    Structure s = ladder.make();
    s.sections.push_back(testing::make_steel(testing::make_rail()));
    s.scalars.resize(6);
    const Vec3 out(0.15, 0.02 * (corner == 0 ? 1 : -1), 0.05);
    s.joints[at(corner)].p_VoJ_V += out;
    for (Beam& beam : s.beams) {
      if (beam.from == corner) beam.p_VoF_V += out;
      if (beam.to == corner) beam.p_VoT_V += out;
      if (beam.section != 0) continue;
      beam.warp_from = beam.from;
      beam.warp_to = beam.to;
      if (beam.p_VoF_V.y() < 0) beam.section = 2;
    }
    return s;
  };
  const auto all = [&](int corner) {
    const Structure s = make(corner);
    const auto solver = Solver::make(s);
    return Vec3(solve_torsion_stiffness(*solver, points_of(s))->stiffness_Nm_per_rad,
                solve_bending_stiffness(*solver, points_of(s))->stiffness_N_per_m,
                solve_lozenging_stiffness(*solver, points_of(s))->stiffness_N_per_m);
  };
  const Vec3 one = all(0), other = all(1);
  for (int i = 0; i < 3; ++i) EXPECT_NEAR(one[i], other[i], 1e-9 * one[i]);
}

TEST(Stiffness, TellsOfPointsThatMeasureNothing) {
  Structure s = Ladder{}.make();
  const auto solver = Solver::make(s);
  const MeasuringPoints good = points_of(s);
  MeasuringPoints bad = good;
  bad.rear_left.joint = 9;
  bad.middle_right.p_VoP_V.y() = kNaN;
  const auto bending = solve_bending_stiffness(*solver, bad);
  ASSERT_FALSE(bending.has_value());
  ASSERT_EQ(bending.error().size(), 2U);
  EXPECT_EQ(bending.error()[0].code, "frame.unknown_joint");
  EXPECT_EQ(bending.error()[0].path, "/rear_left/joint");
  EXPECT_EQ(bending.error()[1].code, "frame.not_finite");
  EXPECT_EQ(bending.error()[1].path, "/middle_right");
  EXPECT_EQ(solve_torsion_stiffness(*solver, bad).error().size(), 1U);

  MeasuringPoints flat = good;
  flat.rear_left = flat.front_left;
  flat.rear_right = flat.front_right;
  EXPECT_EQ(solve_lozenging_stiffness(*solver, flat).error()[0].code, "frame.points_in_line");
  testing::hold(s, 0, Vec3::Ones(), Vec3::Ones(), 1e5);
  const auto held = solve_torsion_stiffness(*Solver::make(s), good);
  EXPECT_EQ(held.error()[0].code, "frame.not_free");
  EXPECT_EQ(held.error()[0].path, "/joint_springs/0");
}

}  // namespace
}  // namespace rig::frame
