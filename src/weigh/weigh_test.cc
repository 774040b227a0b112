#include "weigh/weigh.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "tests/support/random_values.h"
#include "units/factors.h"
#include "weigh/sample_internal.h"

namespace rig::weigh {
namespace {

using internal::item;
using internal::length;
using internal::mass;
using internal::point;
using internal::sample_build;

using units::g;

bool lists(const WeighResult& result, const std::string& path) {
  return std::any_of(result.missing.begin(), result.missing.end(),
                     [&](const Missing& missing) { return missing.path == path; });
}

bool faults(const WeighResult& result, const std::string& code, const std::string& path) {
  return std::any_of(result.faults.begin(), result.faults.end(), [&](const Diagnostic& fault) {
    return fault.code == code && fault.path == path;
  });
}

const RatingCheck* find_rating(const Standing& standing, const std::string& what) {
  const auto found = std::find_if(standing.ratings.begin(), standing.ratings.end(),
                                  [&](const RatingCheck& rating) { return rating.what == what; });
  return found == standing.ratings.end() ? nullptr : &*found;
}

/// The sample with a few random items more.
build::Build random_build() {
  build::Build build = sample_build();
  const int count = *rc::gen::inRange(0, 6);
  using test::real;
  for (int i = 0; i < count; ++i) {
    const std::string on = *rc::gen::element<std::string>("", "front", "rear");
    build.masses.push_back(item("extra" + std::to_string(i), real(1000, 300000),
                                point(real(-800, 4500), real(-900, 900), real(200, 2000)), on));
  }
  return build;
}

TEST(WeighState, SumsAndSharesOfTheSample) {
  const auto result = weigh_state(sample_build(), "road");
  ASSERT_TRUE(result.has_value());
  ASSERT_TRUE(result->total && result->sprung && result->estimated);
  EXPECT_TRUE(result->faults.empty());
  EXPECT_TRUE(result->missing.empty());
  const double fuel_kg = 0.04 * units::kg_per_m3_from_lb_per_gal(6.15);
  EXPECT_NEAR(result->total->mass_kg, 1520 + fuel_kg, 1e-9);
  ASSERT_EQ(result->unsprung.size(), 2U);
  EXPECT_EQ(result->unsprung[0].axle_id, "front");
  EXPECT_DOUBLE_EQ(result->unsprung[0].properties.mass_kg, 260);
  EXPECT_NEAR(result->sprung->mass_kg, 1020 + fuel_kg, 1e-9);
  const double front_kg = (700 * 1.4 + 320 * 2.8 + 260 * 3 + fuel_kg * 0.6) / 3;
  EXPECT_NEAR(result->estimated->axle_loads->front_N, front_kg * g, 1e-9);
  EXPECT_FALSE(result->hitch);
  EXPECT_FALSE(result->scaled);
}

TEST(WeighState, RatingsAndHitchWhenTowing) {
  const auto result = weigh_state(sample_build(), "towing");
  ASSERT_TRUE(result.has_value());
  ASSERT_TRUE(result->estimated && result->hitch);
  const Standing& standing = *result->estimated;
  const double tongue_kg = 2200 / g;
  EXPECT_NEAR(*result->tongue_share, tongue_kg / 1800, 1e-15);
  const RatingCheck* whole = find_rating(standing, "whole truck");
  ASSERT_NE(whole, nullptr);
  EXPECT_NEAR(whole->value_si, result->total->mass_kg + tongue_kg, 1e-9);
  EXPECT_DOUBLE_EQ(whole->margin_si(), 2800 - whole->value_si);
  EXPECT_NEAR(find_rating(standing, "truck and trailer")->value_si, result->total->mass_kg + 1800,
              1e-9);
  EXPECT_DOUBLE_EQ(find_rating(standing, "trailer")->value_si, 1800);
  const RatingCheck* tongue = find_rating(standing, "tongue load on the hitch");
  EXPECT_EQ(tongue->dimension, units::Dimension::kForce);
  EXPECT_DOUBLE_EQ(tongue->margin_si(), -200);
  EXPECT_NEAR(find_rating(standing, "rear axle")->value_si, standing.axle_loads->rear_N / g, 1e-9);
  const WheelLoads& wheels = *standing.wheel_loads;
  const bool left = wheels.rear_left_N >= wheels.rear_right_N;
  const RatingCheck* tyre = find_rating(standing, left ? "left rear tyre" : "right rear tyre");
  ASSERT_NE(tyre, nullptr);
  EXPECT_NEAR(tyre->value_si, std::max(wheels.rear_left_N, wheels.rear_right_N) / g, 1e-9);
  EXPECT_NE(find_rating(standing, left ? "left rear wheel" : "right rear wheel"), nullptr);
}

RC_GTEST_PROP(WeighState, WheelLoadsAreWeightAndTongue, ()) {
  const auto result = weigh_state(random_build(), "towing");
  RC_ASSERT(result.has_value());
  const WheelLoads& wheels = *result->estimated->wheel_loads;
  const double sum =
      wheels.front_left_N + wheels.front_right_N + wheels.rear_left_N + wheels.rear_right_N;
  const double weight = result->total->mass_kg * g + 2200;
  RC_ASSERT(std::abs(sum - weight) <= 1e-12 * weight);
  double parts = result->sprung->mass_kg;
  for (const Unsprung& part : result->unsprung) parts += part.properties.mass_kg;
  RC_ASSERT(std::abs(parts - result->total->mass_kg) <= 1e-12 * parts);
}

RC_GTEST_PROP(WeighState, MirroredBuildGivesMirroredAnswers, ()) {
  build::Build build = random_build();
  const auto a = weigh_state(build, "towing");
  for (auto& entry : build.masses) entry.value.at.offset.si *= -1;
  build.hitch->ball.offset.si *= -1;
  const auto b = weigh_state(build, "towing");
  RC_ASSERT(a.has_value() && b.has_value());
  const Mat3 mirror = Vec3(1, -1, 1).asDiagonal();
  RC_ASSERT((mirror * a->total->p_VoBcm_V - b->total->p_VoBcm_V).norm() < 1e-14);
  RC_ASSERT((mirror * a->total->I_BBcm_V * mirror - b->total->I_BBcm_V).norm() < 1e-10);
  const double slack = 1e-9;
  RC_ASSERT(std::abs(a->estimated->wheel_loads->rear_left_N -
                     b->estimated->wheel_loads->rear_right_N) < slack);
  RC_ASSERT(std::abs(a->estimated->stability->left_side_down_rad -
                     b->estimated->stability->right_side_down_rad) < 1e-14);
}

RC_GTEST_PROP(WeighState, MovingTheDatumMovesOnlyTheBalancePoint, ()) {
  build::Build build = random_build();
  const auto a = weigh_state(build, "towing");
  constexpr double shift_m = 0.75;
  for (auto& entry : build.masses) entry.value.at.station.si += shift_m;
  for (auto& axle : build.axles) {
    axle.value.station = length((axle.value.station.known() ? axle.value.station.si : 0) + shift_m);
  }
  build.hitch->ball.station.si += shift_m;
  const auto b = weigh_state(build, "towing");
  RC_ASSERT(a.has_value() && b.has_value());
  RC_ASSERT((a->total->p_VoBcm_V - Vec3(shift_m, 0, 0) - b->total->p_VoBcm_V).norm() < 1e-13);
  RC_ASSERT((a->total->I_BBcm_V - b->total->I_BBcm_V).norm() < 1e-9);
  RC_ASSERT(std::abs(a->estimated->axle_loads->rear_N - b->estimated->axle_loads->rear_N) < 1e-8);
  RC_ASSERT(std::abs(a->estimated->stability->up_grade_rad -
                     b->estimated->stability->up_grade_rad) < 1e-12);
}

TEST(WeighState, SpreadMatchesMovingEachInput) {
  build::Build build = sample_build();
  build.masses[1].value.mass.plus_minus_si = 15;
  build.masses[1].value.at.station.plus_minus_si = 0.05;
  build.masses[3].value.at.height.plus_minus_si = 0.02;
  build.masses[0].value.at.offset.plus_minus_si = 0.01;
  build.masses[4].value.fluid->density.si = 740;  // exact, so that the tank adds nothing
  const auto base = weigh_state(build, "road");
  ASSERT_TRUE(base.has_value());
  Vec3 place_squares = Vec3::Zero();
  double front_squares = 0;
  const auto move = [&](double& part, double half_width) {
    // Central difference: the first-order term alone.
    const double kept = part;
    part = kept + half_width * 1e-4;
    const auto up = weigh_state(build, "road");
    part = kept - half_width * 1e-4;
    const auto down = weigh_state(build, "road");
    part = kept;
    const Vec3 change = (up->total->p_VoBcm_V - down->total->p_VoBcm_V) / 2e-4;
    place_squares += change.cwiseAbs2();
    front_squares += std::pow(
        (up->estimated->axle_loads->front_N - down->estimated->axle_loads->front_N) / 2e-4, 2);
  };
  move(build.masses[1].value.mass.si, 15);
  move(build.masses[1].value.at.station.si, 0.05);
  move(build.masses[3].value.at.height.si, 0.02);
  move(build.masses[0].value.at.offset.si, 0.01);
  EXPECT_DOUBLE_EQ(base->spread.mass_plus_minus_kg, 15);
  EXPECT_LT((base->spread.p_plus_minus_V - place_squares.cwiseSqrt()).norm(), 1e-9);
  EXPECT_NEAR(base->spread.front_plus_minus_N, std::sqrt(front_squares), 1e-6);
  EXPECT_NEAR(base->spread.mass_share_with_plus_minus, 320 / base->total->mass_kg, 1e-12);
}

build::Entry<build::CornerWeighing> corner_weighing(const std::string& id, const std::string& state,
                                                    const WheelLoads& wheels, double more_kg = 0) {
  build::CornerWeighing value;
  value.state.id = state;
  value.front_left = mass(wheels.front_left_N / g + more_kg, 2);
  value.front_right = mass(wheels.front_right_N / g + more_kg, 2);
  value.rear_left = mass(wheels.rear_left_N / g + more_kg, 2);
  value.rear_right = mass(wheels.rear_right_N / g + more_kg, 2);
  return {.id = id, .path = "/corner_weighings/" + id, .value = value};
}

TEST(WeighState, ScalesStandBesideTheEstimateInEveryState) {
  // The truth has a winch that the file forgot; weighed while towing.
  build::Build truth = sample_build();
  truth.masses.push_back(item("winch", 45, point(-0.6, 0.05, 0.8)));
  const auto weighed = weigh_state(truth, "towing");
  build::Build build = sample_build();
  build.corner_weighings = {
      corner_weighing("first", "towing", *weighed->estimated->wheel_loads, 1),
      corner_weighing("again", "towing", *weighed->estimated->wheel_loads, -1)};
  for (const std::string state : {"towing", "road"}) {
    const auto result = weigh_state(build, state);
    const auto true_result = weigh_state(truth, state);
    ASSERT_TRUE(result->scaled && result->scaled->standing) << state;
    const Scaled& scaled = *result->scaled;
    EXPECT_EQ(scaled.weighing_ids, (std::vector<std::string>{"first", "again"}));
    EXPECT_EQ(scaled.state_id, "towing");
    // Eight readings of ± 2 kg; on the road 40 l of petrol less, whose density is known to 35
    // kg/m3.
    const double readings_kg = std::sqrt(8 * 4.0) / 2;
    EXPECT_NEAR(scaled.weighed.mass_plus_minus_kg, readings_kg, 1e-12);
    EXPECT_NEAR(scaled.mass_plus_minus_kg,
                state == "road" ? std::hypot(readings_kg, 0.04 * 35) : readings_kg, 1e-12);
    ASSERT_TRUE(scaled.calibration && scaled.calibration->place_m);
    EXPECT_NEAR(scaled.calibration->mass_difference_kg, 45, 1e-9);
    EXPECT_NEAR(scaled.calibration->place_m->front(), 0.6, 1e-8);
    EXPECT_NEAR(scaled.standing->truck.mass_kg, true_result->total->mass_kg, 1e-9);
    EXPECT_NEAR(scaled.standing->axle_loads->front_N, true_result->estimated->axle_loads->front_N,
                1e-8);
    // The estimate itself is untouched.
    EXPECT_DOUBLE_EQ(result->total->mass_kg, weigh_state(sample_build(), state)->total->mass_kg);
  }
}

// The readings of a truck with 20 kg of diagonal load: they are the wheel loads of the weighed
// state, and the same diagonal load stands in another one, whose axle loads it does not touch.
TEST(WeighState, WheelLoadsFollowTheReadings) {
  build::Build build = sample_build();
  WheelLoads wheels = *weigh_state(build, "road")->estimated->wheel_loads;
  const double front_N = 20 * g, rear_N = -front_N * 1.6 / 1.56;  // no moment about x
  wheels.front_left_N += front_N;
  wheels.front_right_N -= front_N;
  wheels.rear_left_N += rear_N;
  wheels.rear_right_N -= rear_N;
  build.corner_weighings = {corner_weighing("scales", "road", wheels)};
  const auto road = weigh_state(build, "road");
  const WheelLoads& told = *road->scaled->standing->wheel_loads;
  EXPECT_NEAR(told.front_left_N, wheels.front_left_N, 1e-8);
  EXPECT_NEAR(told.front_right_N, wheels.front_right_N, 1e-8);
  EXPECT_NEAR(told.rear_left_N, wheels.rear_left_N, 1e-8);
  EXPECT_NEAR(told.rear_right_N, wheels.rear_right_N, 1e-8);
  const auto full = weigh_state(build, "full");
  EXPECT_NEAR(full->scaled->standing->wheel_loads->front_left_N,
              full->estimated->wheel_loads->front_left_N + front_N, 1e-8);
  EXPECT_NEAR(full->scaled->standing->axle_loads->front_N, full->estimated->axle_loads->front_N,
              1e-8);
}

// Statics of four readings, nothing listed: 1000 kg in front of 1600, 820 of them left.
TEST(WeighState, ScalesStandAloneWithoutAList) {
  build::Build build = sample_build();
  build.masses.clear();
  for (auto& state : build.load_states) state.value.aboard.clear();
  build.load_states[1].value.fills.clear();
  build.load_states[2].value.fills.clear();
  build.corner_weighings = {corner_weighing("scales", "road",
                                            {.front_left_N = 510 * g,
                                             .front_right_N = 490 * g,
                                             .rear_left_N = 310 * g,
                                             .rear_right_N = 290 * g})};
  const auto road = weigh_state(build, "road");
  ASSERT_TRUE(road->scaled && road->scaled->standing);
  EXPECT_FALSE(road->total || road->estimated || road->scaled->calibration);
  const Standing& standing = *road->standing();
  EXPECT_NEAR(standing.truck.mass_kg, 1600, 1e-9);
  EXPECT_NEAR(-standing.truck.p_VoBcm_V.x(), 3.0 * 600 / 1600, 1e-12);
  EXPECT_NEAR(standing.truck.p_VoBcm_V.y(), 20 * (1.6 + 1.56) / 2 / 1600, 1e-12);
  EXPECT_NEAR(standing.axle_loads->front_N, 1000 * g, 1e-8);
  EXPECT_NEAR(standing.wheel_loads->rear_left_N, 310 * g, 1e-8);
  EXPECT_NEAR(road->scaled->weighed.cross_weight_share, 800.0 / 1600, 1e-12);
  EXPECT_FALSE(standing.stability || standing.sprung);
  EXPECT_NEAR(find_rating(standing, "left front tyre")->value_si, 510, 1e-9);
  EXPECT_NEAR(find_rating(standing, "whole truck")->value_si, 1600, 1e-9);
  EXPECT_TRUE(std::any_of(road->missing.begin(), road->missing.end(),
                          [](const Missing& m) { return m.path == "/lifted_weighings"; }));
  EXPECT_TRUE(road->faults.empty());
  // What another state carries is not known.
  EXPECT_EQ(weigh_state(build, "full")->standing(), nullptr);

  // A lift tells the height: W2 = W1 + M (h - r) tan(a) / L.
  const double lifted_kg = 1000 + 1600 * (0.75 - 0.4) * std::tan(std::asin(0.5 / 3)) / 3;
  build::LiftedWeighing lift;
  lift.state.id = "road";
  lift.lifted = build::End::kRear;
  lift.lift = length(0.5);
  lift.level_reading = mass(1000);
  lift.lifted_reading = mass(lifted_kg);
  build.lifted_weighings = {{.id = "up", .path = "/lifted_weighings/up", .value = lift}};
  const auto lifted = weigh_state(build, "road");
  EXPECT_NEAR(lifted->standing()->truck.p_VoBcm_V.z(), 0.75, 1e-12);
  ASSERT_TRUE(lifted->standing()->stability);
  EXPECT_NEAR(lifted->standing()->wheel_loads->front_left_N, 510 * g, 1e-8);
}

build::Entry<build::LiftedWeighing> lifted_weighing(const std::string& id, build::End lifted,
                                                    double lift_m, double level_kg,
                                                    double lifted_kg) {
  build::LiftedWeighing value;
  value.state.id = "road";
  value.lifted = lifted;
  value.lift = length(lift_m, 0.005);
  value.level_reading = mass(level_kg, 1);
  value.lifted_reading = mass(lifted_kg, 1);
  return {.id = id, .path = "/lifted_weighings/" + id, .value = value};
}

TEST(WeighState, HeightByLiftingEitherEnd) {
  build::Build build = sample_build();
  const auto estimate = weigh_state(build, "road");
  const double M = estimate->total->mass_kg;
  const double front_kg = estimate->estimated->axle_loads->front_N / g;
  // Readings of a truck whose balance point is at 0.8 m: W2 = W1 + M (h - r) tan(a) / L.
  const auto lifted = [&](double level_kg, double lift_m) {
    return level_kg + M * (0.8 - 0.4) * std::tan(std::asin(lift_m / 3)) / 3;
  };
  build.lifted_weighings = {
      lifted_weighing("a", build::End::kRear, 0.4, front_kg, lifted(front_kg, 0.4)),
      lifted_weighing("b", build::End::kRear, 0.6, front_kg, lifted(front_kg, 0.6)),
      lifted_weighing("c", build::End::kFront, 0.5, M - front_kg, lifted(M - front_kg, 0.5))};
  const auto result = weigh_state(build, "road");
  ASSERT_EQ(result->measured_heights.size(), 2U);
  EXPECT_EQ(result->measured_heights[0].lifted, build::End::kFront);
  EXPECT_EQ(result->measured_heights[1].weighing_ids, (std::vector<std::string>{"a", "b"}));
  for (const MeasuredHeight& height : result->measured_heights) {
    EXPECT_NEAR(height.height.cg_height_m, 0.8, 1e-12);
    EXPECT_GT(height.height.plus_minus_m, 0.005);
    EXPECT_FALSE(height.mass_from_scale);
    EXPECT_NEAR(height.difference_m, 0.8 - estimate->total->p_VoBcm_V.z(), 1e-12);
    EXPECT_NEAR(height.stability->cg_height_m, 0.8, 1e-12);
  }
  EXPECT_TRUE(weigh_state(build, "full")->measured_heights.empty());

  build.corner_weighings = {corner_weighing("scales", "road", *estimate->estimated->wheel_loads)};
  EXPECT_TRUE(weigh_state(build, "road")->measured_heights[0].mass_from_scale);
}

// One body of the list lies `too_high_m` higher than listed: the lifted weighing of "road" finds
// it, and every state's height, towing too, becomes what a list without the fault would give.
TEST(WeighState, MeasuredHeightGoesOverToEveryState) {
  build::Build right = sample_build();
  right.masses[1].value.at.height = length(1.05);
  const auto truth = weigh_state(right, "road");
  const double M = truth->total->mass_kg, L = 3, lift_m = 0.6, r_m = 0.4;
  const double level_kg = truth->estimated->axle_loads->front_N / g;
  const double theta = std::asin(lift_m / L);
  const double lifted_kg = level_kg + M * std::tan(theta) * (truth->total->p_VoBcm_V.z() - r_m) / L;

  build::Build listed = sample_build();
  build::LiftedWeighing weighing;
  weighing.state.id = "road";
  weighing.lifted = build::End::kRear;
  weighing.lift = length(lift_m);
  weighing.level_reading = mass(level_kg);
  weighing.lifted_reading = mass(lifted_kg, 2);
  listed.lifted_weighings = {{.id = "up", .path = "/lifted_weighings/up", .value = weighing}};
  for (const char* state : {"road", "full", "towing"}) {
    const auto told = weigh_state(listed, state);
    const auto wanted = weigh_state(right, state);
    ASSERT_TRUE(told->height_correction && told->lifted && told->standing()->stability) << state;
    EXPECT_EQ(told->height_correction->state_id, "road");
    EXPECT_NEAR(told->standing()->truck.p_VoBcm_V.z(), wanted->total->p_VoBcm_V.z(), 1e-9) << state;
    EXPECT_NEAR(told->standing()->stability->static_stability_factor,
                wanted->estimated->stability->static_stability_factor, 1e-9)
        << state;
    EXPECT_NEAR(told->standing()->sprung->p_VoBcm_V.z(), wanted->sprung->p_VoBcm_V.z(), 1e-9);
    EXPECT_GT(told->height_plus_minus_m(), 0.001) << state;
    EXPECT_NE(told->estimated->truck.p_VoBcm_V.z(), told->lifted->truck.p_VoBcm_V.z());
  }
}

// By the definition: what the axles carry taken off the whole, which `combine` put together.
TEST(WeighState, SprungPartIsTheWholeLessTheAxles) {
  build::Build build = sample_build();
  const auto listed = weigh_state(build, "road");
  EXPECT_NEAR(listed->estimated->sprung->mass_kg, listed->sprung->mass_kg, 1e-9);
  EXPECT_LT((listed->estimated->sprung->p_VoBcm_V - listed->sprung->p_VoBcm_V).norm(), 1e-9);
  EXPECT_LT((listed->estimated->sprung->I_BBcm_V - listed->sprung->I_BBcm_V).norm(), 1e-8);

  build::CornerWeighing weighing;
  weighing.state.id = "road";
  weighing.front_left = weighing.front_right = mass(420);
  weighing.rear_left = weighing.rear_right = mass(380);
  build.corner_weighings = {
      {.id = "scales", .path = "/corner_weighings/scales", .value = weighing}};
  const auto scaled = weigh_state(build, "road");
  const auto& sprung = *scaled->standing()->sprung;
  EXPECT_NEAR(sprung.mass_kg, 1600 - 260 - 240, 1e-9);
  // 760 kg stand at the rear axle line, 3 m aft; 240 of them are the axle.
  EXPECT_NEAR(-sprung.p_VoBcm_V.x(), 3.0 * (760 - 240) / 1100, 1e-9);
}

TEST(WeighState, MeasurementsThatCanNotBeUsedAreFaultsWithAPlace) {
  build::Build build = sample_build();
  build.lifted_weighings = {lifted_weighing("a", build::End::kRear, 0.4, 800, 850),
                            lifted_weighing("b", build::End::kRear, 3.5, 800, 850)};
  EXPECT_TRUE(faults(*weigh_state(build, "road"), "weigh.lift_too_high", "/lifted_weighings/b"));
  for (auto& weighing : build.lifted_weighings) weighing.value.state.id = "towing";
  EXPECT_TRUE(faults(*weigh_state(build, "towing"), "weigh.lifted_with_trailer",
                     "/lifted_weighings/a/state"));
  build = sample_build();
  build.corner_weighings = {corner_weighing("zero", "road", {})};
  EXPECT_TRUE(
      faults(*weigh_state(build, "road"), "weigh.reading_not_positive", "/corner_weighings/zero"));
  build = sample_build();
  build.axles[1].value.station = length(-3);
  EXPECT_TRUE(
      faults(*weigh_state(build, "road"), "weigh.wheelbase_not_positive", "/axles/rear/station"));
  build = sample_build();
  build.axles[1].value.end = build::End::kFront;
  EXPECT_TRUE(faults(*weigh_state(build, "road"), "weigh.not_two_axles", "/axles/rear"));
  build = sample_build();
  for (auto& entry : build.masses) entry.value.at.height = length(-1);
  EXPECT_TRUE(faults(*weigh_state(build, "road"), "weigh.cg_not_above_floor", "/masses"));
}

TEST(WeighState, WhatIsNotKnownIsListedAndTheRestIsComputed) {
  const auto with = [](const std::function<void(build::Build&)>& change, const std::string& state) {
    build::Build build = sample_build();
    change(build);
    return *weigh_state(build, state);
  };
  WeighResult result = with([](auto& b) { b.axles[0].value.track = {}; }, "road");
  EXPECT_TRUE(lists(result, "/axles/front/track"));
  EXPECT_TRUE(result.estimated->axle_loads.has_value());
  EXPECT_FALSE(result.estimated->wheel_loads.has_value());
  result = with([](auto& b) { b.axles[1].value.station = {}; }, "road");
  EXPECT_TRUE(lists(result, "/axles/rear/station"));
  EXPECT_FALSE(result.estimated->axle_loads.has_value());
  EXPECT_TRUE(result.total.has_value());
  result = with([](auto& b) { b.load_states[2].value.trailer->tongue_load = {}; }, "towing");
  EXPECT_TRUE(lists(result, "/load_states/towing/trailer/tongue_load"));
  EXPECT_FALSE(result.estimated->axle_loads.has_value());
  result = with([](auto& b) { b.hitch.reset(); }, "towing");
  EXPECT_TRUE(lists(result, "/hitch/ball"));
  EXPECT_TRUE(lists(result, "/hitch/tongue_rating"));
  result = with([](auto& b) { b.load_states[2].value.trailer->mass = {}; }, "towing");
  EXPECT_TRUE(lists(result, "/load_states/towing/trailer/mass"));
  EXPECT_TRUE(result.estimated->wheel_loads.has_value());
  EXPECT_FALSE(result.estimated->stability.has_value());
  result = with([](auto& b) { b.ratings.gross_vehicle = {}; }, "road");
  EXPECT_TRUE(lists(result, "/ratings/gross_vehicle"));
  result = with([](auto& b) { b.axles[0].value.tyre.id.clear(); }, "road");
  EXPECT_TRUE(lists(result, "/axles/front/tyre"));
  const auto lacking = [](auto& b) {
    b.corner_weighings = {corner_weighing("w", "road", {})};
    b.corner_weighings[0].value.rear_left = {};
    b.lifted_weighings = {lifted_weighing("l", build::End::kRear, 0.4, 800, 850)};
    b.axles[0].value.height = {};
  };
  result = with(lacking, "road");
  EXPECT_TRUE(lists(result, "/corner_weighings/w/rear_left"));
  EXPECT_TRUE(lists(result, "/axles/front/height"));
  EXPECT_TRUE(result.measured_heights.empty());
}

TEST(WeighState, AnEmptyBuildSaysWhatItLacks) {
  const auto result = weigh_state(build::Build{}, "");
  ASSERT_TRUE(result.has_value());
  EXPECT_FALSE(result->total.has_value());
  EXPECT_FALSE(result->estimated.has_value());
  EXPECT_TRUE(lists(*result, "/axles"));
  EXPECT_EQ(weigh_state(build::Build{}, "x").error().front().code, "weigh.unknown_state");
}

}  // namespace
}  // namespace rig::weigh
