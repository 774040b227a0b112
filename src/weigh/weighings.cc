#include <algorithm>
#include <cmath>

#include "base/nan.h"
#include "units/factors.h"
#include "weigh/weighings_internal.h"

namespace rig::weigh::internal {
namespace {

template <units::Dimension D>
Measured measured(const build::Quantity<D>& quantity) {
  return {.value = quantity.si, .plus_minus = half_width(quantity)};
}

Measured measured_place(const build::Length& place) {
  return {.value = place.si, .plus_minus = place_half_width(place)};
}

bool usable(const build::Build& build, const build::Entry<build::LiftedWeighing>& weighing,
            std::vector<Missing>& missing) {
  const build::LiftedWeighing& w = weighing.value;
  const Value values[]{{"state", "load state of a lifted weighing", names_state(build, w.state)},
                       {"lift", "rise of the lifted axle", w.lift.known()},
                       {"level_reading", "level reading", w.level_reading.known()},
                       {"lifted_reading", "lifted reading", w.lifted_reading.known()}};
  return all_known(values, weighing.path, "measured height of the balance point", missing);
}

}  // namespace

Spread calc_spread(const std::vector<Item>& items, const MassProperties& truck,
                   const std::optional<Footing>& footing) {
  using units::g;
  const double M = truck.mass_kg;
  double mass_squares = 0;
  Vec3 place_squares = Vec3::Zero();
  double front_squares = 0;
  double rear_squares = 0;
  double mass_with_kg = 0;
  for (const Item& item : items) {
    if (item.plus_minus_given) mass_with_kg += item.mass_kg();
    const double u_m = item.mass_plus_minus_kg;
    mass_squares += u_m * u_m;
    // c = sum(m p) / M: dc/dm = (p - c)/M, dc/dp = m/M.
    const Vec3 by_mass = (item.p_VoCm_V() - truck.p_VoBcm_V) / M * u_m;
    const Vec3 by_place = item.mass_kg() / M * item.p_plus_minus_V;
    place_squares += by_mass.cwiseAbs2() + by_place.cwiseAbs2();
    if (!footing) continue;
    const double front_share = (item.p_VoCm_V().x() - footing->rear_x_m) / footing->wheelbase_m();
    const double by_station = g * item.mass_kg() * item.p_plus_minus_V.x() / footing->wheelbase_m();
    front_squares += std::pow(g * front_share * u_m, 2) + by_station * by_station;
    rear_squares += std::pow(g * (1 - front_share) * u_m, 2) + by_station * by_station;
  }
  return {.mass_plus_minus_kg = std::sqrt(mass_squares),
          .p_plus_minus_V = place_squares.cwiseSqrt(),
          .front_plus_minus_N = std::sqrt(front_squares),
          .rear_plus_minus_N = std::sqrt(rear_squares),
          .mass_share_with_plus_minus = mass_with_kg / M};
}

void add_tongue(const Hitching& hitching, const std::optional<Footing>& footing, Spread& spread) {
  if (!hitching.load || !footing) return;
  const double u_N = hitching.load->tongue_plus_minus_N;
  const double front_share =
      (hitching.load->p_VoBall_V.x() - footing->rear_x_m) / footing->wheelbase_m();
  spread.front_plus_minus_N = std::hypot(spread.front_plus_minus_N, front_share * u_N);
  spread.rear_plus_minus_N = std::hypot(spread.rear_plus_minus_N, (1 - front_share) * u_N);
}

Estimate estimate_state(const build::Build& build, const std::string& state_id,
                        const Stand& stand) {
  std::vector<Missing> listed_with_that_state;
  Estimate estimate{.state_id = state_id,
                    .items = {},
                    .truck = {},
                    .spread = {},
                    .hitching = find_hitching(build, state_id, listed_with_that_state)};
  auto items = resolve_items(build, state_id);
  if (!items) return estimate;
  estimate.items = std::move(items->items);
  std::vector<MassProperties> bodies;
  double mass_kg = 0;
  for (const Item& item : estimate.items) {
    bodies.push_back(item.properties);
    mass_kg += item.mass_kg();
  }
  if (!(mass_kg > 0)) return estimate;
  estimate.truck = combine(bodies);
  estimate.spread = calc_spread(estimate.items, *estimate.truck, stand.footing);
  add_tongue(estimate.hitching, stand.footing, estimate.spread);
  return estimate;
}

std::vector<Item> list_differences(const std::vector<Item>& asked,
                                   const std::vector<Item>& weighed) {
  const auto find = [](const std::vector<Item>& items, const std::string& id) {
    return std::find_if(items.begin(), items.end(), [&](const Item& i) { return i.id == id; });
  };
  std::vector<Item> differences;
  for (const Item& item : asked) {
    const auto other = find(weighed, item.id);
    if (other == weighed.end()) {
      differences.push_back(item);
    } else if (other->mass_kg() != item.mass_kg()) {
      // One tank, filled twice: volume and density are the same in both, the fills are not.
      const Item& fuller = item.mass_kg() > other->mass_kg() ? item : *other;
      const double fill_kg = fuller.fill_plus_minus_kg;
      const double tank_kg =
          std::sqrt(std::max(0.0, std::pow(fuller.mass_plus_minus_kg, 2) - fill_kg * fill_kg));
      const double more_kg = item.mass_kg() - other->mass_kg();
      Item difference = item;
      difference.properties.mass_kg = more_kg;
      difference.mass_plus_minus_kg = std::hypot(
          tank_kg * more_kg / fuller.mass_kg(), item.fill_plus_minus_kg, other->fill_plus_minus_kg);
      differences.push_back(std::move(difference));
    }
  }
  for (const Item& item : weighed) {
    if (find(asked, item.id) == asked.end()) differences.push_back(item);
  }
  return differences;
}

std::vector<MeasuredHeight> measure_heights(const build::Build& build, const Estimate& asked,
                                            const Stand& stand, const std::optional<Scaled>& scaled,
                                            std::vector<Missing>& missing, Diagnostics& faults) {
  std::vector<MeasuredHeight> result;
  for (const build::End lifted : {build::End::kFront, build::End::kRear}) {
    std::vector<AxleLift> lifts;
    std::vector<const build::Entry<build::LiftedWeighing>*> weighings;
    for (const auto& weighing : build.lifted_weighings) {
      const std::string& weighed = weighing.value.state.id;
      const bool of_another_state = !weighed.empty() && weighed != asked.state_id;
      if (weighing.value.lifted != lifted || of_another_state) continue;
      if (!usable(build, weighing, missing)) continue;
      weighings.push_back(&weighing);
      lifts.push_back({.lift_m = measured(weighing.value.lift),
                       .level_reading_kg = measured(weighing.value.level_reading),
                       .lifted_reading_kg = measured(weighing.value.lifted_reading)});
    }
    if (lifts.empty()) continue;
    if (asked.hitching.load || asked.hitching.unknown) {
      faults.push_back({.code = "weigh.lifted_with_trailer",
                        .path = weighings.front()->path + "/state",
                        .message = "A truck can't be weighed for height with its trailer on.",
                        .remedy = "Name a load state without a trailer, and unhitch.",
                        .at = {}});
      continue;
    }
    if (!stand.footing) continue;
    const bool rear_lifted = lifted == build::End::kRear;
    const auto& on_scale = rear_lifted ? *stand.front : *stand.rear;
    const auto& raised = rear_lifted ? *stand.rear : *stand.front;
    const Value heights[]{{"height", "wheel centre height", on_scale.value.height.known()}};
    const Value raised_heights[]{{"height", "wheel centre height", raised.value.height.known()}};
    constexpr const char* kNeeded = "measured height of the balance point";
    const bool both = all_known(heights, on_scale.path, kNeeded, missing);
    if (!all_known(raised_heights, raised.path, kNeeded, missing) || !both) continue;

    MeasuredHeight height{.weighing_ids = {}, .lifted = lifted, .height = {}, .stability = {}};
    for (const auto* weighing : weighings) height.weighing_ids.push_back(weighing->id);
    Measured mass_kg{.value = 0, .plus_minus = asked.spread.mass_plus_minus_kg};
    if (scaled && scaled->state_id == asked.state_id) {
      height.mass_from_scale = true;
      mass_kg = {.value = scaled->weighed.mass_kg,
                 .plus_minus = scaled->weighed.mass_plus_minus_kg};
    } else if (asked.truck) {
      mass_kg.value = asked.truck->mass_kg;
    } else {
      continue;
    }
    const LiftedTruck truck{
        .mass_kg = mass_kg,
        .wheelbase_m = {.value = stand.footing->wheelbase_m(),
                        .plus_minus = place_half_width(stand.rear->value.station)},
        .scale_axle_height_m = measured_place(on_scale.value.height),
        .lifted_axle_height_m = measured_place(raised.value.height)};
    const auto solved = solve_cg_height(truck, lifts);
    if (!solved) {
      for (Diagnostic fault : solved.error()) {
        // "/1" is the second of these weighings; no path: what they share.
        const std::size_t index = fault.path.empty() ? 0 : std::stoul(fault.path.substr(1));
        fault.path = weighings[index]->path;
        faults.push_back(std::move(fault));
      }
      continue;
    }
    height.height = *solved;
    height.difference_m = asked.truck ? solved->cg_height_m - asked.truck->p_VoBcm_V.z() : kNaN;
    if (asked.truck && stand.has_tracks()) {
      MassProperties moved = *asked.truck;
      moved.p_VoBcm_V.z() = solved->cg_height_m;
      if (const auto stability = calc_stability(moved, *stand.footing, {})) {
        height.stability = *stability;
      }
    }
    result.push_back(std::move(height));
  }
  return result;
}

std::optional<HeightCorrection> find_height_correction(
    const build::Build& build, const Estimate& asked, const Stand& stand,
    const std::optional<Scaled>& scaled, const std::vector<MeasuredHeight>& measured) {
  const auto best = [](const std::vector<MeasuredHeight>& heights) {
    return std::min_element(heights.begin(), heights.end(), [](const auto& a, const auto& b) {
      return a.height.plus_minus_m < b.height.plus_minus_m;
    });
  };
  if (!measured.empty()) {
    const auto height = best(measured);
    return HeightCorrection{.weighing_ids = height->weighing_ids,
                            .state_id = asked.state_id,
                            .difference_m = height->difference_m,
                            .cg_height_m = height->height.cg_height_m,
                            .plus_minus_m = height->height.plus_minus_m};
  }
  if (!asked.truck) return std::nullopt;
  const auto mass_kg = [](const Estimate& estimate, const std::optional<Scaled>& by) {
    return by && by->standing ? by->standing->truck.mass_kg : estimate.truck->mass_kg;
  };
  for (const auto& weighing : build.lifted_weighings) {
    const std::string& state_id = weighing.value.state.id;
    // Faults and gaps are told with the weighed state itself.
    std::vector<Missing> told_there;
    Diagnostics faults_there;
    if (state_id.empty() || state_id == asked.state_id) continue;
    const Estimate weighed = estimate_state(build, state_id, stand);
    if (!weighed.truck) continue;
    const auto by_scale = scale_truck(build, weighed, stand, told_there, faults_there);
    const auto heights = measure_heights(build, weighed, stand, by_scale, told_there, faults_there);
    if (heights.empty()) continue;
    const auto height = best(heights);
    const double share = mass_kg(weighed, by_scale) / mass_kg(asked, scaled);
    const double from_others_m =
        calc_spread(list_differences(asked.items, weighed.items), *asked.truck, {})
            .p_plus_minus_V.z();
    return HeightCorrection{
        .weighing_ids = height->weighing_ids,
        .state_id = state_id,
        .difference_m = share * height->difference_m,
        .cg_height_m = asked.truck->p_VoBcm_V.z() + share * height->difference_m,
        .plus_minus_m = std::hypot(share * height->height.plus_minus_m, from_others_m)};
  }
  return std::nullopt;
}

}  // namespace rig::weigh::internal
