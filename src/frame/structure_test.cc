#include "frame/structure.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/Geometry>
#include <functional>

#include "base/nan.h"
#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using testing::at;

/// A rail and a crossmember in a T, with one of everything.
Structure make_good() {
  Structure s;
  s.joints = {{.p_VoJ_V = {0, 0, 0}, .place = "rail at 0 in"},
              {.p_VoJ_V = {-1, 0, 0}, .place = "rail at 40 in"},
              {.p_VoJ_V = {-2, 0, 0}, .place = "rail at 80 in"},
              {.p_VoJ_V = {-1, 0, 0}, .follows = 1, .modes = {{.scalar = 3}}, .place = "weld"},
              {.p_VoJ_V = {-1, 1, 0}, .place = "far end of the tube"}};
  s.scalars.resize(4);
  s.members = {{"rail", "left rail"}, {"tube", "tank crossmember"}};
  const auto pool = testing::make_pool();
  s.sections = {testing::make_steel(pool[0]), testing::make_steel(pool[6])};
  s.beams = {testing::make_beam(s, 1, 0, 0, Vec3::UnitY(), 1, 0),
             testing::make_beam(s, 2, 1, 0, Vec3::UnitY(), 2, 1),
             testing::make_beam(s, 3, 4, 1, Vec3::UnitX())};
  s.beams[2].member = 1;
  s.scalar_springs = {{.scalars = {3}, .stiffness = Eigen::MatrixXd::Constant(1, 1, 1e5)}};
  s.joint_springs = {
      {.from = -1, .to = 0, .stiffness_N_per_m = Vec3::Constant(1e5), .place = "stand"}};
  return s;
}

struct Fault {
  const char* code;
  const char* path;
  std::function<void(Structure&)> make;
};

template <typename Part>
void alter(Shared<BeamSection>& section, Part BeamSection::*part, std::type_identity_t<Part> to) {
  BeamSection altered = *section;
  altered.*part = std::move(to);
  section = std::move(altered);
}

TEST(CheckStructure, NamesEveryFaultAndItsPlace) {
  ASSERT_TRUE(check_structure(make_good()).empty()) << check_structure(make_good())[0].message;
  const std::vector<Fault> faults = {
      {"frame.no_joints", "/joints", [](auto& s) { s = {}; }},
      {"frame.not_finite", "/joints/2/p_VoJ_V", [&](auto& s) { s.joints[2].p_VoJ_V.z() = kNaN; }},
      {"frame.follows_later", "/joints/3/follows", [](auto& s) { s.joints[3].follows = 4; }},
      {"frame.modes_without_follow", "/joints/3/modes", [](auto& s) { s.joints[3].follows = -1; }},
      {"frame.unknown_scalar", "/joints/3/modes/0/scalar",
       [](auto& s) { s.joints[3].modes[0].scalar = 9; }},
      {"frame.not_finite", "/joints/3/modes/0",
       [&](auto& s) { s.joints[3].modes[0].rotation_V.x() = kNaN; }},
      {"frame.not_finite", "/scalars/1/ratio", [&](auto& s) { s.scalars[1].ratio = kNaN; }},
      {"frame.follows_later", "/scalars/1/of", [](auto& s) { s.scalars[1].of = 1; }},
      {"frame.material_not_positive", "/sections/1/G_Pa",
       [](auto& s) { alter(s.sections[1], &BeamSection::G_Pa, 0); }},
      {"frame.material_not_positive", "/sections/0/density_kg_per_m3",
       [](auto& s) { alter(s.sections[0], &BeamSection::density_kg_per_m3, kNaN); }},
      {"frame.section_not_positive", "/sections/0/properties",
       [](auto& s) {
         section::SectionProperties properties = s.sections[0]->properties;
         properties.I_yz_m4 = 1;
         alter(s.sections[0], &BeamSection::properties, properties);
       }},
      {"frame.section_not_positive", "/sections/1/properties",
       [](auto& s) {
         section::SectionProperties properties = s.sections[1]->properties;
         properties.p_OS.x() = kNaN;
         alter(s.sections[1], &BeamSection::properties, properties);
       }},
      {"frame.unknown_member", "/beams/0/member", [](auto& s) { s.beams[0].member = -1; }},
      {"frame.unknown_joint", "/beams/0/from", [](auto& s) { s.beams[0].from = 5; }},
      {"frame.unknown_joint", "/beams/0/to", [](auto& s) { s.beams[0].to = -1; }},
      {"frame.unknown_section", "/beams/2/section", [](auto& s) { s.beams[2].section = 2; }},
      {"frame.unknown_scalar", "/beams/1/warp_from", [](auto& s) { s.beams[1].warp_from = 4; }},
      {"frame.unknown_scalar", "/beams/1/warp_to", [](auto& s) { s.beams[1].warp_to = -2; }},
      {"frame.not_finite", "/beams/1", [&](auto& s) { s.beams[1].y_V.x() = kNaN; }},
      {"frame.beam_without_length", "/beams/1",
       [](auto& s) { s.beams[1].p_VoF_V = s.beams[1].p_VoT_V; }},
      {"frame.y_along_beam", "/beams/0/y_V", [](auto& s) { s.beams[0].y_V = -Vec3::UnitX(); }},
      {"frame.unknown_scalar", "/scalar_springs/0/scalars/0",
       [](auto& s) { s.scalar_springs[0].scalars[0] = 7; }},
      {"frame.spring_wrong_size", "/scalar_springs/0/stiffness",
       [](auto& s) { s.scalar_springs[0].scalars.push_back(2); }},
      {"frame.not_finite", "/scalar_springs/0/stiffness",
       [&](auto& s) { s.scalar_springs[0].stiffness(0, 0) = kNaN; }},
      {"frame.spring_not_symmetric", "/scalar_springs/0/stiffness",
       [](auto& s) {
         s.scalar_springs[0].scalars = {2, 3};
         s.scalar_springs[0].stiffness = Eigen::MatrixXd{{2, 1}, {0, 2}};
       }},
      {"frame.spring_negative", "/scalar_springs/0/stiffness",
       [](auto& s) {
         s.scalar_springs[0].scalars = {2, 3};
         s.scalar_springs[0].stiffness = Eigen::MatrixXd{{1, 2000}, {2000, 1e6}};
       }},
      {"frame.unknown_joint", "/joint_springs/0/from",
       [](auto& s) { s.joint_springs[0].from = 5; }},
      {"frame.unknown_joint", "/joint_springs/0/to", [](auto& s) { s.joint_springs[0].to = -1; }},
      {"frame.not_finite", "/joint_springs/0",
       [&](auto& s) { s.joint_springs[0].p_VoP_V.x() = kNaN; }},
      {"frame.axes_not_square", "/joint_springs/0/R_VS",
       [](auto& s) { s.joint_springs[0].R_VS(0, 1) = 0.1; }},
      {"frame.spring_negative", "/joint_springs/0",
       [](auto& s) { s.joint_springs[0].stiffness_Nm_per_rad.y() = -1; }},
      {"frame.disconnected", "/joints/3",
       [](auto& s) {
         s.joints[3] = {.p_VoJ_V = {-1, 0, 0}, .place = "near end"};
       }},
      {"frame.disconnected", "/joints/2", [](auto& s) { s.beams.erase(s.beams.begin() + 1); }},
  };
  for (const Fault& fault : faults) {
    Structure s = make_good();
    fault.make(s);
    const Diagnostics told = check_structure(s);
    ASSERT_EQ(told.size(), 1U) << fault.code << " " << fault.path;
    EXPECT_EQ(told[0].code, fault.code) << fault.path;
    EXPECT_EQ(told[0].path, fault.path);
    EXPECT_FALSE(told[0].message.empty());
  }
}

TEST(CheckStructure, SaysInWordsWhatHangsLoose) {
  Structure s = make_good();
  s.joints[3] = {.p_VoJ_V = {-1, 0, 0}, .place = "near end of the tube"};
  EXPECT_EQ(check_structure(s)[0].message,
            "tank crossmember, at near end of the tube and what hangs on it are not joined to the "
            "rest of the frame");
  // A stand of its own joins it by the ground.
  s.joint_springs.push_back(s.joint_springs[0]);
  s.joint_springs[1].to = 4;
  EXPECT_TRUE(check_structure(s).empty());
}

TEST(CheckStructure, TellsAllAtOnce) {
  Structure s = make_good();
  s.beams[0].section = 7;
  s.beams[1].y_V = Vec3::UnitX();
  s.scalars[2].of = 3;
  EXPECT_EQ(check_structure(s).size(), 3U);
}

TEST(BodyForces, AddUpToTheWeightAtTheMassCentre) {
  const Structure s = testing::make_random_frame(11);
  const Vec3 a_V(1, -2, 9.81);
  Loads loads;
  add_body_forces(s, a_V, loads);
  double mass_kg = 0;
  Vec3 moment_kg_m = Vec3::Zero();
  for (const Beam& beam : s.beams) {
    const BeamSection& made = s.sections[at(beam.section)];
    const Vec3 along = beam.p_VoT_V - beam.p_VoF_V, x = along.normalized();
    const Vec3 y = (beam.y_V - x * x.dot(beam.y_V)).normalized();
    const double kg = made.density_kg_per_m3 * made.properties.area_m2 * along.norm();
    const Vec2& C = made.properties.p_OC;
    mass_kg += kg;
    moment_kg_m += kg * ((beam.p_VoF_V + beam.p_VoT_V) / 2 + C.x() * y + C.y() * x.cross(y));
  }
  const Resultant all = calc_resultant(s, loads);
  EXPECT_LT((all.f_V + mass_kg * a_V).norm(), 1e-9 * mass_kg);
  EXPECT_LT((all.t_Vo_V + moment_kg_m.cross(a_V)).norm(), 1e-9 * mass_kg);
}

TEST(Resultant, CountsForcesAndMoments) {
  const Structure s = make_good();
  const Loads loads{
      .points = {{.joint = 4, .p_VoP_V = {0, 2, 0}, .f_P_V = {3, 0, 5}, .t_V = {0, 7, 0}}}};
  const Resultant all = calc_resultant(s, loads);
  EXPECT_EQ(all.f_V, Vec3(3, 0, 5));
  EXPECT_EQ(all.t_Vo_V, Vec3(10, 7, -6));
}

// Shear flexibility is a tensor: turned with the section it has the turned section's numbers.
RC_GTEST_PROP(BeamSection, ShearFlexibilityTurnsWithTheSection, ()) {
  const double angle = *rc::gen::inRange(-300, 300) * 0.01;
  const auto tensor = [](const section::Section& section) {
    const BeamSection made = testing::make_steel(section);
    Eigen::Matrix2d out;
    out << 1 / made.properties.shear_area_y_m2, made.shear_cross_per_m2, made.shear_cross_per_m2,
        1 / made.properties.shear_area_z_m2;
    return out;
  };
  const Eigen::Rotation2Dd turn(angle);
  for (const int i : {0, 3, 4, 5, 7, 9}) {
    const section::Section section = testing::make_pool()[at(i)];
    const Eigen::Matrix2d R = turn.toRotationMatrix(), before = tensor(section);
    const Eigen::Matrix2d expected = R * before * R.transpose();
    RC_ASSERT((tensor(rotate_section(section, angle)) - expected).norm() <= 1e-9 * expected.norm());
  }
}

TEST(BeamSection, PassesOnWhatIsWrongWithTheSection) {
  const auto made = make_beam_section({}, 2e11, 8e10, 7850);
  ASSERT_FALSE(made.has_value());
  EXPECT_EQ(made.error()[0].code, "section.no_walls");
}

}  // namespace
}  // namespace rig::frame
