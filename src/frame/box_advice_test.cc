// What plates do for a frame: two routes to each number, closed forms, symmetry.

#include "frame/box_advice.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/require.h"
#include "frame/plate_ends.h"
#include "frame/test_builds_internal.h"
#include "frame/whole_frame.h"
#include "units/factors.h"

namespace rig::frame {
namespace {

using testing::Json;
using units::kInch_m;

/// The ladder with a plate of 0.2 in between its flanges, flush.
Json plated_ladder(double from_in, double to_in, const std::string& side = "both") {
  Json file = testing::ladder();
  file["frame"]["plates"]["box"] = {{"rail", "main"},
                                    {"side", side},
                                    {"from", fmt::format("{} in", from_in)},
                                    {"to", fmt::format("{} in", to_in)},
                                    {"thickness", "0.2 in"}};
  return file;
}

BoxAdvice advise(const Json& file) {
  const build::Build build = testing::read(file);
  SectionBook book;
  const auto advice = advise_boxing(BareFrame(build), build::planned_parts(build.frame), book);
  RIG_REQUIRE(advice.has_value());
  return *advice;
}

FrameStiffness stiffness_of(const Json& file) {
  const Model model = testing::model_of(testing::read(file));
  const auto solver = Solver::make(model.structure);
  const auto whole = measure_whole_frame(model, *solver);
  return {whole->torsion.stiffness_Nm_per_rad, whole->bending.stiffness_N_per_m,
          whole->lozenging.stiffness_N_per_m};
}

void expect_alike(const FrameStiffness& a, const FrameStiffness& b, double tolerance) {
  EXPECT_NEAR(a.torsion_Nm_per_rad / b.torsion_Nm_per_rad, 1, tolerance);
  EXPECT_NEAR(a.bending_N_per_m / b.bending_N_per_m, 1, tolerance);
  EXPECT_NEAR(a.lozenging_N_per_m / b.lozenging_N_per_m, 1, tolerance);
}

TEST(OpenStretches, LieBetweenNaturalStationsClearOfWelds) {
  const build::Build build = testing::read(testing::ladder());
  const auto stretches = list_open_stretches(build, build::planned_parts(build.frame));
  // Tubes of 3 in at -10, 50 and 110 in, axle lines at 0 and 100 in, rails 6 in deep.
  ASSERT_EQ(stretches.size(), 2U);
  EXPECT_NEAR(stretches[0].from_m / kInch_m, 0, 1e-9);
  EXPECT_NEAR(stretches[0].to_m / kInch_m, 42.5, 1e-9);
  EXPECT_NEAR(stretches[1].from_m / kInch_m, 57.5, 1e-9);
  EXPECT_NEAR(stretches[1].to_m / kInch_m, 100, 1e-9);
  ASSERT_EQ(stretches[0].plates.size(), 1U);
  EXPECT_EQ(stretches[0].plates[0].side, build::Side::kBoth);
  EXPECT_NEAR(stretches[0].plates[0].thickness.si / kInch_m, 0.2, 1e-9);
}

TEST(OpenStretches, EndWhereAPlateBeginsAndClearOfItOnOneSide) {
  const build::Build build = testing::read(plated_ladder(20, 42.5, "left"));
  const auto stretches = list_open_stretches(build, build::planned_parts(build.frame));
  ASSERT_EQ(stretches.size(), 3U);
  EXPECT_NEAR(stretches[0].to_m / kInch_m, 20, 1e-9);
  EXPECT_EQ(stretches[0].plates[0].side, build::Side::kBoth);
  EXPECT_EQ(stretches[1].plates[0].side, build::Side::kRight);
}

TEST(BoxAdvice, GainIsThatOfTheBuildWithThePlate) {
  const BoxAdvice advice = advise(testing::ladder());
  ASSERT_EQ(advice.stretches.size(), 2U);
  expect_alike(advice.now, stiffness_of(testing::ladder()), 1e-9);
  const StretchGain& best = advice.stretches.front();
  const double from_in = best.stretch.from_m / kInch_m;
  expect_alike(best.with, stiffness_of(plated_ladder(from_in, from_in + 42.5)), 1e-6);
  EXPECT_GT(best.with.torsion_Nm_per_rad, 1.05 * advice.now.torsion_Nm_per_rad);
  // Two plates of 42.5 in, each from the middle of one flange to that of the other.
  EXPECT_NEAR(best.plate_length_m / kInch_m, 85, 1e-9);
  EXPECT_NEAR(best.plate_mass_kg, 7850 * 85 * 5.8 * 0.2 * std::pow(kInch_m, 3), 1e-6);
  // The ladder is the same seen from the rear.
  EXPECT_NEAR(advice.stretches[1].per_mass(advice.now) / best.per_mass(advice.now), 1, 1e-6);
}

// [Bredt] J = 4 A^2 / sum(s / t), from memory, over midlines: 5.8 by 1.8 in, 0.2 in thick. What of
// the flanges stands over is their own J, 0.1 in long: nothing.
TEST(BoxAdvice, ALongBoxTwistsByBredt) {
  Json file = plated_ladder(-20, 45);
  file["frame"]["mounts"]["ahead"] = {
      {"both_sides", true}, {"station", "10 in"}, {"offset", "16 in"}, {"carries", {"cab"}}};
  const Model model = testing::model_of(testing::read(file));
  const auto solver = Solver::make(model.structure);
  const auto whole = measure_whole_frame(model, *solver);
  const Measurement& measured = whole->torsion.measured;
  const auto forces = calc_all_beam_forces(model.structure, measured.loads, measured.response);
  const double J = 4 * std::pow(5.8 * 1.8, 2) / (2 * (5.8 + 1.8) / 0.2) * std::pow(kInch_m, 4);
  int looked_at = 0;
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    const Beam& beam = model.structure.beams[b];
    const BeamPlace& place = model.beams[b];
    if (place.sign != 1 || place.begin_m < 9.9 * kInch_m || place.end_m > 30.1 * kInch_m) continue;
    const auto turn = [&](int joint) {
      return measured.response.rotation_V[static_cast<std::size_t>(joint)].x();
    };
    const double length_m = (beam.p_VoT_V - beam.p_VoF_V).norm();
    const double twist = (turn(beam.to) - turn(beam.from)) / length_m;
    EXPECT_NEAR(forces[b].torque_Nm / (200e9 / 2.6 * twist) / J, 1, 0.01);
    ++looked_at;
  }
  EXPECT_EQ(looked_at, 1);
}

TEST(BoxAdvice, TwoPlatesEndToEndAreOne) {
  Json file = plated_ladder(-20, 70);
  file["frame"]["plates"]["rest"] = {
      {"rail", "main"}, {"from", "70 in"}, {"to", "120 in"}, {"thickness", "0.2 in"}};
  expect_alike(stiffness_of(file), stiffness_of(plated_ladder(-20, 120)), 1e-6);
  EXPECT_TRUE(advise(plated_ladder(-20, 120)).stretches.empty());
}

// A channel closed from end to end is a rectangular tube: 6 by 1.9 in over its walls' midlines of
// 5.8 by 1.8 in and with flanges that stand 0.1 in over.
TEST(BoxAdvice, APlateAllAlongMakesATube) {
  Json boxed = plated_ladder(-20, 120);
  Json tube = testing::ladder();
  auto& rail = tube["frame"]["rails"]["main"];
  rail["section"] = {
      {"shape", "rectangular_tube"}, {"depth", "6 in"}, {"width", "2 in"}, {"thickness", "0.2 in"}};
  for (auto& point : rail["line"]) point["offset"] = "15.1 in";
  for (Json* file : {&boxed, &tube}) {
    for (auto& part : (*file)["frame"]["crossmembers"]) part["joint"] = "through_web_and_plate";
  }
  const FrameStiffness a = stiffness_of(boxed), b = stiffness_of(tube);
  EXPECT_NEAR(a.torsion_Nm_per_rad / b.torsion_Nm_per_rad, 1, 0.05);
  EXPECT_NEAR(a.bending_N_per_m / b.bending_N_per_m, 1, 0.03);
}

TEST(BoxAdvice, APlateTellsWhatTheFrameIsWithoutIt) {
  const BoxAdvice advice = advise(plated_ladder(15, 40));
  ASSERT_EQ(advice.plates.size(), 1U);
  const PlateEffect& plate = advice.plates.front();
  expect_alike(plate.without, stiffness_of(testing::ladder()), 1e-9);
  EXPECT_NEAR(plate.mass_kg, 7850 * 50 * 5.8 * 0.2 * std::pow(kInch_m, 3), 1e-6);
  ASSERT_TRUE(plate.front && plate.rear);
  for (const auto& end : {plate.front, plate.rear}) {
    EXPECT_GT(end->same_twist, end->same_couple);
    EXPECT_NEAR(end->same_twist / end->same_couple,
                advice.now.torsion_Nm_per_rad / plate.without.torsion_Nm_per_rad, 1e-9);
  }
  // The open rail has to bring its flanges to rest where the box begins.
  EXPECT_GT(std::max(plate.front->same_couple, plate.rear->same_couple), 1.1);
  // Nothing is open beyond a plate that reaches the rail's end.
  const BoxAdvice reaching = advise(plated_ladder(-20, 40));
  EXPECT_FALSE(reaching.plates.front().front.has_value());
}

RC_GTEST_PROP(BoxAdvice, IsTheSameOnEitherSideAndFromEitherEnd, ()) {
  const double from_in = *rc::gen::inRange(-50, 60) / 4.0;
  const double to_in = from_in + *rc::gen::inRange(60, 100) / 4.0;
  const BoxAdvice left = advise(plated_ladder(from_in, to_in, "left"));
  // The ladder is the same seen from the rear: station 50 in is its middle.
  for (const BoxAdvice& other : {advise(plated_ladder(from_in, to_in, "right")),
                                 advise(plated_ladder(100 - to_in, 100 - from_in, "left"))}) {
    const PlateEffect &a = left.plates.front(), &b = other.plates.front();
    RC_ASSERT(std::abs(b.mass_kg - a.mass_kg) < 1e-6);
    RC_ASSERT(std::abs(left.now.torsion_Nm_per_rad / other.now.torsion_Nm_per_rad - 1) < 1e-6);
    RC_ASSERT(std::abs(left.now.lozenging_N_per_m / other.now.lozenging_N_per_m - 1) < 1e-6);
    const double most_a = std::max(a.front->same_couple, a.rear->same_couple);
    const double most_b = std::max(b.front->same_couple, b.rear->same_couple);
    RC_ASSERT(std::abs(most_a / most_b - 1) < 1e-6);
  }
}

TEST(BoxAdvice, AStoppedTubeGainsByGoingThrough) {
  Json file = plated_ladder(30, 70);
  const BoxAdvice stopped = advise(file);
  ASSERT_EQ(stopped.tubes.size(), 1U);
  EXPECT_EQ(stopped.tubes[0].path, "/frame/crossmembers/middle");
  EXPECT_GT(stopped.tubes[0].through.lozenging_N_per_m, 1.05 * stopped.now.lozenging_N_per_m);
  file["frame"]["crossmembers"]["middle"]["joint"] = "through_web_and_plate";
  const BoxAdvice through = advise(file);
  EXPECT_TRUE(through.tubes.empty());
  expect_alike(stopped.tubes[0].through, through.now, 1e-9);
}

}  // namespace
}  // namespace rig::frame
