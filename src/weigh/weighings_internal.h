#pragma once

#include "build/known_to.h"
#include "weigh/standing_internal.h"

/// Private to `weigh`: what measurements add to an estimate.
namespace rig::weigh::internal {

using build::half_width;

/// One value of a weighing.
struct Value {
  const char* key;
  const char* what;
  bool known;
};

/// Lists each of a weighing's values that is not known; whether all are.
template <typename Values>
bool all_known(const Values& values, const std::string& path, const char* needed,
               std::vector<Missing>& missing) {
  bool known = true;
  for (const auto& [key, what, is_known] : values) {
    if (is_known) continue;
    known = false;
    missing.push_back({.path = path + "/" + key, .what = what, .needed = needed});
  }
  return known;
}

/// Whether a weighing tells its load state; a build without any is weighed as it stands.
inline bool names_state(const build::Build& build, const build::Reference& state) {
  return build.load_states.empty() || !state.id.empty();
}

/// A load state as listed.
struct Estimate {
  std::string state_id;
  std::vector<Item> items;
  std::optional<MassProperties> truck;  ///< Absent: nothing on the list has both mass and place.
  Spread spread;
  Hitching hitching;
};

/// The estimate of a state without its findings.
Estimate estimate_state(const build::Build& build, const std::string& state_id, const Stand& stand);

/// Half-widths of the sum over `items`, whose total is `truck`.
Spread calc_spread(const std::vector<Item>& items, const MassProperties& truck,
                   const std::optional<Footing>& footing);

/// Adds what a tongue load's half-width makes of the axle loads.
void add_tongue(const Hitching& hitching, const std::optional<Footing>& footing, Spread& spread);

/// What is aboard in one state and not, or not as much, in the other: each with its mass, that of a
/// tank being what was filled in (negative: drawn off), and the half-width of that.
std::vector<Item> list_differences(const std::vector<Item>& asked,
                                   const std::vector<Item>& weighed);

/// Corner readings held against the estimate: those of the asked state, or else of the first state
/// in the file that was weighed. Where nothing is listed the readings of the asked state stand by
/// themselves, without a height. Adds what a weighing lacks to the result's lists.
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
                                                       const Estimate& asked, const Stand& stand,
                                                       const std::optional<Scaled>& scaled,
                                                       const std::vector<MeasuredHeight>& measured);

}  // namespace rig::weigh::internal
