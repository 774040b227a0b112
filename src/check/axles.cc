#include "check/axles.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/geometry.h"
#include "check/words.h"
#include "suspension/ride.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using suspension::Sweep;
using suspension::Target;

/// Poses over the whole travel; enough that a straight line between two of them is good to 0.1 mm.
constexpr int kRollPoses = 31;
constexpr int kCrossedPoses = 21;  ///< To each side.

Sweep sweep(const suspension::AxleModel& model, const suspension::TruckNumbers& truck,
            const std::vector<Target>& targets, Diagnostics& diagnostics) {
  auto swept = suspension::sweep_axle(model, truck, targets);
  if (swept) return std::move(*swept);
  diagnostics.insert(diagnostics.end(), swept.error().begin(), swept.error().end());
  return {};
}

}  // namespace

AxleReport sweep_for_report(const build::Entry<build::Axle>& axle,
                            const suspension::AxleFromBuild& model,
                            const suspension::TruckNumbers& truck, Diagnostics& diagnostics,
                            std::vector<Missing>& missing) {
  AxleReport report;
  report.id = axle.id;
  report.path = axle.path;
  report.front = axle.value.end == build::End::kFront;
  report.label =
      axle.value.label.empty() ? (report.front ? "Front axle" : "Rear axle") : axle.value.label;
  report.labels = collect_labels(axle.value);
  report.model = model.model;
  report.worked_out = model.worked_out;
  report.truck = truck;
  report.has_linkage = model.has_linkage;
  report.bump_m = axle.value.bump_travel.si;
  report.droop_m = axle.value.droop_travel.si;
  const auto want = [&](const build::Length& travel, const char* key, const char* what) {
    if (travel.known()) return true;
    missing.push_back({axle.path + key, fmt::format("{} of the {} axle", what, axle.id),
                       "everything that is told over the travel"});
    return false;
  };
  const bool bump = want(axle.value.bump_travel, "/bump_travel", "wanted bump travel");
  const bool droop = want(axle.value.droop_travel, "/droop_travel", "wanted droop travel");
  if (!model.has_linkage) return report;

  Sweep drawn = sweep(report.model, truck, {Target{}}, diagnostics);
  if (drawn.poses.empty()) {
    report.has_linkage = false;
    return report;
  }
  report.drawn = std::move(drawn.poses.front());
  if (!bump || !droop) return report;
  report.bump = sweep(report.model, truck,
                      suspension::make_targets(-report.droop_m, report.bump_m, kBumpPoses, 0, 0, 1),
                      diagnostics);
  const double track_m = report.model.track_m;
  if (!(track_m > report.bump_m + report.droop_m)) return report;
  report.roll_rad = std::asin(2 * std::min(report.bump_m, report.droop_m) / track_m);
  report.roll =
      sweep(report.model, truck,
            suspension::make_targets(0, 0, 1, -report.roll_rad, report.roll_rad, kRollPoses),
            diagnostics);
  const Target corner{(report.bump_m - report.droop_m) / 2,
                      std::asin((report.bump_m + report.droop_m) / track_m)};
  std::vector<Target> line;
  for (const int side : {-1, 1}) {
    for (int i = 1; i <= kCrossedPoses; ++i) {
      const double share = static_cast<double>(i) / kCrossedPoses;
      line.push_back({share * corner.heave_m, side * share * corner.roll_rad});
    }
  }
  report.crossed = sweep(report.model, truck, line, diagnostics);
  return report;
}

void add_ride_numbers(const StateReport& ride, std::size_t index, AxleReport& axle) {
  if (!ride.truck || !ride.settled) return;
  const auto& settled = ride.settled->axles[index];
  axle.bar_forces_N = settled.bar_forces_N;
  double unsprung_kg = 0;
  for (const auto& unsprung : ride.weigh.unsprung) {
    if (unsprung.axle_id == axle.id) unsprung_kg = unsprung.properties.mass_kg;
  }
  const double load_N = settled.wheel_loads_N[0] + settled.wheel_loads_N[1];
  axle.sprung_per_wheel_kg = (load_N / units::kStandardGravity_m_per_s2 - unsprung_kg) / 2;
  if (!axle.drawn || !(axle.sprung_per_wheel_kg > 0)) return;
  const double wheel_rate = axle.drawn->numbers.wheel_rate_N_per_m;
  if (!(wheel_rate > 0)) return;
  axle.ride_rate_N_per_m =
      suspension::calc_ride_rate_N_per_m(wheel_rate, ride.truck->tyres[index].rate_N_per_m);
  axle.ride_frequency_Hz =
      suspension::calc_frequency_Hz(axle.ride_rate_N_per_m, axle.sprung_per_wheel_kg);
  axle.hop_frequency_Hz = suspension::calc_frequency_Hz(
      2 * (wheel_rate + ride.truck->tyres[index].rate_N_per_m), unsprung_kg);
  double damping_Ns_per_m = 0;
  for (std::size_t i = 0; i < axle.model.shocks.size(); ++i) {
    const double ratio = axle.drawn->shock_motion_ratios[i];
    damping_Ns_per_m += axle.model.shocks[i].damping_Ns_per_m * ratio * ratio / 2;
  }
  if (axle.model.shocks.empty()) return;
  // Both sides' dampers shared by two wheels.
  axle.damping_ratio =
      suspension::calc_damping_ratio(damping_Ns_per_m, wheel_rate, axle.sprung_per_wheel_kg);
}

namespace {

std::string seat_sentence(const AxleReport& axle, const SeatReport& report, bool has_lift,
                          const Printer& print) {
  const auto& seat = report.seat;
  const std::string name = part_words(axle, report.coil.path, report.coil.name);
  const std::string stands =
      has_lift ? fmt::format("with the axle mocked up {} nearer the frame than it will ride",
                             print.length(seat.loaded_length_m - seat.tack_length_m))
               : std::string("with the axle at its drawn height");
  return fmt::format(
      "{}: it carries {} and is {} long under it; {}, tack the upper seat {} from the lower one, "
      "{} "
      "below where the free coil would put it.",
      capitalised(name), print.force(seat.load_N), print.length(seat.loaded_length_m), stands,
      print.length(seat.tack_length_m), print.length(seat.below_free_m));
}

}  // namespace

void add_spring_seats(const build::Build& build, const StateReport& ride, const Printer& print,
                      std::vector<AxleReport>& axles, Diagnostics& diagnostics) {
  if (!ride.truck) return;
  const auto coils = [](const suspension::AxleModel& axle) { return !axle.coils.empty(); };
  if (std::none_of(ride.truck->axles.begin(), ride.truck->axles.end(), coils)) return;
  const auto solution = suspension::solve_spring_seats(*ride.truck, flat_ground());
  if (!solution) {
    if (!ride.settled) return;  // told with the state
    for (Diagnostic diagnostic : solution.error()) {
      if (diagnostic.path.empty()) diagnostic.path = "/ride_state";
      diagnostics.push_back(std::move(diagnostic));
    }
    return;
  }
  for (std::size_t a = 0; a < ride.truck->axles.size(); ++a) {
    const auto& model = ride.truck->axles[a];
    const auto report =
        std::find_if(axles.begin(), axles.end(), [&](const auto& x) { return x.id == model.id; });
    if (report == axles.end() || model.coils.empty()) continue;
    const auto& lift = build::find(build.axles, model.id)->value.lift;
    for (std::size_t c = 0; c < model.coils.size(); ++c) {
      SeatReport seat;
      seat.coil = model.coils[c];
      seat.seat = suspension::calc_spring_seat(model.coils[c], solution->coil_loads_N[a][c],
                                               lift.known() ? lift.si : 0);
      seat.sentence = seat_sentence(*report, seat, lift.known() && lift.si != 0, print);
      report->seats.push_back(std::move(seat));
    }
  }
}

}  // namespace rig::check
