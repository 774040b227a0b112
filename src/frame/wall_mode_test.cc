#include "frame/wall_mode.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using section::WallFace;
using section::WallPoint;
using testing::at;

/// One beam anywhere, and how its `from` end moves.
struct Moved {
  Structure s;
  Response response;
  double rate = 0;
};

Moved make_moved(const section::Section& section, unsigned seed) {
  std::mt19937 random(seed);
  Moved out;
  Structure& s = out.s;
  s.joints = {{.p_VoJ_V = testing::random_vector(random, 1)},
              {.p_VoJ_V = testing::random_vector(random, 1) + Vec3(4, 0, 0)}};
  s.scalars.resize(2);
  s.members = {{"rail", "rail"}};
  s.sections = {testing::make_steel(section)};
  s.beams = {testing::make_beam(s, 0, 1, 0, testing::random_vector(random, 1), 0, 1)};
  s.beams[0].p_VoF_V += testing::random_vector(random, 0.1);
  out.rate = testing::uniform(random, -1, 1);
  out.response.displacement_V = {testing::random_vector(random, 1), Vec3::Zero()};
  out.response.rotation_V = {testing::random_vector(random, 1), Vec3::Zero()};
  out.response.scalar = {out.rate, 0};
  return out;
}

Mat3 axes_of(const Beam& beam) {
  Mat3 R;
  R.col(0) = (beam.p_VoT_V - beam.p_VoF_V).normalized();
  R.col(1) = (beam.y_V - R.col(0) * R.col(0).dot(beam.y_V)).normalized();
  R.col(2) = R.col(0).cross(R.col(1));
  return R;
}

/// Displacement of (y, z) of the section at `from`, straight from the kinematics of Vlasov.
Vec3 field(const Moved& moved, const Vec2& p_OP, double sectorial_m2) {
  const Beam& beam = moved.s.beams[0];
  const Mat3 R_VB = axes_of(beam);
  const Vec3 u = R_VB.transpose() * calc_displacement(moved.s, moved.response, 0, beam.p_VoF_V);
  const Vec3 r = R_VB.transpose() * moved.response.rotation_V[0];
  const double y = p_OP.x(), z = p_OP.y();
  return R_VB * Vec3(u.x() + z * r.y() - y * r.z() - sectorial_m2 * moved.rate, u.y() - z * r.x(),
                     u.z() + y * r.x());
}

/// Displacement of a place by the joint that follows the wall there.
Vec3 by_follower(const Moved& moved, const WallPoint& point, const Vec3& p_VoP_V) {
  const auto mode = make_wall_mode(moved.s, 0, BeamEnd::from, point);
  const Vec3 p_VoW_V = calc_wall_point(moved.s, 0, BeamEnd::from, point);
  return calc_displacement(moved.s, moved.response, 0, p_VoP_V) +
         moved.rate * (mode->displacement_V + mode->rotation_V.cross(p_VoP_V - p_VoW_V));
}

// Along a wall the follower goes with every place of it, across with both faces, whose sectorial
// coordinate is read from the stress of a bimoment.
RC_GTEST_PROP(WallMode, MovesAsTheDisplacementFieldDoes, ()) {
  const auto pool = testing::make_pool();
  const int which = *rc::gen::element(0, 1, 2, 3, 4, 5, 8);
  const Moved moved = make_moved(pool[at(which)], *rc::gen::arbitrary<unsigned>());
  const BeamSection& made = moved.s.sections[0];
  const section::SectionProperties& p = made.properties;
  const double warping_m6 = p.warping_constant_m6 + p.warping_across_m6;
  const Mat3 R_VB = axes_of(moved.s.beams[0]);
  for (std::size_t w = 0; w < made.section.walls.size(); ++w) {
    const section::Wall& wall = made.section.walls[w];
    const Vec2 p_OA = made.section.p_ON[at(wall.from)], p_OB = made.section.p_ON[at(wall.to)];
    const Vec2 along = (p_OB - p_OA).normalized(), left(-along.y(), along.x());
    const WallPoint here{.wall = static_cast<int>(w), .share = 0.3};
    const auto place = [&](const Vec2& p_OP) {
      return Vec3(moved.s.beams[0].p_VoF_V + R_VB * Vec3(0, p_OP.x(), p_OP.y()));
    };
    for (const double share : {0.0, 0.3, 1.0}) {
      const Vec2 p_OP = p_OA + share * (p_OB - p_OA);
      const double sectorial =
          p.sectorial_m2[at(wall.from)] * (1 - share) + p.sectorial_m2[at(wall.to)] * share;
      RC_ASSERT((by_follower(moved, here, place(p_OP)) - field(moved, p_OP, sectorial)).norm() <
                1e-13);
    }
    for (const double side : {1.0, -1.0}) {
      WallPoint face = here;
      face.face = side > 0 ? WallFace::left : WallFace::right;
      const auto stress = section::calc_wall_stress(made.section, p, {.bimoment_Nm2 = 1}, face);
      const Vec2 p_OP = p_OA + 0.3 * (p_OB - p_OA) + side * wall.thickness_m / 2 * left;
      RC_ASSERT((by_follower(moved, here, place(p_OP)) -
                 field(moved, p_OP, stress->axial_Pa * warping_m6))
                    .norm() < 1e-13);
    }
  }
}

TEST(WallMode, StandsWhereTheFollowerDoes) {
  const Moved moved = make_moved(testing::make_rail(), 3);
  const WallPoint point{.wall = 1, .share = 0.8};
  const Vec3 p_VoW_V = calc_wall_point(moved.s, 0, BeamEnd::from, point);
  const Vec3 p_VoJ_V = p_VoW_V + Vec3(0.1, -0.2, 0.3);
  const auto on_wall = make_wall_mode(moved.s, 0, BeamEnd::from, point);
  const auto off = make_wall_mode(moved.s, 0, BeamEnd::from, point, p_VoJ_V);
  EXPECT_EQ(off->scalar, 0);
  EXPECT_EQ(off->rotation_V, on_wall->rotation_V);
  EXPECT_LT(
      (off->displacement_V - on_wall->displacement_V - on_wall->rotation_V.cross(p_VoJ_V - p_VoW_V))
          .norm(),
      1e-15);
}

// A channel's web turns by -e times the twist rate about y in the right rail, which opens to the
// left, and by +e in the left one; it doesn't slide, and at mid-height it doesn't yaw.
TEST(WallMode, WebsOfLeftAndRightRailTurnAgainstEachOther) {
  for (const bool left_rail : {false, true}) {
    section::Section section = testing::make_rail();
    if (left_rail) section = mirror_section(section);
    Structure s;
    s.joints = {{.p_VoJ_V = {0, 0, 0}}, {.p_VoJ_V = {-2, 0, 0}}};
    s.scalars.resize(2);
    s.sections = {testing::make_steel(section)};
    // From front to rear or the other way: the beam's axes are V's only in one of them.
    s.beams = {testing::make_beam(s, 1, 0, 0, Vec3::UnitY(), 1, 0)};
    const double e = s.sections[0]->properties.p_OS.norm();
    EXPECT_NEAR(e, 0.02, 0.005);
    const WallPoint web{.wall = section::find_wall(section, "web"), .share = 0.5};
    const auto mode = make_wall_mode(s, 0, BeamEnd::to, web);
    EXPECT_EQ(mode->scalar, 0);
    EXPECT_LT(mode->displacement_V.norm(), 1e-15);
    EXPECT_LT((mode->rotation_V - Vec3(0, left_rail ? e : -e, 0)).norm(), 1e-15);
  }
}

TEST(WallMode, IsNothingWhereNothingWarps) {
  Structure s;
  s.joints = {{.p_VoJ_V = {0, 0, 0}}, {.p_VoJ_V = {1, 0, 0}}};
  s.scalars.resize(2);
  s.sections = {testing::make_steel(testing::make_rail()),
                testing::make_steel(testing::make_pool()[6])};
  s.beams = {testing::make_beam(s, 0, 1, 0, Vec3::UnitY(), -1, 1),
             testing::make_beam(s, 0, 1, 1, Vec3::UnitY(), 0, 1)};
  EXPECT_FALSE(make_wall_mode(s, 0, BeamEnd::from, {}).has_value());
  EXPECT_TRUE(make_wall_mode(s, 0, BeamEnd::to, {}).has_value());
  EXPECT_FALSE(make_wall_mode(s, 1, BeamEnd::to, {}).has_value());
  EXPECT_THROW(make_wall_mode(s, 0, BeamEnd::to, {.wall = 3}), LogicError);
}

}  // namespace
}  // namespace rig::frame
