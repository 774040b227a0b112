#include "check/truck.h"

#include <fmt/format.h>

#include <algorithm>

#include "check/report.h"

namespace rig::check {
namespace {

/// Half the length of the mass pairs that carry a correction's first moments.
constexpr double kPairArm_m = 1.0;

void add_correction(const weigh::WeighResult& weigh, suspension::TruckModel& truck) {
  const bool scaled = weigh.scaled && weigh.scaled->standing;
  if (!weigh.total || !(scaled || weigh.height_correction)) return;
  const auto& measured = weigh.standing()->truck;
  const Vec3& p = weigh.total->p_VoBcm_V;
  const double added_kg = measured.mass_kg - weigh.total->mass_kg;
  const Vec3 moment_kg_m = measured.mass_kg * (measured.p_VoBcm_V - p);
  truck.masses.push_back({.mass_kg = added_kg, .p_VoCm_V = p, .axle = -1});
  const auto add_pair = [&](double along_kg_m, const Vec3& along) {
    const double pair_kg = along_kg_m / (2 * kPairArm_m);
    truck.masses.push_back({.mass_kg = pair_kg, .p_VoCm_V = p + kPairArm_m * along, .axle = -1});
    truck.masses.push_back({.mass_kg = -pair_kg, .p_VoCm_V = p - kPairArm_m * along, .axle = -1});
  };
  add_pair(moment_kg_m.x(), Vec3::UnitX());
  add_pair(moment_kg_m.y(), Vec3::UnitY());
  add_pair(moment_kg_m.z(), Vec3::UnitZ());
}

/// The tyre of an axle when everything of it is known.
std::optional<suspension::TyreSpring> find_tyre(const build::Build& build,
                                                const build::Entry<build::Axle>& axle,
                                                std::vector<Missing>& missing) {
  static constexpr const char* kNeeded = "how it sits on its tyres";
  const auto* tyre = build::find(build.tyres, axle.value.tyre.id);
  if (tyre == nullptr) {
    missing.push_back({axle.path + "/tyre", fmt::format("tyre of the {} axle", axle.id), kNeeded});
    return std::nullopt;
  }
  const auto lacks = [&](const auto& quantity, const char* key, const char* what) {
    if (quantity.known()) return false;
    missing.push_back(
        {tyre->path + key, fmt::format("{} of tyre \"{}\"", what, tyre->id), kNeeded});
    return true;
  };
  const bool no_radius = lacks(tyre->value.free_radius, "/free_radius", "free radius");
  const bool no_rate = lacks(tyre->value.rate, "/rate", "rate");
  if (no_radius || no_rate) return std::nullopt;
  return suspension::TyreSpring{tyre->value.free_radius.si, tyre->value.rate.si};
}

}  // namespace

suspension::TruckNumbers find_truck_numbers(const weigh::WeighResult* weigh,
                                            const build::Axle& axle) {
  suspension::TruckNumbers numbers;
  numbers.brake_share = axle.brake_share.si;
  numbers.drive_share = axle.drive_share.si;
  if (weigh == nullptr) return numbers;
  if (weigh->footing) numbers.wheelbase_m = weigh->footing->wheelbase_m();
  if (const auto* standing = weigh->standing()) {
    numbers.cg_height_m = standing->truck.p_VoBcm_V.z();
  }
  return numbers;
}

double calc_height_error_m(const suspension::TruckModel& truck, const suspension::Settled& settled,
                           std::size_t axle, int side) {
  const auto& model = truck.axles[axle];
  const Vec3 p_VWheel = model.p_VC + Vec3(0, side * model.track_m / 2, 0);
  const double twist = model.front ? settled.frame_twist_rad / 2 : -settled.frame_twist_rad / 2;
  const double frame_z = (settled.X_WV * p_VWheel).z() + twist * p_VWheel.y();
  return frame_z - settled.axles[axle].wheel_centre_heights_m[side > 0 ? 0 : 1];
}

double corner_load_half_width_N(const StateReport& state, bool front, int side) {
  if (state.weigh.scaled && state.weigh.scaled->standing) {
    const auto& doubt = state.weigh.scaled->wheel_plus_minus_N;
    const double left_N = front ? doubt.front_left_N : doubt.rear_left_N;
    const double right_N = front ? doubt.front_right_N : doubt.rear_right_N;
    return side > 0 ? left_N : side < 0 ? right_N : std::max(left_N, right_N);
  }
  const auto& spread = state.weigh.spread;
  return (front ? spread.front_plus_minus_N : spread.rear_plus_minus_N) / 2;
}

std::optional<WheelLoad> find_greatest_wheel_load(const StateReport& state, bool front) {
  std::optional<WheelLoad> greatest;
  const auto look_at = [&greatest](double left_N, double right_N, const char* source) {
    for (const WheelLoad& wheel : {WheelLoad{left_N, 1, source}, WheelLoad{right_N, -1, source}}) {
      if (!greatest || wheel.load_N > greatest->load_N) greatest = wheel;
    }
  };
  for (std::size_t a = 0; state.settled && a < state.settled->axles.size(); ++a) {
    if (state.truck->axles[a].front != front) continue;
    const auto& loads_N = state.settled->axles[a].wheel_loads_N;
    look_at(loads_N[0], loads_N[1], "as it settles");
  }
  const auto* standing = state.standing();
  const bool scaled = state.weigh.scaled && state.weigh.scaled->standing;
  if (standing == nullptr || !standing->wheel_loads || (greatest && !scaled)) return greatest;
  const auto& wheels = *standing->wheel_loads;
  look_at(front ? wheels.front_left_N : wheels.rear_left_N,
          front ? wheels.front_right_N : wheels.rear_right_N,
          scaled ? "by the scales" : "rigid truck");
  return greatest;
}

Shares find_shares(const StateReport& state) {
  const auto share = [](double lf, double rf, double lr, double rr) {
    const double total = lf + rf + lr + rr;
    return Shares{(lf + rf) / total, (lf + lr) / total, (lf + rr) / total};
  };
  const auto& scaled = state.weigh.scaled;
  if (scaled && scaled->standing && scaled->state_id == state.id) {
    const auto& r = scaled->readings;
    return share(r.front_left_kg, r.front_right_kg, r.rear_left_kg, r.rear_right_kg);
  }
  if (state.settled) {
    const auto& front = state.settled->axles.front().wheel_loads_N;
    const auto& rear = state.settled->axles.back().wheel_loads_N;
    return share(front[0], front[1], rear[0], rear[1]);
  }
  const auto* standing = state.standing();
  if (standing == nullptr || !standing->axle_loads) return {};
  Shares shares;
  const auto& axles = *standing->axle_loads;
  shares.front = axles.front_N / (axles.front_N + axles.rear_N);
  if (const auto& wheels = standing->wheel_loads) {
    shares.left = (wheels->front_left_N + wheels->rear_left_N) / (axles.front_N + axles.rear_N);
  }
  return shares;
}

suspension::Ground flat_ground() { return suspension::Ground(2, {0.0, 0.0}); }

std::optional<suspension::TruckModel> make_truck(const build::Build& build, const Axles& axles,
                                                 const weigh::WeighResult& weigh,
                                                 std::vector<Missing>& missing) {
  suspension::TruckModel truck;
  const auto* state = build::find(build.load_states, weigh.state_id);
  const bool hitch_known = state == nullptr || !state->value.trailer || weigh.hitch;
  bool complete = axles.entries.size() == 2 && weigh.sprung && hitch_known;
  for (std::size_t a = 0; a < axles.entries.size(); ++a) {
    const auto tyre = find_tyre(build, *axles.entries[a], missing);
    const auto& model = axles.models[a];
    complete = complete && tyre && model && model->ready_to_settle;
    if (!complete) continue;
    truck.axles.push_back(model->model);
    truck.tyres.push_back(*tyre);
  }
  if (!complete) return std::nullopt;
  for (const auto& item : weigh.items) {
    int carried_by = -1;
    for (std::size_t a = 0; a < axles.entries.size(); ++a) {
      if (axles.entries[a]->id == item.carried_by) carried_by = static_cast<int>(a);
    }
    truck.masses.push_back(
        {.mass_kg = item.mass_kg(), .p_VoCm_V = item.p_VoCm_V(), .axle = carried_by});
  }
  add_correction(weigh, truck);
  if (weigh.hitch) {
    truck.tongue_load_N = weigh.hitch->tongue_N;
    truck.p_VoBall_V = weigh.hitch->p_VoBall_V;
  }
  if (build.frame.twist_stiffness.known()) {
    truck.frame_twist_stiffness_Nm_per_rad = build.frame.twist_stiffness.si;
  }
  return truck;
}

}  // namespace rig::check
