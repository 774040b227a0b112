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
              {"lifts", Json::array()}, {"steps", Json::array()}};
    for (const Row& row : drivetrain_.rows) json["rows"].push_back(row_json(row, report_));
    for (const CasesReport& line : drivetrain_.lines) write(line, json);
    for (const ShaftReport& shaft : drivetrain_.shafts) json["shafts"].push_back(write(shaft));
    for (const GearReport& gear : drivetrain_.gears) json["gears"].push_back(write(gear));
    for (const LiftReport& lift : drivetrain_.lifts) json["lifts"].push_back(write(lift));
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
      for (int part = i == 0 ? 0 : 1; part <= kDiagramParts; ++part) {
        const double share = static_cast<double>(part) / kDiagramParts;
        const driveline::Case& one = cases.cases[i];
        const auto cut = driveline::calc_cut_load(cases, load.loads, load.carried, i, share);
        // + where the underside is pulled.
        (*told)["diagram"].push_back(
            {{"p", json_from(Vec3(one.p_VoF_V + share * (one.p_VoR_V - one.p_VoF_V)))},
             {"moment", json_from_si(std::copysign(cut.bending_Nm, -cut.t_V.y()))}});
      }
    }
  }

  Json write_flange(const CasesReport& line, std::size_t i, const driveline::CutLoad& cut) const {
    const driveline::Case& ahead = line.from.line.cases[i];
    const Finding* finding = report_.finding("flange." + ahead.id);
    return {{"label", ahead.label + " to " + line.from.line.cases[i + 1].label},
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
              {"curves", Json::array()}};
    for (const Row& row : shaft.rows) json["rows"].push_back(row_json(row, report_));
    for (const Curve& curve : shaft.curves) json["curves"].push_back(curve_json(curve));
    return json;
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
