#include <algorithm>
#include <array>
#include <cmath>

#include "build/known_to.h"
#include "units/factors.h"
#include "weigh/footing_internal.h"
#include "weigh/standing_internal.h"

namespace rig::weigh::internal {
namespace {

using units::g;

const build::Entry<build::Axle>* find_axle(const build::Build& build, build::End end,
                                           std::vector<Missing>& missing, Diagnostics& faults) {
  const std::string word = end == build::End::kFront ? "front" : "rear";
  const build::Entry<build::Axle>* found = nullptr;
  for (const auto& axle : build.axles) {
    if (axle.value.end != end) continue;
    if (found != nullptr) {
      faults.push_back({.code = "weigh.not_two_axles",
                        .path = axle.path,
                        .message = "There is more than one " + word + " axle.",
                        .remedy = "Loads can be told for one front and one rear axle.",
                        .at = {}});
      return nullptr;
    }
    found = &axle;
  }
  if (found == nullptr) {
    missing.push_back(
        {.path = "/axles", .what = word + " axle", .needed = "axle loads and stability"});
  }
  return found;
}

double known_or_nan(const build::Length& length, const std::string& path, const std::string& what,
                    const char* needed, std::vector<Missing>& missing) {
  if (!length.known()) missing.push_back({.path = path, .what = what, .needed = needed});
  return length.si;
}

std::vector<VerticalLoad> list_loads(const MassProperties& truck, const Hitching& hitching) {
  std::vector<VerticalLoad> loads{{.force_N = truck.mass_kg * g, .p_VoP_V = truck.p_VoBcm_V}};
  if (hitching.load) {
    loads.push_back({.force_N = hitching.load->tongue_N, .p_VoP_V = hitching.load->p_VoBall_V});
  }
  return loads;
}

void check_rating(std::vector<RatingCheck>& ratings, RatingKind kind, std::string what,
                  std::string path, double value_kg, const build::Mass& limit) {
  if (!limit.known()) return;
  ratings.push_back({.kind = kind,
                     .what = std::move(what),
                     .path = std::move(path),
                     .dimension = units::Dimension::kMass,
                     .value_si = value_kg,
                     .limit_si = limit.si});
}

/// An axle's own rating and those of the tyre and wheel on its more loaded side.
void check_axle(std::vector<RatingCheck>& ratings, const build::Build& build,
                const build::Entry<build::Axle>& axle, double axle_N,
                const std::optional<std::array<double, 2>>& wheels_N) {
  const std::string word = axle.value.end == build::End::kFront ? "front" : "rear";
  check_rating(ratings, RatingKind::kGrossAxle, word + " axle", axle.path + "/rating", axle_N / g,
               axle.value.rating);
  const auto* tyre = build::find(build.tyres, axle.value.tyre.id);
  if (!wheels_N || tyre == nullptr) return;
  const double wheel_kg = std::max(wheels_N->front(), wheels_N->back()) / g;
  const std::string side = wheels_N->front() >= wheels_N->back() ? "left " : "right ";
  check_rating(ratings, RatingKind::kTyre, side + word + " tyre", tyre->path + "/rating", wheel_kg,
               tyre->value.rating);
  check_rating(ratings, RatingKind::kWheel, side + word + " wheel", tyre->path + "/wheel_rating",
               wheel_kg, tyre->value.wheel_rating);
}

void check_trailer(std::vector<RatingCheck>& ratings, const build::Build& build,
                   const MassProperties& truck, const HitchLoad& load) {
  if (build.hitch && build.hitch->tongue_rating.known()) {
    ratings.push_back({.kind = RatingKind::kTongue,
                       .what = "tongue load on the hitch",
                       .path = "/hitch/tongue_rating",
                       .dimension = units::Dimension::kForce,
                       .value_si = load.tongue_N,
                       .limit_si = build.hitch->tongue_rating.si});
  }
  if (std::isnan(load.trailer_mass_kg)) return;
  if (build.hitch) {
    check_rating(ratings, RatingKind::kTrailer, "trailer", "/hitch/trailer_rating",
                 load.trailer_mass_kg, build.hitch->trailer_rating);
  }
  check_rating(ratings, RatingKind::kGrossCombination, "truck and trailer",
               "/ratings/gross_combination", truck.mass_kg + load.trailer_mass_kg,
               build.ratings.gross_combination);
}

}  // namespace

const build::LoadState* find_state(const build::Build& build, const std::string& state_id) {
  const auto* entry = build::find(build.load_states, state_id);
  return entry == nullptr ? nullptr : &entry->value;
}

Stand find_stand(const build::Build& build, std::vector<Missing>& missing, Diagnostics& faults) {
  Stand stand{.front = find_axle(build, build::End::kFront, missing, faults),
              .rear = find_axle(build, build::End::kRear, missing, faults),
              .footing = {}};
  if (stand.front == nullptr || stand.rear == nullptr) return stand;
  const build::Axle& front = stand.front->value;
  const build::Axle& rear = stand.rear->value;
  constexpr const char* kForTracks = "wheel loads and stability";
  const Footing footing{
      // The front axle line is the datum: 0 unless the file says otherwise.
      .front_x_m = front.station.known() ? -front.station.si : 0.0,
      .rear_x_m = -known_or_nan(rear.station, stand.rear->path + "/station",
                                "station of the rear axle", "axle loads and stability", missing),
      .front_track_m = known_or_nan(front.track, stand.front->path + "/track",
                                    "track of the front axle", kForTracks, missing),
      .rear_track_m = known_or_nan(rear.track, stand.rear->path + "/track",
                                   "track of the rear axle", kForTracks, missing)};
  if (!rear.station.known()) return stand;
  if (auto fault = find_fault_of_wheelbase(footing)) {
    fault->diagnostics.front().path = stand.rear->path + "/station";
    faults.push_back(fault->diagnostics.front());
    return stand;
  }
  stand.footing = footing;
  return stand;
}

Hitching find_hitching(const build::Build& build, const std::string& state_id,
                       std::vector<Missing>& missing) {
  const auto* entry = build::find(build.load_states, state_id);
  if (entry == nullptr || !entry->value.trailer) return {};
  const build::Trailer& trailer = *entry->value.trailer;
  constexpr const char* kNeeded = "axle loads and stability with the trailer";
  bool known = true;
  if (!trailer.tongue_load.known()) {
    known = false;
    missing.push_back({.path = entry->path + "/trailer/tongue_load",
                       .what = "tongue load of the trailer",
                       .needed = kNeeded});
  }
  if (!build.hitch || !build.hitch->ball.known()) {
    known = false;
    missing.push_back(
        {.path = "/hitch/ball", .what = "place of the hitch ball", .needed = kNeeded});
  }
  if (!trailer.mass.known()) {
    missing.push_back(
        {.path = entry->path + "/trailer/mass",
         .what = "mass of the trailer",
         .needed = "combination weight, tongue share and stability with the trailer"});
  }
  if (!known) return {.load = {}, .unknown = true};
  return {.load = HitchLoad{.tongue_N = trailer.tongue_load.si,
                            .tongue_plus_minus_N = build::half_width(trailer.tongue_load),
                            .trailer_mass_kg = trailer.mass.si,
                            .p_VoBall_V = build.hitch->ball.p_VP()},
          .unknown = false};
}

std::optional<MassProperties> take_off_unsprung(const MassProperties& truck,
                                                const std::vector<Unsprung>& unsprung) {
  MassProperties sprung = truck;
  Vec3 moment_kg_m = truck.mass_kg * truck.p_VoBcm_V;
  for (const Unsprung& part : unsprung) {
    sprung.mass_kg -= part.properties.mass_kg;
    moment_kg_m -= part.properties.mass_kg * part.properties.p_VoBcm_V;
  }
  if (!(sprung.mass_kg > 0)) return std::nullopt;
  sprung.p_VoBcm_V = moment_kg_m / sprung.mass_kg;
  // About the sprung balance point: the whole less the parts, then from there to the point itself.
  sprung.I_BBcm_V = calc_inertia_about(truck, sprung.p_VoBcm_V);
  for (const Unsprung& part : unsprung) {
    sprung.I_BBcm_V -= calc_inertia_about(part.properties, sprung.p_VoBcm_V);
  }
  return sprung;
}

Standing stand_truck(const build::Build& build, const MassProperties& truck, const Stand& stand,
                     const Hitching& hitching, const Diagonal& diagonal, Diagnostics& faults) {
  Standing standing{.truck = truck,
                    .sprung = {},
                    .axle_loads = {},
                    .wheel_loads = {},
                    .stability = {},
                    .ratings = {}};
  if (hitching.unknown) return standing;
  const double tongue_kg = hitching.load ? hitching.load->tongue_N / g : 0;
  check_rating(standing.ratings, RatingKind::kGrossVehicle, "whole truck", "/ratings/gross_vehicle",
               truck.mass_kg + tongue_kg, build.ratings.gross_vehicle);
  if (hitching.load) check_trailer(standing.ratings, build, truck, *hitching.load);
  if (!stand.footing) return standing;
  const auto keep = [&faults](const auto& result, auto& place) {
    if (result) {
      place = *result;
    } else {
      for (Diagnostic fault : result.error()) {
        fault.path = "/masses";  // the footing was looked at before
        faults.push_back(std::move(fault));
      }
    }
  };
  const std::vector<VerticalLoad> loads = list_loads(truck, hitching);
  keep(calc_axle_loads(*stand.footing, loads), standing.axle_loads);
  if (stand.has_tracks()) {
    keep(calc_wheel_loads(*stand.footing, loads), standing.wheel_loads);
    if (auto& wheels = standing.wheel_loads) {
      wheels->front_left_N += diagonal.front_N;
      wheels->front_right_N -= diagonal.front_N;
      wheels->rear_left_N += diagonal.rear_N;
      wheels->rear_right_N -= diagonal.rear_N;
    }
    const bool height_known = !std::isnan(truck.p_VoBcm_V.z());
    if (height_known && (!hitching.load || !std::isnan(hitching.load->trailer_mass_kg))) {
      keep(calc_stability(truck, *stand.footing, hitching.load), standing.stability);
    }
  }
  if (!standing.axle_loads) return standing;
  std::optional<std::array<double, 2>> front_N;
  std::optional<std::array<double, 2>> rear_N;
  if (standing.wheel_loads) {
    front_N = {standing.wheel_loads->front_left_N, standing.wheel_loads->front_right_N};
    rear_N = {standing.wheel_loads->rear_left_N, standing.wheel_loads->rear_right_N};
  }
  check_axle(standing.ratings, build, *stand.front, standing.axle_loads->front_N, front_N);
  check_axle(standing.ratings, build, *stand.rear, standing.axle_loads->rear_N, rear_N);
  return standing;
}

void list_missing_ratings(const build::Build& build, const Stand& stand, bool trailer,
                          std::vector<Missing>& missing) {
  const auto need = [&](bool known, const std::string& path, const std::string& what) {
    if (!known) missing.push_back({.path = path, .what = what, .needed = "margin to that rating"});
  };
  need(build.ratings.gross_vehicle.known(), "/ratings/gross_vehicle", "gross vehicle rating");
  for (const auto* axle : {stand.front, stand.rear}) {
    if (axle == nullptr) continue;
    const std::string word = axle->value.end == build::End::kFront ? "front" : "rear";
    need(axle->value.rating.known(), axle->path + "/rating", "rating of the " + word + " axle");
    const auto* tyre = build::find(build.tyres, axle->value.tyre.id);
    if (tyre == nullptr) {
      need(false, axle->path + "/tyre", "tyre of the " + word + " axle");
      continue;
    }
    need(tyre->value.rating.known(), tyre->path + "/rating",
         "load rating of the " + word + " tyre");
    need(tyre->value.wheel_rating.known(), tyre->path + "/wheel_rating",
         "load rating of the " + word + " wheel");
  }
  if (!trailer) return;
  need(build.ratings.gross_combination.known(), "/ratings/gross_combination",
       "gross combination rating");
  need(build.hitch && build.hitch->tongue_rating.known(), "/hitch/tongue_rating",
       "tongue rating of the hitch");
  need(build.hitch && build.hitch->trailer_rating.known(), "/hitch/trailer_rating",
       "trailer rating of the hitch");
}

}  // namespace rig::weigh::internal
