#pragma once

#include <string>
#include <vector>

#include "build/types.h"
#include "weigh/weigh.h"

/// Private to `weigh`.
namespace rig::weigh::internal {

/// The two axles of a build and where they stand; what they lack is listed.
struct Stand {
  const build::Entry<build::Axle>* front = nullptr;
  const build::Entry<build::Axle>* rear = nullptr;
  std::optional<Footing>
      footing;  ///< Both axle lines known, the rear one behind; tracks may be unknown.

  bool has_tracks() const {
    return footing && footing->front_track_m > 0 && footing->rear_track_m > 0;
  }
};

/// @param missing  Gets what is not known.
/// @param faults   Gets weigh.not_two_axles, weigh.wheelbase_not_positive.
Stand find_stand(const build::Build& build, std::vector<Missing>& missing, Diagnostics& faults);

/// What is on the hitch in a load state.
struct Hitching {
  std::optional<HitchLoad> load;
  bool unknown = false;  ///< A trailer is there, but not what it does to the truck.
};

Hitching find_hitching(const build::Build& build, const std::string& state_id,
                       std::vector<Missing>& missing);

/// The truck less what its axles carry; nothing when nothing is left.
std::optional<MassProperties> take_off_unsprung(const MassProperties& truck,
                                                const std::vector<Unsprung>& unsprung);

/// Loads, stability and ratings of a truck whose mass properties are known. Loads are left out
/// while the hitch's part is unknown, stability while the height is (NaN).
Standing stand_truck(const build::Build& build, const MassProperties& truck, const Stand& stand,
                     const Hitching& hitching, const Diagonal& diagonal, Diagnostics& faults);

/// Ratings that the build does not give but that this state could be held against.
void list_missing_ratings(const build::Build& build, const Stand& stand, bool trailer,
                          std::vector<Missing>& missing);

/// The state's entry, or null for the state without a name.
const build::LoadState* find_state(const build::Build& build, const std::string& state_id);

}  // namespace rig::weigh::internal
