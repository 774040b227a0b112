#include "check/drivetrain_json.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "check/drivetrain_report.h"
#include "check/drivetrain_steps.h"
#include "check/limits_drivetrain.h"
#include "check/rows_json_internal.h"
#include "check/words.h"

namespace rig::check {
namespace {

using units::Dimension;

/// Places in each case at which the bending is told, its faces and between.
constexpr int kDiagramParts = 8;
constexpr std::array<const char*, driveline::kWays> kWays{"forward and back", "sideways",
                                                          "up and down",      "over to a side",
                                                          "nose up or down",  "round to a side"};

class DrivetrainWriter {
 public:
  DrivetrainWriter(const Report& report, const Printer& print)
      : report_(report), drivetrain_(*report.drivetrain), print_(print) {}

  Json write() const {
    Json json{{"rows", Json::array()},  {"cases", Json::array()},  {"loads", Json::array()},
              {"modes", Json::array()}, {"shafts", Json::array()}, {"gears", Json::array()},
              {"lifts", Json::array()}, {"gaps", Json::array()},   {"steps", Json::array()}};
    json["road_speed"] = number(kRoadSpeed_m_per_s, Dimension::kSpeed);
    for (const Row& row : drivetrain_.rows) json["rows"].push_back(row_json(row, report_));
    for (const CasesReport& line : drivetrain_.lines) write(line, json);
    for (const ShaftReport& shaft : drivetrain_.shafts) json["shafts"].push_back(write(shaft));
    for (const GearReport& gear : drivetrain_.gears) json["gears"].push_back(write(gear));
    for (const LiftReport& lift : drivetrain_.lifts) json["lifts"].push_back(write(lift));
    for (const GapReport& gap : drivetrain_.gaps) json["gaps"].push_back(write(gap));
    for (const MockUpStep& step : list_mock_up_steps(drivetrain_, print_)) {
      json["steps"].push_back(
          {{"label", step.label}, {"detail", step.detail}, {"hold", step.hold}});
    }
    return json;
  }

 private:
  Json number(double si, Dimension dimension) const {
    return json_from(print_.number(si, dimension));
  }

  void write(const CasesReport& line, Json& json) const {
    for (std::size_t i = 0; i < line.from.line.cases.size(); ++i) {
      const driveline::Case& one = line.from.line.cases[i];
      if (!one.p_VoR_V.allFinite()) continue;
      json["cases"].push_back({{"id", one.id},
                               {"label", one.label},
                               {"path", line.from.paths[i]},
                               {"a", json_from(one.p_VoF_V)},
                               {"b", json_from(one.p_VoR_V)},
                               {"mass", number(one.mass_kg, Dimension::kMass)}});
    }
    for (const CasesLoad& load : line.loads) add_load(line, load, json["loads"]);
    if (!line.modes) return;
    for (const driveline::RigidMode& mode : line.modes->modes) {
      json["modes"].push_back(write(mode));
    }
  }

  /// Lines that stand apart are told together under each load.
  void add_load(const CasesReport& line, const CasesLoad& load, Json& loads) const {
    Json* told = nullptr;
    for (Json& one : loads) {
      if (one["id"] == load.id) told = &one;
    }
    if (told == nullptr) {
      loads.push_back({{"id", load.id},
                       {"label", load.label},
                       {"basis", load.basis},
                       {"mounts", Json::array()},
                       {"flanges", Json::array()},
                       {"diagram", Json::array()}});
      told = &loads.back();
    }
    const driveline::CaseLine& cases = line.from.line;
    for (std::size_t m = 0; m < cases.mounts.size(); ++m) {
      const driveline::MountLoad& mount = load.carried.mounts[m];
      (*told)["mounts"].push_back({{"label", capitalised(mount_words(cases.mounts[m]))},
                                   {"path", cases.mounts[m].path},
                                   {"along", number(mount.along_N, Dimension::kForce)},
                                   {"p", json_from(cases.mounts[m].p_VoM_V)},
                                   {"f", json_from(mount.f_V)}});
    }
    for (std::size_t i = 0; i < load.carried.flanges.size(); ++i) {
      (*told)["flanges"].push_back(write_flange(line, i, load.carried.flanges[i]));
    }
    for (std::size_t i = 0; i < cases.cases.size(); ++i) {
      const driveline::Case& one = cases.cases[i];
      for (const double share : diagram_shares(cases, i)) {
        const auto cut = driveline::calc_cut_load(cases, load.loads, load.carried, i, share);
        // + where the underside is pulled.
        (*told)["diagram"].push_back(
            {{"p", json_from(Vec3(one.p_VoF_V + share * (one.p_VoR_V - one.p_VoF_V)))},
             {"moment", json_from_si(std::copysign(cut.bending_Nm, -cut.t_V.y()))}});
      }
    }
  }

  /// Evenly along a case, and on either side of what acts on it: there the diagram has its corners.
  static std::vector<double> diagram_shares(const driveline::CaseLine& cases, std::size_t i) {
    constexpr double kBeside = 1e-6;
    std::vector<double> shares;
    for (int part = i == 0 ? 0 : 1; part <= kDiagramParts; ++part) {
      shares.push_back(static_cast<double>(part) / kDiagramParts);
    }
    const driveline::Case& one = cases.cases[i];
    const Vec3 along = one.p_VoR_V - one.p_VoF_V;
    const auto add = [&](const Vec3& p_VoP_V) {
      const double share = along.dot(p_VoP_V - one.p_VoF_V) / along.squaredNorm();
      if (!(share > kBeside && share < 1 - kBeside)) return;
      shares.push_back(share - kBeside);
      shares.push_back(share + kBeside);
    };
    add(one.p_VoCm_V);
    for (const driveline::CaseMount& mount : cases.mounts) {
      if (mount.on == i) add(mount.p_VoM_V);
    }
    std::sort(shares.begin(), shares.end());
    return shares;
  }

  Json write_flange(const CasesReport& line, std::size_t i, const driveline::CutLoad& cut) const {
    const Finding* finding = report_.finding("flange." + line.from.line.cases[i].id);
    return {{"label", line.flange_words(i)},
            {"path", line.from.paths[i]},
            {"bending", number(cut.bending_Nm, Dimension::kTorque)},
            {"torsion", number(cut.torsion_Nm, Dimension::kTorque)},
            {"shear", number(cut.shear_N, Dimension::kForce)},
            {"limit", finding == nullptr ? Json(nullptr) : json_from(finding->limit)},
            {"verdict", finding == nullptr ? Json(nullptr) : Json(verdict_name(finding->verdict))}};
  }

  Json write(const driveline::RigidMode& mode) const {
    std::array<std::size_t, driveline::kWays> ways{0, 1, 2, 3, 4, 5};
    std::stable_sort(ways.begin(), ways.end(), [&](std::size_t a, std::size_t b) {
      return mode.energy_share[a] > mode.energy_share[b];
    });
    Json shares = Json::array();
    for (const std::size_t way : ways) {
      shares.push_back({{"way", kWays.at(way)},
                        {"share", number(mode.energy_share.at(way), Dimension::kRatio)}});
    }
    return {{"frequency", json_from(print_.frequency(mode.frequency_Hz))},
            {"way", kWays.at(ways[0])},
            {"shares", std::move(shares)}};
  }

  Json write(const ShaftReport& shaft) const {
    Json json{{"id", shaft.from.path.substr(shaft.from.path.rfind('/') + 1)},
              {"label", shaft.from.label},
              {"path", shaft.from.path},
              {"rows", Json::array()},
              {"curves", Json::array()},
              {"under_load", Json::array()},
              {"map", write(shaft.map)}};
    for (const ShaftUnderLoad& load : shaft.moved) {
      json["under_load"].push_back(write(load, shaft.from.shaft.joint_count));
    }
    for (const Row& row : shaft.rows) json["rows"].push_back(row_json(row, report_));
    for (const Curve& curve : shaft.curves) json["curves"].push_back(curve_json(curve));
    return json;
  }

  Json write(const ShaftUnderLoad& load, std::size_t joint_count) const {
    Json angles = Json::array();
    for (std::size_t j = 0; j < joint_count; ++j) {
      angles.push_back(number(load.ride.motion.joint_angle_rad[j], Dimension::kAngle));
    }
    return {{"id", load.id},
            {"label", load.label},
            {"angles", std::move(angles)},
            {"leaves", number(load.ride.motion.line.angle_rad, Dimension::kAngle)},
            {"speed", number(load.speed_rad_per_s, Dimension::kAngularSpeed)},
            {"shake", json_from(angular_acceleration(print_, load.shake_rad_per_s2()))}};
  }

  /// Rows of one roll each, a letter for each bump: free, close, past, and "-" not reached.
  Json write(const ShaftMap& map) const {
    if (map.rooms.empty()) return nullptr;
    constexpr std::array kLetters{'-', 'f', 'c', 'p'};
    Json rooms = Json::array();
    for (std::size_t roll = 0; roll < map.roll_rad.size(); ++roll) {
      std::string row;
      for (std::size_t bump = 0; bump < map.bump_m.size(); ++bump) {
        row += kLetters.at(static_cast<std::size_t>(map.rooms[roll * map.bump_m.size() + bump]));
      }
      rooms.push_back(std::move(row));
    }
    return {{"droop", number(-map.bump_m.front(), Dimension::kLength)},
            {"bump", number(map.bump_m.back(), Dimension::kLength)},
            {"roll", number(map.roll_rad.back(), Dimension::kAngle)},
            {"ride", -map.bump_m.front() / (map.bump_m.back() - map.bump_m.front())},
            {"rooms", std::move(rooms)}};
  }

  Json write(const GapReport& gap) const {
    const Finding* finding = report_.finding("clearance." + gap.id);
    return {{"id", gap.id},
            {"label", gap.label},
            {"path", gap.path},
            {"drawn", number(gap.drawn_m, Dimension::kLength)},
            {"least", number(gap.least_m, Dimension::kLength)},
            {"least_load", gap.least_load},
            {"wanted", number(gap.wanted_m, Dimension::kLength)},
            {"moves", number(gap.moves_m, Dimension::kLength)},
            {"moves_load", gap.moves_load},
            {"verdict", finding == nullptr ? Json(nullptr) : Json(verdict_name(finding->verdict))}};
  }

  Json write(const GearReport& gear) const {
    Number climb = print_.number(kNaN, Dimension::kAngle);
    if (gear.climb) {
      climb = print_.number(gear.climb->grade_rad(), Dimension::kAngle);
      climb.text += " (" + print_.percent(std::tan(gear.climb->grade_rad())) + ")";
    }
    return {{"gear", gear.gear},
            {"range", gear.range},
            {"overall", number(gear.path.to_wheel(), Dimension::kGearRatio)},
            {"idle_speed", number(gear.idle_m_per_s, Dimension::kSpeed)},
            {"top_speed", number(gear.top_m_per_s, Dimension::kSpeed)},
            {"road_engine", number(gear.road_rad_per_s, Dimension::kAngularSpeed)},
            {"climb", json_from(climb)},
            {"climb_by", !gear.climb             ? ""
                         : gear.climb->by_grip() ? "grip"
                                                 : "torque"}};
  }

  Json write(const LiftReport& lift) const {
    return {{"id", lift.id},
            {"label", lift.label},
            {"path", lift.path},
            {"mass", number(lift.hung.mass_kg, Dimension::kMass)},
            {"balance", number(-lift.hung.p_VoCm_V.x(), Dimension::kLength)},
            {"hook_off", number(lift.hook_off_m, Dimension::kLength)},
            {"leg", number(lift.leg_N, Dimension::kForce)}};
  }

  const Report& report_;
  const DrivetrainReport& drivetrain_;
  const Printer& print_;
};

}  // namespace

Json drivetrain_json(const Report& report, const Printer& print) {
  return report.drivetrain ? DrivetrainWriter(report, print).write() : Json(nullptr);
}

}  // namespace rig::check
