// Stress where things are fixed to the frame: in closed form, against the worst of all, mirrored.

#include "frame/attachment_stress.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "frame/index_internal.h"
#include "frame/stage_history_internal.h"
#include "frame/stands.h"
#include "frame/test_builds_internal.h"
#include "units/factors.h"

namespace rig::frame {
namespace {

using testing::Json;

const Attachment& find_attachment(const Model& model, const std::string& path, int sign) {
  const auto found =
      std::find_if(model.attachments.begin(), model.attachments.end(),
                   [&](const Attachment& one) { return one.path == path && one.sign == sign; });
  EXPECT_NE(found, model.attachments.end()) << path;
  return *found;
}

const AttachmentStress* find_stress(const Model& model, const std::vector<AttachmentStress>& all,
                                    const std::string& path, int sign) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const AttachmentStress& one) {
    const Attachment& of = model.attachments[one.attachment];
    return of.path == path && of.sign == sign;
  });
  return found == all.end() ? nullptr : &*found;
}

/// A force upwards at an attachment's station on its rail, through the shear centre: it bends and
/// does not twist.
PointLoad push_up(const Model& model, const Attachment& of, double force_N) {
  PointLoad load{.joint = root_of(model.structure, of.joint), .f_P_V = Vec3(0, 0, force_N)};
  for (const Beam& beam : model.structure.beams) {
    if (beam.member != of.carrier) continue;
    const Vec2& p_OS = model.structure.sections[at(beam.section)]->properties.p_OS;
    load.p_VoP_V = of.p_VoC_V + Vec3(0, p_OS.x(), p_OS.y());
  }
  return load;
}

// A beam on two supports, loaded alike on both ends that stand out by a: by statics it carries
// M = P a between the supports and no shear. [Roark] Eq. 8.1-1: sigma = M / W.
TEST(AttachmentStress, IsMOverWOfARailBentByItsEnds) {
  Json file = testing::ladder();
  file["frame"]["mounts"]["front_end"] =
      Json::parse(R"({"both_sides": true, "station": "-20 in", "offset": "16 in"})");
  file["frame"]["mounts"]["rear_end"] =
      Json::parse(R"({"both_sides": true, "station": "120 in", "offset": "16 in"})");
  file["frame"]["mounts"]["by_the_tube"] =
      Json::parse(R"({"both_sides": true, "station": "48 in", "offset": "16 in"})");
  const Model model = testing::model_of(testing::read(file));
  constexpr double kPush_N = 2000, kOut_m = 20 * units::kInch_m;
  std::vector<Loads> loads;
  for (const double part : {0.5, -1.0, 0.75}) {
    Loads of;
    for (const int sign : {1, -1}) {
      for (const char* path : {"/axles/front", "/axles/rear"}) {
        of.points.push_back(push_up(model, find_attachment(model, path, sign), part * kPush_N));
      }
      for (const char* path : {"/frame/mounts/front_end", "/frame/mounts/rear_end"}) {
        of.points.push_back(push_up(model, find_attachment(model, path, sign), -part * kPush_N));
      }
    }
    loads.push_back(std::move(of));
  }
  const auto solver = Solver::make(model.structure);
  ASSERT_TRUE(solver.has_value());
  const auto responses = solver->solve(loads);
  ASSERT_TRUE(responses.has_value()) << responses.error().front().message;
  const auto found =
      find_attachment_stresses(model, calc_case_forces(model.structure, loads, *responses));
  EXPECT_EQ(found.size(), 11U);  // Five mounts on both sides and the strap: no axle lines.

  // The outer faces of the flanges are 6 in apart.
  const double W_m3 = model.structure.sections.front()->properties.I_y_m4 / (3 * units::kInch_m);
  const double expected_Pa = kPush_N * kOut_m / W_m3;
  for (const char* path : {"/frame/mounts/cab_front", "/frame/mounts/cab_rear",
                           "/frame/mounts/by_the_tube", "/frame/mounts/strap"}) {
    for (const int sign : {1, -1}) {
      const AttachmentStress* one = find_stress(model, found, path, sign);
      if (std::string(path) == "/frame/mounts/strap" && sign < 0) {
        EXPECT_EQ(one, nullptr);
        continue;
      }
      ASSERT_NE(one, nullptr) << path;
      EXPECT_NEAR(one->worst.stress.von_mises_Pa, expected_Pa, 1e-6 * expected_Pa) << path;
      EXPECT_EQ(one->worst.load_case, 1U);
      EXPECT_NEAR(one->worst.yield_Pa, 36e3 * units::kPsi_Pa, 1);
      EXPECT_EQ(one->worst.near_joint, std::string(path) == "/frame/mounts/by_the_tube") << path;
      EXPECT_FALSE(one->worst.distorts);
    }
  }
}

struct OnStands {
  Model model;
  std::vector<Loads> loads;
  std::vector<Response> responses;

  std::vector<FrameForces> forces() const {
    return calc_case_forces(model.structure, loads, responses);
  }
};

/// A partly boxed ladder on stands, its mounts pushed down unevenly.
/// @param side  +1: as it is, -1: mirrored.
OnStands put_on_stands(int side) {
  Json file = testing::ladder();
  file["frame"]["plates"] = Json::parse(
      R"({"box": {"rail": "main", "from": "20 in", "to": "60 in", "thickness": "0.2 in"}})");
  file["frame"]["crossmembers"]["middle"]["joint"] = "through_web_and_plate";
  file["frame"]["mounts"]["spare"] = Json::parse(R"({"station": "50 in", "offset": "3 in"})");
  file["frame"]["stages"] = Json::parse(
      R"({"up": {"stands": {"front": {"station": "-5 in"}, "rear": {"station": "105 in"}}}})");
  if (side < 0) {
    file["frame"]["mounts"]["strap"]["offset"] = "-16 in";
    file["frame"]["mounts"]["spare"]["offset"] = "-3 in";
  }
  const build::Build build = testing::read(file);
  OnStands out{.model = testing::model_of(build), .loads = {}, .responses = {}};
  const auto solver = Solver::make(out.model.structure);
  const auto stands = find_stands(build, 0, out.model);
  EXPECT_TRUE(solver.has_value() && stands.has_value());
  for (const double left : {1.0, 0.2, 1.6}) {
    Loads loads;
    for (const Attachment& one : out.model.attachments) {
      if (one.kind != AttachmentKind::mount) continue;
      const double N = one.sign == side ? 3000 * left : 3000;
      loads.points.push_back({.joint = one.joint, .p_VoP_V = one.p_VoP_V, .f_P_V = Vec3(0, 0, -N)});
    }
    const auto standing = solve_stands(*solver, loads, *stands);
    EXPECT_TRUE(standing.has_value());
    out.loads.push_back(standing->loads);
    out.responses.push_back(standing->response);
  }
  return out;
}

TEST(AttachmentStress, IsTheGreatestOfBothBeamsAndNeverAboveTheWorst) {
  const OnStands f = put_on_stands(1);
  const auto found = find_attachment_stresses(f.model, f.forces());
  ASSERT_EQ(found.size(), 6U);
  const auto worst = find_worst_places(f.model, f.loads, f.responses, 1);
  double before = std::numeric_limits<double>::infinity();
  for (const AttachmentStress& one : found) {
    const Attachment& of = f.model.attachments[one.attachment];
    SCOPED_TRACE(of.words);
    const bool on_rail = f.model.beams[at(one.worst.at.beam)].sign != 0;
    EXPECT_EQ(on_rail, of.path != "/frame/mounts/spare");
    double most_Pa = 0;
    int beams = 0;
    for (std::size_t b = 0; b < f.model.beams.size(); ++b) {
      if (f.model.structure.beams[b].member != of.carrier) continue;
      for (const double share : {0.0, 1.0}) {
        const AlongBeam place{static_cast<int>(b), share};
        const double carried_m = on_rail ? -of.p_VoC_V.x() : of.p_VoC_V.y();
        if (std::abs(place_along_m(f.model, place) - carried_m) > 1e-6) continue;
        ++beams;
        for (std::size_t c = 0; c < f.loads.size(); ++c) {
          const auto forces =
              calc_beam_forces(f.model.structure, f.loads[c], f.responses[c], static_cast<int>(b));
          most_Pa =
              std::max(most_Pa, find_section_stress(f.model, forces, place).stress.von_mises_Pa);
        }
      }
    }
    EXPECT_EQ(beams, 2);
    EXPECT_NEAR(one.worst.stress.von_mises_Pa, most_Pa, 1e-9 * most_Pa);
    EXPECT_LE(one.worst.stress.von_mises_Pa, worst.front().stress.von_mises_Pa);
    EXPECT_LE(one.worst.share_of_yield(), before);
    before = one.worst.share_of_yield();
  }
}

TEST(AttachmentStress, OfAMirroredFrameIsMirrored) {
  const OnStands f = put_on_stands(1), g = put_on_stands(-1);
  const auto found = find_attachment_stresses(f.model, f.forces());
  const auto other = find_attachment_stresses(g.model, g.forces());
  ASSERT_EQ(found.size(), other.size());
  for (const AttachmentStress& one : found) {
    const Attachment& of = f.model.attachments[one.attachment];
    SCOPED_TRACE(of.words);
    const AttachmentStress* same = find_stress(g.model, other, of.path, -of.sign);
    ASSERT_NE(same, nullptr);
    EXPECT_NEAR(same->worst.stress.von_mises_Pa, one.worst.stress.von_mises_Pa,
                1e-6 * one.worst.stress.von_mises_Pa);
    EXPECT_EQ(same->worst.load_case, one.worst.load_case);
    EXPECT_EQ(same->worst.near_joint, one.worst.near_joint);
    EXPECT_EQ(same->worst.distorts, one.worst.distorts);
  }
}

TEST(AttachmentStress, UnknownYieldComesLastAndNoCasesTellNothing) {
  OnStands f = put_on_stands(1);
  EXPECT_TRUE(find_attachment_stresses(f.model, {}).empty());
  for (BeamPlace& place : f.model.beams) {
    if (place.sign != 0) place.yield_Pa = kNaN;
    if (place.sign != 0) place.plate_yield_Pa = kNaN;
  }
  const auto found = find_attachment_stresses(f.model, f.forces());
  ASSERT_EQ(found.size(), 6U);
  EXPECT_EQ(f.model.attachments[found.front().attachment].path, "/frame/mounts/spare");
  for (std::size_t i = 2; i < found.size(); ++i) {
    EXPECT_TRUE(std::isnan(found[i].worst.share_of_yield()));
    EXPECT_LE(found[i].worst.stress.von_mises_Pa, found[i - 1].worst.stress.von_mises_Pa);
  }
}

}  // namespace
}  // namespace rig::frame
