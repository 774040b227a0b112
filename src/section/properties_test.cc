#include "section/properties.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/Dense>
#include <cmath>
#include <numbers>

#include "section/plastic.h"
#include "section/shapes.h"
#include "section/test_sections_internal.h"

namespace rig::section {
namespace {

using std::numbers::pi;

void expect_share(double value, double expected, double share) {
  EXPECT_NEAR(value, expected, share * std::abs(expected));
}

/// Nodes of an H of width b, height h between flange midlines.
Section make_h(double b, double h, double t_flange, double t_web) {
  return {.p_ON = {{-b / 2, -h / 2},
                   {0, -h / 2},
                   {b / 2, -h / 2},
                   {-b / 2, h / 2},
                   {0, h / 2},
                   {b / 2, h / 2}},
          .walls = {{0, 1, t_flange, ""},
                    {1, 2, t_flange, ""},
                    {3, 4, t_flange, ""},
                    {4, 5, t_flange, ""},
                    {1, 4, t_web, ""}}};
}

// Closed forms: [Vlasov]; [Roark] table 10.2 (from memory).
TEST(Channel, ShearCentreAndWarpingConstant) {
  const double b = 0.0575, h = 0.154, t_f = 0.006, t_w = 0.005;
  const auto section = make_channel(
      {.depth_m = 0.16, .flange_m = 0.06, .thickness_m = t_w, .flange_thickness_m = t_f});
  const auto p = solve_section(*section);
  expect_share(p->p_OS.x(), -3 * b * b * t_f / (h * t_w + 6 * b * t_f), 1e-12);
  EXPECT_NEAR(p->p_OS.y(), 0, 1e-15);
  expect_share(p->p_OC.x(), b * b * t_f / (2 * b * t_f + h * t_w), 1e-12);
  expect_share(p->warping_constant_m6,
               t_f * b * b * b * h * h / 12 * (3 * b * t_f + 2 * h * t_w) / (6 * b * t_f + h * t_w),
               1e-12);
  expect_share(p->torsion_constant_m4, (2 * b * t_f * t_f * t_f + h * t_w * t_w * t_w) / 3, 1e-12);
  EXPECT_NEAR(p->cells_torsion_constant_m4, 0, 1e-12 * p->torsion_constant_m4);
  // Web in the middle: half its height, and a flange, above the neutral axis.
  expect_share(calc_plastic_modulus_m3(*section, Vec2::UnitY()), t_f * b * h + t_w * h * h / 4,
               1e-12);
}

TEST(Channel, ASmallBendIsNearlyASharpCorner) {
  const auto solve = [](std::optional<double> midline_radius_m) {
    Channel channel{.depth_m = 0.16, .flange_m = 0.06, .thickness_m = 2e-7};
    if (midline_radius_m) channel.inside_radius_m = *midline_radius_m - 1e-7;
    return *solve_section(*make_channel(channel));
  };
  const auto sharp = solve({}), bent = solve(2e-6), twice = solve(4e-6);
  // What the corner loses goes with its radius: half the radius, half the difference.
  const auto expect_half = [](double at_half, double at_whole, double at_none) {
    EXPECT_NEAR((at_half - at_none) / (at_whole - at_none), 0.5, 1e-3);
    expect_share(at_half, at_none, 1e-4);
  };
  expect_half(bent.area_m2, twice.area_m2, sharp.area_m2);
  expect_half(bent.p_OS.x(), twice.p_OS.x(), sharp.p_OS.x());
  expect_half(bent.warping_constant_m6, twice.warping_constant_m6, sharp.warping_constant_m6);
}

TEST(Symmetric, WarpingConstantIsThatOfItsFlanges) {
  const auto p = solve_section(make_h(0.1, 0.2, 0.008, 0.005));
  const double flanges_m4 = 0.008 * std::pow(0.1, 3) / 6;
  expect_share(p->warping_constant_m6, flanges_m4 * 0.2 * 0.2 / 4, 1e-12);
  EXPECT_NEAR(p->p_OS.norm(), 0, 1e-15);
  // Bending about y: the flow in a flange falls evenly to its edges.
  expect_share(std::abs(p->flows[0].shear_z_per_m.to),
               0.05 * 0.008 * 0.1 / (p->I_y_m4 - 2 * 0.1 * std::pow(0.008, 3) / 12), 1e-12);
}

TEST(Angle, WarpsByItsThicknessAboutItsCorner) {
  const auto p = solve_section(
      *make_angle({.level_leg_m = 0.0525, .upright_leg_m = 0.0825, .thickness_m = 0.005}));
  EXPECT_NEAR(p->p_OS.norm(), 0, 1e-15);
  EXPECT_NEAR(p->warping_constant_m6, 0, 1e-12 * p->warping_across_m6);
  // [Pilkey], thin angle: t^3 (a^3 + b^3) / 36 (from memory).
  expect_share(p->warping_across_m6,
               std::pow(0.005, 3) * (std::pow(0.05, 3) + std::pow(0.08, 3)) / 36, 1e-12);
}

TEST(RectangularTube, BredtWarpingAndFlows) {
  const double b = 0.046, h = 0.096, t = 0.004;
  const auto section = make_rectangular_tube({.width_m = 0.05, .depth_m = 0.1, .thickness_m = t});
  const auto p = solve_section(*section);
  expect_share(p->cells_torsion_constant_m4, 2 * b * b * h * h * t / (b + h), 1e-12);
  expect_share(p->torsion_constant_m4,
               2 * b * b * h * h * t / (b + h) + 2 * (b + h) * t * t * t / 3, 1e-12);
  // dw/ds = h/2 - bh/(b + h) over the top: w at the corners +- b h (h - b) / (4 (b + h)).
  const double corner = b * h * (h - b) / (4 * (b + h));
  expect_share(p->warping_constant_m6, corner * corner * t * 2 * (b + h) / 3, 1e-12);
  // Nothing flows in the middle of the top under V_z; half-way up the sides it is greatest.
  const double I = t * (h * h * h / 6 + b * h * h / 2);
  EXPECT_NEAR(p->flows[0].shear_z_per_m.middle, 0, 1e-12);
  expect_share(std::abs(p->flows[1].shear_z_per_m.middle), t * (b * h / 4 + h * h / 8) / I, 1e-12);
  expect_share(calc_plastic_modulus_m3(*section, Vec2::UnitY()), t * (b * h + h * h / 2), 1e-12);
}

TEST(RoundTube, IsTheExactAnnulusButForItsChords) {
  const double D = 0.05, t = 0.004;
  const auto section = make_round_tube({.outside_diameter_m = D, .thickness_m = t});
  const auto p = solve_section(*section);
  const double I = pi / 64 * (std::pow(D, 4) - std::pow(D - 2 * t, 4));
  // Each wall is straight over pi/48: (pi/96)^2 / 6 on lengths and I, half as much again at most.
  const double chords = std::pow(pi / 96, 2) / 4;
  expect_share(p->area_m2, pi / 4 * (D * D - (D - 2 * t) * (D - 2 * t)), chords);
  expect_share(p->I_y_m4, I, chords);
  expect_share(p->torsion_constant_m4, 2 * I, chords);
  // The plastic modulus has straight walls of full thickness: t^2 / (12 r^2) on it.
  expect_share(calc_plastic_modulus_m3(*section, Vec2::UnitY()),
               (std::pow(D, 3) - std::pow(D - 2 * t, 3)) / 6,
               t * t / (12 * 0.023 * 0.023) + chords);
  EXPECT_NEAR(p->warping_constant_m6, 0, 1e-20 * I * D * D);
  EXPECT_EQ(p->major_axis_rad, 0);
  // Shear flow V sin / (pi r) makes an area of half the section's.
  expect_share(p->shear_area_z_m2, p->area_m2 / 2, 2 * chords);
}

// By hand: (1/t) (p1 q1 - h q2) = 2 A1, (1/t) (p2 q2 - h q1) = 2 A2, J = 2 A1 q1 + 2 A2 q2.
TEST(TwoCells, TorsionByHand) {
  const double t = 0.004, h = 0.1, b1 = 0.08, b2 = 0.14;
  const Section section{.p_ON = {{0, 0}, {b1, 0}, {b1 + b2, 0}, {b1 + b2, h}, {b1, h}, {0, h}},
                        .walls = {{0, 1, t, ""},
                                  {1, 2, t, ""},
                                  {2, 3, t, ""},
                                  {3, 4, t, ""},
                                  {4, 5, t, ""},
                                  {5, 0, t, ""},
                                  {1, 4, t, ""}}};
  const double p1 = 2 * (b1 + h), p2 = 2 * (b2 + h), A1 = b1 * h, A2 = b2 * h;
  const double determinant = p1 * p2 - h * h;
  const double q1 = 2 * t * (A1 * p2 + A2 * h) / determinant,
               q2 = 2 * t * (A2 * p1 + A1 * h) / determinant;
  const auto p = solve_section(section);
  expect_share(p->cells_torsion_constant_m4, 2 * A1 * q1 + 2 * A2 * q2, 1e-12);
  expect_share(p->flows[0].twist_m2, q1, 1e-12);
  expect_share(p->flows[1].twist_m2, q2, 1e-12);
  expect_share(p->flows[6].twist_m2, q1 - q2, 1e-10);
}

TEST(Slit, ATubeSawnOpenTwistsAboutAPointOutsideIt) {
  Section section = *make_round_tube({.outside_diameter_m = 0.102, .thickness_m = 0.002});
  // The last wall ends beside the first node instead of at it.
  section.p_ON.push_back(section.p_ON.front());
  section.walls.back().to = static_cast<int>(section.p_ON.size()) - 1;
  const auto p = solve_section(section);
  // 2 r from the centre, away from the slit (closed form; chords as above).
  expect_share(p->p_OS.x(), -0.1, std::pow(pi / 96, 2));
  expect_share(p->torsion_constant_m4, 2 * pi * 0.05 * std::pow(0.002, 3) / 3,
               std::pow(pi / 96, 2));
}

TEST(Plate, RectangleIsExact) {
  const auto section = make_plate({.width_m = 0.1, .thickness_m = 0.006});
  const auto p = solve_section(*section);
  EXPECT_TRUE(p->flat);
  expect_share(p->I_y_m4, 0.006 * std::pow(0.1, 3) / 12, 1e-13);
  expect_share(p->I_z_m4, 0.1 * std::pow(0.006, 3) / 12, 1e-13);
  expect_share(calc_plastic_modulus_m3(*section, Vec2::UnitY()), 0.006 * 0.1 * 0.1 / 4, 1e-13);
  expect_share(calc_plastic_modulus_m3(*section, Vec2::UnitX()), 0.1 * 0.006 * 0.006 / 4, 1e-13);
  expect_share(p->shear_area_z_m2, 0.1 * 0.006 * 5 / 6, 1e-13);
  EXPECT_EQ(p->shear_area_y_m2, 0);
  EXPECT_NEAR(p->p_OS.norm(), 0, 1e-15);
}

TEST(Plastic, ASquareStandingOnItsCorner) {
  // Side a on its corner: a^3 sqrt(2) / 6 (from memory; two triangles). A plate nearly square.
  const double a = 0.05;
  const Section square{.p_ON = {{-a / 2, 0}, {a / 2, 0}}, .walls = {{0, 1, a, ""}}};
  const Section turned = rotate_section(square, pi / 4);
  expect_share(calc_plastic_modulus_m3(turned, Vec2::UnitY()), a * a * a * std::sqrt(2.0) / 6,
               1e-12);
}

TEST(SolveSection, PassesOnWhatIsWrong) {
  EXPECT_EQ(solve_section({}).error().front().code, "section.no_walls");
}

RC_GTEST_PROP(Invariance, TurningTurnsTheAnswers, (unsigned seed)) {
  const Section section = testing::make_shaken_section(seed);
  const double angle = 0.001 * static_cast<double>(seed % 6283);
  const Vec2 by(0.3, -0.2);
  const Eigen::Rotation2Dd R(angle);
  const auto a = solve_section(section),
             b = solve_section(move_section(rotate_section(section, angle), by));
  Eigen::Matrix2d I, I_turned;
  I << a->I_z_m4, a->I_yz_m4, a->I_yz_m4, a->I_y_m4;
  I_turned << b->I_z_m4, b->I_yz_m4, b->I_yz_m4, b->I_y_m4;
  const Eigen::Matrix2d expected = R.toRotationMatrix() * I * R.toRotationMatrix().transpose();
  RC_ASSERT((I_turned - expected).norm() < 1e-12 * I.norm());
  RC_ASSERT((b->p_OC - by - R * a->p_OC).norm() < 1e-14);
  RC_ASSERT((b->p_OS - by - R * a->p_OS).norm() < 1e-13);
  RC_ASSERT(std::abs(b->torsion_constant_m4 - a->torsion_constant_m4) <
            1e-12 * a->torsion_constant_m4);
  RC_ASSERT(std::abs(b->warping_constant_m6 - a->warping_constant_m6) <
            1e-10 * a->warping_constant_m6);
  RC_ASSERT(std::abs(b->I_major_m4 - a->I_major_m4) < 1e-12 * a->I_major_m4);
  RC_ASSERT(std::abs(std::sin(b->major_axis_rad - a->major_axis_rad - angle)) < 1e-9);
  for (std::size_t i = 0; i < section.p_ON.size(); ++i) {
    RC_ASSERT(std::abs(a->sectorial_m2[i] - b->sectorial_m2[i]) < 1e-13);
  }
}

RC_GTEST_PROP(Invariance, MirroringMirrorsTheAnswers, (unsigned seed)) {
  const Section section = testing::make_shaken_section(seed);
  const auto a = solve_section(section), b = solve_section(mirror_section(section));
  RC_ASSERT(std::abs(a->p_OS.x() + b->p_OS.x()) < 1e-13);
  RC_ASSERT(std::abs(a->p_OS.y() - b->p_OS.y()) < 1e-13);
  RC_ASSERT(std::abs(a->I_yz_m4 + b->I_yz_m4) < 1e-12 * a->I_major_m4);
  RC_ASSERT(std::abs(a->torsion_constant_m4 - b->torsion_constant_m4) <
            1e-12 * a->torsion_constant_m4);
  RC_ASSERT(std::abs(calc_plastic_modulus_m3(section, Vec2::UnitX()) -
                     calc_plastic_modulus_m3(mirror_section(section), Vec2::UnitX())) <
            1e-10 * calc_plastic_modulus_m3(section, Vec2::UnitX()));
  for (std::size_t i = 0; i < section.p_ON.size(); ++i) {
    RC_ASSERT(std::abs(a->sectorial_m2[i] + b->sectorial_m2[i]) < 1e-13);
  }
}

RC_GTEST_PROP(Invariance, SplittingAWallChangesNothing, (unsigned seed)) {
  const Section section = testing::make_shaken_section(seed);
  Section split = section;
  const std::size_t w = seed % section.walls.size();
  const double share = 0.1 + 0.8 * static_cast<double>(seed % 97) / 97;
  const Wall wall = section.walls[w];
  const Vec2 p = section.p_ON[static_cast<std::size_t>(wall.from)],
             q = section.p_ON[static_cast<std::size_t>(wall.to)];
  split.p_ON.emplace_back(p + share * (q - p));
  const int middle = static_cast<int>(split.p_ON.size()) - 1;
  split.walls[w].to = middle;
  split.walls.push_back({middle, wall.to, wall.thickness_m, ""});
  const auto a = solve_section(section), b = solve_section(split);
  const auto same = [](double x, double y) { return std::abs(x - y) < 1e-11 * std::abs(y); };
  RC_ASSERT((a->p_OS - b->p_OS).norm() < 1e-13);
  RC_ASSERT(same(a->I_minor_m4, b->I_minor_m4));
  RC_ASSERT(same(a->torsion_constant_m4, b->torsion_constant_m4));
  RC_ASSERT(same(a->warping_constant_m6, b->warping_constant_m6));
  RC_ASSERT(same(a->warping_across_m6, b->warping_across_m6));
  RC_ASSERT(same(calc_plastic_modulus_m3(section, Vec2::UnitY()),
                 calc_plastic_modulus_m3(split, Vec2::UnitY())));
  RC_ASSERT(same(a->shear_area_y_m2, b->shear_area_y_m2));
  RC_ASSERT(std::abs(a->flows[w].shear_y_per_m.at(share) - b->flows.back().shear_y_per_m.from) <
            1e-10);
  RC_ASSERT(std::abs(a->flows[w].warping_per_m2.at(share) - b->flows.back().warping_per_m2.from) <
            1e-8);
}

RC_GTEST_PROP(Equilibrium, FlowsCarryWhatTheyShould, (unsigned seed)) {
  const Section section = testing::make_shaken_section(seed);
  const auto p = solve_section(section);
  // Rows: V_y, V_z, torque about S; columns: under V_y, V_z, T of warping, T of St Venant in the
  // cells.
  Eigen::Matrix<double, 3, 4> carried = Eigen::Matrix<double, 3, 4>::Zero();
  Eigen::Matrix<double, Eigen::Dynamic, 4> out_of_node =
      Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(section.p_ON.size()), 4);
  for (std::size_t w = 0; w < section.walls.size(); ++w) {
    const Wall& wall = section.walls[w];
    const Vec2 from = section.p_ON[static_cast<std::size_t>(wall.from)],
               along = section.p_ON[static_cast<std::size_t>(wall.to)] - from;
    const Vec2 arm = from - p->p_OS;
    const double twist = p->flows[w].twist_m2;
    const std::array<WallFlow, 4> flows{p->flows[w].shear_y_per_m,
                                        p->flows[w].shear_z_per_m,
                                        p->flows[w].warping_per_m2,
                                        {twist, twist, twist}};
    for (Eigen::Index i = 0; i < 4; ++i) {
      const WallFlow& q = flows[static_cast<std::size_t>(i)];
      const double mean = (q.from + 4 * q.middle + q.to) / 6;
      carried.col(i) +=
          mean * Eigen::Vector3d(along.x(), along.y(), arm.x() * along.y() - arm.y() * along.x());
      out_of_node(wall.from, i) += q.from;
      out_of_node(wall.to, i) -= q.to;
    }
  }
  Eigen::Matrix<double, 3, 4> expected;
  expected << 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, p->cells_torsion_constant_m4;
  RC_ASSERT((carried.leftCols(2) - expected.leftCols(2)).cwiseAbs().maxCoeff() < 1e-11);
  RC_ASSERT((carried.col(2) - expected.col(2)).cwiseAbs().maxCoeff() < 1e-9);
  RC_ASSERT((carried.col(3) - expected.col(3)).cwiseAbs().maxCoeff() <
            1e-12 * p->cells_torsion_constant_m4 / 0.1);
  RC_ASSERT(out_of_node.leftCols(2).cwiseAbs().maxCoeff() < 1e-10);
  RC_ASSERT(out_of_node.col(2).cwiseAbs().maxCoeff() < 1e-7);
  RC_ASSERT(out_of_node.col(3).cwiseAbs().maxCoeff() < 1e-15);
}

RC_GTEST_PROP(Cells, AnotherWallMakesThemStiffer, (unsigned seed)) {
  Section section = testing::make_shaken_section(seed);
  const double before = solve_section(section)->cells_torsion_constant_m4;
  // From the edge at the foot up to the outer top corner: one more cell.
  section.walls.push_back({7, 5, 0.003, ""});
  RC_ASSERT(solve_section(section)->cells_torsion_constant_m4 > before);
}

}  // namespace
}  // namespace rig::section
