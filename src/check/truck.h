#pragma once

#include <optional>
#include <vector>

#include "base/diagnostic.h"
#include "base/nan.h"
#include "build/types.h"
#include "suspension/from_build.h"
#include "suspension/settle.h"
#include "suspension/sweep.h"
#include "weigh/weigh.h"

namespace rig::check {

/// The two axles of a build, front first, as far as they could be modelled.
struct Axles {
  std::vector<const build::Entry<build::Axle>*> entries;
  std::vector<std::optional<suspension::AxleFromBuild>> models;  ///< Absent: faulty.
};

/// The whole truck in one load state as settle needs it; absent when an axle, a tyre or the masses
/// are not complete, and what is missing is then appended to `missing`.
///
/// Masses are the state's items. Where scales corrected the estimate, the correction hangs on the
/// frame as point masses with the same sum and first moments about the balance point.
std::optional<suspension::TruckModel> make_truck(const build::Build& build, const Axles& axles,
                                                 const weigh::WeighResult& weigh,
                                                 std::vector<Missing>& missing);

/// What turns an axle's slopes into percentages: wheelbase and balance point of a weighed state
/// (null: not known), lifted-axle weighing before the estimate, and the axle's shares.
suspension::TruckNumbers find_truck_numbers(const weigh::WeighResult* weigh,
                                            const build::Axle& axle);

/// How much higher than drawn the frame stands above the wheel centre at one corner (m): the frame
/// point that coincides with the wheel centre as drawn, above the wheel centre as settled. 0 when
/// the springs are as long as drawn; the tyres' squash has no part in it.
double calc_height_error_m(const suspension::TruckModel& truck, const suspension::Settled& settled,
                           std::size_t axle, int side);

struct StateReport;

/// Half-width of one wheel's load (N): with corner scales that of its reading and of what else is
/// aboard, else half of its axle's. @param side  +1 left, -1 right, 0: the greater of both.
double corner_load_half_width_N(const StateReport& state, bool front, int side);

/// What one wheel carries, and how that is known.
struct WheelLoad {
  double load_N = 0;
  int side = 0;
  const char* source = "";  ///< "by the scales", "as it settles", "rigid truck".
};

/// The most that a wheel of an axle carries: the greatest of what the scales show and what the
/// truck settles to; the rigid truck's share while there is neither. Nothing when none is known.
std::optional<WheelLoad> find_greatest_wheel_load(const StateReport& state, bool front);

/// How the weight on the ground divides; NaN where it is not known.
struct Shares {
  double front = kNaN;
  double left = kNaN;
  double cross = kNaN;  ///< Left front and right rear.
};

/// By the scales in the state that was weighed, else as the truck settles, else by statics (which
/// tells no cross weight).
Shares find_shares(const StateReport& state);

/// Flat ground under every wheel.
suspension::Ground flat_ground();

}  // namespace rig::check
