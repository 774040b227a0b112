#pragma once

#include "weigh/standing_internal.h"

/// Private to `weigh`: what measurements add to an estimate.
namespace rig::weigh::internal {

/// A load state as estimated.
struct Estimate {
  std::string state_id;
  MassProperties truck;
  Spread spread;
  Hitching hitching;
};

/// The estimate of a state without its findings: nothing when it has no mass or no such state is.
std::optional<Estimate> estimate_state(const build::Build& build, const std::string& state_id,
                                       const Stand& stand);

/// Half-widths of the sum over `items`, whose total is `truck`.
Spread calc_spread(const std::vector<Item>& items, const MassProperties& truck,
                   const std::optional<Footing>& footing);

/// Corner readings held against the estimate: those of the asked state, or else of the first state
/// in the file that was weighed. Adds what a weighing lacks to the result's lists.
std::optional<Scaled> scale_truck(const build::Build& build, const Estimate& asked,
                                  const Stand& stand, std::vector<Missing>& missing,
                                  Diagnostics& faults);

/// Heights of the balance point from the asked state's lifted weighings, per lifted end.
std::vector<MeasuredHeight> measure_heights(const build::Build& build, const Estimate& asked,
                                            const Stand& stand, const std::optional<Scaled>& scaled,
                                            std::vector<Missing>& missing, Diagnostics& faults);

/// The measured height's part in the asked state: its own lifted weighings, else those of the first
/// state in the file that was weighed so. What is measured too high or low is taken to be in the
/// truck itself: its moment goes over. The better known of two lifted ends counts.
std::optional<HeightCorrection> find_height_correction(const build::Build& build,
                                                       const Estimate& asked,
                                                       const std::vector<Item>& items,
                                                       const Stand& stand,
                                                       const std::optional<Scaled>& scaled,
                                                       const std::vector<MeasuredHeight>& measured);

}  // namespace rig::weigh::internal
