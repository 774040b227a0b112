// Holes in the rails against beams by hand.

#include "frame/hole_stress.h"

#include <gtest/gtest.h>

#include <cmath>

#include "frame/end_stress.h"
#include "frame/test_builds_internal.h"
#include "frame/whole_frame.h"
#include "units/factors.h"

namespace rig::frame {
namespace {

using testing::Json;
using units::kInch_m;

/// The ladder closed from end to end, so that its rails bend without twisting, with one hole.
Json drilled(const Json& hole) {
  Json file = testing::ladder();
  file["frame"]["plates"]["box"] = {
      {"rail", "main"}, {"from", "-20 in"}, {"to", "120 in"}, {"thickness", "0.2 in"}};
  file["frame"]["holes"]["hole"] = hole;
  file["frame"]["holes"]["hole"]["rail"] = "main";
  return file;
}

/// Under 1 N down in the middle of the wheelbase.
std::vector<HoleStress> stresses_in_bending(const Json& hole) {
  const build::Build build = testing::read(drilled(hole));
  const Model model = testing::model_of(build);
  const auto solver = Solver::make(model.structure);
  const auto whole = measure_whole_frame(model, *solver);
  const Measurement& measured = whole->bending.measured;
  return find_hole_stresses(
      model, build.frame,
      calc_case_forces(model.structure, {&measured.loads, 1}, {&measured.response, 1}));
}

// Simple beam on the axle lines 100 in apart, half a newton in the middle of either rail: M = F x/4
// at 30 in; sigma = M z / I of the box over midlines (webs 5.8 in, flanges 1.9 in, all 0.2 in).
// Edge: [Heywood] 2 + (1 - d/w)^3 on the net strip, from memory, d/w = 1/4.
TEST(HoleStress, InAFlangeIsThatOfABeamTimesTheFactor) {
  const auto holes = stresses_in_bending({{"wall", "upper_flange"},
                                          {"station", "30 in"},
                                          {"from_web", "1 in"},
                                          {"diameter", "1/2 in"}});
  ASSERT_EQ(holes.size(), 2U);
  const double I =
      (2 * 0.2 * std::pow(5.8, 3) / 12 + 2 * 1.9 * 0.2 * 2.9 * 2.9) * std::pow(kInch_m, 4);
  const double sigma_Pa = 0.25 * 30 * kInch_m * 2.9 * kInch_m / I;
  const double edge_Pa = sigma_Pa * (2 + std::pow(0.75, 3)) / 0.75;
  for (const HoleStress& hole : holes) {
    EXPECT_NEAR(hole.axial_Pa / -sigma_Pa, 1, 0.03);
    EXPECT_NEAR(hole.edge_Pa / edge_Pa, 1, 0.04);
    EXPECT_NEAR(hole.area_left, 1 - 0.5 / (2 * 5.8 + 2 * 1.9), 1e-6);
    EXPECT_NEAR(hole.yield_Pa, 36e3 * 6894.757, 100);
  }
  EXPECT_NEAR(holes[0].edge_Pa / holes[1].edge_Pa, 1, 1e-9);
  EXPECT_EQ(holes[0].sign, 1);
}

// At mid-depth bending leaves only shear: flow V Q / (2 I) in web and plate, Q of the half box.
// What torque there is, the rails being loaded on their webs, goes round and adds to the one as
// much as it takes from the other. [Kirsch] 4 tau at the edge of a small hole.
TEST(HoleStress, AtMidDepthIsFourTimesTheShear) {
  const auto shear_in = [](const char* wall) {
    const auto holes = stresses_in_bending({{"wall", wall},
                                            {"station", "30 in"},
                                            {"above_lower_edge", "3 in"},
                                            {"diameter", "0.01 in"}});
    EXPECT_NEAR(holes.at(0).edge_Pa / (4 * std::abs(holes.at(0).shear_Pa)), 1, 0.02);
    EXPECT_NEAR(std::abs(holes.at(0).shear_Pa / holes.at(1).shear_Pa), 1, 1e-9);
    return std::abs(holes.at(0).shear_Pa);
  };
  const double Q = (1.9 * 0.2 * 2.9 + 2 * 0.2 * 2.9 * 2.9 / 2) * std::pow(kInch_m, 3);
  const double I =
      (2 * 0.2 * std::pow(5.8, 3) / 12 + 2 * 1.9 * 0.2 * 2.9 * 2.9) * std::pow(kInch_m, 4);
  const double tau_Pa = 0.25 * Q / (I * 2 * 0.2 * kInch_m);
  EXPECT_NEAR((shear_in("web") + shear_in("plate")) / 2 / tau_Pa, 1, 0.03);
}

// The same beam: the worst within a depth of 30 in is 6 in nearer to the middle, in the flanges.
TEST(EndStress, IsThatOfABeamWithinADepth) {
  Json file = drilled({{"wall", "web"}, {"station", "30 in"}});
  const build::Build build = testing::read(file);
  const Model model = testing::model_of(build);
  const auto solver = Solver::make(model.structure);
  const auto whole = measure_whole_frame(model, *solver);
  const Measurement& measured = whole->bending.measured;
  const PlateEnd end{.plate_path = "/frame/plates/box",
                     .rail_path = "/frame/rails/main",
                     .front = false,
                     .station_m = 30 * kInch_m,
                     .signs = {1, -1},
                     .depth_m = 6 * kInch_m};
  const auto found = find_end_stresses(
      model, std::span(&end, 1),
      calc_case_forces(model.structure, {&measured.loads, 1}, {&measured.response, 1}));
  ASSERT_EQ(found.size(), 1U);
  const double I =
      (2 * 0.2 * std::pow(5.8, 3) / 12 + 2 * 1.9 * 0.2 * 2.9 * 2.9) * std::pow(kInch_m, 4);
  // Shear and what torque there is come on top in von Mises.
  const double sigma_Pa = 0.25 * 36 * kInch_m * 2.9 * kInch_m / I;
  EXPECT_GT(found[0].von_mises_Pa, 0.98 * sigma_Pa);
  EXPECT_LT(found[0].von_mises_Pa, 1.05 * sigma_Pa);
  EXPECT_NEAR(found[0].station_m / kInch_m, 36, 1e-9);
  EXPECT_EQ(found[0].plate_path, end.plate_path);
  EXPECT_FALSE(found[0].front);
}

TEST(HoleStress, GrowsFromTheNeutralAxisOut) {
  const auto at = [](const char* above) {
    return stresses_in_bending({{"wall", "web"},
                                {"station", "30 in"},
                                {"above_lower_edge", above},
                                {"diameter", "1/2 in"}})[0]
        .edge_Pa;
  };
  EXPECT_GT(at("2 in"), 1.2 * at("3 in"));
  EXPECT_GT(at("1 in"), 1.2 * at("2 in"));
  EXPECT_NEAR(at("1 in") / at("5 in"), 1, 0.02);
}

TEST(HoleFit, TellsRoomToEdgesAndBends) {
  const auto fit = [](const Json& hole) {
    const build::Build build = testing::read(drilled(hole));
    return calc_hole_fit(build.frame, build.frame.holes.front().value);
  };
  const HoleFit web = fit({{"wall", "web"},
                           {"station", "30 in"},
                           {"above_lower_edge", "1 in"},
                           {"diameter", "1/2 in"}});
  EXPECT_NEAR(web.to_edge_m / kInch_m, 1, 1e-9);
  EXPECT_NEAR(web.clear_m / kInch_m, 1 - 0.2 - 0.25, 1e-9);
  const HoleFit flange = fit({{"wall", "lower_flange"},
                              {"station", "30 in"},
                              {"from_web", "1 1/4 in"},
                              {"diameter", "1/2 in"}});
  EXPECT_NEAR(flange.to_edge_m / kInch_m, 0.75, 1e-9);
  EXPECT_NEAR(flange.clear_m / kInch_m, 1.25 - 0.2 - 0.25, 1e-9);
}

}  // namespace
}  // namespace rig::frame
