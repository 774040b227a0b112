#pragma once

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "suspension/from_build.h"

/// Invented axles as the build file tells them, for the tests of this module.
namespace rig::suspension::testing {

using AxleEntry = build::Entry<build::Axle>;

inline build::Point at(double station_m, double offset_m, double height_m) {
  return {.station = {.si = station_m}, .offset = {.si = offset_m}, .height = {.si = height_m}};
}

inline build::JointEnd ball(double station_m, double offset_m, double height_m) {
  return {.at = at(station_m, offset_m, height_m), .bushing = {}, .swing_limit = {}};
}

inline build::JointEnd bushed(double station_m, double offset_m, double height_m,
                              double radial = 8e6) {
  build::JointEnd end = ball(station_m, offset_m, height_m);
  end.bushing = build::Bushing{};
  end.bushing->radial.si = radial;
  return end;
}

inline void add_link(AxleEntry& axle, const std::string& id, build::LinkRole role, bool both_sides,
                     build::JointEnd frame, build::JointEnd on_axle) {
  axle.value.links.push_back({.id = id,
                              .path = axle.path + "/links/" + id,
                              .value = {.label = "",
                                        .role = role,
                                        .both_sides = both_sides,
                                        .frame = std::move(frame),
                                        .axle = std::move(on_axle),
                                        .tube = {}}});
}

/// A front axle at the datum, nothing on it.
inline AxleEntry make_bare() {
  AxleEntry axle{.id = "front", .path = "/axles/front", .value = {}};
  axle.value.station.si = 0;
  axle.value.height.si = 0.45;
  axle.value.track.si = 1.6;
  return axle;
}

/// Lowers both sides, an upper on the right and a track bar.
inline AxleEntry make_three_link() {
  AxleEntry axle = make_bare();
  add_link(axle, "lower", build::LinkRole::kLower, true, ball(0.95, 0.36, 0.56),
           ball(0.06, 0.46, 0.40));
  add_link(axle, "upper", build::LinkRole::kUpper, false, ball(0.80, -0.30, 0.74),
           ball(0.03, -0.28, 0.63));
  add_link(axle, "bar", build::LinkRole::kTrackBar, false, ball(-0.12, 0.47, 0.66),
           ball(-0.12, -0.42, 0.56));
  return axle;
}

inline AxleEntry make_parallel_four(bool with_bushes, bool with_bar) {
  AxleEntry axle = make_bare();
  const auto end = [&](double s, double o, double h) {
    return with_bushes ? bushed(s, o, h) : ball(s, o, h);
  };
  add_link(axle, "lower", build::LinkRole::kLower, true, end(0.9, 0.45, 0.5), end(0, 0.45, 0.4));
  add_link(axle, "upper", build::LinkRole::kUpper, true, end(0.8, 0.45, 0.7), end(0, 0.45, 0.6));
  if (with_bar) {
    add_link(axle, "bar", build::LinkRole::kTrackBar, false, end(-0.12, 0.47, 0.6),
             end(-0.12, -0.42, 0.6));
  }
  return axle;
}

inline AxleEntry make_radius_arms(bool with_bushes) {
  AxleEntry axle = make_bare();
  const auto end = [&](double s, double o, double h) {
    return with_bushes ? bushed(s, o, h) : ball(s, o, h);
  };
  axle.value.arms.push_back({.id = "arm",
                             .path = "/axles/front/arms/arm",
                             .value = {.label = "",
                                       .kind = build::ArmKind::kRadiusArm,
                                       .both_sides = true,
                                       .apex = end(0.9, 0.40, 0.55),
                                       .first = end(0.10, 0.44, 0.36),
                                       .second = end(0.08, 0.44, 0.54)}});
  add_link(axle, "bar", build::LinkRole::kTrackBar, false, end(-0.12, 0.47, 0.6),
           end(-0.12, -0.42, 0.6));
  return axle;
}

inline void add_coil(AxleEntry& axle) {
  build::Coil coil;
  coil.both_sides = true;
  coil.upper = at(0, 0.44, 0.90);
  coil.lower = at(0, 0.46, 0.53);
  coil.free_length.si = 0.50;
  coil.rate.si = 42000;
  coil.solid_length.si = 0.19;
  axle.value.coils.push_back({.id = "coil", .path = "/axles/front/coils/coil", .value = coil});
}

inline void add_leaves(AxleEntry& axle) {
  build::LeafPack pack;
  pack.both_sides = true;
  pack.front_eye = at(-0.6, 0.5, 0.55);
  pack.rear_eye = at(0.7, 0.5, 0.57);
  pack.seat = at(0, 0.5, 0.48);
  pack.free_arch.si = 0.18;
  pack.rate.si = 40000;
  pack.lateral_rate.si = 150000;
  axle.value.leaf_packs.push_back(
      {.id = "pack", .path = "/axles/front/leaf_packs/pack", .value = pack});
}

inline AxleFromBuild must_build(const AxleEntry& axle) {
  auto made = axle_from_build(axle);
  EXPECT_TRUE(made.has_value()) << (made ? "" : made.error().front().message);
  return made ? *made : AxleFromBuild{};
}

inline std::set<std::string> missing_paths(const AxleFromBuild& made) {
  std::set<std::string> paths;
  for (const auto& missing : made.missing) {
    EXPECT_FALSE(missing.what.empty());
    EXPECT_FALSE(missing.needed.empty());
    paths.insert(missing.path);
  }
  return paths;
}

/// Code and path of the only fault.
inline std::string fault(const AxleEntry& axle) {
  const auto made = axle_from_build(axle);
  if (made) return "none";
  EXPECT_EQ(made.error().size(), 1U);
  EXPECT_FALSE(made.error().front().remedy.empty());
  return made.error().front().code + " " + made.error().front().path;
}

}  // namespace rig::suspension::testing
