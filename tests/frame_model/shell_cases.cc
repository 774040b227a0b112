#include "tests/frame_model/shell_cases.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>

#include "section/stress.h"

namespace rig::frame::testing {
namespace {

constexpr double kHeight_m = 0.5;

Json read_json(const std::string& path) {
  std::ifstream file(RIG_SOURCE_DIR "/tests/shells/" + path);
  return file.is_open() ? Json::parse(file) : Json();
}

std::string metres(double length_m) { return fmt::format("{:.9f} m", length_m); }
std::string metres(const Json& length_m) { return metres(length_m.get<double>()); }

/// A crossmember of a case as the build file has it.
Json crossmember_of(const Json& part, double rail_midline_m, bool boxed) {
  Json out{{"at", {{"station", metres(part["station_m"])}}}, {"steel", "steel"}};
  const double t = part["thickness_m"];
  if (part["kind"] == "tube") {
    out["section"] = {{"shape", "round_tube"},
                      {"outside_diameter", metres(part["outside_diameter_m"])},
                      {"thickness", metres(t)}};
    out["joint"] = boxed ? "through_web_and_plate" : "through_web";
    return out;
  }
  const std::string weld = part.value("weld", "");
  const double depth_m = weld == "flush" ? rail_midline_m + t : part["depth_m"].get<double>();
  out["section"] = {{"shape", "channel"},
                    {"depth", metres(depth_m)},
                    {"flange", metres(part["flange_m"])},
                    {"thickness", metres(t)}};
  out["opens"] = part["opens"] == "aft" ? "rearward" : "forward";
  const bool flanges = weld == "flush" || part["kind"] == "bolted_flanges";
  out["joint"] = flanges ? "flanges" : weld == "plate" ? "butted" : "web";
  if (part["kind"] == "channel") return out;
  out["fastening"] = "bolted";
  const Json& bolts = part["bolts"];
  // Washers are twice as wide as their bolts.
  out["bolts"] = {{"count", (part["kind"] == "bolted_flanges" ? 2 : 1) * bolts.size()},
                  {"diameter", metres(part["washer_diameter_m"].get<double>() / 2)}};
  if (part["kind"] != "bolted_plate") return out;
  const auto range_m = [&](std::size_t way) {
    double low_m = bolts[0][way], high_m = low_m;
    for (const Json& bolt : bolts) {
      low_m = std::min(low_m, bolt[way].get<double>());
      high_m = std::max(high_m, bolt[way].get<double>());
    }
    return high_m - low_m;
  };
  out["end_plate"] = {{"thickness", metres(part["plate"]["thickness_m"])},
                      {"bolt_rise", metres(range_m(1))},
                      {"bolt_reach", metres(range_m(0))}};
  return out;
}

bool is_boxed(const Json& shell_case, double station_m) {
  for (const Json& box : shell_case.value("boxing", Json::array())) {
    if (station_m > box["from_m"] && station_m < box["to_m"]) return true;
  }
  return false;
}

struct Force {
  std::string station;
  int sign;
  int axis;
  double share;
};

/// tests/shells/loads.py, `shares`.
std::vector<Force> forces_of(const std::string& load, const Json& shell_case) {
  const auto& stations = shell_case["stations_m"];
  const double f = stations["front"], m = stations["middle"], r = stations["rear"];
  const double B = shell_case["web_to_web_m"], L = r - f;
  std::vector<Force> forces;
  for (const int sign : {1, -1}) {
    if (load == "torsion") {
      forces.push_back({"front", sign, 2, sign / B});
      forces.push_back({"rear", sign, 2, -sign / B});
    } else if (load == "bending") {
      forces.push_back({"front", sign, 2, (r - m) / L / 2});
      forces.push_back({"middle", sign, 2, -0.5});
      forces.push_back({"rear", sign, 2, (m - f) / L / 2});
    } else {
      forces.push_back({"front", sign, 0, sign * 0.5});
      forces.push_back({"rear", sign, 0, sign * 0.5});
      forces.push_back({"front", sign, 1, B / L / 2});
      forces.push_back({"rear", sign, 1, -B / L / 2});
    }
  }
  return forces;
}

const Attachment& attachment_at(const Model& model, const std::string& station, int sign) {
  for (const Attachment& attachment : model.attachments) {
    if (attachment.path == "/frame/mounts/" + station && attachment.sign == sign) {
      return attachment;
    }
  }
  throw std::logic_error("no load station " + station);
}

}  // namespace

Json read_case(const std::string& name) { return read_json("cases/" + name + ".json"); }

Json read_shells(const std::string& name) {
  const Json results = read_json("results/" + name + ".json");
  if (results.is_null()) return results;
  for (const char* density : {"fine", "medium"}) {
    if (results["by_density"].contains(density)) return results["by_density"][density];
  }
  return Json();
}

Json read_joint_cases() { return read_json("cases/joints.json"); }
Json read_joint_results() { return read_json("results/joints.json"); }

Json read_member_cases() { return read_json("cases/members.json"); }
Json read_member_results() { return read_json("results/members.json"); }

Json read_prediction(const std::string& name) { return read_json("predictions/" + name + ".json"); }

build::Build make_build(const Json& shell_case) {
  const Json& rail = shell_case["rail"];
  const double half_m = shell_case["web_to_web_m"].get<double>() / 2;
  const auto point = [&](double station_m) {
    return Json{
        {"station", metres(station_m)}, {"offset", metres(half_m)}, {"height", metres(kHeight_m)}};
  };
  Json section{{"shape", "channel"},
               {"depth", metres(rail["depth_m"])},
               {"flange", metres(rail["flange_m"])},
               {"thickness", metres(rail["thickness_m"])}};
  if (rail.contains("inside_radius_m")) section["inside_radius"] = metres(rail["inside_radius_m"]);
  Json frame;
  frame["steels"]["steel"] = {{"modulus", fmt::format("{} Pa", shell_case["E_Pa"].get<double>())},
                              {"poisson_ratio", shell_case["nu"]}};
  frame["rails"]["main"] = {{"label", "Rail"},
                            {"both_sides", true},
                            {"steel", "steel"},
                            {"section", section},
                            {"line", Json::array({point(0), point(rail["length_m"])})}};
  int plates = 0;
  for (const Json& box : shell_case.value("boxing", Json::array())) {
    frame["plates"][fmt::format("plate_{}", ++plates)] = {{"rail", "main"},
                                                          {"from", metres(box["from_m"])},
                                                          {"to", metres(box["to_m"])},
                                                          {"thickness", metres(box["thickness_m"])},
                                                          {"steel", "steel"}};
  }
  const double h = rail["depth_m"].get<double>() - rail["thickness_m"].get<double>();
  for (const Json& part : shell_case["crossmembers"]) {
    frame["crossmembers"][part["id"].get<std::string>()] =
        crossmember_of(part, h, is_boxed(shell_case, part["station_m"]));
  }
  for (const auto& [name, station_m] : shell_case["stations_m"].items()) {
    frame["mounts"][name] = {
        {"both_sides", true}, {"station", metres(station_m)}, {"offset", metres(half_m)}};
  }
  const auto read = build::read_build(Json{{"version", 1}, {"frame", frame}}.dump());
  if (!read) throw std::logic_error(read.error().front().path + read.error().front().message);
  return read->build;
}

Answers solve_load_cases(const Json& shell_case, const Model& model) {
  const auto solver = Solver::make(model.structure);
  if (!solver) throw std::logic_error(solver.error().front().message);
  Answers answers;
  for (const auto& [load, size] : {std::pair<std::string, double>("torsion", 1000.0),
                                   std::pair<std::string, double>("bending", 10000.0),
                                   std::pair<std::string, double>("lozenging", 1000.0)}) {
    Loads loads;
    for (const Force& force : forces_of(load, shell_case)) {
      const Attachment& at = attachment_at(model, force.station, force.sign);
      loads.points.push_back({.joint = at.joint,
                              .p_VoP_V = at.p_VoP_V,
                              .f_P_V = size * force.share * Vec3::Unit(force.axis)});
    }
    const auto solved = solver->solve(std::array{loads});
    if (!solved) throw std::logic_error(solved.error().front().message);
    double moved = 0;
    for (const Force& force : forces_of(load, shell_case)) {
      const Attachment& at = attachment_at(model, force.station, force.sign);
      moved += force.share * calc_displacement(model.structure, solved->front(), at.joint,
                                               at.p_VoP_V)[force.axis];
    }
    answers.stiffness[load] = size / moved;
    answers.loads[load] = loads;
    answers.responses[load] = solved->front();
  }
  return answers;
}

Stress stress_at(const Json& point, const Model& model, const Answers& answers,
                 const std::string& load) {
  const double station_m = point["station_m"];
  const std::string where = point["at"];
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    const BeamPlace& place = model.beams[b];
    if (place.sign != 1 || station_m < place.begin_m || station_m > place.end_m) continue;
    const double share = (place.end_m - station_m) / (place.end_m - place.begin_m);
    const auto forces = calc_beam_forces(model.structure, answers.loads.at(load),
                                         answers.responses.at(load), static_cast<int>(b), share);
    const frame::BeamSection& made =
        model.structure.sections[static_cast<std::size_t>(model.structure.beams[b].section)];
    const bool upper = where.starts_with("upper");
    const int wall = section::find_wall(made.section, upper ? "upper flange" : "lower flange");
    const auto& flange = made.section.walls[static_cast<std::size_t>(wall)];
    const double from_y = std::abs(made.section.p_ON[static_cast<std::size_t>(flange.from)].x());
    const double to_y = std::abs(made.section.p_ON[static_cast<std::size_t>(flange.to)].x());
    const bool out_to = to_y > from_y;
    const double out_share = where.ends_with("edge") ? 1 : where.ends_with("middle") ? 0.5 : 0;
    Stress out;
    for (const auto face :
         {section::WallFace::left, section::WallFace::right, section::WallFace::middle}) {
      const auto stress = section::calc_wall_stress(
          made.section, made.properties, forces,
          {.wall = wall, .share = out_to ? out_share : 1 - out_share, .face = face});
      if (!stress) throw std::logic_error(stress.error().front().message);
      out.axial_Pa = stress->axial_Pa;
      out.von_mises_Pa = std::max(out.von_mises_Pa, stress->von_mises_Pa);
    }
    return out;
  }
  throw std::logic_error("no beam there");
}

}  // namespace rig::frame::testing
