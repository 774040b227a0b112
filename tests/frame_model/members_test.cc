// A lone rail, open, boxed in part and boxed all along: its beams against the shell models of
// tests/shells/members.py (CalculiX, S8R) in torsion, warping at its ends free and held.

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/frame_model/shell_cases.h"

namespace rig::frame {
namespace {

using testing::Json;

constexpr double kFirm = 1e13;  // N/m, N m/rad: as good as held.

/// The case as a build of one rail.
build::Build make_lone_rail(Json member) {
  member["web_to_web_m"] = 0.9;
  member["crossmembers"] = Json::array();
  const double length_m = member["rail"]["length_m"];
  member["stations_m"] = {{"front", 0.0}, {"middle", length_m / 2}, {"rear", length_m}};
  build::Build build = testing::make_build(member);
  for (auto& rail : build.frame.rails) rail.value.both_sides = false;
  build.frame.mounts = {};
  return build;
}

/// Joint and twist rate at an end of the rail.
struct End {
  int joint = -1;
  int rate = -1;
};
End find_end(const Model& model, bool front) {
  std::size_t found = 0;
  for (std::size_t b = 1; b < model.beams.size(); ++b) {
    const bool further = front ? model.beams[b].begin_m < model.beams[found].begin_m
                               : model.beams[b].end_m > model.beams[found].end_m;
    if (further) found = b;
  }
  const Beam& beam = model.structure.beams[found];
  return front ? End{beam.to, beam.warp_to} : End{beam.from, beam.warp_from};
}

/// N m/rad between the ends.
double torsion_stiffness(const Json& member, bool held) {
  const build::Build build = make_lone_rail(member);
  auto model = make_model(build, build::planned_parts(build.frame));
  if (!model) throw std::logic_error(model.error().front().message);
  Structure& s = model->structure;
  const End front = find_end(*model, true), rear = find_end(*model, false);
  const auto place = [&](const End& end) {
    return s.joints[static_cast<std::size_t>(end.joint)].p_VoJ_V;
  };
  if (held) {
    for (const End& end : {front, rear}) {
      if (end.rate >= 0) s.scalars[static_cast<std::size_t>(end.rate)].held = true;
    }
    s.joint_springs.push_back({.to = front.joint,
                               .p_VoP_V = place(front),
                               .stiffness_N_per_m = Vec3::Constant(kFirm),
                               .stiffness_Nm_per_rad = Vec3::Constant(kFirm),
                               .place = "front end"});
    s.joint_springs.push_back({.to = rear.joint,
                               .p_VoP_V = place(rear),
                               .stiffness_N_per_m = {kFirm, 0, 0},
                               .stiffness_Nm_per_rad = {0, kFirm, kFirm},
                               .place = "rear end"});
  }
  Loads loads;
  for (const auto& [end, torque] : {std::pair(front, 1.0), std::pair(rear, -1.0)}) {
    loads.points.push_back({.joint = end.joint,
                            .p_VoP_V = place(end),
                            .f_P_V = Vec3::Zero(),
                            .t_V = Vec3(torque, 0, 0)});
  }
  const auto solver = Solver::make(s);
  if (!solver) throw std::logic_error(solver.error().front().message);
  const auto responses = solver->solve({&loads, 1});
  if (!responses) throw std::logic_error(responses.error().front().message);
  const auto twist = [&](const End& end) {
    return responses->front().rotation_V[static_cast<std::size_t>(end.joint)].x();
  };
  return 1 / (twist(front) - twist(rear));
}

class Members : public ::testing::TestWithParam<const char*> {};

TEST_P(Members, MeetTheirShellsInTorsion) {
  const std::string name = GetParam();
  const Json member = testing::read_member_cases()[name];
  const Json shells = testing::read_member_results()[name];
  ASSERT_FALSE(shells.is_null());
  // Sharp folds of shells lose up to 4.5 % of an open section's torsion constant.
  const double fair = member.contains("boxing") ? 0.1 : 0.05;
  EXPECT_NEAR(torsion_stiffness(member, false) / shells["torsion_free_Nm_per_rad"].get<double>(), 1,
              fair);
  EXPECT_NEAR(torsion_stiffness(member, true) / shells["torsion_held_Nm_per_rad"].get<double>(), 1,
              fair);
}

INSTANTIATE_TEST_SUITE_P(Rails, Members,
                         ::testing::Values("channel", "channel_bends", "boxed_30", "boxed_50",
                                           "boxed_70", "boxed"));

// NAFEMS LE5: -108 MPa at A.
TEST(ShellsOfLE5, MeetTheBenchmark) {
  const Json le5 = testing::read_member_results()["LE5"];
  ASSERT_FALSE(le5.is_null());
  EXPECT_NEAR(std::abs(le5["axial_at_A_Pa"].get<double>()), 108e6, 0.03 * 108e6);
}

}  // namespace
}  // namespace rig::frame
