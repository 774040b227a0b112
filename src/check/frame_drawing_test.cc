// The frame as it is drawn, against what the solver and the report say of the same case.

#include "check/frame_drawing.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "check/frame_shape.h"
#include "check/test_builds_internal.h"

namespace rig::check {
namespace {

using testing::example_report;
using testing::kExamples;
using testing::read_example;

FrameDrawing drawing_of(const build::Build& build, const Report& report, std::size_t index) {
  return draw_frame(build, *report.frame->loaded, index, Printer(build.units));
}

template <typename Each>
void each_point(const FrameDrawing& drawing, const Each& each) {
  for (const auto& member : drawing.members) {
    for (const auto& piece : member.pieces) {
      for (const auto& point : piece.points) each(point);
    }
  }
}

TEST(FrameShape, RigidMotionOfAFrameLeavesNothing) {
  const build::Build build = read_example(testing::kTowRig).build;
  const auto model = frame::make_model(build, build::planned_parts(build.frame));
  ASSERT_TRUE(model.has_value());
  const RigidMotion is{{0.01, -0.02, 0.03}, {0.001, 0.002, -0.003}};
  frame::Response response;
  for (const auto& joint : model->structure.joints) {
    response.displacement_V.push_back(is.at(joint.p_VoJ_V));
    response.rotation_V.push_back(is.r_V);
  }
  response.scalar.assign(model->structure.scalars.size(), 0);
  const RigidMotion ride = find_ride_motion(*model, response);
  for (std::size_t b = 0; b < model->structure.beams.size(); ++b) {
    const auto& beam = model->structure.beams[b];
    for (const double share : {0.0, 0.3, 1.0}) {
      const Vec3 p = beam.p_VoF_V + share * (beam.p_VoT_V - beam.p_VoF_V);
      const SectionMotion motion =
          calc_section_motion(model->structure, response, static_cast<int>(b), share);
      EXPECT_LT((motion.d_V - ride.at(p)).norm(), 1e-12);
      EXPECT_LT((motion.r_V - ride.r_V).norm(), 1e-12);
    }
  }
}

TEST(FrameShape, BeamBentByCouplesSagsInACurve) {
  // Couples M at both ends of a free beam: the middle lies M L^2 / (8 E I) off the chord.
  const double length_m = 2, M_Nm = 500, E_Pa = 200e9, G_Pa = 77e9;
  section::Section flat;
  flat.p_ON = {{0, -0.05}, {0, 0.05}};
  flat.walls = {{.from = 0, .to = 1, .thickness_m = 0.01, .part = "plate"}};
  const auto section = frame::make_beam_section(flat, E_Pa, G_Pa, 7850);
  ASSERT_TRUE(section.has_value());
  frame::Structure structure;
  structure.joints = {{.p_VoJ_V = Vec3::Zero(), .modes = {}, .place = "a"},
                      {.p_VoJ_V = {length_m, 0, 0}, .modes = {}, .place = "b"}};
  structure.sections = {*section};
  structure.members = {{"beam", "beam"}};
  structure.beams = {{.from = 0, .to = 1, .p_VoT_V = {length_m, 0, 0}, .section = 0, .member = 0}};
  const auto solver = frame::Solver::make(structure);
  ASSERT_TRUE(solver.has_value()) << solver.error().front().message;
  const frame::Loads loads{
      .points = {{.joint = 0, .t_V = {0, -M_Nm, 0}},
                 {.joint = 1, .p_VoP_V = {length_m, 0, 0}, .t_V = {0, M_Nm, 0}}},
      .lines = {},
      .scalars = {}};
  const auto response = solver->solve(std::span(&loads, 1));
  ASSERT_TRUE(response.has_value()) << response.error().front().message;
  const auto at = [&](double share) {
    return calc_section_motion(structure, response->front(), 0, share).d_V;
  };
  const double expected_m = M_Nm * length_m * length_m / (8 * E_Pa * section->properties.I_y_m4);
  const Vec3 off = at(0.5) - (at(0) + at(1)) / 2;
  EXPECT_NEAR(std::abs(off.z()), expected_m, 1e-9 * expected_m);
  EXPECT_LT(std::hypot(off.x(), off.y()), 1e-9 * expected_m);
  // A quarter of the way it is three quarters as far off.
  EXPECT_NEAR(std::abs((at(0.25) - (3 * at(0) + at(1)) / 4).z()), 0.75 * expected_m,
              1e-9 * expected_m);
}

TEST(FrameShape, ExaggerationIsARoundNumberOfReadableSize) {
  EXPECT_EQ(find_exaggeration(0.004, 0.2), 50);
  EXPECT_EQ(find_exaggeration(0.0041, 0.2), 20);
  EXPECT_EQ(find_exaggeration(0.3, 0.2), 1);
  EXPECT_EQ(find_exaggeration(0, 0.2), 1000);
  EXPECT_EQ(round_step_up(3.2), 4);
  EXPECT_EQ(round_step_up(5), 5);
  EXPECT_NEAR(round_step_up(0.11), 0.15, 1e-12);
  EXPECT_EQ(round_step_up(85), 100);
  EXPECT_EQ(round_step_up(0), 1);
}

TEST(FrameDrawing, GreatestStressIsThatOfTheReport) {
  for (const char* name : kExamples) {
    SCOPED_TRACE(name);
    const build::Build build = read_example(name).build;
    const Report& report = example_report(name);
    const LoadedFrame& loaded = *report.frame->loaded;
    ASSERT_EQ(report.frame->cases.size(), loaded.cases.size());
    for (std::size_t i = 0; i < loaded.cases.size(); i += 3) {
      SCOPED_TRACE(loaded.cases[i].id);
      const auto drawing = draw_frame(build, loaded, i, Printer(build.units));
      const StressPlace& worst = drawing.after.worst;
      EXPECT_EQ(worst.where, report.frame->cases[i].worst.front().where);
      EXPECT_NEAR(worst.von_mises_Pa, report.frame->cases[i].worst.front().von_mises_Pa,
                  1e-6 * worst.von_mises_Pa);
      double most_Pa = 0;
      int level = 0;
      each_point(drawing, [&](const DrawnPoint& point) {
        if (!point.after) return;
        most_Pa = std::max(most_Pa, point.after->von_mises_Pa);
        level = std::max(level, point.after->level);
        EXPECT_GE(point.after->von_mises_Pa,
                  drawing.levels_Pa[static_cast<std::size_t>(point.after->level)]);
      });
      EXPECT_GE(level, 2);
      // Even loads between two points are small.
      EXPECT_LE(most_Pa, 1.001 * worst.von_mises_Pa);
      EXPECT_GE(most_Pa, 0.95 * worst.von_mises_Pa);
      EXPECT_LE(drawing.exaggeration * drawing.after.most_m, 0.3);
    }
  }
}

TEST(FrameDrawing, WithoutChangesBothStatesAreOne) {
  build::Build build = read_example(testing::kTowRig).build;
  for (auto& crossmember : build.frame.crossmembers) crossmember.value.fate = build::Fate::kStays;
  for (auto& plate : build.frame.plates) plate.value.fate = build::Fate::kStays;
  const FrameDrawing drawing = drawing_of(build, check(build, Thorough::kWithoutAdvice), 0);
  ASSERT_TRUE(drawing.before.has_value());
  EXPECT_EQ(drawing.before->worst.where, drawing.after.worst.where);
  each_point(drawing, [](const DrawnPoint& point) {
    ASSERT_TRUE(point.before && point.after);
    EXPECT_EQ(point.before->d_V, point.after->d_V);
    EXPECT_EQ(point.before->von_mises_Pa, point.after->von_mises_Pa);
  });
}

TEST(FrameDrawing, PartsOfOneStateHaveNoOther) {
  const build::Build build = read_example(testing::kTowRig).build;
  const auto is_in = [&](const std::string& path, const build::PartsIn& parts) {
    return path.starts_with("/frame/rails/") || parts.contains(path.substr(path.rfind('/') + 1));
  };
  const build::PartsIn donor = build::donor_parts(build.frame);
  const build::PartsIn planned = build::planned_parts(build.frame);
  EXPECT_NE(donor, planned);
  const FrameDrawing drawing = drawing_of(build, example_report(testing::kTowRig), 1);
  for (const auto& member : drawing.members) {
    SCOPED_TRACE(member.path);
    EXPECT_EQ(member.before, is_in(member.path, donor));
    EXPECT_EQ(member.after, is_in(member.path, planned));
    for (const auto& piece : member.pieces) {
      EXPECT_GE(piece.points.size(), 3U);
      for (const auto& point : piece.points) {
        EXPECT_EQ(point.before.has_value(), member.before);
        EXPECT_EQ(point.after.has_value(), member.after);
      }
    }
    // From end to end without a gap.
    for (std::size_t i = 1; i < member.pieces.size(); ++i) {
      const Vec3 gap =
          member.pieces[i].points.front().p_VoP_V - member.pieces[i - 1].points.back().p_VoP_V;
      EXPECT_LT(gap.norm(), 0.1) << i;
    }
  }
}

TEST(FrameDrawing, MirroredTruckIsDrawnMirrored) {
  const build::Build build = read_example(testing::kTowRig).build;
  const auto standing = [](const FrameDrawing& drawing, int sign) {
    std::vector<DrawnPoint> points;
    for (const auto& member : drawing.members) {
      if (!member.path.starts_with("/frame/rails/")) continue;
      for (const auto& piece : member.pieces) {
        for (const auto& point : piece.points) {
          if (sign * point.p_VoP_V.y() > 0) points.push_back(point);
        }
      }
    }
    return points;
  };
  const build::Build turned = testing::mirrored(build);
  const FrameDrawing as_is = drawing_of(build, example_report(testing::kTowRig), 0);
  const FrameDrawing other = drawing_of(turned, check(turned, Thorough::kWithoutAdvice), 0);
  const auto left = standing(as_is, 1), right = standing(other, -1);
  ASSERT_EQ(left.size(), right.size());
  ASSERT_GT(left.size(), 20U);
  const double most_m = as_is.after.most_m;
  for (std::size_t i = 0; i < left.size(); ++i) {
    const Vec3& d = right[i].after->d_V;
    EXPECT_LT((left[i].after->d_V - Vec3(d.x(), -d.y(), d.z())).norm(), 1e-5 * most_m) << i;
    EXPECT_NEAR(left[i].after->von_mises_Pa, right[i].after->von_mises_Pa,
                1e-5 * as_is.after.worst.von_mises_Pa);
  }
  EXPECT_EQ(as_is.exaggeration, other.exaggeration);
}

}  // namespace
}  // namespace rig::check
