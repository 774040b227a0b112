// Frames against textbooks and closed forms: rows FR-xx of the reference list, and TW-xx of thin
// walls in torsion. Frames are solved in the source's own units: the equations do not know them.
//
// [McGuire] was seen in a public copy, [Ferreira] and [Weaver] too and worked out again; FR-16 to
// FR-20 were worked out again by a plain 12-freedom solver; TW-xx are from memory and worked out
// again, but for NAFEMS LE5, seen in a public copy.

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "frame/solve.h"
#include "section/properties.h"
#include "section/stress.h"
#include "tests/published/expect_published.h"
#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using testing::at;
using testing::hold;
using testing::make_plain;

/// Builds a frame as a textbook states it, and answers for one set of loads.
class Book {
 public:
  explicit Book(const std::vector<Vec3>& nodes) {
    for (const Vec3& node : nodes) s_.joints.push_back({.p_VoJ_V = node});
    s_.members = {{"frame", "frame"}};
  }

  Book& beam(int from, int to, const BeamSection& section, const Vec3& y = Vec3::UnitY()) {
    s_.sections.push_back(section);
    s_.beams.push_back(
        testing::make_beam(s_, from, to, static_cast<int>(s_.sections.size()) - 1, y));
    return *this;
  }

  Book& fix(int node, const Vec3& displacements = Vec3::Ones(),
            const Vec3& rotations = Vec3::Ones()) {
    hold(s_, node, displacements, rotations, kStiff);
    return *this;
  }

  Book& push(int node, const Vec3& f, const Vec3& t = Vec3::Zero()) {
    loads_.points.push_back(
        {.joint = node, .p_VoP_V = s_.joints[at(node)].p_VoJ_V, .f_P_V = f, .t_V = t});
    return *this;
  }

  /// Moves a support that is fixed.
  Book& settle(int node, const Vec3& by) { return push(node, kStiff * by); }

  Book& line(int beam, const Vec3& f) {
    loads_.lines.push_back({.beam = beam, .f_per_m_V = f});
    return *this;
  }

  void solve() {
    const auto solver = Solver::make(s_);
    ASSERT_TRUE(solver.has_value()) << solver.error()[0].message;
    const auto responses = solver->solve({&loads_, 1});
    ASSERT_TRUE(responses.has_value()) << responses.error()[0].message;
    response_ = responses->front();
  }

  Vec3 moved(int node) const { return response_.displacement_V[at(node)]; }
  Vec3 turned(int node) const { return response_.rotation_V[at(node)]; }
  double warped(int scalar) const { return response_.scalar[at(scalar)]; }

  /// Of the ground on a fixed node: what its beams and loads together don't take.
  struct Reaction {
    Vec3 f = Vec3::Zero(), t = Vec3::Zero();
  };
  Reaction reaction(int node) const {
    Reaction out;
    for (std::size_t b = 0; b < s_.beams.size(); ++b) {
      const BeamEnds ends = calc_beam_ends(s_, loads_, response_, static_cast<int>(b));
      if (s_.beams[b].from == node) {
        out.f -= ends.f_F_V;
        out.t -= ends.t_F_V;
      }
      if (s_.beams[b].to == node) {
        out.f -= ends.f_T_V;
        out.t -= ends.t_T_V;
      }
    }
    return out;
  }
  section::SectionForces forces(int beam, double share) const {
    return calc_beam_forces(s_, loads_, response_, beam, share);
  }

  Structure& structure() { return s_; }

 private:
  static constexpr double kStiff = 1e16;
  Structure s_;
  Loads loads_;
  Response response_;
};

/// All six of a node, to a share of each or an absolute tolerance.
void expect_six(const std::string& name, const Vec3& u, const Vec3& r,
                const std::array<const char*, 6>& names, const std::array<double, 6>& published,
                double share, double absolute, const std::string& source) {
  for (int i = 0; i < 6; ++i) {
    const double value = i < 3 ? u[i] : r[i - 3];
    const double of = published[at(i)];
    expect_published(name + "_" + names[at(i)], value,
                     {of, std::max(share * std::abs(of), absolute), source});
  }
}

constexpr std::array<const char*, 6> kMillionths = {"ux_um",   "uy_um",   "uz_um",
                                                    "rx_urad", "ry_urad", "rz_urad"};
constexpr std::array<const char*, 6> kInches = {"ux_in",  "uy_in",  "uz_in",
                                                "rx_rad", "ry_rad", "rz_rad"};
constexpr std::array<const char*, 6> kKips = {"Fx_kip",    "Fy_kip",    "Fz_kip",
                                              "Mx_kip_in", "My_kip_in", "Mz_kip_in"};

// [Ferreira] Ex. 8.3, in kN and m. Printed to three digits; the digits here are those worked out
// again, 0.1 %.
TEST(SpaceFrames, ThreeMembersMeeting) {
  const BeamSection bar = make_plain(210e6, 84e6, 0.02, 10e-5, 20e-5, 5e-5);
  Book book({{0, 0, 0}, {3, 0, 0}, {0, 0, -3}, {0, -4, 0}});
  book.beam(0, 1, bar).beam(0, 2, bar).beam(0, 3, bar, Vec3::UnitX());
  book.fix(1).fix(2).fix(3).push(0, {-10, 0, 20}).solve();
  expect_six("node_1", 1e6 * book.moved(0), 1e6 * book.turned(0), kMillionths,
             {-7.05148, -0.06654, 14.17696, 1.447788, 1.748584, 1.136054}, 0.001, 0,
             "FR-01: [Ferreira] Ex. 8.3");
}

Book make_dog_leg(double G) {
  const BeamSection bar = make_plain(30000, G, 11, 56, 56, 83);
  Book book({{0, 120, 0}, {240, 120, 0}, {0, 0, 0}, {360, 0, 120}});
  book.beam(2, 0, bar, Vec3::UnitZ()).beam(0, 1, bar).beam(1, 3, bar).fix(2).fix(3);
  book.push(0, {2, 0, 0}).push(1, {0, -1, 0}, {0, 0, -120});
  return book;
}

// [Weaver] p. 146 problem 8, in kip and in; all twelve printed digits, with G = 0.4 E.
TEST(SpaceFrames, DogLeg) {
  Book book = make_dog_leg(12000);
  book.solve();
  expect_six("node_1", book.moved(0), book.turned(0), kInches,
             {0.22267, 0.00016, -0.17182, -0.00255, 0.00217, -0.00213}, 0, 5e-6,
             "FR-03: [Weaver] p. 146 prob. 8");
  expect_six("node_2", book.moved(1), book.turned(1), kInches,
             {0.22202, -0.48119, -0.70161, -0.00802, 0.00101, -0.00435}, 0, 5e-6,
             "FR-03: [Weaver] p. 146 prob. 8");
}

// The same with G = E / 2.6: what holds it.
TEST(SpaceFrames, DogLegReactions) {
  Book book = make_dog_leg(30000 / 2.6);
  book.solve();
  const auto at_3 = book.reaction(2), at_4 = book.reaction(3);
  expect_six("node_3", at_3.f, at_3.t, kKips, {-1.1039, -0.43381, 0.21393, 48.333, -17.656, 96.284},
             1e-4, 0, "FR-04: public solution of [Weaver]");
  expect_six("node_4", at_4.f, at_4.t, kKips,
             {-0.89607, 1.43381, -0.21393, 123.724, 48.167, -12.456}, 1e-4, 0,
             "FR-04: public solution of [Weaver]");
}

// [McGuire] Ex. 5.4, in kN and mm: bars so thin that they bend for nothing.
TEST(SpaceFrames, TrussOfFourBars) {
  Book book({{2000, 4000, 8000}, {0, 0, 0}, {8000, 0, 0}, {8000, 6000, 0}, {0, 6000, 0}});
  const double areas[] = {20e3, 30e3, 40e3, 30e3};
  for (int i = 0; i < 4; ++i) {
    book.beam(0, i + 1, make_plain(200, 80, areas[i], 1, 1, 1), {1, 0, 0.3}).fix(i + 1);
  }
  book.push(0, {200, 600, -800}).solve();
  const double u[] = {0.178, 2.722, -0.487};
  const char* axes[] = {"x", "y", "z"};
  for (int i = 0; i < 3; ++i) {
    expect_published(std::string("A_") + axes[i] + "_mm", book.moved(0)[i],
                     {u[i], 0.0005, "FR-06: [McGuire] Ex. 5.4"});
  }
  const double reactions[4][3] = {{-76.4, -152.8, -305.6},
                                  {170.8, -113.9, -227.8},
                                  {-470.8, -156.9, 627.8},
                                  {176.4, -176.4, 705.6}};
  for (int n = 0; n < 4; ++n) {
    for (int i = 0; i < 3; ++i) {
      expect_published(std::string(1, "BCDE"[n]) + "_" + axes[i] + "_kN", book.reaction(n + 1).f[i],
                       {reactions[n][i], 0.05, "FR-06: [McGuire] Ex. 5.4"});
    }
  }
}

// [McGuire] ch. 4, 5 in kN and mm, plane frames in x, y; E = 200 kN/mm2.
const BeamSection kLong = make_plain(200, 200 / 2.6, 6e3, 200e6, 200e6, 300e3);
const BeamSection kShort = make_plain(200, 200 / 2.6, 4e3, 50e6, 50e6, 100e3);

TEST(McGuire, TorqueSharedByTwoShafts) {
  Book book({{0, 0, 0}, {8000, 0, 0}, {13000, 0, 0}});
  book.beam(0, 1, kLong).beam(1, 2, kShort).fix(0).fix(2);
  book.push(1, {0, -1, 0}, {40, 0, 0}).solve();
  const auto A = book.reaction(0), C = book.reaction(2);
  // 0.1 %, beside half a digit.
  expect_published("v_mm", book.moved(1).y(), {-0.5457, 0.5e-4, "FR-07: [McGuire] Ex. 4.12"});
  expect_published("rz_rad", book.turned(1).z(), {-2.631e-5, 0.5e-8, "FR-07: [McGuire] Ex. 4.12"});
  expect_published("M_A_Nmm", A.t.z() * 1000, {1783365, 0.5, "FR-07: [McGuire] Ex. 4.12"});
  expect_published("T_A_Nmm", -A.t.x() * 1000, {26087, 0.5, "FR-07: [McGuire] Ex. 4.12"});
  expect_published("T_C_Nmm", -C.t.x() * 1000, {13913, 0.5, "FR-07: [McGuire] Ex. 4.12"});
}

Book make_two_spans() {
  Book book({{0, 0, 0}, {8000, 0, 0}, {13000, 0, 0}});
  book.beam(0, 1, kLong).beam(1, 2, kShort).fix(0);
  return book;
}

TEST(McGuire, TwoSpansLoadedAtTheTip) {
  Book book = make_two_spans();
  book.fix(1, {0, 1, 0}, {0, 0, 0});
  book.push(2, Vec3(5, -5, 0) / std::sqrt(2.0)).solve();
  const std::string source = "FR-08: [McGuire] Ex. 4.9";
  expect_published("u_B_mm", book.moved(1).x(), {0.024, 0.0005, source});
  expect_published("rz_B_rad", book.turned(1).z(), {-0.00088, 0.5e-5, source});
  expect_published("v_C_mm", book.moved(2).y(), {-19.15, 0.005, source});
  expect_published("rz_C_rad", book.turned(2).z(), {-0.0053, 0.5e-4, source});
  expect_published("M_A_kNm", book.reaction(0).t.z() / 1000, {-8.84, 0.005, source});
  expect_published("R_B_kN", book.reaction(1).f.y(), {6.85, 0.005, source});
  expect_published("M_B_kNm", -book.forces(1, 0).moment_z_Nm / 1000, {17.68, 0.005, source});
}

void expect_reactions(const Book& book, const std::array<double, 3>& R, double M_A, double M_C,
                      const std::string& source) {
  for (int n = 0; n < 3; ++n) {
    expect_published(std::string("R_") + "ABC"[n] + "_kN", book.reaction(n).f.y(),
                     {R[at(n)], 0.005, source});
  }
  if (M_A != 0) expect_published("M_A_kNm", book.reaction(0).t.z() / 1000, {M_A, 0.005, source});
  expect_published("M_C_kNm", book.reaction(2).t.z() / 1000, {M_C, 0.005, source});
}

TEST(McGuire, MomentOnAJoint) {
  Book book = make_two_spans();
  book.fix(1, {0, 1, 0}, {0, 0, 0}).fix(2).push(1, {0, 0, 0}, {0, 0, 50e3}).solve();
  const std::string source = "FR-09: [McGuire] Ex. 4.10";
  expect_published("rz_B_rad", book.turned(1).z(), {0.00179, 0.5e-5, source});
  expect_reactions(book, {6.70, -2.41, -4.29}, 17.86, 7.14, source);
}

TEST(McGuire, SupportThatSettles) {
  Book book = make_two_spans();
  book.fix(1, {0, 1, 0}, {0, 0, 0}).fix(2).settle(1, {0, -20, 0}).solve();
  const std::string source = "FR-10: [McGuire] Ex. 4.11";
  expect_published("rz_B_rad", book.turned(1).z(), {-0.000964, 0.5e-6, source});
  expect_reactions(book, {15.13, -36.65, 21.51}, 65.36, -51.86, source);
}

TEST(McGuire, LFrame) {
  Book book({{0, 0, 0}, {8000, 0, 0}, {8000, -5000, 0}});
  book.beam(0, 1, kLong).beam(1, 2, kShort, Vec3::UnitX()).fix(0).fix(2);
  book.push(1, Vec3(100, -100, 0) / std::sqrt(2.0), {0, 0, 50e3}).solve();
  const std::string source = "FR-11: [McGuire] Ex. 4.13";
  expect_published("u_mm", book.moved(1).x(), {0.4415, 0.5e-4, source});
  expect_published("v_mm", book.moved(1).y(), {-0.3999, 0.5e-4, source});
  expect_published("rz_rad", book.turned(1).z(), {0.00169, 0.5e-5, source});
}

TEST(McGuire, SpreadAndPointLoad) {
  Book book({{0, 0, 0}, {8000, 0, 0}, {13000, 0, 0}, {10000, 0, 0}});
  book.beam(0, 1, kLong).beam(1, 3, kShort).beam(3, 2, kShort);
  book.fix(0, {0, 1, 1}, {1, 1, 0}).fix(1, {0, 1, 0}, {0, 0, 0}).fix(2);
  book.line(0, {0, -2e-3, 0}).push(3, {0, -20, 0}).solve();
  const std::string source = "FR-12: [McGuire] Ex. 5.6";
  expect_published("rz_A_rad", book.turned(0).z(), {-5.681e-4, 0.5e-7, source});
  expect_published("rz_B_rad", book.turned(1).z(), {0.696e-4, 0.5e-7, source});
  expect_reactions(book, {6.13, 23.00, 6.87}, 0, -9.32, source);
}

// In kip and in: springs of 1.5 kip/in2 times 15 in at the twenty pieces' ends. The book's own
// model.
TEST(McGuire, BeamOnElasticFoundation) {
  std::vector<Vec3> nodes;
  for (int i = 0; i <= 20; ++i) nodes.emplace_back(15 * i, 0, 0);
  Book book(nodes);
  const BeamSection beam = make_plain(29000, 29000 / 2.6, 20, 128.5, 128.5, 1);
  for (int i = 0; i < 20; ++i) book.beam(i, i + 1, beam);
  for (int i = 1; i < 20; ++i) {
    hold(book.structure(), i, {0, 1, 0}, {0, 0, 0}, 22.5);
  }
  book.fix(0, {1, 1, 1}, {1, 1, 0}).fix(20, {0, 1, 1}, {0, 0, 0}).push(10, {0, -40, 0}).solve();
  expect_published("v_in", book.moved(10).y(), {-0.238, 0.0005, "FR-13: [McGuire] Ex. 4.15"});
  expect_published("M_kip_in", book.forces(10, 0).moment_z_Nm,
                   {547, 0.5, "FR-13: [McGuire] Ex. 4.15"});
}

TEST(McGuire, ShaftFixedAtBothEnds) {
  Book book({{0, 0, 0}, {36, 0, 0}, {132, 0, 0}, {168, 0, 0}});
  for (int i = 0; i < 3; ++i) book.beam(i, i + 1, kLong);
  book.fix(0).fix(3).push(1, {0, 0, 0}, {5, 0, 0}).push(2, {0, 0, 0}, {10, 0, 0}).solve();
  expect_published("left_torque", book.reaction(0).t.x(), {-6.07, 0.005, "FR-14: statics"});
  expect_published("right_torque", book.reaction(3).t.x(), {-8.93, 0.005, "FR-14: statics"});
}

/// One bay, in N and mm: rails from -L to 0 at y = +-B / 2.
struct Ladder {
  double L = 2500, B = 800, E = 205000, G = 79000;
  double I_s = 3.0e6, J_s = 3.5e6, I_c = 1.5e6, J_c = 1.5e6;

  Book make() const {
    const BeamSection rail = make_plain(E, G, 2000, I_s, I_s, J_s);
    const BeamSection cross = make_plain(E, G, 2000, I_c, I_c, J_c);
    Book book({{0, B / 2, 0}, {0, -B / 2, 0}, {-L, B / 2, 0}, {-L, -B / 2, 0}});
    book.beam(2, 0, rail).beam(3, 1, rail);
    book.beam(1, 0, cross, Vec3::UnitX()).beam(3, 2, cross, Vec3::UnitX());
    return book;
  }

  /// A couple at the front, its opposite at the rear, from 1 kN at each corner.
  Book twisted() const {
    Book book = make();
    for (int n = 0; n < 4; ++n) book.push(n, {0, 0, n == 0 || n == 3 ? 1000.0 : -1000.0});
    book.solve();
    return book;
  }

  double stiffness() const {
    const Book book = twisted();
    const double front = (book.moved(0).z() - book.moved(1).z()) / B;
    const double rear = (book.moved(2).z() - book.moved(3).z()) / B;
    return 1000 * B / (front - rear);
  }

  /// FR-16.
  double closed_form() const {
    const double f_s = L * L * L / (12 * E * I_s) + L * L * B / (4 * G * J_c);
    const double f_c = B * B * B / (12 * E * I_c) + B * B * L / (4 * G * J_s);
    return B * B / 2 * (1 / f_s + 1 / f_c);
  }
};

TEST(LadderInTwist, ClosedForm) {
  for (const Ladder& ladder : {Ladder{}, Ladder{.J_s = 2e4, .J_c = 1e4},
                               Ladder{.L = 3100, .B = 950, .I_s = 9e6, .J_s = 4e4, .J_c = 3e6}}) {
    const double K = ladder.closed_form();
    expect_published("rails_of_J_" + std::to_string(std::lround(ladder.J_s)) + "_Nmm_per_rad",
                     ladder.stiffness(), {K, 1e-6 * K, "FR-16: Castigliano on the grillage"});
  }
}

TEST(LadderInTwist, ClosedRails) {
  const Ladder ladder;
  const double K = ladder.stiffness();
  expect_published("K_Nmm_per_rad", K, {2.27106e8, 0.5e3, "FR-17"});
  expect_published("K_Nm_per_deg", K / 1000 * std::numbers::pi / 180, {3964, 0.5, "FR-17"});
  const Book book = ladder.twisted();
  const section::SectionForces rail = book.forces(0, 1);
  expect_published("rail_torque_Nmm", std::abs(rail.torque_St_Venant_Nm), {3.555e5, 50, "FR-17"});
  expect_published("rail_end_moment_Nmm", std::abs(rail.moment_y_Nm), {1.391e5, 50, "FR-17"});
}

TEST(LadderInTwist, OpenRailsWithoutWarping) {
  const double K = Ladder{.J_s = 2e4, .J_c = 1e4}.stiffness();
  expect_published("K_Nmm_per_rad", K, {1.46528e6, 5, "FR-18"});
  expect_published("K_Nm_per_deg", K / 1000 * std::numbers::pi / 180, {25.57, 0.005, "FR-18"});
}

TEST(LadderInTwist, Limits) {
  // Crossmembers that twist for nothing: K = (B^2/2) / f_c.
  const Ladder soft{.J_c = 1e-3};
  const double f_c = std::pow(soft.B, 3) / (12 * soft.E * soft.I_c) +
                     soft.B * soft.B * soft.L / (4 * soft.G * soft.J_s);
  const double K = soft.B * soft.B / 2 / f_c;
  expect_published("without_J_c_Nmm_per_rad", soft.stiffness(), {K, 1e-6 * K, "FR-19"});
  // Two rails' GJ/L but for the crossmembers' bending, which is 9 % of that frame's give.
  const Ladder stiff{.I_c = 1.5e15, .J_c = 1e-3};
  const double rails = 2 * stiff.G * stiff.J_s / stiff.L;
  expect_published("of_stiff_crossmembers_Nmm_per_rad", stiff.stiffness(),
                   {rails, 1e-6 * rails, "FR-19"});
  // A flat grillage without any torsion stiffness has none in twist.
  const double none = Ladder{.J_s = 1e-3, .J_c = 1e-3}.stiffness();
  expect_published("without_J_Nmm_per_rad", none, {0, 0.2, "FR-19: 1e-9 of FR-17"});
}

TEST(LadderInTwist, ThreeCornersPinned) {
  const Ladder ladder;
  Book book = ladder.make();
  for (int n = 1; n < 4; ++n) book.fix(n, {0, 0, 1}, {0, 0, 0});
  book.push(0, {0, 0, 1000}).solve();
  const double K = 1000 * ladder.B / (book.moved(0).z() / ladder.B);
  expect_published("K_Nmm_per_rad", K, {2.27106e8, 0.5e3, "FR-20"});
}

/// NAFEMS LE5's Z in N and m.
BeamSection make_le5() {
  const auto wall = [](int from, int to) {
    return section::Wall{.from = from, .to = to, .thickness_m = 0.1};
  };
  BeamSection out = *make_beam_section(
      {.p_ON = {{-1, 1}, {0, 1}, {0, -1}, {1, -1}}, .walls = {wall(0, 1), wall(1, 2), wall(2, 3)}},
      210e9, 210e9 / 2.6, 7850);
  return out;
}

TEST(LE5, ZCantileverInTorsion) {
  const auto solve = [](const BeamSection& section, bool tied_tip) {
    Book book({{0, 0, 0}, {10, 0, 0}});
    book.structure().scalars = {{.held = true}, {}};
    book.beam(0, 1, section).fix(0).push(1, {0, 0, 0}, {1.2e6, 0, 0});
    book.structure().beams[0].warp_from = 0;
    if (tied_tip) book.structure().beams[0].warp_to = 1;
    book.solve();
    return book;
  };
  // TW-02 has the midline's warping constant.
  BeamSection midline = make_le5();
  midline.properties.warping_across_m6 = 0;
  const auto stress = [](const BeamSection& section, const section::SectionForces& f, int wall,
                         double share) {
    return section::calc_wall_stress(section.section, section.properties, f, {wall, share})
               ->axial_Pa /
           1e6;
  };
  const Book book = solve(midline, true);
  const auto f = book.forces(0, 0.25), root = book.forces(0, 0);
  const std::string source = "TW-02: [Vlasov]";
  expect_published("bimoment_Nm2", std::abs(f.bimoment_Nm2), {5.993e6, 5.993e3, source});
  expect_published("root_bimoment_Nm2", std::abs(root.bimoment_Nm2), {8.695e6, 8.695e3, source});
  expect_published("tip_MPa", std::abs(stress(midline, f, 0, 0)), {107.87, 0.10787, source});
  expect_published("web_corner_MPa", std::abs(stress(midline, f, 1, 0)), {35.96, 0.036, source});
  EXPECT_LT(stress(midline, f, 0, 0) * stress(midline, f, 1, 0), 0);
  expect_published("root_tip_MPa", std::abs(stress(midline, root, 0, 0)), {156.5, 0.1565, source});
  expect_published("tip_twist_rad", book.turned(1).x(), {0.03069, 3e-5, source});
  // An end that is left out is an end that is free to warp.
  EXPECT_NEAR(solve(midline, false).turned(1).x(), book.turned(1).x(), 1e-12);
  BeamSection plain = midline;
  plain.properties.warping_constant_m6 = 0;
  expect_published("tip_twist_without_warping_rad", solve(plain, false).turned(1).x(),
                   {0.1114, 1e-4, source});

  // The thickness warps too: 0.2 % of the warping constant.
  const BeamSection whole = make_le5();
  const double ours = -std::abs(stress(whole, solve(whole, true).forces(0, 0.25), 0, 0));
  expect_published("benchmark_MPa", ours, {-108, 0.02 * 108, "TW-01: NAFEMS LE5"});
  expect_published("shells_MPa", ours, {-110.4, 0.03 * 110.4, "TW-03: shells, 4 nodes"});
  expect_published("fine_shells_MPa", ours, {-109.7, 0.03 * 109.7, "TW-03: shells, 8 nodes"});
}

/// C10x15.3 by its tabulated J and C_w, in kip and in.
constexpr double kE = 29000, kG = 11200, kJ = 0.209, kCw = 45.5, kL = 60, kT = 5;

BeamSection make_c10(double Cw = kCw) {
  BeamSection out = make_plain(kE, kG, 4.48, 67.3, 2.27, kJ);
  out.properties.cells_torsion_constant_m4 = 0;
  out.properties.warping_constant_m6 = Cw;
  return out;
}

/// Two pieces, twist held at the ends named, warping held or free.
Book make_shaft(const BeamSection& section, double L, bool twist_at_end, bool warp_at_root,
                bool warp_at_end) {
  Book book({{0, 0, 0}, {L / 2, 0, 0}, {L, 0, 0}});
  book.structure().scalars = {{.held = warp_at_root}, {}, {.held = warp_at_end}};
  book.beam(0, 1, section).beam(1, 2, section).fix(0);
  for (int i = 0; i < 2; ++i) {
    book.structure().beams[at(i)].warp_from = i;
    book.structure().beams[at(i)].warp_to = i + 1;
  }
  if (twist_at_end) book.fix(2);
  return book;
}

const double kA = std::sqrt(kE * kCw / (kG * kJ));

TEST(ChannelInTorsion, SimplySupportedMidspanTorque) {
  Book book = make_shaft(make_c10(), kL, true, false, false);
  book.push(1, {0, 0, 0}, {kT, 0, 0}).solve();
  const double t = std::tanh(kL / (2 * kA));
  const double twist = kT / (2 * kG * kJ) * (kL / 2 - kA * t);
  const double slope = -kT * t / (2 * kG * kJ * kA);
  expect_published("twist_rad", book.turned(1).x(), {twist, 1e-9, "TW-07: [DG9] case 3"});
  // B = -E C_w theta''.
  expect_published("twist_slope_rad_per_in2", -book.forces(0, 1).bimoment_Nm2 / (kE * kCw),
                   {slope, 1e-9 * std::abs(slope), "TW-07: [DG9] case 3"});
}

TEST(ChannelInTorsion, Cantilever) {
  Book book = make_shaft(make_c10(), kL, false, true, false);
  book.push(2, {0, 0, 0}, {kT, 0, 0}).solve();
  const std::string source = "TW-08: [Vlasov]; [DG9] case 9";
  expect_published("a_in", kA, {23.74, 0.005, source});
  const double twist = book.turned(2).x();
  expect_published("tip_twist_rad", twist, {0.0781, 0.002 * 0.0781, source});
  const double B = std::abs(book.forces(0, 0).bimoment_Nm2);
  expect_published("root_bimoment_kip_in2", B, {117.2, 0.002 * 117.2, source});
  expect_published("root_stress_ksi", B * 7.48 / kCw, {19.3, 0.05, source});
  // Without warping the twist comes out 64 % too large.
  Book plain = make_shaft(make_c10(0), kL, false, true, false);
  for (Beam& beam : plain.structure().beams) beam.warp_from = beam.warp_to = -1;
  plain.push(2, {0, 0, 0}, {kT, 0, 0}).solve();
  expect_published("St_Venant_twist_rad", plain.turned(2).x(), {0.1282, 0.5e-4, source});
  expect_published("over_estimate_percent", 100 * (plain.turned(2).x() / twist - 1),
                   {64, 0.5, "TW-12"});
}

/// Torque per twist over GJ/L, both ends held in warping or free.
double stiffness_factor(double L, bool held, double* twist = nullptr) {
  Book book = make_shaft(make_c10(), L, false, held, held);
  book.push(2, {0, 0, 0}, {kT, 0, 0}).solve();
  if (twist != nullptr) *twist = book.turned(2).x();
  return kT / book.turned(2).x() / (kG * kJ / L);
}

TEST(ChannelInTorsion, WarpingHeldAtBothEnds) {
  double twist = 0;
  const double factor = stiffness_factor(kL, true, &twist);
  expect_published("twist_rad", twist, {0.04174, 0.5e-5, "TW-09: [DG9] case 1"});
  expect_published("factor", factor, {3.070, 0.0015, "TW-09: with a = 23.74 in"});
  const double exact = 1 / (1 - 2 * kA / kL * std::tanh(kL / (2 * kA)));
  expect_published("factor_exact", factor, {exact, 1e-8 * exact, "TW-09: closed form"});
}

TEST(ChannelInTorsion, WarpingFreeAtBothEnds) {
  expect_published("factor", stiffness_factor(kL, false), {1, 1e-9, "TW-10"});
}

TEST(ChannelInTorsion, ShortAndLong) {
  const double L_short = 1e-2 * kA, L_long = 1e4 * kA;
  const double limit = 12 * kA * kA / (L_short * L_short);
  // The next term of the series, 2/5 (L / 2a)^2, is 1e-5.
  expect_published("short_factor_over_limit", stiffness_factor(L_short, true) / limit,
                   {1 + 1e-5, 1e-6, "TW-11"});
  // tanh = 1 leaves 2 a / L.
  expect_published("long_factor", stiffness_factor(L_long, true), {1 / (1 - 2e-4), 1e-9, "TW-11"});
}

}  // namespace
}  // namespace rig::frame
