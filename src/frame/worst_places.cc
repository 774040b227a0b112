#include "frame/worst_places.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <string>
#include <utility>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/locked_stress_internal.h"
#include "frame/place_limits_internal.h"
#include "frame/stress_bound_internal.h"

namespace rig::frame {

namespace {

/// Places on one wall nearer to each other than this are one, m.
constexpr double kApart_m = 3 * 0.0254;

const BeamSection& section_of(const Model& model, int beam) {
  return model.structure.sections[at(model.structure.beams[at(beam)].section)];
}

double wall_yield_Pa(const Model& model, int beam, int wall) {
  const BeamPlace& place = model.beams[at(beam)];
  const bool plate =
      !place.plates.empty() && section_of(model, beam).section.walls[at(wall)].part == "plate";
  return plate ? place.plate_yield_Pa : place.yield_Pa;
}

class PlaceSearch {
 public:
  PlaceSearch(const Model& model, std::span<const FrameForces> cases, WorstBy by)
      : model_(model), cases_(cases), by_(by), limits_(model) {
    for (const BeamSection& section : model.structure.sections) {
      bounds_.push_back(calc_stress_bound(section));
    }
    for (const FrameForces& of : cases) {
      RIG_REQUIRE(of.forces.size() == model.structure.beams.size());
      std::vector<const LockedForces*> locked(model.structure.beams.size(), nullptr);
      for (const LockedForces& one : of.locked) locked[at(one.beam)] = &one;
      locked_.push_back(std::move(locked));
    }
  }

  std::vector<WorstPlace> run(std::size_t count) {
    list_candidates();
    std::vector<WorstPlace> found;
    while (found.size() < count && !queue_.empty()) {
      const Candidate top = queue_.top();
      queue_.pop();
      if (!top.close) {
        queue_.push(
            {.value = bound_at(top), .load_case = top.load_case, .at = top.at, .close = true});
        continue;
      }
      if (top.looked_at < 0) {
        look_at(top);
        continue;
      }
      const WorstPlace& place = looked_at_[at(top.looked_at)];
      const bool apart = std::none_of(found.begin(), found.end(), [&](const WorstPlace& worse) {
        return same_wall(worse, place) && distance_m(worse, place) < kApart_m;
      });
      if (apart) found.push_back(place);
    }
    for (WorstPlace& place : found) {
      limits_.tell(cases_[place.load_case].forces[at(place.at.beam)], place);
    }
    return found;
  }

 private:
  /// By the bound of its section, by that of its walls, or by its own stress once looked at.
  struct Candidate {
    double value = 0;
    std::size_t load_case = 0;
    AlongBeam at;
    bool close = false;  ///< The bound is that of its walls.
    int looked_at = -1;

    bool operator<(const Candidate& other) const {
      if (value != other.value) return value < other.value;
      // Of two alike, as by symmetry, the first.
      if (at.beam != other.at.beam) return at.beam > other.at.beam;
      if (at.share != other.at.share) return at.share > other.at.share;
      return load_case > other.load_case;
    }
  };

  /// The least that is known of a beam's walls; NaN: none.
  double least_yield_Pa(int beam) const {
    const BeamPlace& place = model_.beams[at(beam)];
    return place.plates.empty() ? place.yield_Pa : std::fmin(place.yield_Pa, place.plate_yield_Pa);
  }

  double value_of(double von_mises_Pa, double yield) const {
    return by_ == WorstBy::stress ? von_mises_Pa : von_mises_Pa / yield;
  }

  void list_candidates() {
    for (std::size_t b = 0; b < model_.structure.beams.size(); ++b) {
      const int beam = static_cast<int>(b);
      if (by_ == WorstBy::share_of_yield && std::isnan(least_yield_Pa(beam))) continue;
      const double length_m = cases_.empty() ? 0 : cases_.front().forces[b].length_m;
      const double reach = kJointReach * limits_.depth_m(beam) / length_m;
      std::vector<double> shares{0, 0.5, 1};
      if (reach < 0.5) {
        if (limits_.to_joint_m({beam, 0}) < kReachRounding) shares.push_back(reach);
        if (limits_.to_joint_m({beam, 1}) < kReachRounding) shares.push_back(1 - reach);
      }
      for (std::size_t c = 0; c < cases_.size(); ++c) {
        const LockedForces* locked = locked_[c][b];
        const StressBound before =
            locked == nullptr ? StressBound{} : calc_stress_bound(locked->section);
        for (const double share : shares) {
          double bound_Pa = bounds_[at(model_.structure.beams[b].section)].von_mises_Pa(
              cases_[c].forces[b].at(share));
          if (locked != nullptr) bound_Pa += before.von_mises_Pa(locked->forces.at(share));
          queue_.push({.value = value_of(bound_Pa, least_yield_Pa(beam)),
                       .load_case = c,
                       .at = {beam, share}});
        }
      }
    }
  }

  void look_at(const Candidate& entry) {
    const WorstPlace place = find_worst_at(entry);
    if (by_ == WorstBy::share_of_yield && std::isnan(place.yield_Pa)) return;
    looked_at_.push_back(place);
    queue_.push({.value = value_of(place.stress.von_mises_Pa, place.yield_Pa),
                 .load_case = entry.load_case,
                 .at = entry.at,
                 .close = true,
                 .looked_at = static_cast<int>(looked_at_.size()) - 1});
  }

  WorstPlace find_worst_at(const Candidate& entry) const {
    const int beam = entry.at.beam;
    const LockedForces* locked = locked_[entry.load_case][at(beam)];
    WorstPlace place{.load_case = entry.load_case, .at = entry.at};
    const bool plates = !model_.beams[at(beam)].plates.empty();
    if (locked == nullptr && !(plates && by_ == WorstBy::share_of_yield)) {
      const BeamForces& carried = cases_[entry.load_case].forces[at(beam)];
      const SectionStress worst = find_section_stress(model_, carried, entry.at);
      place.stress = worst.stress;
      place.yield_Pa = worst.yield_Pa;
      return place;
    }
    with_stresses(entry, [&](const auto& stresses) { look_at_walls(stresses, place); });
    return place;
  }

  /// Calls with the stresses at a place.
  template <typename Use>
  void with_stresses(const Candidate& entry, const Use& use) const {
    const int beam = entry.at.beam;
    const LockedForces* locked = locked_[entry.load_case][at(beam)];
    const BeamSection& section = section_of(model_, beam);
    const section::SectionForces forces =
        without_shear_across(section, cases_[entry.load_case].forces[at(beam)].at(entry.at.share));
    if (locked == nullptr) {
      use(section::StressField(section.section, section.properties, forces));
    } else {
      use(LockedStress(section, forces, locked->section, locked->forces.at(entry.at.share)));
    }
  }

  /// No value at a place is above this.
  double bound_at(const Candidate& entry) const {
    double most = 0;
    with_stresses(entry, [&](const auto& stresses) {
      for (std::size_t w = 0; w < section_of(model_, entry.at.beam).section.walls.size(); ++w) {
        const double yield = wall_yield_Pa(model_, entry.at.beam, static_cast<int>(w));
        if (by_ == WorstBy::share_of_yield && std::isnan(yield)) continue;
        most = std::max(most, value_of(stresses.bound_Pa(w), yield));
      }
    });
    return most;
  }

  /// Wall by wall: each has a yield stress of its own, or carries something from before.
  template <typename Field>
  void look_at_walls(const Field& field, WorstPlace& place) const {
    const int beam = place.at.beam;
    place.stress.von_mises_Pa = -1;
    double most = -1;
    for (int w = 0; std::cmp_less(w, section_of(model_, beam).section.walls.size()); ++w) {
      const double yield = wall_yield_Pa(model_, beam, w);
      if (by_ == WorstBy::share_of_yield && std::isnan(yield)) continue;
      if (value_of(field.bound_Pa(at(w)), yield) <= most) continue;
      for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0}) {
        for (const section::WallStress& stress : field.across(w, share)) {
          const double value = value_of(stress.von_mises_Pa, yield);
          if (!(value > most)) continue;
          most = value;
          place.stress = stress;
          place.yield_Pa = yield;
        }
      }
    }
  }

  bool same_wall(const WorstPlace& a, const WorstPlace& b) const {
    const auto part = [this](const WorstPlace& p) -> const std::string& {
      return section_of(model_, p.at.beam).section.walls[at(p.stress.at.wall)].part;
    };
    return model_.structure.beams[at(a.at.beam)].member ==
               model_.structure.beams[at(b.at.beam)].member &&
           part(a) == part(b);
  }

  double distance_m(const WorstPlace& a, const WorstPlace& b) const {
    return std::abs(place_along_m(model_, a.at) - place_along_m(model_, b.at));
  }

  const Model& model_;
  std::span<const FrameForces> cases_;
  WorstBy by_;
  PlaceLimits limits_;
  std::vector<StressBound> bounds_;
  std::vector<std::vector<const LockedForces*>> locked_;
  std::priority_queue<Candidate> queue_;
  std::vector<WorstPlace> looked_at_;
};

}  // namespace

SectionStress find_section_stress(const Model& model, const BeamForces& forces,
                                  const AlongBeam& where) {
  const BeamSection& section = section_of(model, where.beam);
  const auto worst = section::find_worst_stress(
      section.section, section.properties, without_shear_across(section, forces.at(where.share)));
  RIG_REQUIRE(worst.has_value());
  return {*worst, wall_yield_Pa(model, where.beam, worst->at.wall)};
}

std::vector<WorstPlace> find_worst_places(const Model& model, std::span<const FrameForces> cases,
                                          std::size_t count, WorstBy by) {
  return PlaceSearch(model, cases, by).run(count);
}

std::vector<WorstPlace> find_worst_places(const Model& model, std::span<const Loads> loads,
                                          std::span<const Response> responses, std::size_t count,
                                          WorstBy by) {
  RIG_REQUIRE(loads.size() == responses.size());
  std::vector<FrameForces> cases;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    cases.push_back({calc_all_beam_forces(model.structure, loads[i], responses[i]), {}});
  }
  return find_worst_places(model, cases, count, by);
}

}  // namespace rig::frame
