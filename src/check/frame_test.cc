// The frame in the flow: loads that balance, and a frame that the truck settles on.

#include "check/frame.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "check/frame_cases.h"
#include "check/test_builds_internal.h"
#include "suspension/frame_forces.h"

namespace rig::check {
namespace {

using testing::example_report;
using testing::kExamples;
using testing::read_example;

TEST(FrameCases, EveryLoadBalances) {
  for (const char* name : kExamples) {
    SCOPED_TRACE(name);
    const build::Build build = read_example(name).build;
    const Report& report = example_report(name);
    const auto model = frame::make_model(build, build::planned_parts(build.frame));
    ASSERT_TRUE(model.has_value());
    const FrameCases cases = make_frame_cases(build, report);
    EXPECT_GT(cases.cases.size(), 5U);
    for (const auto& of : cases.cases) {
      SCOPED_TRACE(of.id);
      const auto loads = lay_case(build, *model, of);
      ASSERT_TRUE(loads.has_value()) << loads.error().front().path;
      double size_N = 0;
      for (const auto& point : loads->points) size_N += point.f_P_V.norm();
      const auto rest = frame::calc_resultant(model->structure, *loads);
      EXPECT_LT(rest.f_V.norm(), 1e-6 * size_N);
      EXPECT_LT(rest.t_Vo_V.norm(), 1e-6 * size_N);
    }
  }
}

TEST(FrameCases, StandingNeedsNoInertia) {
  // What lies on the frame and what the axles put on it are in balance by themselves: the same
  // sum by two ways, weigh's items and settle's springs.
  for (const char* name : kExamples) {
    SCOPED_TRACE(name);
    const build::Build build = read_example(name).build;
    const Report& report = example_report(name);
    for (const auto& of : make_frame_cases(build, report).cases) {
      const auto weight = suspension::calc_frame_weight(of.truck, of.settled);
      Vec3 f = weight.f_V, t = weight.t_Vo_V;
      for (const auto& force : suspension::calc_frame_forces(of.truck, of.settled)) {
        f += force.f_F_V;
        t += force.p_VoF_V.cross(force.f_F_V) + force.t_V;
      }
      EXPECT_LT(f.norm(), 1e-6 * weight.f_V.norm()) << of.id;
      if (of.id.starts_with("standing")) {
        EXPECT_LT(t.norm(), 1e-6 * weight.f_V.norm());
      }
      // Pushes move with the wheels that they act on: a little yaw is left to inertia.
      EXPECT_LT(t.norm(), 0.05 * weight.f_V.norm()) << of.id;
    }
  }
}

TEST(FrameCases, ShaftsLiftTheLeftSideOfWhatHoldsThem) {
  // Shafts that turn clockwise seen from the front turn their axles about -x and the frame, which
  // holds against them, the other way. It is a couple inside the truck: on the ground is left only
  // what the balance point's lean adds.
  const build::Build build = read_example(testing::kTowRig).build;
  const Report& report = example_report(testing::kTowRig);
  const FrameCases cases = make_frame_cases(build, report);
  const auto find = [&](const std::string& id) {
    return *std::find_if(cases.cases.begin(), cases.cases.end(),
                         [&](const FrameCase& of) { return of.id == id; });
  };
  const FrameCase turned = find("torque.low_gear");
  const FrameCase standing = find("standing." + turned.state);
  double moment_Nm = 0, all_N = 0;
  for (std::size_t a = 0; a < 2; ++a) {
    const auto& now = turned.settled.axles[a].wheel_loads_N;
    const auto& was = standing.settled.axles[a].wheel_loads_N;
    moment_Nm += turned.truck.axles[a].track_m / 2 * (now[0] - was[0] - now[1] + was[1]);
    all_N += now[0] + now[1] - was[0] - was[1];
  }
  EXPECT_NEAR(all_N, 0, 1e-3);
  ASSERT_EQ(turned.couples.size(), 1U);
  const double couple_Nm = turned.couples[0].t_W.x();
  EXPECT_GT(couple_Nm, 0);
  EXPECT_LT(std::abs(moment_Nm), 0.2 * couple_Nm);
  EXPECT_GT(turned.settled.roll_rad, standing.settled.roll_rad + 0.005);
}

TEST(Frame, TwistsUnderTheTruckUnlessTheFileTells) {
  build::Build build = read_example(testing::kTowRig).build;
  build.frame.twist_stiffness = {};
  const Report report = check(build, Thorough::kWithoutAdvice);
  ASSERT_TRUE(report.frame.has_value());
  const double twist = report.frame->twist_stiffness_Nm_per_rad();
  EXPECT_GT(twist, 0);
  EXPECT_EQ(report.ride()->truck->frame_twist_stiffness_Nm_per_rad, twist);
  build.frame.twist_stiffness.si = 123456;
  EXPECT_EQ(check(build).ride()->truck->frame_twist_stiffness_Nm_per_rad, 123456);
}

TEST(Frame, TellsDonorPlannedAndStages) {
  const build::Build build = read_example(testing::kTowRig).build;
  const Report& report = example_report(testing::kTowRig);
  ASSERT_TRUE(report.frame.has_value());
  EXPECT_EQ(report.frame->states.size(), 2 + build.frame.stages.size());
  for (const auto& state : report.frame->states) EXPECT_TRUE(state.whole.has_value()) << state.id;
  EXPECT_EQ(report.frame->worst.size(), 12U);
  EXPECT_NE(report.finding("frame.twist"), nullptr);
  EXPECT_NE(report.finding("frame.stress.bump"), nullptr);
  // Worst first.
  for (std::size_t i = 1; i < report.frame->worst.size(); ++i) {
    EXPECT_GE(report.frame->worst[i - 1].von_mises_Pa, report.frame->worst[i].von_mises_Pa);
  }
}

TEST(Frame, ACaseWhoseMountGoesWithItsCrossmemberIsToBeHeld) {
  const Finding* cut = example_report(testing::kTowRig).finding("frame.stage.cut");
  ASSERT_NE(cut, nullptr);
  EXPECT_EQ(cut->verdict, Verdict::kLook);
  EXPECT_NE(cut->assumption.find("diesel engine, dressed is taken to be held up"),
            std::string::npos);
  EXPECT_NE(cut->advice.find("on the hoist"), std::string::npos);
  const Finding* boxed = example_report(testing::kTowRig).finding("frame.stage.boxed");
  EXPECT_EQ(boxed->assumption.find("held up"), std::string::npos);
}

TEST(Frame, TellsStressAtAllThatIsFixedToIt) {
  for (const char* name : kExamples) {
    SCOPED_TRACE(name);
    const build::Build build = read_example(name).build;
    const Report& report = example_report(name);
    ASSERT_TRUE(report.frame.has_value());
    const FrameReport& frame = *report.frame;
    const auto model = frame::make_model(build, build::planned_parts(build.frame));
    std::size_t fixed = 0;
    for (const auto& one : model->attachments) {
      if (one.kind == frame::AttachmentKind::stand ||
          one.kind == frame::AttachmentKind::axle_line ||
          one.kind == frame::AttachmentKind::middle) {
        continue;
      }
      ++fixed;
      EXPECT_EQ(std::count_if(frame.points.begin(), frame.points.end(),
                              [&](const FixedPoint& point) {
                                return point.path == one.path && point.sign == one.sign;
                              }),
                1)
          << one.path;
    }
    EXPECT_EQ(frame.points.size(), fixed);
    for (const FixedPoint& point : frame.points) {
      EXPECT_LE(point.stress.von_mises_Pa, frame.worst.front().von_mises_Pa) << point.path;
      EXPECT_EQ(std::count_if(frame.cases.begin(), frame.cases.end(),
                              [&](const auto& of) { return of.id == point.stress.case_id; }),
                1);
    }
  }
}

TEST(Frame, NothingWithoutRails) {
  const auto read = build::read_build(R"({"version": 1, "name": "Nothing yet"})");
  ASSERT_TRUE(read.has_value());
  EXPECT_FALSE(check(read->build).frame.has_value());
}

}  // namespace
}  // namespace rig::check
