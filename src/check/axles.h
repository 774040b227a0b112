#pragma once

#include "check/report.h"
#include "check/truck.h"

namespace rig::check {

/// What the geometry of one axle says: drawn pose, sweeps over the wanted travel and roll.
///
/// Poses are `suspension::sweep_axle`'s. Bump runs from full droop to full bump; roll goes as far
/// as the shorter of the two travels allows with C still; crossed runs to one wheel at full bump
/// and the other at full droop, to both sides. Faults go to `diagnostics`.
AxleReport sweep_for_report(const build::Entry<build::Axle>& axle,
                            const suspension::AxleFromBuild& model,
                            const suspension::TruckNumbers& truck, Diagnostics& diagnostics,
                            std::vector<Missing>& missing);

/// Adds what the ride state's masses tell of an axle: ride rate, frequency, damping, link forces.
/// `index` is the axle's place in the state's truck.
void add_ride_numbers(const StateReport& ride, std::size_t index, AxleReport& axle);

/// Adds the coils' seats, solved for the whole truck in the ride state.
void add_spring_seats(const build::Build& build, const StateReport& ride, const Printer& print,
                      std::vector<AxleReport>& axles, Diagnostics& diagnostics);

}  // namespace rig::check
