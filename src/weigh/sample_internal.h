#pragma once

#include <string>
#include <utility>

#include "build/types.h"

/// An invented truck for this module's tests.
namespace rig::weigh::internal {

inline build::Length length(double si, double plus_minus_si = 0) {
  build::Length quantity;
  quantity.si = si;
  if (plus_minus_si > 0) quantity.plus_minus_si = plus_minus_si;
  return quantity;
}

inline build::Mass mass(double si, double plus_minus_si = 0) {
  build::Mass quantity;
  quantity.si = si;
  if (plus_minus_si > 0) quantity.plus_minus_si = plus_minus_si;
  return quantity;
}

inline build::Point point(double station, double offset, double height) {
  return {.station = length(station), .offset = length(offset), .height = length(height)};
}

inline build::Entry<build::MassItem> item(const std::string& id, double mass_kg, build::Point at,
                                          const std::string& on = {}) {
  build::MassItem value;
  value.mass = mass(mass_kg);
  value.at = std::move(at);
  value.on.id = on;
  return {.id = id, .path = "/masses/" + id, .value = value};
}

/// Two axles 3 m apart; frame, engine, axles, a tank, a toolbox that is an optional load; states
/// `road` (nothing optional, half a tank), `full` (toolbox, full tank) and `towing` (full, with a
/// trailer).
inline build::Build sample_build() {
  build::Build build;
  build.masses = {item("frame", 700, point(1.6, 0, 0.7)),
                  item("engine", 320, point(0.2, 0.02, 0.9)),
                  item("front_axle", 260, point(0, -0.05, 0.42), "front"),
                  item("rear_axle", 240, point(3, 0, 0.42), "rear"),
                  item("tank", 0, point(2.4, -0.4, 0.6)),
                  item("toolbox", 90, point(3.4, 0.3, 1.0))};
  build.masses[0].value.size = build::Size{.shape = build::Shape::kBox,
                                           .length = length(4.2),
                                           .width = length(0.8),
                                           .height = length(0.2),
                                           .diameter = {}};
  build.masses[4].value.mass = {};
  build.masses[4].value.fluid = build::Fluid{.liquid = build::Liquid::kGasoline};
  build.masses[4].value.fluid->volume.si = 0.08;
  build.masses[4].value.fluid->fill.si = 0.5;
  build.masses[5].value.optional_load = true;

  build::Tyre tyre;
  tyre.rating = mass(1100);
  tyre.wheel_rating = mass(1000);
  build.tyres = {{.id = "mud", .path = "/tyres/mud", .value = tyre}};
  build::Axle front;
  front.end = build::End::kFront;
  front.height = length(0.4);
  front.track = length(1.6);
  front.tyre.id = "mud";
  front.rating = mass(1500);
  build::Axle rear = front;
  rear.end = build::End::kRear;
  rear.station = length(3);
  rear.track = length(1.56);
  rear.rating = mass(1700);
  build.axles = {{.id = "front", .path = "/axles/front", .value = front},
                 {.id = "rear", .path = "/axles/rear", .value = rear}};

  build::LoadState road;
  build::LoadState full;
  full.aboard = {{.id = "toolbox"}};
  build::Fill fill;
  fill.fill.si = 1;
  full.fills = {{.id = "tank", .path = "/load_states/full/fills/tank", .value = fill}};
  build::LoadState towing = full;
  towing.trailer = build::Trailer{.mass = mass(1800), .tongue_load = {}};
  towing.trailer->tongue_load.si = 2200;
  build.load_states = {{.id = "road", .path = "/load_states/road", .value = road},
                       {.id = "full", .path = "/load_states/full", .value = full},
                       {.id = "towing", .path = "/load_states/towing", .value = towing}};
  build.hitch =
      build::Hitch{.ball = point(4.1, 0, 0.55), .tongue_rating = {}, .trailer_rating = mass(2000)};
  build.hitch->tongue_rating.si = 2000;
  build.ratings = {.gross_vehicle = mass(2800), .gross_combination = mass(4500)};
  return build;
}

}  // namespace rig::weigh::internal
