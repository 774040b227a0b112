#pragma once

#include <optional>
#include <vector>

#include "base/diagnostic.h"
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

/// Flat ground under every wheel.
suspension::Ground flat_ground();

}  // namespace rig::check
