#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/words.h"
#include "check/workings.h"

namespace rig::check {
namespace {

using units::Dimension;

std::vector<WorkingStep> work_out_seat(const SeatReport& report, const Printer& print) {
  const auto& coil = report.coil;
  const auto& seat = report.seat;
  const double lift_m = seat.loaded_length_m - seat.tack_length_m;
  std::vector<WorkingStep> steps{
      {"squeeze = load / rate",
       fmt::format("{} / {} = {}", print.force(seat.load_N),
                   print.text(coil.rate_N_per_m, Dimension::kStiffness),
                   print.length(seat.compression_m)),
       "Hooke's law; the load is that of the whole truck held where it is drawn",
       {coil.path + "/rate", "/masses"}},
      {"loaded length = free length - squeeze",
       fmt::format("{} - {} = {}", print.length(coil.free_length_m),
                   print.length(seat.compression_m), print.length(seat.loaded_length_m)),
       "",
       {coil.path + "/free_length"}}};
  if (std::abs(lift_m) > kLengthNoise_m) {
    steps.push_back({"tack = loaded length - lift along the coil",
                     fmt::format("{} - {} = {}", print.length(seat.loaded_length_m),
                                 print.length(lift_m), print.length(seat.tack_length_m)),
                     "common practice",
                     {}});
  }
  steps.push_back({"below the free position = squeeze + lift",
                   fmt::format("{} + {} = {}", print.length(seat.compression_m),
                               print.length(std::abs(lift_m) > kLengthNoise_m ? lift_m : 0),
                               print.length(seat.below_free_m)),
                   "common practice",
                   {}});
  if (!std::isnan(seat.bump_left_m)) {
    steps.push_back({"bump left = loaded length - solid length",
                     fmt::format("{} - {} = {}", print.length(seat.loaded_length_m),
                                 print.length(coil.solid_length_m), print.length(seat.bump_left_m)),
                     "",
                     {coil.path + "/solid_length"}});
  }
  return steps;
}

}  // namespace

void explain_seats(const Printer& print, AxleReport& axle) {
  for (SeatReport& seat : axle.seats) seat.working = work_out_seat(seat, print);
}

std::vector<WorkingStep> explain_links(const Printer& print, const AxleReport& axle,
                                       const std::vector<LinkLoad>& loads) {
  std::vector<std::string> forces, swings, paths;
  for (const auto& load : loads) {
    const std::string name = part_words(axle, load.path, load.name);
    if (!std::isnan(load.force_N)) {
      forces.push_back(fmt::format("{} {}", name, print.force(load.force_N)));
    }
    if (!std::isnan(load.swing_frame_rad)) {
      swings.push_back(fmt::format("{} {} and {}", name, print.angle(load.swing_frame_rad),
                                   print.angle(load.swing_axle_rad)));
    }
    if (std::find(paths.begin(), paths.end(), load.path) == paths.end()) paths.push_back(load.path);
  }
  std::vector<WorkingStep> steps;
  if (!forces.empty()) {
    steps.push_back(
        {"load = what keeps the axle in equilibrium with its springs and wheels, + pulls",
         join_words(forces),
         "statics of the axle where the truck settles in its ride state; shared by the "
         "bushes' give where links are more than needed",
         paths});
  }
  if (!swings.empty()) {
    steps.push_back(
        {"swing = angle of the link's line away from where it sits as drawn, at its "
         "frame end and its axle end",
         join_words(swings),
         "greatest over the solved poses of bump, roll and crossed up, seen from the "
         "part that holds the joint",
         paths});
  }
  return steps;
}

}  // namespace rig::check
