#include "check/sweep_csv.h"

#include <gtest/gtest.h>

#include <sstream>

#include "check/test_builds_internal.h"
#include "suspension/from_build.h"

namespace rig::check {
namespace {

struct Csv {
  std::vector<std::string> names;
  std::vector<std::vector<std::string>> rows;

  std::size_t column(const std::string& name) const {
    return static_cast<std::size_t>(std::find(names.begin(), names.end(), name) - names.begin());
  }
  bool has(const std::string& name) const { return column(name) < names.size(); }
  double at(std::size_t row, const std::string& name) const {
    return std::stod(rows.at(row).at(column(name)));
  }
};

std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells;
  std::size_t at = 0;
  while (true) {
    const std::size_t comma = line.find(',', at);
    cells.push_back(line.substr(at, comma - at));
    if (comma == std::string::npos) return cells;
    at = comma + 1;
  }
}

Csv csv_of(const build::Build& build, const std::string& axle,
           const suspension::TruckNumbers& truck) {
  const auto model = suspension::axle_from_build(*build::find(build.axles, axle));
  EXPECT_TRUE(model.has_value());
  const auto sweep = suspension::sweep_axle(
      model->model, truck, suspension::make_targets(-0.05, 0.05, 3, -0.05, 0.05, 3));
  EXPECT_TRUE(sweep.has_value());
  std::istringstream text(sweep_csv(model->model, *sweep));
  Csv csv;
  std::string line;
  std::getline(text, line);
  csv.names = split(line);
  while (std::getline(text, line)) csv.rows.push_back(split(line));
  return csv;
}

TEST(SweepCsv, HoldsPosesInTheOrderAsked) {
  const auto read = testing::read_example(testing::kTowRig);
  const Csv csv = csv_of(read.build, "front", {});
  ASSERT_EQ(csv.rows.size(), 9U);
  for (const auto& row : csv.rows) EXPECT_EQ(row.size(), csv.names.size());
  EXPECT_NEAR(csv.at(0, "heave_m"), -0.05, 1e-12);
  EXPECT_NEAR(csv.at(0, "roll_rad"), -0.05, 1e-12);
  EXPECT_NEAR(csv.at(5, "heave_m"), 0.05, 1e-12);
  EXPECT_NEAR(csv.at(5, "roll_rad"), 0, 1e-12);
  // Roll by its definition, tan(roll) = R32 / R33; the link keeps its length.
  EXPECT_NEAR(std::atan2(csv.at(0, "R_32"), csv.at(0, "R_33")), -0.05, 1e-9);
  double square = 0;
  for (const char* axis : {"x", "y", "z"}) {
    const double d = csv.at(0, std::string("track_bar.axle_end_") + axis + "_m") -
                     csv.at(0, std::string("track_bar.frame_end_") + axis + "_m");
    square += d * d;
  }
  const Vec3 frame(0, 16.5, 23.25), axle(0, -18, 20);
  EXPECT_NEAR(std::sqrt(square), 0.0254 * (frame - axle).norm(), 1e-9);
}

TEST(SweepCsv, LeavesOutWhatIsNotKnown) {
  const auto whole = testing::read_example(testing::kTowRig);
  const Csv told =
      csv_of(whole.build, "front",
             {.wheelbase_m = 3, .cg_height_m = 0.8, .brake_share = 0.6, .drive_share = 0.5});
  EXPECT_TRUE(told.has("anti_brake"));
  EXPECT_TRUE(told.has("lower.left.force_N"));
  EXPECT_TRUE(told.has("coil.left.length_m"));
  // Links only: no masses, no springs.
  const auto bare = testing::edited(whole, {{"/axles/front/coils", ""},
                                            {"/axles/front/dampers", ""},
                                            {"/axles/front/bump_stops", ""},
                                            {"/masses/front_axle", ""}});
  const Csv less = csv_of(bare.build, "front", {});
  EXPECT_TRUE(less.has("p_VC_y_m"));
  EXPECT_TRUE(less.has("roll_steer"));
  EXPECT_FALSE(less.has("anti_brake"));
  EXPECT_FALSE(less.has("lower.left.force_N"));
  EXPECT_FALSE(less.has("wheel_rate_N_per_m"));
  EXPECT_FALSE(less.has("coil.left.length_m"));
}

/// Equilibrium of an axle on two lower links and an A-arm, all with ball joints: the wheels hold it
/// up against links, arm and coils, and nothing is left over lengthwise or sideways.
TEST(SweepCsv, ArmPushesTheAxleAsItsEquilibriumAsks) {
  const auto point = [](const char* station, const char* offset, const char* height) {
    return std::string(R"({"at": {"station": ")") + station + R"(", "offset": ")" + offset +
           R"(", "height": ")" + height + R"("}})";
  };
  const auto read =
      testing::edited(testing::read_example(testing::kTowRig),
                      {{"/axles/front/links/upper", ""},
                       {"/axles/front/links/track_bar", ""},
                       {"/axles/front/links/lower/frame/bushing", ""},
                       {"/axles/front/bump_stops", ""},
                       {"/axles/front/dampers", ""},
                       {"/axles/front/arms/wishbone",
                        R"({"kind": "a_arm", "apex": )" + point("1 in", "0 in", "24 in") +
                            R"(, "first": )" + point("33 in", "14 in", "27 in") +
                            R"(, "second": )" + point("33 in", "-14 in", "27 in") + "}"}});
  const Csv csv = csv_of(read.build, "front", {});
  const auto vector = [&](std::size_t row, const std::string& name, const std::string& unit) {
    return Vec3(csv.at(row, name + "_x_" + unit), csv.at(row, name + "_y_" + unit),
                csv.at(row, name + "_z_" + unit));
  };
  const auto& axle = read.build.axles[0].value;
  const auto& coil = axle.coils[0].value;
  for (std::size_t row = 0; row < csv.rows.size(); ++row) {
    Vec3 on_axle = vector(row, "wishbone.apex_force", "N");
    EXPECT_GT(on_axle.norm(), 1) << row;
    for (const std::string side : {"left", "right"}) {
      const Vec3 to_frame = vector(row, "lower." + side + ".frame_end", "m") -
                            vector(row, "lower." + side + ".axle_end", "m");
      on_axle += csv.at(row, "lower." + side + ".force_N") * to_frame.normalized();
    }
    Mat3 R;
    for (int i = 0; i < 9; ++i) {
      R(i / 3, i % 3) = csv.at(row, "R_" + std::to_string(i / 3 + 1) + std::to_string(i % 3 + 1));
    }
    for (const int side : {1, -1}) {
      const Vec3 mirror(1, side, 1);
      const Vec3 upper = coil.upper.p_VP().cwiseProduct(mirror);
      const Vec3 p_AQ = coil.lower.p_VP().cwiseProduct(mirror) - Vec3(0, 0, axle.height.si);
      const Vec3 down = vector(row, "p_VC", "m") + R * p_AQ - upper;
      on_axle += coil.rate.si * (coil.free_length.si - down.norm()) * down.normalized();
    }
    EXPECT_NEAR(on_axle.x(), 0, 1e-6) << row;
    EXPECT_NEAR(on_axle.y(), 0, 1e-6) << row;
    EXPECT_NEAR(on_axle.z(), -2 * csv.at(row, "spring_load_per_wheel_N"), 1e-6) << row;
  }
}

TEST(SweepCsv, NamesSpringLoadsAndWritesZeroAsZero) {
  const auto read = testing::read_example(testing::kTowRig);
  const Csv csv = csv_of(read.build, "front", {});
  EXPECT_TRUE(csv.has("spring_load_per_wheel_N"));
  EXPECT_FALSE(csv.has("wheel_load_N"));
  for (const auto& row : csv.rows) {
    for (const auto& cell : row) {
      if (cell.empty() || std::abs(std::stod(cell)) >= 1e-15) continue;
      EXPECT_EQ(cell, "0");
    }
  }
}

}  // namespace
}  // namespace rig::check
