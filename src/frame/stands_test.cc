// A frame on stands: closed forms of beams, equilibrium, what lifts off, and what is told.

#include "frame/stands.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "build/read.h"
#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using testing::at;

constexpr double kLength_m = 2, kWidth_m = 0.8;
constexpr double kE_Pa = 200e9, kI_m4 = 5e-6;

/// Two rails along x, `pieces` beams each, tied by a crossmember at every node: bars by their
/// numbers alone. Joint 2 i is on the left, 2 i + 1 on the right.
Structure make_rails(double length_m, int pieces) {
  Structure s;
  s.members = {{"rails", "rails"}};
  s.sections = {testing::make_plain(kE_Pa, 80e9, 2e-3, kI_m4, kI_m4, 1e-7)};
  for (int i = 0; i <= pieces; ++i) {
    for (const double side : {1.0, -1.0}) {
      s.joints.push_back({.p_VoJ_V = Vec3(length_m * i / pieces, side * kWidth_m / 2, 0.6)});
    }
  }
  for (int i = 0; i <= pieces; ++i) {
    if (i < pieces) {
      for (const int side : {0, 1}) {
        s.beams.push_back(testing::make_beam(s, 2 * i + side, 2 * i + 2 + side, 0, Vec3::UnitY()));
      }
    }
    s.beams.push_back(testing::make_beam(s, 2 * i, 2 * i + 1, 0, Vec3::UnitX()));
  }
  return s;
}

std::vector<StandPoint> stands_at(const Structure& s, const std::vector<int>& joints) {
  std::vector<StandPoint> out;
  for (const int joint : joints) {
    out.push_back({.path = fmt::format("/stands/{}", joint),
                   .words = fmt::format("stand {}", joint),
                   .joint = joint,
                   .p_VoP_V = s.joints[at(joint)].p_VoJ_V});
  }
  return out;
}

void push_down(const Structure& s, int joint, double force_N, Loads& loads) {
  loads.points.push_back(
      {.joint = joint, .p_VoP_V = s.joints[at(joint)].p_VoJ_V, .f_P_V = Vec3(0, 0, -force_N)});
}

Solver solver_of(const Structure& s) {
  auto made = Solver::make(s);
  EXPECT_TRUE(made.has_value());
  return *made;
}

Standing stand(const Structure& s, const Loads& loads, const std::vector<int>& joints) {
  const auto answer = solve_stands(solver_of(s), loads, stands_at(s, joints));
  if (!answer) {
    ADD_FAILURE() << answer.error().front().code;
    return {};
  }
  return *answer;
}

std::string fault_of(const Structure& s, const Loads& loads, const std::vector<int>& joints) {
  const auto answer = solve_stands(solver_of(s), loads, stands_at(s, joints));
  return answer ? "" : answer.error().front().code;
}

// Both rails are simply supported beams under an even load: sag 5 q L^4 / 384 E I, moment q L^2/8.
TEST(Stands, CarryTwoRailsAsSimpleBeams) {
  const Structure s = make_rails(kLength_m, 4);
  const double q = 300;
  Loads loads;
  for (std::size_t b = 0; b < s.beams.size(); ++b) {
    const bool rail = s.beams[b].to == s.beams[b].from + 2;
    if (rail) loads.lines.push_back({.beam = static_cast<int>(b), .f_per_m_V = {0, 0, -q}});
  }
  const Standing standing = stand(s, loads, {0, 1, 8, 9});
  for (const StandForce& one : standing.stands) {
    EXPECT_NEAR(one.force_N, q * kLength_m / 2, 1e-9 * 2 * q * kLength_m);
    EXPECT_FALSE(one.lifted);
  }
  const double sag_m = 5 * q * std::pow(kLength_m, 4) / (384 * kE_Pa * kI_m4);
  EXPECT_NEAR(standing.response.displacement_V[4].z(), -sag_m, 1e-9 * sag_m);
  const auto forces = calc_beam_forces(s, standing.loads, standing.response, 3, 1);
  EXPECT_EQ(s.beams[3].to, 4);
  EXPECT_NEAR(std::abs(forces.moment_y_Nm), q * kLength_m * kLength_m / 8, 1e-6);
}

// A beam over three supports, loaded in the middle of the first span, would be pulled down at the
// third by 3/32 P: that one lifts off, the others carry half each, and the gap is the slope of a
// simple beam's end, P L^2 / 16 E I, times the second span.
TEST(Stands, LetGoWhereTheFrameLiftsOff) {
  const Structure s = make_rails(2 * kLength_m, 4);
  const double P = 1000;
  Loads loads;
  for (const int joint : {2, 3}) push_down(s, joint, P, loads);
  const Standing standing = stand(s, loads, {0, 1, 4, 5, 8, 9});
  const double gap_m = P * std::pow(kLength_m, 3) / (16 * kE_Pa * kI_m4);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(standing.stands[i].force_N, P / 2, 1e-9 * P);
  for (std::size_t i = 4; i < 6; ++i) {
    EXPECT_TRUE(standing.stands[i].lifted);
    EXPECT_EQ(standing.stands[i].force_N, 0);
    EXPECT_NEAR(standing.stands[i].gap_m, gap_m, 1e-8 * gap_m);
    EXPECT_NEAR(standing.response.displacement_V[i + 4].z(), gap_m, 1e-8 * gap_m);
  }
  for (const int joint : {0, 1, 4, 5}) {
    EXPECT_NEAR(standing.response.displacement_V[at(joint)].z(), 0, 1e-9 * gap_m);
  }
}

// The same beam with the load in the second span's middle as well: 5/16, 10/8 and 5/16 P.
TEST(Stands, ShareAsAContinuousBeam) {
  const Structure s = make_rails(2 * kLength_m, 4);
  const double P = 1000;
  Loads loads;
  for (const int joint : {2, 3, 6, 7}) push_down(s, joint, P, loads);
  const Standing standing = stand(s, loads, {0, 1, 4, 5, 8, 9});
  const std::array<double, 6> shares{5. / 16, 5. / 16, 11. / 8, 11. / 8, 5. / 16, 5. / 16};
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_NEAR(standing.stands[i].force_N, shares[i] * P, 1e-7 * P);
  }
}

TEST(Stands, AtOnePlaceShareAlike) {
  const Structure s = make_rails(kLength_m, 2);
  Loads loads;
  push_down(s, 2, 500, loads);
  push_down(s, 3, 300, loads);
  const Standing standing = stand(s, loads, {0, 1, 4, 5, 0});
  EXPECT_EQ(standing.stands[0].force_N, standing.stands[4].force_N);
  double sum = 0;
  for (const StandForce& one : standing.stands) sum += one.force_N;
  EXPECT_NEAR(sum, 800, 1e-9 * 800);
}

/// Everything that makes an answer the right one: forces and gaps that are not negative, one of the
/// two zero, balance, and heights as told.
void expect_resting(const Structure& s, const std::vector<StandPoint>& stands,
                    const Standing& standing, double weight_N) {
  const Resultant left = calc_resultant(s, standing.loads);
  RC_ASSERT(left.f_V.norm() < 1e-9 * weight_N);
  RC_ASSERT(left.t_Vo_V.norm() < 1e-9 * weight_N);
  double size_m = 0, plan = 0;
  for (const Vec3& u : standing.response.displacement_V) size_m = std::max(size_m, u.norm());
  Vec2 moved = Vec2::Zero();
  for (std::size_t i = 0; i < stands.size(); ++i) {
    const StandForce& one = standing.stands[i];
    RC_ASSERT(one.force_N >= 0);
    RC_ASSERT(one.gap_m >= 0);
    RC_ASSERT(one.force_N == 0 || one.gap_m == 0);
    const Vec3 u = calc_displacement(s, standing.response, stands[i].joint, stands[i].p_VoP_V);
    RC_ASSERT(std::abs(u.z() - one.gap_m) < 1e-7 * size_m);
    moved += u.head<2>();
    plan = std::max(plan, u.head<2>().norm());
  }
  RC_ASSERT(moved.norm() < 1e-7 * size_m);
}

RC_GTEST_PROP(Stands, BalanceAnyFrameUnderWeights, ()) {
  const auto seed = *rc::gen::arbitrary<unsigned>();
  const Structure s = testing::make_random_frame(seed);
  const auto solver = Solver::make(s);
  RC_PRE(solver.has_value());
  std::mt19937 random(seed);
  // The first four stand at the corners of a square, more or less.
  std::vector<int> joints{0, 1, 2, 3};
  for (int i = testing::pick(random, 3); i > 0; --i) {
    joints.push_back(testing::pick(random, static_cast<int>(s.joints.size())));
  }
  auto stands = stands_at(s, joints);
  for (StandPoint& one : stands) one.p_VoP_V += testing::random_vector(random, 0.1);
  Loads loads;
  double weight_N = 0;
  for (const StandPoint& one : stands) {
    // Within what stands around, so that it never tips.
    const double force_N = testing::uniform(random, 10, 5000);
    weight_N += force_N;
    loads.points.push_back({.joint = testing::pick(random, static_cast<int>(s.joints.size())),
                            .p_VoP_V = one.p_VoP_V,
                            .f_P_V = Vec3(0, 0, -force_N)});
  }
  const auto standing = solve_stands(*solver, loads, stands);
  if (!standing) RC_LOG() << standing.error().front().message;
  RC_ASSERT(standing.has_value());
  expect_resting(s, stands, *standing, weight_N);
}

TEST(Stands, TellWhatTheyCannotCarry) {
  const Structure s = make_rails(kLength_m, 2);
  Loads down;
  push_down(s, 2, 100, down);
  push_down(s, 3, 100, down);
  EXPECT_EQ(fault_of(s, down, {0, 4}), "frame.too_few_stands");
  EXPECT_EQ(fault_of(s, down, {0, 2, 4}), "frame.too_few_stands");
  EXPECT_EQ(fault_of(s, {}, {0, 1, 4, 5}), "frame.no_weight");
  Loads up = down;
  for (PointLoad& load : up.points) load.f_P_V *= -1;
  EXPECT_EQ(fault_of(s, up, {0, 1, 4, 5}), "frame.no_weight");
  Loads sideways = down;
  sideways.points[0].f_P_V.y() = 5;
  EXPECT_EQ(fault_of(s, sideways, {0, 1, 4, 5}), "frame.load_not_vertical");
  Loads turning = down;
  turning.points[0].t_V.z() = 5;
  EXPECT_EQ(fault_of(s, turning, {0, 1, 4, 5}), "frame.load_not_vertical");
  Loads lost = down;
  lost.points[0].joint = 99;
  EXPECT_EQ(fault_of(s, lost, {0, 1, 4, 5}), "frame.unknown_joint");
  // Pushes that hold each other are no matter of the stands.
  Loads spread = down;
  spread.points[0].f_P_V.y() = 5;
  spread.points[1].f_P_V.y() = -5;
  EXPECT_EQ(fault_of(s, spread, {0, 1, 4, 5}), "");
}

TEST(Stands, SayOverWhichItTips) {
  const Structure s = make_rails(kLength_m, 4);
  Loads loads;
  push_down(s, 6, 100, loads);
  push_down(s, 7, 100, loads);
  // Balances at x = 1.5 m; the foremost stands are at 1 m.
  const auto answer =
      solve_stands(solver_of(s), loads, stands_at(s, {0, 1, 4, 5}), {.metric = true});
  ASSERT_FALSE(answer.has_value());
  const Diagnostic& told = answer.error().front();
  EXPECT_EQ(told.code, "frame.tips");
  EXPECT_EQ(told.path, "/stands");
  EXPECT_NE(told.message.find("500 mm outside of the line from the stand 5 to the stand 4"),
            std::string::npos)
      << told.message;
  EXPECT_NE(told.remedy.find("forward by more than 500 mm"), std::string::npos) << told.remedy;
}

TEST(Stands, AreFoundUnderTheRailsOfABuild) {
  const auto read = build::read_build(R"({"version": 1, "frame": {
    "rails": {"main": {"both_sides": true,
      "section": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "0.2 in"},
      "line": [{"station": "0 in", "offset": "16 in", "height": "25 in"},
               {"station": "100 in", "offset": "16 in", "height": "25 in"}]}},
    "crossmembers": {"tube": {"at": {"station": "40 in"}, "joint": "through_web",
      "section": {"shape": "round_tube", "outside_diameter": "2 in", "thickness": "0.2 in"}}},
    "stages": {"good": {"stands": {"front": {"station": "5 in"},
                                   "rear": {"station": "90 in", "side": "left"}}},
               "bad": {"stands": {"far": {"station": "20 in"}, "open": {"station": "30 in"}}},
               "wheels": {}}}})");
  ASSERT_TRUE(read.has_value());
  build::Build build = read->build;
  auto& far = build.frame.stages[1].value.stands;
  far[0].value.station.si = 3.05;
  far[1].value.station.si = kNaN;
  const auto model = make_model(build, build::donor_parts(build.frame));
  ASSERT_TRUE(model.has_value());
  const auto good = find_stands(build, 0, *model);
  ASSERT_TRUE(good.has_value());
  ASSERT_EQ(good->size(), 3U);
  EXPECT_EQ((*good)[0].words, "left front stand");
  EXPECT_EQ((*good)[2].path, "/frame/stages/good/stands/rear");
  const auto bad = find_stands(build, 1, *model);
  ASSERT_FALSE(bad.has_value());
  ASSERT_EQ(bad.error().size(), 3U);
  EXPECT_EQ(bad.error()[0].code, "frame.no_rail_above");
  EXPECT_EQ(bad.error()[0].path, "/frame/stages/bad/stands/far/station");
  EXPECT_EQ(bad.error()[2].code, "frame.unknown_station");
  EXPECT_EQ(find_stands(build, 2, *model).error().front().code, "frame.no_stands");
}

}  // namespace
}  // namespace rig::frame
