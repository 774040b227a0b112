#include "check/report_json.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "check/drivetrain_json.h"
#include "check/frame_json.h"
#include "check/json_internal.h"
#include "check/link_loads.h"
#include "check/rows_json_internal.h"
#include "check/states_json.h"
#include "check/truck.h"
#include "check/words.h"
#include "check/workings.h"
#include "units/dimension_keys.h"

namespace rig::check {
namespace {

using units::Dimension;

Json fault_json(const Diagnostic& diagnostic) {
  Json json{{"code", diagnostic.code}, {"path", diagnostic.path}};
  if (diagnostic.at) {
    json["line"] = diagnostic.at->line;
    json["column"] = diagnostic.at->column;
  }
  json["message"] = diagnostic.message;
  json["remedy"] = diagnostic.remedy;
  return json;
}

Json json_list(const Diagnostics& diagnostics) {
  Json list = Json::array();
  for (const auto& diagnostic : diagnostics) list.push_back(fault_json(diagnostic));
  return list;
}

class Writer {
 public:
  Writer(const build::Build& build, const Report& report, const TrialAsked* trial = nullptr)
      : build_(build), report_(report), print_(build.units), trial_(trial) {}

  Json write() const {
    Json json{{"name", report_.name}, {"notice", report_.notice}};
    std::array<int, 3> counts{};
    for (const auto& finding : report_.findings)
      ++counts[static_cast<std::size_t>(finding.verdict)];
    json["verdicts"] = {{"good", counts[0]}, {"look", counts[1]}, {"stop", counts[2]}};
    json["summary"] = {{"weigh", report_.weigh_summary},
                       {"axles", report_.axles_summary},
                       {"frame", report_.frame_summary},
                       {"drivetrain", report_.drivetrain_summary}};
    json["diagnostics"] = json_list(report_.diagnostics);
    json["missing"] = Json::array();
    for (const auto& missing : report_.missing) {
      json["missing"].push_back(
          {{"path", missing.path}, {"what", missing.what}, {"needed", missing.needed}});
    }
    json["states"] = states_json(build_, report_, print_, trial_ == nullptr);
    json["axles"] = write_axles();
    json["articulation"] = write_articulation();
    json["frame"] = frame_json(report_, print_);
    json["drivetrain"] = drivetrain_json(report_, print_);
    json["findings"] = write_findings();
    return json;
  }

  Json write_trial() const {
    Json json{{"work", work_name(trial_->work)}};
    switch (trial_->work) {
      case Work::kWeigh:
        json["summary"] = report_.weigh_summary;
        json["states"] = states_json(build_, report_, print_, trial_ == nullptr);
        break;
      case Work::kAxles:
        json["summary"] = report_.axles_summary;
        json["axles"] = write_axles();
        json["articulation"] = write_articulation();
        break;
      case Work::kFrame:
        json["frame"] = frame_json(report_, print_);
        break;
      case Work::kDrivetrain:
        json["summary"] = report_.drivetrain_summary;
        json["drivetrain"] = drivetrain_json(report_, print_);
        break;
    }
    json["findings"] = write_findings();
    return json;
  }

 private:
  Json number(double si, Dimension dimension) const {
    return check::json_from(print_.number(si, dimension));
  }
  /// A trial has no workings: they are long, and nobody opens one with a finger on a point.
  Json workings(const std::vector<WorkingStep>& steps) const {
    return trial_ == nullptr ? working_json(steps) : Json::array();
  }
  Json length(double si) const { return number(si, Dimension::kLength); }
  Json angle(double si) const { return number(si, Dimension::kAngle); }
  /// A wheel or axle load is told as the mass a scale would show.
  Json scale_reading(double force_N) const {
    return check::json_from(print_.scale_reading(force_N));
  }

  Json write_axles() const {
    Json axles = Json::array();
    for (const auto& axle : report_.axles) {
      if (trial_ != nullptr && !trial_->axle.empty() && trial_->axle != axle.id) continue;
      axles.push_back(write(axle));
    }
    return axles;
  }

  Json write_articulation() const {
    return {{"ramp", write(report_.ramp)}, {"cross", write(report_.cross_axle)}};
  }

  Json write_findings() const {
    Json findings = Json::array();
    for (const auto& finding : report_.findings) findings.push_back(write(finding));
    return findings;
  }

  Json write(const AxleReport& axle, const SeatReport& report) const {
    const auto& seat = report.seat;
    return {{"name", part_words(axle, report.coil.path, report.coil.name)},
            {"path", report.coil.path},
            {"load", number(seat.load_N, Dimension::kForce)},
            {"free", length(report.coil.free_length_m)},
            {"loaded", length(seat.loaded_length_m)},
            {"drawn", length(seat.drawn_length_m)},
            {"tack", length(seat.tack_length_m)},
            {"below_free", length(seat.below_free_m)},
            {"move", length(seat.move_upper_seat_m)},
            {"bump_left", length(seat.bump_left_m)},
            {"frequency", check::json_from(print_.frequency(axle.ride_frequency_Hz))},
            {"sentence", report.sentence},
            {"working", workings(report.working)}};
  }

  Json write_links(const AxleReport& axle, const std::vector<LinkLoad>& loads) const {
    Json links = Json::array();
    for (const auto& load : loads) {
      links.push_back(
          {{"name", part_words(axle, load.path, load.name)},
           {"path", load.path},
           {"force", number(load.force_N, Dimension::kForce)},
           {"swing_frame", angle(load.swing_frame_rad)},
           {"swing_axle", angle(load.swing_axle_rad)},
           {"limit", std::isnan(load.limit_rad) ? Json(nullptr) : angle(load.limit_rad)}});
    }
    return links;
  }

  Json write(const AxleReport& axle) const {
    Json json{{"id", axle.id}, {"label", axle.label}, {"end", axle.front ? "front" : "rear"}};
    json["travel"] = {{"bump", length(axle.bump_m)},
                      {"droop", length(axle.droop_m)},
                      {"roll", angle(axle.roll_rad)}};
    json["rows"] = Json::array();
    for (const auto& row : axle.rows) {
      json["rows"].push_back(row_json(row, report_));
      json["rows"].back()["working"] = workings(row.working);
    }
    json["curves"] = Json::array();
    for (const auto& curve : axle.curves) json["curves"].push_back(curve_json(curve));
    json["seats"] = Json::array();
    for (const auto& seat : axle.seats) json["seats"].push_back(write(axle, seat));
    const auto loads = find_link_loads(axle, report_.ride());
    json["links"] = write_links(axle, loads);
    json["links_working"] = workings(explain_links(print_, axle, loads));
    json["locks"] = Json::array();
    for (const auto* sweep : {&axle.bump, &axle.roll, &axle.crossed}) {
      for (const auto& lock : sweep->locks) {
        json["locks"].push_back({{"heave", length(lock.heave_m)},
                                 {"roll", angle(lock.roll_rad)},
                                 {"message", lock.message}});
      }
    }
    return json;
  }

  Json write(const std::optional<suspension::Articulation>& found) const {
    const StateReport* ride = report_.ride();
    if (!found || ride == nullptr || !ride->truck) return nullptr;
    const auto& axles = ride->truck->axles;
    Json loads = Json::array();
    for (std::size_t a = 0; a < axles.size(); ++a) {
      const auto& wheel_loads = found->at_lift.axles[a].wheel_loads_N;
      loads.push_back({{"axle", axles[a].id},
                       {"left", scale_reading(wheel_loads[0])},
                       {"right", scale_reading(wheel_loads[1])}});
    }
    return {{"distance", length(found->distance_up_ramp_m)},
            {"height", length(found->height_m)},
            {"index", check::json_from(print_.plain(found->ramp_travel_index, 0))},
            {"first_lifted", lifted_wheel_words(*ride->truck, *found)},
            {"loads", std::move(loads)}};
  }

  Json write(const Finding& finding) const {
    return {{"id", finding.id},
            {"verdict", verdict_name(finding.verdict)},
            {"work", finding.work},
            {"subject", finding.subject},
            {"sentence", finding.sentence},
            {"value", check::json_from(finding.value)},
            {"limit", check::json_from(finding.limit)},
            {"basis", finding.basis},
            {"advice", finding.advice},
            {"assumption", finding.assumption},
            {"path", finding.path},
            {"working", workings(finding.working)}};
  }

  const build::Build& build_;
  const Report& report_;
  Printer print_;
  const TrialAsked* trial_;  ///< Null: the whole report.
};

}  // namespace

const char* verdict_name(Verdict verdict) {
  switch (verdict) {
    case Verdict::kGood:
      return "good";
    case Verdict::kLook:
      return "look";
    case Verdict::kStop:
      return "stop";
  }
  return "look";
}

const char* work_name(Work work) {
  switch (work) {
    case Work::kWeigh:
      return "weigh";
    case Work::kAxles:
      return "axles";
    case Work::kFrame:
      return "frame";
    case Work::kDrivetrain:
      return "drivetrain";
  }
  return "weigh";
}

std::optional<Work> find_work(std::string_view name) {
  for (const Work work : {Work::kWeigh, Work::kAxles, Work::kFrame, Work::kDrivetrain}) {
    if (name == work_name(work)) return work;
  }
  return std::nullopt;
}

std::string trial_json(const build::Build& build, const Report& report, const TrialAsked& asked) {
  return Writer(build, report, &asked).write_trial().dump();
}

std::string report_json(const build::Build& build, const Report& report) {
  return Writer(build, report).write().dump();
}

std::string units_json(const build::Units& units) {
  const Printer print(units);
  Json per_si = Json::object();
  for (const auto& [key, dimension] : units::kDimensionKeys) {
    per_si[std::string(key)] = {{"unit", units::unit_name(dimension, print.choices())},
                                {"factor", units::per_si(dimension, print.choices())}};
  }
  return Json{{"metric", units.metric},
              {"fraction_of_inch", units.fraction_of_inch},
              {"per_si", std::move(per_si)}}
      .dump();
}

std::string diagnostics_json(const Diagnostics& diagnostics) {
  return json_list(diagnostics).dump();
}

}  // namespace rig::check
