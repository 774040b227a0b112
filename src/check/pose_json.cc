#include <cmath>

#include "check/json_internal.h"
#include "check/scene_json.h"

namespace rig::check {
namespace {

using units::Dimension;

/// Further than this no axle of a truck is asked to go.
constexpr double kFarthest_m = 2.0;
constexpr double kSteepest_rad = 1.2;

Failure bad(const std::string& path, std::string message) {
  return fail("check.bad_pose", path, std::move(message),
              "docs/api.md says what a pose question is");
}

/// Reads "heave" or "roll": an object of numbers by axle id.
std::optional<Failure> read_coordinate(const nlohmann::json& body, const char* key, double most,
                                       double suspension::Target::*member, PoseQuestion& question) {
  const auto found = body.find(key);
  if (found == body.end() || found->is_null()) return std::nullopt;
  if (!found->is_object()) return bad(std::string("/") + key, "it is not an object");
  for (const auto& [axle, value] : found->items()) {
    const std::string path = std::string("/") + key + "/" + axle;
    if (!value.is_number()) return bad(path, "it is not a number");
    const double si = value.get<double>();
    if (!(std::abs(si) <= most)) return bad(path, "it is beyond any travel");
    question.axles[axle].*member = si;
  }
  return std::nullopt;
}

/// The motion of an axle's points as drawn: q in V goes to R q + p.
Json body_json(const Mat3& R, const Vec3& p_VC_drawn, const Vec3& p_C) {
  return {{"R", json_from(R)}, {"p", json_from(Vec3(p_C - R * p_VC_drawn))}};
}

class Answer {
 public:
  explicit Answer(const build::Build& build) : print_(build.units) {}

  void add_numbers(const AxleReport& axle, const suspension::SweptPose& pose) {
    const auto& n = pose.numbers;
    Json list = Json::array();
    const auto add = [&](const char* id, const char* label, const Number& value) {
      if (std::isnan(value.si)) return;
      list.push_back({{"id", id}, {"label", label}, {"value", json_from(value)}});
    };
    const auto length = [&](double si) { return print_.number(si, Dimension::kLength); };
    const auto angle = [&](double si) { return print_.number(si, Dimension::kAngle); };
    const auto ratio = [&](double si) { return print_.number(si, Dimension::kRatio); };
    add("heave", "Bump", length(n.heave_m));
    add("roll", "Roll", angle(n.roll_rad));
    add("nose_up", axle.front ? "Caster change" : "Pinion change", angle(n.nose_up_rad));
    add("lateral_shift", "Sideways shift", length(n.lateral_shift_m));
    add("forward_shift", "Forward shift", length(n.forward_shift_m));
    add("heading", "Steer of the axle", angle(n.heading_rad));
    add("roll_centre", "Roll centre height", length(n.roll_centre_height_m));
    add("anti_drive", axle.front ? "Anti-lift, driving" : "Anti-squat", ratio(n.anti_drive));
    add("anti_brake", axle.front ? "Anti-dive, braking" : "Anti-lift, braking",
        ratio(n.anti_brake));
    add("wheel_load", "Wheel load", print_.number(n.wheel_load_N, Dimension::kForce));
    add("bind", "Bind in the links", print_.number(n.bind_N, Dimension::kForce));
    json["numbers"][axle.id] = std::move(list);
  }

  Json json{{"bodies", Json::object()}, {"numbers", Json::object()}, {"locked", nullptr}};

 private:
  Printer print_;
};

Result<std::string> settled_pose(const Report& report, const StateReport& state, Answer& answer) {
  if (!state.settled) {
    return fail("check.not_settled", "/state",
                "the truck could not be settled in \"" + state.label + "\"",
                "the report's missing and diagnostics say why");
  }
  const auto& settled = *state.settled;
  answer.json["bodies"]["frame"] = {{"R", json_from(settled.X_WV.R_AB)},
                                    {"p", json_from(settled.X_WV.p_AB)}};
  for (std::size_t a = 0; a < settled.axles.size(); ++a) {
    const auto& model = state.truck->axles[a];
    const auto& pose = settled.axles[a];
    answer.json["bodies"][model.id] = body_json(pose.X_WA.R_AB, model.p_VC, pose.X_WA.p_AB);
    const AxleReport* axle = report.axle(model.id);
    if (axle == nullptr) continue;
    const suspension::Target at{pose.q[suspension::kZ] - model.p_VC.z(), pose.q[suspension::kRoll]};
    const auto swept = suspension::sweep_axle(model, axle->truck, {&at, 1});
    if (swept && !swept->poses.empty()) answer.add_numbers(*axle, swept->poses.front());
  }
  return answer.json.dump();
}

}  // namespace

Result<PoseQuestion> read_pose_question(std::string_view body) {
  const auto json = nlohmann::json::parse(body, nullptr, false);
  if (json.is_discarded() || !json.is_object()) return bad("", "the body is not a JSON object");
  PoseQuestion question;
  if (const auto state = json.find("state"); state != json.end() && !state->is_null()) {
    if (!state->is_string()) return bad("/state", "it is not a load state's id");
    question.state = state->get<std::string>();
  }
  if (const auto settled = json.find("settled"); settled != json.end() && !settled->is_null()) {
    if (!settled->is_boolean()) return bad("/settled", "it is not true or false");
    question.settled = settled->get<bool>();
  }
  if (auto failure =
          read_coordinate(json, "heave", kFarthest_m, &suspension::Target::heave_m, question)) {
    return std::move(*failure);
  }
  if (auto failure =
          read_coordinate(json, "roll", kSteepest_rad, &suspension::Target::roll_rad, question)) {
    return std::move(*failure);
  }
  return question;
}

Result<std::string> pose_json(const build::Build& build, const Report& report,
                              const PoseQuestion& question) {
  const std::string& state_id = question.state.empty() ? report.ride_state : question.state;
  const StateReport* state = report.state(state_id);
  if (state == nullptr && (question.settled || !question.state.empty())) {
    return fail("check.unknown_state", "/state", "there is no load state \"" + state_id + "\"",
                "name one of the file's load states");
  }
  Answer answer(build);
  if (question.settled) return settled_pose(report, *state, answer);
  for (const auto& [id, target] : question.axles) {
    if (build::find(build.axles, id) == nullptr) {
      return fail("check.unknown_axle", "/heave/" + id, "there is no axle \"" + id + "\"",
                  "name one of the file's axles");
    }
  }
  answer.json["bodies"]["frame"] = body_json(Mat3::Identity(), Vec3::Zero(), Vec3::Zero());
  for (const auto& axle : build.axles) {
    answer.json["bodies"][axle.id] = body_json(Mat3::Identity(), Vec3::Zero(), Vec3::Zero());
    const AxleReport* told = report.axle(axle.id);
    if (told == nullptr || !told->has_linkage) continue;
    const auto asked = question.axles.find(axle.id);
    const suspension::Target target =
        asked == question.axles.end() ? suspension::Target{} : asked->second;
    const auto swept = suspension::sweep_axle(told->model, told->truck, {&target, 1});
    if (!swept) return Failure{swept.error()};
    if (!swept->locks.empty()) answer.json["locked"] = swept->locks.front().message;
    if (swept->poses.empty()) {
      // As far as it goes: the place where it locks, a hair short of it.
      const auto& lock = swept->locks.front();
      const suspension::Target reach{0.999 * lock.heave_m, 0.999 * lock.roll_rad};
      const auto near = suspension::sweep_axle(told->model, told->truck, {&reach, 1});
      if (!near || near->poses.empty()) continue;
      const auto& pose = near->poses.front();
      answer.json["bodies"][axle.id] = body_json(pose.R_VA, told->model.p_VC, pose.q.head<3>());
      answer.add_numbers(*told, pose);
      continue;
    }
    const auto& pose = swept->poses.front();
    answer.json["bodies"][axle.id] = body_json(pose.R_VA, told->model.p_VC, pose.q.head<3>());
    answer.add_numbers(*told, pose);
  }
  return answer.json.dump();
}

}  // namespace rig::check
