#include "weigh/weigh.h"

#include <cmath>

#include "units/factors.h"
#include "weigh/weighings_internal.h"

namespace rig::weigh {
namespace {

/// The items that `carried` picks, as one body; nothing when they weigh nothing.
template <typename Carried>
std::optional<MassProperties> combine_if(const std::vector<Item>& items, Carried carried) {
  std::vector<MassProperties> bodies;
  double mass_kg = 0;
  for (const Item& item : items) {
    if (!carried(item)) continue;
    bodies.push_back(item.properties);
    mass_kg += item.mass_kg();
  }
  if (!(mass_kg > 0)) return std::nullopt;
  return combine(bodies);
}

}  // namespace

Result<WeighResult> weigh_state(const build::Build& build, const std::string& state_id) {
  auto resolved = resolve_items(build, state_id);
  if (!resolved) return Failure{resolved.error()};

  WeighResult result;
  result.state_id = state_id;
  result.items = std::move(resolved->items);
  result.left_out = std::move(resolved->left_out);
  result.missing = std::move(resolved->missing);
  result.faults = std::move(resolved->faults);
  result.total = combine_if(result.items, [](const Item&) { return true; });
  result.sprung =
      combine_if(result.items, [](const Item& item) { return item.carried_by.empty(); });
  for (const auto& axle : build.axles) {
    const auto unsprung =
        combine_if(result.items, [&](const Item& item) { return item.carried_by == axle.id; });
    if (unsprung) result.unsprung.push_back({.axle_id = axle.id, .properties = *unsprung});
  }

  const internal::Stand stand = internal::find_stand(build, result.missing, result.faults);
  result.footing = stand.footing;
  if (stand.front != nullptr) result.front_axle_id = stand.front->id;
  if (stand.rear != nullptr) result.rear_axle_id = stand.rear->id;

  const internal::Hitching hitching = internal::find_hitching(build, state_id, result.missing);
  result.hitch = hitching.load;
  if (hitching.load && hitching.load->trailer_mass_kg > 0) {
    result.tongue_share = hitching.load->tongue_N /
                          (hitching.load->trailer_mass_kg * units::kStandardGravity_m_per_s2);
  }
  internal::list_missing_ratings(build, stand, hitching.load || hitching.unknown, result.missing);
  internal::Estimate estimate{.state_id = state_id,
                              .items = result.items,
                              .truck = result.total,
                              .spread = {},
                              .hitching = hitching};
  if (result.total) {
    result.spread = internal::calc_spread(result.items, *result.total, stand.footing);
    internal::add_tongue(hitching, stand.footing, result.spread);
    estimate.spread = result.spread;
    result.estimated =
        internal::stand_truck(build, *result.total, stand, hitching, {}, result.faults);
  }
  result.scaled = internal::scale_truck(build, estimate, stand, result.missing, result.faults);
  result.measured_heights = internal::measure_heights(build, estimate, stand, result.scaled,
                                                      result.missing, result.faults);
  result.height_correction = internal::find_height_correction(build, estimate, stand, result.scaled,
                                                              result.measured_heights);
  if (result.height_correction && result.standing() != nullptr) {
    MassProperties truck = result.standing()->truck;
    truck.p_VoBcm_V.z() = result.height_correction->cg_height_m;
    const bool scaled = result.scaled && result.scaled->standing;
    const Diagonal diagonal = scaled ? result.scaled->diagonal : Diagonal{};
    Standing raised = internal::stand_truck(build, truck, stand, hitching, diagonal, result.faults);
    (scaled ? result.scaled->standing : result.lifted) = std::move(raised);
  }
  if (const Standing* standing = result.standing();
      standing != nullptr && std::isnan(standing->truck.p_VoBcm_V.z())) {
    result.missing.push_back({.path = "/lifted_weighings",
                              .what = "height of the balance point, by weighing with an axle "
                                      "lifted or from the list of masses",
                              .needed = "side slope, grades, body roll and the anti-features"});
  }
  if (!result.total) return result;
  for (auto* standing : {&result.estimated, &result.lifted}) {
    if (*standing) {
      (*standing)->sprung = internal::take_off_unsprung((*standing)->truck, result.unsprung);
    }
  }
  if (result.scaled && result.scaled->standing) {
    auto& standing = *result.scaled->standing;
    standing.sprung = internal::take_off_unsprung(standing.truck, result.unsprung);
  }
  return result;
}

const Standing* WeighResult::standing() const {
  if (scaled && scaled->standing) return &*scaled->standing;
  if (lifted) return &*lifted;
  return estimated ? &*estimated : nullptr;
}

double WeighResult::height_plus_minus_m() const {
  return height_correction ? height_correction->plus_minus_m : spread.p_plus_minus_V.z();
}

}  // namespace rig::weigh
