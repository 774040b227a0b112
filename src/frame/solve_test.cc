#include "frame/solve.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/nan.h"
#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using testing::at;
using testing::hold;
using testing::make_beam;
using testing::make_cantilever;
using testing::make_random_frame;
using testing::make_random_loads;
using testing::make_steel;

Response solve_one(const Structure& s, const Loads& loads) {
  const auto solver = Solver::make(s);
  if (!solver) throw std::runtime_error(solver.error()[0].message);
  const auto responses = solver->solve({&loads, 1});
  if (!responses) throw std::runtime_error(responses.error()[0].message);
  return responses->front();
}

/// All that the beams carry, at three places each, in one row of numbers.
Eigen::VectorXd all_forces(const Structure& s, const Loads& loads, const Response& response) {
  const auto beams = calc_all_beam_forces(s, loads, response);
  Eigen::VectorXd out(static_cast<Eigen::Index>(24 * beams.size()));
  Eigen::Index i = 0;
  for (const BeamForces& beam : beams) {
    for (const double share : {0.0, 0.4, 1.0}) {
      const section::SectionForces f = beam.at(share);
      out.segment<8>(i) << f.axial_N, f.shear_y_N, f.shear_z_N, f.moment_y_Nm, f.moment_z_Nm,
          f.torque_St_Venant_Nm, f.torque_warping_Nm, f.bimoment_Nm2;
      i += 8;
    }
  }
  return out;
}

double worst(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
  return (a - b).cwiseAbs().maxCoeff() / b.cwiseAbs().maxCoeff();
}

/// How everything moves for some motion of the joints that follow none and of the scalars that are
/// no multiples: for virtual work, written apart from the solver.
struct Virtual {
  std::vector<Vec3> displacement_V, rotation_V;
  std::vector<double> scalar;

  Virtual(const Structure& s, std::size_t freedom) {
    std::size_t next = 6 * s.joints.size();
    for (const Scalar& of : s.scalars) {
      double value = next++ == freedom ? 1 : 0;
      if (of.held) value = 0;
      if (of.of >= 0) value = of.held ? 0 : of.ratio * scalar[at(of.of)];
      scalar.push_back(value);
    }
    for (std::size_t j = 0; j < s.joints.size(); ++j) {
      const Joint& joint = s.joints[j];
      Vec3 u = Vec3::Zero(), r = Vec3::Zero();
      if (joint.follows < 0) {
        if (freedom / 6 == j) (freedom % 6 < 3 ? u : r)[static_cast<int>(freedom % 3)] = 1;
      } else {
        const auto leader = at(joint.follows);
        r = rotation_V[leader];
        u = displacement_V[leader] + r.cross(joint.p_VoJ_V - s.joints[leader].p_VoJ_V);
        for (const Mode& mode : joint.modes) {
          u += scalar[at(mode.scalar)] * mode.displacement_V;
          r += scalar[at(mode.scalar)] * mode.rotation_V;
        }
      }
      displacement_V.push_back(u);
      rotation_V.push_back(r);
    }
  }

  Vec3 of_point(const Structure& s, int joint, const Vec3& p_VoP_V) const {
    return displacement_V[at(joint)] +
           rotation_V[at(joint)].cross(p_VoP_V - s.joints[at(joint)].p_VoJ_V);
  }
};

// Free bodies of all joints, and what does work on each scalar: beam ends, springs and point loads
// together do none, to 1e-6 of the largest of them (1e-9 here).
RC_GTEST_PROP(Solve, EveryJointIsInEquilibrium, ()) {
  const auto seed = *rc::gen::arbitrary<unsigned>();
  const Structure s = make_random_frame(seed);
  const Loads loads = make_random_loads(s, seed + 1);
  const Response response = solve_one(s, loads);
  std::vector<BeamEnds> ends;
  for (std::size_t b = 0; b < s.beams.size(); ++b) {
    ends.push_back(calc_beam_ends(s, loads, response, static_cast<int>(b)));
  }
  double largest = 0;
  for (const BeamEnds& end : ends) largest = std::max(largest, end.f_F_V.norm());
  for (std::size_t freedom = 0; freedom < 6 * s.joints.size() + s.scalars.size(); ++freedom) {
    const Virtual v(s, freedom);
    double work = 0;
    for (const PointLoad& load : loads.points) {
      work += v.of_point(s, load.joint, load.p_VoP_V).dot(load.f_P_V) +
              v.rotation_V[at(load.joint)].dot(load.t_V);
    }
    for (std::size_t b = 0; b < s.beams.size(); ++b) {
      const Beam& beam = s.beams[b];
      work += v.of_point(s, beam.from, beam.p_VoF_V).dot(ends[b].f_F_V) +
              v.rotation_V[at(beam.from)].dot(ends[b].t_F_V) +
              v.of_point(s, beam.to, beam.p_VoT_V).dot(ends[b].f_T_V) +
              v.rotation_V[at(beam.to)].dot(ends[b].t_T_V);
      if (beam.warp_from >= 0) work += v.scalar[at(beam.warp_from)] * ends[b].bimoment_from_Nm2;
      if (beam.warp_to >= 0) work += v.scalar[at(beam.warp_to)] * ends[b].bimoment_to_Nm2;
    }
    for (const JointSpring& spring : s.joint_springs) {
      const Vec3 give = calc_displacement(s, response, spring.to, spring.p_VoP_V) -
                        calc_displacement(s, response, spring.from, spring.p_VoP_V);
      const Vec3 turn = response.rotation_V[at(spring.to)] - response.rotation_V[at(spring.from)];
      const Mat3& R = spring.R_VS;
      const Vec3 f_V = -(R * spring.stiffness_N_per_m.asDiagonal() * R.transpose() * give);
      const Vec3 t_V = -(R * spring.stiffness_Nm_per_rad.asDiagonal() * R.transpose() * turn);
      work += f_V.dot(v.of_point(s, spring.to, spring.p_VoP_V) -
                      v.of_point(s, spring.from, spring.p_VoP_V)) +
              t_V.dot(v.rotation_V[at(spring.to)] - v.rotation_V[at(spring.from)]);
    }
    for (const ScalarSpring& spring : s.scalar_springs) {
      for (std::size_t i = 0; i < spring.scalars.size(); ++i) {
        for (std::size_t k = 0; k < spring.scalars.size(); ++k) {
          work -= v.scalar[at(spring.scalars[i])] *
                  spring.stiffness(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k)) *
                  response.scalar[at(spring.scalars[k])];
        }
      }
    }
    RC_ASSERT(std::abs(work) <= 1e-9 * largest);
  }
}

double work_of(const Structure& s, const Loads& loads, const Response& response) {
  double work = 0;
  for (const PointLoad& load : loads.points) {
    work += load.f_P_V.dot(calc_displacement(s, response, load.joint, load.p_VoP_V)) +
            load.t_V.dot(response.rotation_V[at(load.joint)]);
  }
  return work;
}

// [Betti]: each load does the same work on the other's displacements.
RC_GTEST_PROP(Solve, IsReciprocal, ()) {
  const auto seed = *rc::gen::arbitrary<unsigned>();
  const Structure s = make_random_frame(seed);
  const Loads a = make_random_loads(s, seed + 1, false), b = make_random_loads(s, seed + 2, false);
  const Response of_a = solve_one(s, a), of_b = solve_one(s, b);
  const double ab = work_of(s, a, of_b), ba = work_of(s, b, of_a);
  RC_ASSERT(std::abs(ab - ba) <= 1e-9 * std::sqrt(work_of(s, a, of_a) * work_of(s, b, of_b)));
}

// The loads' work, half of it, is all in the members and springs.
RC_GTEST_PROP(Solve, EnergyIsHalfTheWork, ()) {
  const auto seed = *rc::gen::arbitrary<unsigned>();
  const Structure s = make_random_frame(seed);
  const Loads loads = make_random_loads(s, seed + 1, false);
  const Response response = solve_one(s, loads);
  double energy_J = 0;
  for (const double J : calc_member_energy_J(s, loads, response)) energy_J += J;
  for (const JointSpring& spring : s.joint_springs) {
    const Vec3 give =
        spring.R_VS.transpose() * (calc_displacement(s, response, spring.to, spring.p_VoP_V) -
                                   calc_displacement(s, response, spring.from, spring.p_VoP_V));
    const Vec3 turn = spring.R_VS.transpose() *
                      (response.rotation_V[at(spring.to)] - response.rotation_V[at(spring.from)]);
    energy_J += (give.cwiseAbs2().dot(spring.stiffness_N_per_m) +
                 turn.cwiseAbs2().dot(spring.stiffness_Nm_per_rad)) /
                2;
  }
  for (const ScalarSpring& spring : s.scalar_springs) {
    Eigen::VectorXd value(static_cast<Eigen::Index>(spring.scalars.size()));
    for (Eigen::Index i = 0; i < value.size(); ++i) {
      value[i] = response.scalar[at(spring.scalars[static_cast<std::size_t>(i)])];
    }
    energy_J += value.dot(spring.stiffness * value) / 2;
  }
  const double half_J = work_of(s, loads, response) / 2;
  RC_ASSERT(std::abs(energy_J - half_J) <= 1e-9 * half_J);
}

Structure moved(const Structure& s, const Pose& X) {
  Structure out = s;
  for (Joint& joint : out.joints) {
    joint.p_VoJ_V = X * joint.p_VoJ_V;
    for (Mode& mode : joint.modes) {
      mode.displacement_V = X.R_AB * mode.displacement_V;
      mode.rotation_V = X.R_AB * mode.rotation_V;
    }
  }
  for (Beam& beam : out.beams) {
    beam.p_VoF_V = X * beam.p_VoF_V;
    beam.p_VoT_V = X * beam.p_VoT_V;
    beam.y_V = X.R_AB * beam.y_V;
  }
  for (JointSpring& spring : out.joint_springs) {
    spring.p_VoP_V = X * spring.p_VoP_V;
    spring.R_VS = X.R_AB * spring.R_VS;
  }
  return out;
}

RC_GTEST_PROP(Solve, DoesNotKnowWhereTheFrameStandsOrHowItIsTurned, ()) {
  const auto seed = *rc::gen::arbitrary<unsigned>();
  std::mt19937 random(seed);
  const Structure s = make_random_frame(seed);
  const Loads loads = make_random_loads(s, seed + 1);
  const Vec3 turn = testing::random_vector(random, 2);
  const Pose X{Eigen::AngleAxisd(turn.norm(), turn.normalized()).toRotationMatrix(),
               testing::random_vector(random, 3)};
  Loads turned = loads;
  for (PointLoad& load : turned.points) {
    load.p_VoP_V = X * load.p_VoP_V;
    load.f_P_V = X.R_AB * load.f_P_V;
    load.t_V = X.R_AB * load.t_V;
  }
  for (LineLoad& line : turned.lines) line.f_per_m_V = X.R_AB * line.f_per_m_V;
  const Structure there = moved(s, X);
  RC_ASSERT(worst(all_forces(there, turned, solve_one(there, turned)),
                  all_forces(s, loads, solve_one(s, loads))) <= 1e-8);
}

// Left and right exchanged: shear along y, bending about z, torque and bimoment change sign.
RC_GTEST_PROP(Solve, GivesTheMirroredFrameTheMirroredForces, ()) {
  const auto seed = *rc::gen::arbitrary<unsigned>();
  const Structure s = make_random_frame(seed);
  const Loads loads = make_random_loads(s, seed + 1);
  const auto flip = [](const Vec3& v) { return Vec3(v.x(), -v.y(), v.z()); };
  const auto flip_turn = [](const Vec3& v) { return Vec3(-v.x(), v.y(), -v.z()); };
  Structure there = s;
  // Twist rates change sign; the other scalars are slides and turns whose modes are mirrored.
  std::vector<double> sign(s.scalars.size(), 1);
  for (const Beam& beam : s.beams) {
    for (const int scalar : {beam.warp_from, beam.warp_to}) {
      if (scalar >= 0) sign[at(scalar)] = -1;
    }
  }
  for (auto& made : there.sections) made = make_steel(mirror_section(made->section));
  for (Joint& joint : there.joints) {
    joint.p_VoJ_V = flip(joint.p_VoJ_V);
    for (Mode& mode : joint.modes) {
      mode.displacement_V = sign[at(mode.scalar)] * flip(mode.displacement_V);
      mode.rotation_V = sign[at(mode.scalar)] * flip_turn(mode.rotation_V);
    }
  }
  for (Beam& beam : there.beams) {
    beam.p_VoF_V = flip(beam.p_VoF_V);
    beam.p_VoT_V = flip(beam.p_VoT_V);
    beam.y_V = -flip(beam.y_V);
  }
  for (JointSpring& spring : there.joint_springs) {
    spring.p_VoP_V = flip(spring.p_VoP_V);
    // Axes mirrored, and one turned about to stay right-handed; its stiffness does not mind.
    for (int i = 0; i < 3; ++i) spring.R_VS.col(i) = flip(spring.R_VS.col(i));
    spring.R_VS.col(2) *= -1;
  }
  Loads mirrored = loads;
  for (PointLoad& load : mirrored.points) {
    load.p_VoP_V = flip(load.p_VoP_V);
    load.f_P_V = flip(load.f_P_V);
    load.t_V = flip_turn(load.t_V);
  }
  for (LineLoad& line : mirrored.lines) {
    line.f_per_m_V = flip(line.f_per_m_V);
    line.p_OP.x() *= -1;
  }
  Eigen::VectorXd forces = all_forces(there, mirrored, solve_one(there, mirrored));
  for (Eigen::Index i = 0; i < forces.size(); i += 8) {
    for (const int k : {1, 4, 5, 6, 7}) forces[i + k] *= -1;
  }
  RC_ASSERT(worst(forces, all_forces(s, loads, solve_one(s, loads))) <= 1e-8);
}

// The element is exact: a joint more in any beam changes nothing, lines and warping included.
RC_GTEST_PROP(Solve, IsTheSameForABeamInTwoPieces, ()) {
  const auto seed = *rc::gen::arbitrary<unsigned>();
  std::mt19937 random(seed);
  const Structure s = make_random_frame(seed);
  Loads loads = make_random_loads(s, seed + 1);
  const auto b = at(testing::pick(random, static_cast<int>(s.beams.size())));
  const double share = testing::uniform(random, 0.1, 0.9);
  Structure there = s;
  Beam& first = there.beams[b];
  const Vec3 cut = s.beams[b].p_VoF_V + share * (s.beams[b].p_VoT_V - s.beams[b].p_VoF_V);
  // Its joint need not stand on the beam.
  there.joints.push_back({.p_VoJ_V = cut + testing::random_vector(random, 0.1)});
  there.scalars.push_back({});
  Beam second = first;
  first.to = second.from = static_cast<int>(s.joints.size());
  first.p_VoT_V = second.p_VoF_V = cut;
  if (s.sections[at(first.section)]->warps()) {
    first.warp_to = second.warp_from = static_cast<int>(s.scalars.size());
  }
  there.beams.push_back(second);
  Loads split = loads;
  for (const LineLoad& line : loads.lines) {
    if (at(line.beam) != b) continue;
    split.lines.push_back(line);
    split.lines.back().beam = static_cast<int>(s.beams.size());
  }
  const Response whole = solve_one(s, loads), parts = solve_one(there, split);
  const auto before = calc_all_beam_forces(s, loads, whole);
  const auto after = calc_all_beam_forces(there, split, parts);
  Eigen::VectorXd one(static_cast<Eigen::Index>(16 * before.size())), two(one.size());
  const auto row = [](const section::SectionForces& f) {
    return Eigen::Matrix<double, 8, 1>{f.axial_N,           f.shear_y_N,   f.shear_z_N,
                                       f.moment_y_Nm,       f.moment_z_Nm, f.torque_St_Venant_Nm,
                                       f.torque_warping_Nm, f.bimoment_Nm2};
  };
  for (std::size_t i = 0; i < before.size(); ++i) {
    const auto k = static_cast<Eigen::Index>(16 * i);
    const bool is_cut = i == b;
    one.segment<8>(k) = row(before[i].at(is_cut ? 0.6 * share : 0.6));
    two.segment<8>(k) = row(after[i].at(0.6));
    one.segment<8>(k + 8) = row(before[i].at(is_cut ? share + 0.3 * (1 - share) : 0.3));
    two.segment<8>(k + 8) = row(is_cut ? after.back().at(0.3) : after[i].at(0.3));
  }
  RC_ASSERT(worst(two, one) <= 1e-8);
  const auto energy = calc_member_energy_J(s, loads, whole);
  const auto energy_parts = calc_member_energy_J(there, split, parts);
  for (std::size_t m = 0; m < energy.size(); ++m) {
    RC_ASSERT(std::abs(energy[m] - energy_parts[m]) <= 1e-8 * (energy[0] + energy[1]));
  }
}

RC_GTEST_PROP(Solve, OneBeamIsReadAsAllAre, ()) {
  const auto seed = *rc::gen::arbitrary<unsigned>();
  const Structure s = make_random_frame(seed);
  const Loads loads = make_random_loads(s, seed + 1);
  const Response response = solve_one(s, loads);
  const auto all = calc_all_beam_forces(s, loads, response);
  for (std::size_t b = 0; b < all.size(); ++b) {
    const auto f = calc_beam_forces(s, loads, response, static_cast<int>(b), 0.3);
    RC_ASSERT(f.moment_y_Nm == all[b].at(0.3).moment_y_Nm);
    RC_ASSERT(f.bimoment_Nm2 == all[b].at(0.3).bimoment_Nm2);
  }
}

// Shear, bending, stretch and twist of a cantilever by the closed forms; 1e-9 for the ground's give
// (a stiffness of 1e16).
TEST(Cantilever, ClosedForms) {
  const double L = 1.7, P = 900;
  const BeamSection tube = make_steel(testing::make_pool()[7]);
  const section::SectionProperties& p = tube.properties;
  const double E = tube.E_Pa, G = tube.G_Pa;
  const Structure s = make_cantilever(tube, L);
  const auto tip = [&](const Vec3& f, const Vec3& t) {
    return solve_one(s, {.points = {{.joint = 1, .p_VoP_V = {L, 0, 0}, .f_P_V = f, .t_V = t}}});
  };
  const auto same = [](double value, double expected) {
    EXPECT_NEAR(value, expected, 1e-7 * std::abs(expected));
  };
  same(tip({P, 0, 0}, {0, 0, 0}).displacement_V[1].x(), P * L / (E * p.area_m2));
  same(tip({0, 0, P}, {0, 0, 0}).displacement_V[1].z(),
       P * L * L * L / (3 * E * p.I_y_m4) + P * L / (G * p.shear_area_z_m2));
  same(tip({0, 0, P}, {0, 0, 0}).rotation_V[1].y(), -P * L * L / (2 * E * p.I_y_m4));
  same(tip({0, P, 0}, {0, 0, 0}).displacement_V[1].y(),
       P * L * L * L / (3 * E * p.I_z_m4) + P * L / (G * p.shear_area_y_m2));
  same(tip({0, 0, 0}, {P, 0, 0}).rotation_V[1].x(), P * L / (G * p.torsion_constant_m4));
  same(tip({0, 0, 0}, {0, P, 0}).displacement_V[1].z(), -P * L * L / (2 * E * p.I_y_m4));
  // Even load, w L^4 / 8 E I + w L^2 / 2 G A.
  const auto even = solve_one(s, {.lines = {{.beam = 0, .f_per_m_V = {0, 0, P}}}});
  same(even.displacement_V[1].z(),
       P * std::pow(L, 4) / (8 * E * p.I_y_m4) + P * L * L / (2 * G * p.shear_area_z_m2));
}

// A load through the shear centre of a channel bends it without twist; through its web it twists.
TEST(Cantilever, ChannelTwistsUnlessLoadedThroughItsShearCentre) {
  const Structure s = make_cantilever(make_steel(testing::make_rail()), 2);
  const double e = -s.sections[0]->properties.p_OS.x();
  const auto twist = [&](double y) {
    return solve_one(s, {.points = {{.joint = 1, .p_VoP_V = {2, y, 0}, .f_P_V = {0, 0, -1000}}}})
        .rotation_V[1]
        .x();
  };
  EXPECT_LT(std::abs(twist(-e)), 1e-9 * std::abs(twist(0)));
  EXPECT_LT(twist(0), 0);  // The web lies left of the shear centre: pressed down, it goes down.
}

// A thousand pieces are no worse than one by more than 1e-6.
TEST(Cantilever, LongChainsKeepTheirDigits) {
  const BeamSection rail = make_steel(testing::make_rail());
  const auto tip = [&](int pieces) {
    const Structure s = make_cantilever(rail, 5, pieces);
    return solve_one(
               s, {.points = {{.joint = pieces, .p_VoP_V = {5, 0.1, 0}, .f_P_V = {0, 300, 1000}}}})
        .displacement_V.back();
  };
  EXPECT_LT((tip(1000) - tip(1)).norm(), 1e-6 * tip(1).norm());
}

/// A square of tubes, flat, free.
Structure make_square() {
  Structure s;
  s.joints = {{.p_VoJ_V = {0, 0, 0}, .place = "front left"},
              {.p_VoJ_V = {0, -1, 0}, .place = "front right"},
              {.p_VoJ_V = {-1, -1, 0}, .place = "rear right"},
              {.p_VoJ_V = {-1, 0, 0}, .place = "rear left"}};
  s.members = {{"frame", "frame"}};
  s.sections = {make_steel(testing::make_pool()[6])};
  for (int i = 0; i < 4; ++i) s.beams.push_back(make_beam(s, i, (i + 1) % 4, 0, Vec3::UnitZ()));
  return s;
}

PointLoad push(const Structure& s, int joint, const Vec3& f_V) {
  return {.joint = joint, .p_VoP_V = s.joints[at(joint)].p_VoJ_V, .f_P_V = f_V};
}

TEST(Balance, TellsWhatIsLeftOver) {
  const Structure s = make_square();
  const auto solver = Solver::make(s);
  ASSERT_TRUE(solver.has_value());
  const Loads good{.points = {push(s, 0, {0, 0, 500}), push(s, 1, {0, 0, -500}),
                              push(s, 2, {0, 0, 500}), push(s, 3, {0, 0, -500})}};
  Loads bad = good, off = good;
  bad.points[3].f_P_V.z() = -400;
  off.points[3].f_P_V.z() = -500.0001;  // 2e-7 of the loads: a rounded number of a file.
  const std::vector<Loads> loads{good, bad};
  const auto answer = solver->solve(loads);
  ASSERT_FALSE(answer.has_value());
  ASSERT_EQ(answer.error().size(), 1U);
  EXPECT_EQ(answer.error()[0].code, "frame.load_not_balanced");
  EXPECT_EQ(answer.error()[0].path, "/1");
  EXPECT_NE(answer.error()[0].message.find("100 N up"), std::string::npos)
      << answer.error()[0].message;
  EXPECT_TRUE(solver->solve({&off, 1}).has_value());
  // A couple alone is no balance.
  const Loads couple{.points = {push(s, 0, {0, 0, 500}), push(s, 1, {0, 0, -500})}};
  EXPECT_FALSE(solver->solve({&couple, 1}).has_value());
  const Loads torque{.points = {{.joint = 2, .t_V = {0, 3, 0}}}};
  EXPECT_FALSE(solver->solve({&torque, 1}).has_value());
  EXPECT_TRUE(solver->solve(std::vector<Loads>(3)).has_value());
}

// On springs that carry only upwards, loads may not push sideways; held all around they may.
TEST(Balance, NeedsOnlyWhatTheGroundDoesNotGive) {
  Structure s = make_square();
  const Loads down{.points = {push(s, 0, {0, 0, -500})}};
  const Loads aside{.points = {push(s, 0, {0, 3, 0})}};
  const Loads sheared{.points = {push(s, 0, {0, 3, 0}), push(s, 1, {0, -3, 0})}};
  for (const int corner : {0, 1, 2}) hold(s, corner, {0, 0, 1}, {0, 0, 0}, 1e4);
  const auto soft = Solver::make(s);
  ASSERT_TRUE(soft.has_value());
  const auto answer = soft->solve({&down, 1});
  ASSERT_TRUE(answer.has_value());
  EXPECT_NEAR(answer->front().displacement_V[0].z(), -0.05, 1e-12);
  EXPECT_NEAR(answer->front().displacement_V[1].z(), 0, 1e-12);
  EXPECT_FALSE(soft->solve({&aside, 1}).has_value());
  EXPECT_TRUE(soft->solve({&sheared, 1}).has_value());
  hold(s, 3, {1, 1, 0}, {0, 0, 1}, 1e4);
  EXPECT_TRUE(Solver::make(s)->solve({&aside, 1}).has_value());
}

// Loads that only together balance, held each on its own, add up to the balanced answer.
TEST(Balance, HeldAnswersSuperpose) {
  const Structure s = make_random_frame(5);
  const Loads all = make_random_loads(s, 6);
  Loads a = all, b;
  b.points = {a.points.back(), a.points.front()};
  a.points.pop_back();
  a.points.erase(a.points.begin());
  const auto solver = Solver::make(s);
  const auto parts = solver->solve_held(std::vector{a, b});
  const auto whole = solver->solve({&all, 1});
  ASSERT_TRUE(parts.has_value() && whole.has_value());
  double size_m = 0;
  for (const Vec3& u : whole->front().displacement_V) size_m = std::max(size_m, u.norm());
  for (std::size_t j = 0; j < s.joints.size(); ++j) {
    EXPECT_LT(((*parts)[0].displacement_V[j] + (*parts)[1].displacement_V[j] -
               whole->front().displacement_V[j])
                  .norm(),
              1e-9 * size_m);
  }
}

TEST(Mechanism, NamesThePlaceThatMoves) {
  Structure s = make_square();
  s.scalars = {{.place = "pin at the rear left"}};
  s.joints.push_back({.p_VoJ_V = {-1, 0, 0},
                      .follows = 3,
                      .modes = {{.scalar = 0, .rotation_V = {0, 1, 0}}},
                      .place = "end of the tube at the rear left"});
  s.joints.push_back({.p_VoJ_V = {-2, 0, 0}, .place = "hanger"});
  s.beams.push_back(make_beam(s, 4, 5, 0, Vec3::UnitZ()));
  const auto loose = Solver::make(s);
  ASSERT_FALSE(loose.has_value());
  EXPECT_EQ(loose.error()[0].code, "frame.mechanism");
  const std::string& message = loose.error()[0].message;
  EXPECT_TRUE(message.find("rear left") != std::string::npos ||
              message.find("hanger") != std::string::npos)
      << message;
  // The least stiffness that is not rounding holds it.
  s.scalar_springs = {{.scalars = {0}, .stiffness = Eigen::MatrixXd::Constant(1, 1, 0.01)}};
  EXPECT_TRUE(Solver::make(s).has_value());
}

// A spring that resists two modes only together leaves one motion free.
TEST(Mechanism, SeesThroughASpringThatHoldsTooLittle) {
  Structure s = make_square();
  s.scalars = {{.place = "bolt"}, {.place = "bolt"}};
  s.joints.push_back({.p_VoJ_V = {-1, 0, 0},
                      .follows = 3,
                      .modes = {{.scalar = 0, .rotation_V = {0, 1, 0}},
                                {.scalar = 1, .displacement_V = {0, 0, 1}}}});
  s.joints.push_back({.p_VoJ_V = {-2, 0, 0}, .place = "hanger"});
  s.beams.push_back(make_beam(s, 4, 5, 0, Vec3::UnitZ()));
  s.scalar_springs = {{.scalars = {0, 1}, .stiffness = Eigen::MatrixXd{{9e3, 3e4}, {3e4, 1e5}}}};
  const auto loose = Solver::make(s);
  ASSERT_FALSE(loose.has_value());
  EXPECT_EQ(loose.error()[0].code, "frame.mechanism");
  s.scalar_springs[0].stiffness(0, 0) = 9.001e3;
  EXPECT_TRUE(Solver::make(s).has_value());
}

TEST(Mechanism, SeesAHingeInEachBeamOfASquare) {
  // Four pins about z let the square lozenge.
  Structure s = make_square();
  for (int i = 0; i < 4; ++i) {
    s.scalars.push_back({.place = "pin"});
    s.joints.push_back({.p_VoJ_V = s.joints[at(i)].p_VoJ_V,
                        .follows = i,
                        .modes = {{.scalar = i, .rotation_V = {0, 0, 1}}}});
    s.beams[at(i)].from = 4 + i;
  }
  const auto loose = Solver::make(s);
  ASSERT_FALSE(loose.has_value());
  EXPECT_EQ(loose.error()[0].code, "frame.mechanism");
  s.scalars[2].held = true;
  EXPECT_TRUE(Solver::make(s).has_value());
}

TEST(Mechanism, IsWhatAFreeModeAndAnUnusedWarpAreNot) {
  Structure s = make_square();
  s.scalars = {{}, {.held = true}, {.of = 0, .ratio = 2}};  // Nothing uses them: they stay zero.
  const Loads none;
  EXPECT_EQ(solve_one(s, none).scalar, std::vector<double>(3, 0));
  s.joints.push_back(
      {.p_VoJ_V = {0, 0, 0}, .follows = 0, .modes = {{.scalar = 0, .displacement_V = {1, 0, 0}}}});
  const auto loose = Solver::make(s);
  ASSERT_FALSE(loose.has_value());
  EXPECT_NE(loose.error()[0].message.find("scalar 1"), std::string::npos);
}

TEST(Solve, TellsOfLoadsThatGoNowhere) {
  const Structure s = make_square();
  const std::vector<Loads> loads{{.points = {{.joint = 4}, {.joint = 0, .f_P_V = {kNaN, 0, 0}}}},
                                 {.lines = {{.beam = -1}, {.beam = 0, .f_per_m_V = {0, 0, kNaN}}}}};
  const auto answer = Solver::make(s)->solve_held(loads);
  ASSERT_FALSE(answer.has_value());
  const char* expected[][2] = {{"frame.unknown_joint", "/0/points/0/joint"},
                               {"frame.not_finite", "/0/points/1"},
                               {"frame.unknown_beam", "/1/lines/0/beam"},
                               {"frame.not_finite", "/1/lines/1"}};
  ASSERT_EQ(answer.error().size(), 4U);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_EQ(answer.error()[i].code, expected[i][0]);
    EXPECT_EQ(answer.error()[i].path, expected[i][1]);
  }
}

TEST(Solve, PassesOnWhatIsWrongWithTheStructure) {
  Structure s = make_square();
  s.beams[2].section = 3;
  const auto solver = Solver::make(s);
  ASSERT_FALSE(solver.has_value());
  EXPECT_EQ(solver.error()[0].path, "/beams/2/section");
}

}  // namespace
}  // namespace rig::frame
