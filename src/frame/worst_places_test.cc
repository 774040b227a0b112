// Where a frame is stressed most: against looking everywhere, and in words.

#include "frame/worst_places.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "build/read.h"
#include "frame/locked_stress_internal.h"
#include "frame/stands.h"
#include "frame/stress_bound_internal.h"
#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using testing::at;

build::Build sound_build() {
  const auto read = build::read_build(R"({"version": 1, "frame": {
    "steels": {"mild": {"yield": "36 ksi"}, "strong": {"yield": "60 ksi"}},
    "rails": {"main": {"label": "Frame rail", "both_sides": true, "steel": "mild",
      "section": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "0.2 in"},
      "line": [{"station": "0 in", "offset": "16 in", "height": "25 in"},
               {"station": "100 in", "offset": "16 in", "height": "25 in"}]}},
    "plates": {"box": {"rail": "main", "from": "30 in", "to": "60 in", "thickness": "0.2 in"}},
    "crossmembers": {
      "gearbox": {"label": "Gearbox crossmember", "at": {"station": "40 in"},
        "joint": "through_web_and_plate", "steel": "strong",
        "section": {"shape": "round_tube", "outside_diameter": "2 in", "thickness": "0.2 in"}},
      "rear": {"label": "Rear channel", "at": {"station": "90 in"}, "opens": "forward",
        "joint": "flanges", "steel": "mild",
        "section": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "0.2 in"}}},
    "mounts": {"cab": {"both_sides": true, "station": "50 in", "offset": "22 in"},
               "spare": {"station": "90 in", "offset": "3 in"}},
    "stages": {"cut": {"stands": {"front": {"station": "5 in"}, "rear": {"station": "95 in"}}}}}})");
  EXPECT_TRUE(read.has_value());
  return read->build;
}

struct Loaded {
  Model model;
  std::vector<Loads> loads;
  std::vector<Response> responses;
};

Loaded load_frame() {
  const build::Build build = sound_build();
  Loaded out{.model = *make_model(build, build::donor_parts(build.frame))};
  const Solver solver = *Solver::make(out.model.structure);
  const auto stands = *find_stands(build, 0, out.model);
  for (const double left : {1.0, 0.2, 1.3}) {
    Loads loads;
    for (const Attachment& one : out.model.attachments) {
      if (one.kind != AttachmentKind::mount) continue;
      const double N = one.path == "/frame/mounts/spare" ? 900 : one.sign > 0 ? 4000 * left : 4000;
      loads.points.push_back({.joint = one.joint, .p_VoP_V = one.p_VoP_V, .f_P_V = Vec3(0, 0, -N)});
    }
    auto standing = *solve_stands(solver, loads, stands);
    out.loads.push_back(standing.loads);
    out.responses.push_back(standing.response);
  }
  return out;
}

section::SectionForces random_forces(std::mt19937& random) {
  const auto value = [&](double size) { return testing::uniform(random, -size, size); };
  return {.axial_N = value(1e4),
          .shear_y_N = value(1e4),
          .shear_z_N = value(1e4),
          .moment_y_Nm = value(1e3),
          .moment_z_Nm = value(1e3),
          .torque_St_Venant_Nm = value(100),
          .torque_warping_Nm = value(100),
          .bimoment_Nm2 = value(30)};
}

RC_GTEST_PROP(StressBound, IsNeverBelowTheWorst, ()) {
  std::mt19937 random(*rc::gen::arbitrary<unsigned>());
  static const std::vector<BeamSection> kPool = [] {
    std::vector<BeamSection> pool;
    for (const auto& section : testing::make_pool()) pool.push_back(testing::make_steel(section));
    return pool;
  }();
  for (const BeamSection& made : kPool) {
    section::SectionForces forces = without_shear_across(made, random_forces(random));
    if (!made.warps()) forces.bimoment_Nm2 = forces.torque_warping_Nm = 0;
    const auto worst = section::find_worst_stress(made.section, made.properties, forces);
    RC_ASSERT(worst.has_value());
    const double bound = made.stress_bound.von_mises_Pa(forces);
    RC_ASSERT(bound >= worst->von_mises_Pa * (1 - 1e-12));
    RC_ASSERT(bound < 20 * worst->von_mises_Pa);
  }
}

// Locked on the same section is the same as both together.
RC_GTEST_PROP(StressBound, StressesOfTwoTimesAddUp, ()) {
  std::mt19937 random(*rc::gen::arbitrary<unsigned>());
  const BeamSection made = testing::make_steel(testing::make_rail());
  const section::SectionForces a = random_forces(random), b = random_forces(random);
  section::SectionForces sum = a;
  sum.axial_N += b.axial_N;
  sum.shear_y_N += b.shear_y_N;
  sum.shear_z_N += b.shear_z_N;
  sum.moment_y_Nm += b.moment_y_Nm;
  sum.moment_z_Nm += b.moment_z_Nm;
  sum.torque_St_Venant_Nm += b.torque_St_Venant_Nm;
  sum.torque_warping_Nm += b.torque_warping_Nm;
  sum.bimoment_Nm2 += b.bimoment_Nm2;
  for (int wall = 0; wall < static_cast<int>(made.section.walls.size()); ++wall) {
    const LockedStress locked(made, a, made, b);
    for (const auto& both : locked.across(wall, testing::uniform(random, 0, 1))) {
      const auto one = section::calc_wall_stress(made.section, made.properties, sum, both.at);
      RC_ASSERT(std::abs(both.axial_Pa - one->axial_Pa) < 1e-6 * one->von_mises_Pa);
      RC_ASSERT(std::abs(both.shear_Pa - one->shear_Pa) < 1e-6 * one->von_mises_Pa);
      RC_ASSERT(both.von_mises_Pa <= locked.bound_Pa(at(wall)));
    }
  }
}

TEST(WorstPlaces, AreThoseThatLookingEverywhereFinds) {
  const Loaded f = load_frame();
  const auto found = find_worst_places(f.model, f.loads, f.responses, 8);
  ASSERT_EQ(found.size(), 8U);
  double most = 0;
  for (std::size_t c = 0; c < f.loads.size(); ++c) {
    const auto forces = calc_all_beam_forces(f.model.structure, f.loads[c], f.responses[c]);
    for (std::size_t b = 0; b < forces.size(); ++b) {
      const BeamSection& section =
          f.model.structure.sections[at(f.model.structure.beams[b].section)];
      for (const double share : {0.0, 0.5, 1.0}) {
        most = std::max(most, section::find_worst_stress(section.section, section.properties,
                                                         forces[b].at(share))
                                  ->von_mises_Pa);
      }
    }
  }
  EXPECT_NEAR(found.front().stress.von_mises_Pa, most, 1e-9 * most);
  for (std::size_t i = 0; i < found.size(); ++i) {
    const std::size_t worse = i == 0 ? 0 : i - 1;
    EXPECT_LE(found[i].stress.von_mises_Pa, found[worse].stress.von_mises_Pa);
    for (std::size_t k = 0; k < i; ++k) {
      const auto part = [&](const WorstPlace& p) {
        const Structure& s = f.model.structure;
        return s.sections[at(s.beams[at(p.at.beam)].section)]
            ->section.walls[at(p.stress.at.wall)]
            .part;
      };
      const bool one_wall = f.model.structure.beams[at(found[i].at.beam)].member ==
                                f.model.structure.beams[at(found[k].at.beam)].member &&
                            part(found[i]) == part(found[k]);
      const double apart_m =
          std::abs(place_along_m(f.model, found[i].at) - place_along_m(f.model, found[k].at));
      EXPECT_TRUE(!one_wall || apart_m >= 3 * 0.0254) << i << " " << k;
    }
  }
}

TEST(WorstPlaces, TellJointsAndBoxes) {
  const Loaded f = load_frame();
  const auto found = find_worst_places(f.model, f.loads, f.responses, 1000);
  bool near = false, away = false, twisted = false;
  for (const WorstPlace& p : found) {
    (p.near_joint ? near : away) = true;
    twisted = twisted || p.distorts;
    EXPECT_FALSE(p.distorts && f.model.beams[at(p.at.beam)].plates.empty());
  }
  EXPECT_TRUE(near && away && twisted);
}

TEST(WorstPlaces, ByWhatIsLeftToYield) {
  const Loaded f = load_frame();
  const auto found =
      find_worst_places(f.model, f.loads, f.responses, 1000, WorstBy::share_of_yield);
  ASSERT_FALSE(found.empty());
  double before = std::numeric_limits<double>::infinity();
  for (const WorstPlace& p : found) {
    EXPECT_LE(p.share_of_yield(), before);
    before = p.share_of_yield();
  }
}

TEST(Words, SayWhereAPlaceIs) {
  const Loaded f = load_frame();
  const auto beam = [&](const std::string& path, int sign, double begin_in) {
    for (std::size_t b = 0; b < f.model.beams.size(); ++b) {
      const BeamPlace& place = f.model.beams[b];
      if (place.path == path && place.sign == sign &&
          std::abs(place.begin_m - begin_in * 0.0254) < 1e-4) {
        return static_cast<int>(b);
      }
    }
    ADD_FAILURE() << path;
    return 0;
  };
  const units::UnitChoices inches{.metric = false, .fraction_of_inch = 16};
  const auto on_left_rail = [&](double station_in) {
    const double station_m = station_in * 0.0254;
    for (std::size_t b = 0; b < f.model.beams.size(); ++b) {
      const BeamPlace& place = f.model.beams[b];
      if (place.sign != 1 || station_m < place.begin_m || station_m > place.end_m) continue;
      return AlongBeam{static_cast<int>(b),
                       (place.end_m - station_m) / (place.end_m - place.begin_m)};
    }
    ADD_FAILURE() << station_in;
    return AlongBeam{0, 0};
  };
  EXPECT_EQ(describe_place(f.model, on_left_rail(90), inches),
            "left frame rail, at the rear channel");
  EXPECT_EQ(describe_place(f.model, on_left_rail(88), inches),
            "left frame rail, 2 in ahead of the rear channel");
  EXPECT_EQ(describe_place(f.model, on_left_rail(63), {.metric = true}),
            "left frame rail, 584 mm behind the gearbox crossmember");
  const int bay = on_left_rail(75).beam;
  const BeamSection& section =
      f.model.structure.sections[at(f.model.structure.beams[at(bay)].section)];
  const int lower = section::find_wall(section.section, "lower flange");
  EXPECT_EQ(describe_place(f.model, on_left_rail(88), {.wall = lower, .share = 0.6}, inches),
            "left frame rail, lower flange, 2 in ahead of the rear channel");
  EXPECT_EQ(describe_wall(f.model, bay, {.wall = lower, .share = 0}), "lower flange at its edge");
  const int boxed = beam("/frame/rails/main", -1, 30);
  const BeamSection& box =
      f.model.structure.sections[at(f.model.structure.beams[at(boxed)].section)];
  EXPECT_EQ(describe_wall(f.model, boxed, {.wall = section::find_wall(box.section, "plate")}),
            "boxing plate");
  const int channel = beam("/frame/crossmembers/rear", 0, 16 - 0.95);
  EXPECT_EQ(describe_place(f.model, {channel, 0}, inches), "rear channel, at its left end");
  EXPECT_EQ(describe_place(f.model, {channel, 1}, inches),
            "rear channel, 3 in left of the centreline");
  const int tube = beam("/frame/crossmembers/gearbox", 0, 16 - 1.8);
  EXPECT_EQ(describe_place(f.model, {tube, 0.5}, inches), "gearbox crossmember, on the centreline");
  EXPECT_EQ(describe_wall(f.model, tube, {.wall = 0}), "front side");
  EXPECT_EQ(describe_wall(f.model, tube, {.wall = 24}), "top");
  EXPECT_EQ(describe_wall(f.model, tube, {.wall = 60}), "lower rear");
}

}  // namespace
}  // namespace rig::frame
