#pragma once

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "build/read.h"
#include "frame/model.h"

/// Frames for tests, as build files: invented sizes.
namespace rig::frame::testing {

using Json = nlohmann::ordered_json;

/// Channel rails 6 x 2 x 1/5 in from station -20 to 120 in, 32 in apart; tubes through the webs at
/// -10, 50 and 110 in; axles at 0 and 100 in; cab mounts at 30 and 60 in.
inline Json ladder() {
  return Json::parse(R"({"version": 1, "frame": {
    "steels": {"mild": {"yield": "36 ksi"}},
    "rails": {"main": {
      "label": "Frame rail", "both_sides": true, "steel": "mild",
      "section": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "0.2 in"},
      "line": [{"station": "-20 in", "offset": "16 in", "height": "25 in"},
               {"station": "120 in", "offset": "16 in", "height": "25 in"}]}},
    "crossmembers": {
      "front": {"label": "Front tube", "at": {"station": "-10 in"}, "joint": "through_web", "steel": "mild",
        "section": {"shape": "round_tube", "outside_diameter": "3 in", "thickness": "0.2 in"}},
      "middle": {"label": "Middle tube", "at": {"station": "50 in"}, "joint": "through_web", "steel": "mild",
        "section": {"shape": "round_tube", "outside_diameter": "3 in", "thickness": "0.2 in"}},
      "rear": {"label": "Rear tube", "at": {"station": "110 in"}, "joint": "through_web", "steel": "mild",
        "section": {"shape": "round_tube", "outside_diameter": "3 in", "thickness": "0.2 in"}}},
    "mounts": {
      "cab_front": {"both_sides": true, "station": "30 in", "offset": "18 in", "carries": ["cab"]},
      "cab_rear": {"both_sides": true, "station": "60 in", "offset": "18 in", "carries": ["cab"]},
      "strap": {"station": "80 in", "offset": "16 in", "carries": ["tank"]}}},
    "masses": {
      "cab": {"mass": "900 lb", "at": {"station": "40 in", "offset": "0 in", "height": "48 in"}},
      "tank": {"mass": "100 lb", "at": {"station": "90 in", "offset": "20 in", "height": "23 in"}}},
    "axles": {"front": {"end": "front", "station": "0 in"},
              "rear": {"end": "rear", "station": "100 in"}}})");
}

inline build::Build read(const Json& file) {
  const auto read = build::read_build(file.dump());
  if (!read) {
    ADD_FAILURE() << read.error().front().path << " " << read.error().front().message;
    return {};
  }
  return read->build;
}

inline Model model_of(const build::Build& build) {
  const auto model = make_model(build, build::planned_parts(build.frame));
  if (!model) {
    ADD_FAILURE() << model.error().front().path << " " << model.error().front().message;
    return {};
  }
  return *model;
}

}  // namespace rig::frame::testing
