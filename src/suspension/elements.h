#pragma once

#include "suspension/jet_internal.h"
#include "suspension/model.h"

/// Energies of the elements between frame and axle, with gradient and Hessian in the axle
/// coordinates.
namespace rig::suspension {

/// Stiffness of the built-in stops of a damper at its closed and open lengths, N/m. Stiff against
/// any spring of a truck, soft enough to settle on; a number of the model, not of any damper.
inline constexpr double kShockStop_N_per_m = 2e6;

/// One element each.
Jet calc_coil_energy(const CoilSpring& coil, const AxleAxes& axes);
Jet calc_stop_energy(const Stop& stop, const AxleAxes& axes);
Jet calc_shock_energy(const Shock& shock, const AxleAxes& axes);
Jet calc_leaf_energy(const LeafHalf& half, const AxleAxes& axes);
Jet calc_roll_bar_energy(const RollBar& bar, const AxleAxes& axes);
/// @param length  Of its bar.
Jet calc_bush_energy(const BushMoment& bush, const Bar& bar, const Jet& length,
                     const AxleAxes& axes);

/// What places the axle. Bars come apart from the energies, as constraints with compliance.
struct LinkageJets {
  std::vector<Jet> bar_lengths;
  Jet bushes;  ///< Energy of all bushes against tilting and turning.
  Jet energy;  ///< The same and that of the leaf halves.
};
LinkageJets calc_linkage_jets(const AxleModel& axle, const AxleAxes& axes);

/// What carries the load: coils (stiff below their solid length), stops, shocks, anti-roll bars.
Jet calc_spring_energy(const AxleModel& axle, const AxleAxes& axes);

/// Push of a coil at a length: none when it is off its seat, steep below its solid length.
double calc_coil_force(const CoilSpring& coil, double length_m);

/// Height of a leaf half's eye above where it stood as drawn, seen from the axle, along the frame's
/// upright: 0 as drawn, less in bump.
Jet calc_leaf_rise(const LeafHalf& half, const AxleAxes& axes);

Jet calc_bar_length(const Bar& bar, const AxleAxes& axes);

/// Force of a stop at a compression (both positive), its slope and its energy.
struct StopForce {
  double energy_J = 0;
  double force_N = 0;
  double rate_N_per_m = 0;
};
StopForce calc_stop_force(const Stop& stop, double compression_m);

}  // namespace rig::suspension
