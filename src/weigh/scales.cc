#include <algorithm>
#include <cmath>

#include "base/nan.h"
#include "units/factors.h"
#include "weigh/weighings_internal.h"

namespace rig::weigh::internal {
namespace {

using units::g;

bool usable(const build::Build& build, const build::Entry<build::CornerWeighing>& weighing,
            std::vector<Missing>& missing) {
  const build::CornerWeighing& w = weighing.value;
  const Value values[]{{"state", "load state of a corner weighing", names_state(build, w.state)},
                       {"front_left", "left front reading", w.front_left.known()},
                       {"front_right", "right front reading", w.front_right.known()},
                       {"rear_left", "left rear reading", w.rear_left.known()},
                       {"rear_right", "right rear reading", w.rear_right.known()}};
  return all_known(values, weighing.path, "comparison of scales and estimate", missing);
}

void append(Diagnostics& faults, const Diagnostics& more, const std::string& path) {
  for (Diagnostic fault : more) {
    fault.path = path;
    faults.push_back(std::move(fault));
  }
}

using Weighings = std::vector<const build::Entry<build::CornerWeighing>*>;

/// Readings of one state averaged, with their ids.
Scaled average(const Weighings& weighings) {
  Scaled result;
  result.state_id = weighings.front()->value.state.id;
  for (const auto* weighing : weighings) result.weighing_ids.push_back(weighing->id);
  const auto corner = [&weighings](auto reading, double& mean_kg, double& plus_minus_kg) {
    const auto n = static_cast<double>(weighings.size());
    double squares = 0;
    for (const auto* weighing : weighings) {
      const build::Mass& mass = weighing->value.*reading;
      mean_kg += mass.si / n;
      squares += std::pow(half_width(mass), 2);
    }
    plus_minus_kg = std::sqrt(squares) / n;
  };
  using build::CornerWeighing;
  CornerReadings& mean = result.readings;
  CornerReadings& doubt = result.readings_plus_minus;
  corner(&CornerWeighing::front_left, mean.front_left_kg, doubt.front_left_kg);
  corner(&CornerWeighing::front_right, mean.front_right_kg, doubt.front_right_kg);
  corner(&CornerWeighing::rear_left, mean.rear_left_kg, doubt.rear_left_kg);
  corner(&CornerWeighing::rear_right, mean.rear_right_kg, doubt.rear_right_kg);
  return result;
}

/// The readings less the rigid truck that they tell of: zero in every sum and moment.
Diagonal calc_diagonal(const Scaled& scaled, const Footing& footing, const Hitching& hitching) {
  const Weighed& weighed = scaled.weighed;
  std::vector<VerticalLoad> loads{
      {.force_N = weighed.mass_kg * g, .p_VoP_V = {weighed.x_m, weighed.y_m, 0}}};
  if (hitching.load) {
    loads.push_back({.force_N = hitching.load->tongue_N, .p_VoP_V = hitching.load->p_VoBall_V});
  }
  const auto rigid = calc_wheel_loads(footing, loads);
  if (!rigid) return {};
  return {.front_N = scaled.readings.front_left_kg * g - rigid->front_left_N,
          .rear_N = scaled.readings.rear_left_kg * g - rigid->rear_left_N};
}

/// Half-widths in the asked state: those of the readings, and of what differs from the weighed one.
void add_half_widths(Scaled& scaled, const Estimate& asked, const Estimate& weighed,
                     const Stand& stand) {
  const CornerReadings& doubt = scaled.readings_plus_minus;
  Spread others;
  if (asked.truck) {
    others = calc_spread(list_differences(asked.items, weighed.items), *asked.truck, stand.footing);
  }
  // A trailer that stood behind the scales was taken off what they showed; another's load comes on.
  double tongue_kg = 0;
  if (weighed.hitching.load) tongue_kg = weighed.hitching.load->tongue_plus_minus_N / g;
  if (asked.state_id != weighed.state_id) {
    add_tongue(weighed.hitching, stand.footing, others);
    add_tongue(asked.hitching, stand.footing, others);
  }
  scaled.mass_plus_minus_kg =
      std::hypot(scaled.weighed.mass_plus_minus_kg, others.mass_plus_minus_kg, tongue_kg);
  scaled.front_plus_minus_N =
      std::hypot(g * doubt.front_left_kg, g * doubt.front_right_kg, others.front_plus_minus_N);
  scaled.rear_plus_minus_N =
      std::hypot(g * doubt.rear_left_kg, g * doubt.rear_right_kg, others.rear_plus_minus_N);
  // What else is aboard is shared by the two wheels of an axle.
  scaled.wheel_plus_minus_N = {
      .front_left_N = std::hypot(g * doubt.front_left_kg, others.front_plus_minus_N / 2),
      .front_right_N = std::hypot(g * doubt.front_right_kg, others.front_plus_minus_N / 2),
      .rear_left_N = std::hypot(g * doubt.rear_left_kg, others.rear_plus_minus_N / 2),
      .rear_right_N = std::hypot(g * doubt.rear_right_kg, others.rear_plus_minus_N / 2)};
}

}  // namespace

std::optional<Scaled> scale_truck(const build::Build& build, const Estimate& asked,
                                  const Stand& stand, std::vector<Missing>& missing,
                                  Diagnostics& faults) {
  Weighings weighings;
  for (const auto& weighing : build.corner_weighings) {
    if (usable(build, weighing, missing)) weighings.push_back(&weighing);
  }
  if (weighings.empty() || !stand.has_tracks()) return std::nullopt;
  const auto in_state = [&weighings](const std::string& id) {
    auto kept = weighings;
    kept.erase(std::remove_if(kept.begin(), kept.end(),
                              [&](const auto* w) { return w->value.state.id != id; }),
               kept.end());
    return kept;
  };
  auto chosen = in_state(asked.state_id);
  // What another state carries more is known from a list only.
  if (chosen.empty() && !asked.truck) return std::nullopt;
  if (chosen.empty()) chosen = in_state(weighings.front()->value.state.id);
  const std::string& path = chosen.front()->path;
  Scaled scaled = average(chosen);
  const Estimate weighed =
      scaled.state_id == asked.state_id ? asked : estimate_state(build, scaled.state_id, stand);
  if (weighed.hitching.unknown || (asked.truck && !weighed.truck)) return std::nullopt;
  const auto told = calc_weighed(*stand.footing, scaled.readings, scaled.readings_plus_minus,
                                 weighed.hitching.load);
  if (!told) {
    append(faults, told.error(), path);
    return std::nullopt;
  }
  scaled.weighed = *told;
  scaled.diagonal = calc_diagonal(scaled, *stand.footing, weighed.hitching);
  add_half_widths(scaled, asked, weighed, stand);
  MassProperties truck{.mass_kg = told->mass_kg,
                       .p_VoBcm_V = {told->x_m, told->y_m, kNaN},
                       .I_BBcm_V = Mat3::Zero()};
  if (asked.truck) {
    scaled.calibration = calc_calibration(*weighed.truck, *stand.footing, *told);
    const auto applied = apply_calibration(*asked.truck, *scaled.calibration);
    if (!applied) {
      append(faults, applied.error(), path);
      return scaled;
    }
    truck = *applied;
  }
  Diagnostics already_told;  // the same geometry as the estimate's
  scaled.standing = stand_truck(build, truck, stand, asked.hitching, scaled.diagonal, already_told);
  return scaled;
}

}  // namespace rig::weigh::internal
