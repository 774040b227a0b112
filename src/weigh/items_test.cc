#include "weigh/items.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "build/start.h"
#include "units/factors.h"
#include "weigh/sample_internal.h"

namespace rig::weigh {
namespace {

using internal::length;
using internal::sample_build;

std::vector<std::string> ids(const Items& items) {
  std::vector<std::string> result;
  for (const Item& item : items.items) result.push_back(item.id);
  return result;
}

std::vector<std::string> paths(const std::vector<Missing>& missing) {
  std::vector<std::string> result;
  for (const Missing& one : missing) result.push_back(one.path);
  return result;
}

const Item& find_item(const Items& items, const std::string& id) {
  return *std::find_if(items.items.begin(), items.items.end(),
                       [&](const Item& item) { return item.id == id; });
}

TEST(Items, OptionalLoadsAndFillsByState) {
  const auto road = resolve_items(sample_build(), "road");
  const auto full = resolve_items(sample_build(), "full");
  ASSERT_TRUE(road.has_value() && full.has_value());
  EXPECT_EQ(ids(*road),
            (std::vector<std::string>{"frame", "engine", "front_axle", "rear_axle", "tank"}));
  EXPECT_EQ(ids(*full).back(), "toolbox");
  EXPECT_TRUE(road->missing.empty() && road->faults.empty());
  // 40 L of gasoline at the usual 6.15 lb/gal.
  const double density = units::kg_per_m3_from_lb_per_gal(6.15);
  EXPECT_NEAR(find_item(*road, "tank").mass_kg(), 0.04 * density, 1e-12);
  EXPECT_NEAR(find_item(*full, "tank").mass_kg(), 0.08 * density, 1e-12);
  EXPECT_NEAR(find_item(*full, "tank").mass_plus_minus_kg, 0.08 * 35, 1e-12);
  EXPECT_TRUE(find_item(*full, "tank").plus_minus_given);
  EXPECT_EQ(find_item(*full, "rear_axle").carried_by, "rear");
  EXPECT_EQ(ids(*resolve_items(sample_build(), "")), ids(*road));
}

// docs/findings.md, "Known to what": 20 % of an estimated mass, 1/2 in of an estimated place.
TEST(Items, AnEstimateWithoutHalfWidthIsNotExact) {
  build::Build build = sample_build();
  build::MassItem& engine = build.masses[1].value;
  engine.mass.from = build::From::kEstimate;
  engine.at.height.from = build::From::kEstimate;
  engine.at.station.from = build::From::kEstimate;
  engine.at.station.plus_minus_si = 0.05;
  build.masses[4].value.fluid->volume.from = build::From::kEstimate;
  const auto items = resolve_items(build, "road");
  ASSERT_TRUE(items.has_value());
  const Item& known = find_item(*items, "engine");
  EXPECT_DOUBLE_EQ(known.mass_plus_minus_kg, 0.2 * 320);
  EXPECT_TRUE(known.plus_minus_given);
  EXPECT_EQ(known.p_plus_minus_V, Vec3(0.05, 0, units::m_from_inch(0.5)));
  EXPECT_FALSE(find_item(*items, "frame").plus_minus_given);
  // The tank's volume by a fifth, the usual density of gasoline by its 35 kg/m3.
  const double density = units::kg_per_m3_from_lb_per_gal(6.15);
  EXPECT_NEAR(find_item(*items, "tank").mass_plus_minus_kg,
              std::hypot(0.2 * 0.04 * density, 0.04 * 35), 1e-12);
}

TEST(Items, ANewBuildsGuessedMassesAreKnownToAFifth) {
  const auto read = build::start_build({{"name", "A guess"}});
  ASSERT_TRUE(read.has_value());
  const auto items = resolve_items(read->build, "");
  ASSERT_TRUE(items.has_value() && !items->items.empty());
  double total_kg = 0;
  double squares = 0;
  for (const Item& item : items->items) {
    EXPECT_NEAR(item.mass_plus_minus_kg, 0.2 * item.mass_kg(), 1e-9) << item.id;
    total_kg += item.mass_kg();
    squares += item.mass_plus_minus_kg * item.mass_plus_minus_kg;
  }
  // One heavy body and a few light parts: a little under a fifth of the whole.
  EXPECT_GT(std::sqrt(squares), 0.14 * total_kg);
}

TEST(Items, OwnDensityGoesBeforeTheUsualOne) {
  build::Build build = sample_build();
  build.masses[4].value.fluid->density.si = 800;
  build.masses[4].value.fluid->volume.plus_minus_si = 0.004;
  build.masses[4].value.fluid->fill.plus_minus_si = 0.05;
  const auto items = resolve_items(build, "road");
  const Item& tank = find_item(*items, "tank");
  EXPECT_DOUBLE_EQ(tank.mass_kg(), 32);
  EXPECT_NEAR(tank.mass_plus_minus_kg, std::hypot(0.004 * 0.5 * 800, 0.08 * 0.05 * 800), 1e-12);
}

TEST(Items, WhatIsUnknownIsLeftOutAndListed) {
  build::Build build = sample_build();
  build.masses[0].value.mass = {};
  build.masses[1].value.at.offset = {};
  build.masses[1].value.at.height = {};
  build.masses[4].value.fluid->volume = {};
  build.masses[4].value.fluid->liquid = build::Liquid::kOther;
  build.load_states[1].value.fills[0].value.fill = {};
  const auto items = resolve_items(build, "full");
  ASSERT_TRUE(items.has_value());
  EXPECT_EQ(ids(*items), (std::vector<std::string>{"front_axle", "rear_axle", "toolbox"}));
  EXPECT_EQ(paths(items->missing),
            (std::vector<std::string>{"/masses/frame/mass", "/masses/engine/at/offset",
                                      "/masses/engine/at/height", "/masses/tank/fluid/volume",
                                      "/load_states/full/fills/tank/fill",
                                      "/masses/tank/fluid/density"}));
  EXPECT_EQ(items->missing.front().what, "mass of frame");
}

TEST(Items, SizeGivesInertiaAndHalfASizeIsListed) {
  build::Build build = sample_build();
  auto items = resolve_items(build, "road");
  EXPECT_TRUE(find_item(*items, "frame")
                  .properties.I_BBcm_V.isApprox(calc_box_inertia(700, {4.2, 0.8, 0.2})));
  EXPECT_TRUE(find_item(*items, "engine").properties.I_BBcm_V.isZero());
  build.masses[0].value.size->shape = build::Shape::kCylinder;
  build.masses[0].value.size->axis = build::Axis::kCrosswise;
  items = resolve_items(build, "road");
  EXPECT_EQ(paths(items->missing), (std::vector<std::string>{"/masses/frame/size/diameter"}));
  EXPECT_TRUE(find_item(*items, "frame").properties.I_BBcm_V.isZero());
  build.masses[0].value.size->diameter = length(0.5);
  items = resolve_items(build, "road");
  EXPECT_TRUE(find_item(*items, "frame")
                  .properties.I_BBcm_V.isApprox(calc_cylinder_inertia(700, 0.5, 4.2, 1)));
}

TEST(Items, EachError) {
  EXPECT_EQ(resolve_items(sample_build(), "moon").error().front().code, "weigh.unknown_state");
  build::Build build = sample_build();
  build.load_states[1].value.fills[0].id = "engine";
  const auto items = resolve_items(build, "full");
  ASSERT_EQ(items->faults.size(), 1U);
  EXPECT_EQ(items->faults.front().code, "weigh.fill_without_fluid");
  EXPECT_EQ(items->faults.front().path, "/load_states/full/fills/tank");
}

}  // namespace
}  // namespace rig::weigh
