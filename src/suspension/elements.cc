#include "suspension/elements.h"

namespace rig::suspension {
namespace {

/// A coil on its solid length is taken as this many times stiffer: steel on steel.
constexpr double kSolidFactor = 100.0;

}  // namespace

Jet calc_coil_energy(const CoilSpring& coil, const AxleAxes& axes) {
  // A coil that has come off its seat pushes nothing.
  if (calc_distance(axes, coil.p_VP, coil.p_AQ) >= coil.free_length_m) return {};
  const Jet length = distance_jet(axes, coil.p_VP, coil.p_AQ);
  Jet energy = spring_energy(length, coil.free_length_m, coil.rate_N_per_m);
  if (length.value < coil.solid_length_m) {
    energy += spring_energy(length, coil.solid_length_m, kSolidFactor * coil.rate_N_per_m);
  }
  return energy;
}

Jet calc_stop_energy(const Stop& stop, const AxleAxes& axes) {
  if (calc_distance(axes, stop.p_VP, stop.p_AQ) >= stop.free_height_m) return {};
  const Jet length = distance_jet(axes, stop.p_VP, stop.p_AQ);
  const StopForce at = calc_stop_force(stop, stop.free_height_m - length.value);
  return chain(length, at.energy_J, -at.force_N, at.rate_N_per_m);
}

Jet calc_shock_energy(const Shock& shock, const AxleAxes& axes) {
  const Jet length = distance_jet(axes, shock.p_VP, shock.p_AQ);
  Jet energy = chain(length, -shock.gas_force_N * length.value, -shock.gas_force_N, 0);
  if (length.value < shock.closed_length_m) {
    energy += spring_energy(length, shock.closed_length_m, kShockStop_N_per_m);
  }
  if (length.value > shock.open_length_m) {
    energy += spring_energy(length, shock.open_length_m, kShockStop_N_per_m);
  }
  return energy;
}

Jet calc_roll_bar_energy(const RollBar& bar, const AxleAxes& axes) {
  const double roll_rad = std::atan2(axes.R_VA(2, 1), axes.R_VA(2, 2));
  const Vec6 unit_roll = Vec6::Unit(kRoll);
  // Ends differ by span * sin(roll); energy 1/2 k (span sin roll)^2.
  const double k = bar.rate_N_per_m * bar.span_m * bar.span_m;
  const double s = std::sin(roll_rad), c = std::cos(roll_rad);
  Jet energy;
  energy.value = 0.5 * k * s * s;
  energy.gradient = k * s * c * unit_roll;
  energy.hessian = k * (c * c - s * s) * unit_roll * unit_roll.transpose();
  return energy;
}

Jet calc_bush_energy(const BushMoment& bush, const Bar& bar, const Jet& length,
                     const AxleAxes& axes) {
  const auto along = [&](const Vec3& axis) {
    Jet way;
    if (bush.on_axle) {
      // (R a) . (Q - P) = a . p_AQ - (R a) . (P - C).
      way = component_jet(axes, axis, bar.p_VP);
      way = chain(way, axis.dot(bar.p_AQ) - way.value, -1, 0);
    } else {
      way = frame_component_jet(axes, axis, bar.p_VP, bar.p_AQ);
    }
    return quotient(way, length);
  };
  Jet energy =
      spring_energy(along(bush.bolt), bush.bolt.dot(bush.direction), bush.conical_Nm_per_rad);
  energy += spring_energy(along(bush.bolt.cross(bush.direction).normalized()), 0,
                          bush.torsional_Nm_per_rad);
  return energy;
}

Jet calc_leaf_energy(const LeafHalf& half, const AxleAxes& axes) {
  Jet energy = spring_energy(calc_leaf_rise(half, axes), half.rise_unloaded_m, half.rate_N_per_m);
  energy += spring_energy(frame_component_jet(axes, Vec3::UnitY(), half.p_VP, half.p_AQ), 0,
                          half.lateral_rate_N_per_m);
  return energy;
}

Jet calc_bar_length(const Bar& bar, const AxleAxes& axes) {
  return distance_jet(axes, bar.p_VP, bar.p_AQ);
}

Jet calc_leaf_rise(const LeafHalf& half, const AxleAxes& axes) {
  return frame_component_jet(axes, -Vec3::UnitZ(), half.p_VP, half.p_AQ);
}

double calc_coil_force(const CoilSpring& coil, double length_m) {
  if (length_m >= coil.free_length_m) return 0;
  const double solid = std::max(0.0, coil.solid_length_m - length_m);
  return coil.rate_N_per_m * (coil.free_length_m - length_m + kSolidFactor * solid);
}

StopForce calc_stop_force(const Stop& stop, double compression_m) {
  const double c = compression_m;
  const double cubic =
      (stop.end_rate_N_per_m - stop.rate_N_per_m) / (stop.end_travel_m * stop.end_travel_m);
  return {.energy_J = 0.5 * stop.rate_N_per_m * c * c + cubic * c * c * c * c / 12,
          .force_N = stop.rate_N_per_m * c + cubic * c * c * c / 3,
          .rate_N_per_m = stop.rate_N_per_m + cubic * c * c};
}

LinkageJets calc_linkage_jets(const AxleModel& axle, const AxleAxes& axes) {
  LinkageJets jets;
  jets.bar_lengths.reserve(axle.bars.size());
  for (const auto& bar : axle.bars) jets.bar_lengths.push_back(calc_bar_length(bar, axes));
  for (const auto& bush : axle.bush_moments) {
    const auto bar = static_cast<std::size_t>(bush.bar);
    jets.bushes += calc_bush_energy(bush, axle.bars[bar], jets.bar_lengths[bar], axes);
  }
  jets.energy = jets.bushes;
  for (const auto& half : axle.leaf_halves) jets.energy += calc_leaf_energy(half, axes);
  return jets;
}

Jet calc_spring_energy(const AxleModel& axle, const AxleAxes& axes) {
  Jet energy;
  for (const auto& coil : axle.coils) energy += calc_coil_energy(coil, axes);
  for (const auto& stop : axle.stops) energy += calc_stop_energy(stop, axes);
  for (const auto& shock : axle.shocks) energy += calc_shock_energy(shock, axes);
  for (const auto& bar : axle.roll_bars) energy += calc_roll_bar_energy(bar, axes);
  return energy;
}

}  // namespace rig::suspension
