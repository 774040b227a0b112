#include "check/states_json.h"

#include "base/nan.h"
#include "check/finding.h"
#include "check/left_out.h"
#include "check/rows_json_internal.h"
#include "check/summary.h"
#include "check/truck.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;

class StateWriter {
 public:
  StateWriter(const build::Build& build, const Printer& print, bool with_workings)
      : build_(build), print_(print), with_workings_(with_workings) {}

  Json write(const StateReport& state) const {
    const weigh::Standing* standing = state.standing();
    const Vec3 cg = standing != nullptr ? standing->truck.p_VoBcm_V : Vec3::Constant(kNaN);
    Json json{{"id", state.id}, {"label", state.label}};
    json["total"] = mass(standing != nullptr ? standing->truck.mass_kg : kNaN);
    if (standing != nullptr && is_lower_bound(state)) {
      json["total"]["text"] = "at least " + json["total"]["text"].get<std::string>();
    }
    const double half_kg = standing != nullptr ? state.mass_plus_minus_kg() : kNaN;
    json["plus_minus"] = mass(half_kg);
    if (standing != nullptr) {
      json["plus_minus"]["text"] =
          print_.plus_minus(half_kg, standing->truck.mass_kg, Dimension::kMass);
    }
    json["cg"] = {
        {"station", length(-cg.x())}, {"offset", length(cg.y())}, {"height", length(cg.z())}};
    json["p_VoCm"] =
        Json::array({json_from_si(cg.x()), json_from_si(cg.y()), json_from_si(cg.z())});
    json["sprung"] = mass(state.weigh.sprung ? state.weigh.sprung->mass_kg : kNaN);
    json["unsprung"] = Json::array();
    for (const auto& unsprung : state.weigh.unsprung) {
      json["unsprung"].push_back(
          {{"axle", unsprung.axle_id}, {"mass", mass(unsprung.properties.mass_kg)}});
    }
    json["sentence"] = state_words(state, print_);
    json["loads"] = write_loads(state, standing);
    const Shares shares = find_shares(state);
    json["shares"] = {{"front", number(shares.front, Dimension::kRatio)},
                      {"left", number(shares.left, Dimension::kRatio)},
                      {"cross", number(shares.cross, Dimension::kRatio)}};
    const weigh::Stability none{.cg_height_m = kNaN,
                                .track_at_cg_m = kNaN,
                                .static_stability_factor = kNaN,
                                .tilt_rad = kNaN,
                                .left_side_down_rad = kNaN,
                                .right_side_down_rad = kNaN,
                                .side_slope_rad = kNaN,
                                .up_grade_rad = kNaN,
                                .down_grade_rad = kNaN,
                                .any_heading_rad = kNaN};
    const auto& stability =
        standing != nullptr && standing->stability ? *standing->stability : none;
    json["stability"] = {{"factor", json_from(print_.plain(stability.static_stability_factor, 2))},
                         {"tilt", angle(stability.tilt_rad)},
                         {"side_slope", angle(stability.side_slope_rad)},
                         {"up_grade", angle(stability.up_grade_rad)},
                         {"down_grade", angle(stability.down_grade_rad)}};
    json["settled"] = write_settled(state);
    json["explained"] = Json::array();
    for (const auto& number : state.explained) {
      json["explained"].push_back(
          {{"id", number.id},
           {"label", number.label},
           {"explain", number.explain},
           {"usual", number.usual},
           {"working", with_workings_ ? working_json(number.working) : Json::array()}});
    }
    return json;
  }

 private:
  Json number(double si, Dimension dimension) const {
    return json_from(print_.number(si, dimension));
  }
  Json length(double si) const { return number(si, Dimension::kLength); }
  Json mass(double si) const { return number(si, Dimension::kMass); }
  Json angle(double si) const { return number(si, Dimension::kAngle); }
  /// A wheel or axle load is told as the mass a scale would show.
  Json scale_reading(double force_N) const { return json_from(print_.scale_reading(force_N)); }

  Json write_loads(const StateReport& state, const weigh::Standing* standing) const {
    Json loads = Json::array();
    if (standing == nullptr || !standing->axle_loads) return loads;
    for (const bool front : {true, false}) {
      const std::string& id = front ? state.weigh.front_axle_id : state.weigh.rear_axle_id;
      const auto* axle = build::find(build_.axles, id);
      double left_N = kNaN, right_N = left_N;
      double total_N = front ? standing->axle_loads->front_N : standing->axle_loads->rear_N;
      if (standing->wheel_loads) {
        left_N = front ? standing->wheel_loads->front_left_N : standing->wheel_loads->rear_left_N;
        right_N =
            front ? standing->wheel_loads->front_right_N : standing->wheel_loads->rear_right_N;
      }
      for (std::size_t a = 0; state.settled && a < state.settled->axles.size(); ++a) {
        if (state.truck->axles[a].id != id) continue;
        left_N = state.settled->axles[a].wheel_loads_N[0];
        right_N = state.settled->axles[a].wheel_loads_N[1];
        total_N = left_N + right_N;
      }
      Json load{{"axle", id},
                {"left", scale_reading(left_N)},
                {"right", scale_reading(right_N)},
                {"total", scale_reading(total_N)}};
      load["rating"] = axle != nullptr && axle->value.rating.known() ? mass(axle->value.rating.si)
                                                                     : Json(nullptr);
      load["measured"] = nullptr;
      if (const auto& scaled = state.weigh.scaled; scaled && scaled->state_id == state.id) {
        const auto& r = scaled->readings;
        load["measured"] = {{"left", mass(front ? r.front_left_kg : r.rear_left_kg)},
                            {"right", mass(front ? r.front_right_kg : r.rear_right_kg)}};
      }
      load["verdict"] = nullptr;
      if (axle != nullptr && axle->value.rating.known()) {
        const double total_kg = total_N / units::kStandardGravity_m_per_s2;
        load["verdict"] = verdict_name(judge(total_kg, at_most(axle->value.rating.si)).verdict);
      }
      loads.push_back(std::move(load));
    }
    return loads;
  }

  Json write_settled(const StateReport& state) const {
    if (!state.settled) return nullptr;
    Json corners = Json::array();
    for (std::size_t a = 0; a < state.truck->axles.size(); ++a) {
      for (const int side : {1, -1}) {
        corners.push_back(
            {{"axle", state.truck->axles[a].id},
             {"side", side_words(side)},
             {"height_error", length(calc_height_error_m(*state.truck, *state.settled, a, side))},
             {"load", scale_reading(state.settled->axles[a].wheel_loads_N[side > 0 ? 0 : 1])}});
      }
    }
    return {{"heave", length(state.settled->heave_m)},
            {"roll", angle(state.settled->roll_rad)},
            {"pitch", angle(state.settled->pitch_rad)},
            {"corners", std::move(corners)}};
  }

  const build::Build& build_;
  const Printer& print_;
  bool with_workings_;
};

}  // namespace

Json states_json(const build::Build& build, const Report& report, const Printer& print,
                 bool with_workings) {
  const StateWriter writer(build, print, with_workings);
  Json states = Json::array();
  for (const auto& state : report.states) states.push_back(writer.write(state));
  return states;
}

}  // namespace rig::check
