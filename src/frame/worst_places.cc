#include "frame/worst_places.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <queue>
#include <string>
#include <utility>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/place_list_internal.h"
#include "frame/stress_bound_internal.h"

namespace rig::frame {

namespace {

/// Places on one wall nearer to each other than this are one, m.
constexpr double kApart_m = 3 * 0.0254;

double wall_yield_Pa(const Model& model, int beam, int wall) {
  const BeamPlace& place = model.beams[at(beam)];
  const bool plate =
      !place.plates.empty() && section_at(model, beam).section.walls[at(wall)].part == "plate";
  return plate ? place.plate_yield_Pa : place.yield_Pa;
}

class PlaceSearch {
 public:
  /// @param load_case  The one that is looked at; none: all.
  PlaceSearch(PlaceList& list, WorstBy by, std::optional<std::size_t> load_case = {})
      : list_(list), model_(list.model()), by_(by), load_case_(load_case) {}

  std::vector<WorstPlace> run(std::size_t count) {
    list_candidates();
    std::vector<WorstPlace> found;
    while (found.size() < count && !queue_.empty()) {
      const Candidate top = queue_.top();
      queue_.pop();
      if (!top.close) {
        Candidate close = top;
        close.value = bound_at(top);
        close.close = true;
        queue_.push(close);
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
      if (!apart) continue;
      found.push_back(place);
      list_.limits().tell(list_.carried(list_.places()[top.index]), found.back());
    }
    return found;
  }

 private:
  /// By the bound of its section, by that of its walls, or by its own stress once looked at.
  struct Candidate {
    double value = 0;
    std::size_t index = 0;  ///< Among the places.
    bool close = false;     ///< The bound is that of its walls.
    int looked_at = -1;

    bool operator<(const Candidate& other) const {
      if (value != other.value) return value < other.value;
      // Of two alike, as by symmetry, the first.
      return index > other.index;
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
    std::vector<Candidate> all;
    if (!load_case_) all.reserve(list_.places().size());
    for (std::size_t i = 0; i < list_.places().size(); ++i) {
      const Place& place = list_.places()[i];
      if (load_case_ && place.load_case != *load_case_) continue;
      const double yield_Pa = least_yield_Pa(place.at.beam);
      if (by_ == WorstBy::share_of_yield && std::isnan(yield_Pa)) continue;
      all.push_back({.value = value_of(place.bound_Pa, yield_Pa), .index = i});
    }
    queue_ = std::priority_queue<Candidate>(std::less<Candidate>(), std::move(all));
  }

  void look_at(const Candidate& entry) {
    const WorstPlace place = find_worst_at(entry);
    if (by_ == WorstBy::share_of_yield && std::isnan(place.yield_Pa)) return;
    looked_at_.push_back(place);
    Candidate looked = entry;
    looked.value = value_of(place.stress.von_mises_Pa, place.yield_Pa);
    looked.looked_at = static_cast<int>(looked_at_.size()) - 1;
    queue_.push(looked);
  }

  WorstPlace find_worst_at(const Candidate& entry) {
    const Place& looked_at = list_.places()[entry.index];
    WorstPlace place{.load_case = looked_at.load_case, .at = looked_at.at};
    const bool plates = !model_.beams[at(place.at.beam)].plates.empty();
    if (list_.locked(looked_at) == nullptr && !(plates && by_ == WorstBy::share_of_yield)) {
      const SectionStress worst = find_section_stress(model_, list_.carried(looked_at), place.at);
      place.stress = worst.stress;
      place.yield_Pa = worst.yield_Pa;
      return place;
    }
    list_.with_stresses(entry.index, [&](const auto& field) { look_at_walls(field, place); });
    return place;
  }

  /// No value at a place is above this.
  double bound_at(const Candidate& entry) {
    const int beam = list_.places()[entry.index].at.beam;
    double most = 0;
    list_.with_stresses(entry.index, [&](const auto& field) {
      for (std::size_t w = 0; w < section_at(model_, beam).section.walls.size(); ++w) {
        const double yield = wall_yield_Pa(model_, beam, static_cast<int>(w));
        if (by_ == WorstBy::share_of_yield && std::isnan(yield)) continue;
        most = std::max(most, value_of(field.bound_Pa(w), yield));
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
    for (int w = 0; std::cmp_less(w, section_at(model_, beam).section.walls.size()); ++w) {
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
      return section_at(model_, p.at.beam).section.walls[at(p.stress.at.wall)].part;
    };
    return model_.structure.beams[at(a.at.beam)].member ==
               model_.structure.beams[at(b.at.beam)].member &&
           part(a) == part(b);
  }

  double distance_m(const WorstPlace& a, const WorstPlace& b) const {
    return std::abs(place_along_m(model_, a.at) - place_along_m(model_, b.at));
  }

  PlaceList& list_;
  const Model& model_;
  WorstBy by_;
  std::optional<std::size_t> load_case_;
  std::priority_queue<Candidate> queue_;
  std::vector<WorstPlace> looked_at_;
};

}  // namespace

std::vector<FrameForces> calc_case_forces(const Structure& structure, std::span<const Loads> loads,
                                          std::span<const Response> responses) {
  RIG_REQUIRE(loads.size() == responses.size());
  std::vector<FrameForces> cases;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    cases.push_back({calc_all_beam_forces(structure, loads[i], responses[i]), {}});
  }
  return cases;
}

SectionStress find_section_stress(const Model& model, const BeamForces& forces,
                                  const AlongBeam& where) {
  const BeamSection& section = section_at(model, where.beam);
  const auto worst = section::find_worst_stress(
      section.section, section.properties, without_shear_across(section, forces.at(where.share)));
  RIG_REQUIRE(worst.has_value());
  return {*worst, wall_yield_Pa(model, where.beam, worst->at.wall)};
}

std::vector<WorstPlace> find_worst_places(const Model& model, std::span<const FrameForces> cases,
                                          std::size_t count, WorstBy by) {
  PlaceList list(model, cases);
  return PlaceSearch(list, by).run(count);
}

WorstOfCases find_worst_of_cases(const Model& model, std::span<const FrameForces> cases,
                                 std::size_t count, std::size_t count_each) {
  PlaceList list(model, cases);
  WorstOfCases out{.all = PlaceSearch(list, WorstBy::stress).run(count), .each = {}};
  out.each.reserve(cases.size());
  for (std::size_t i = 0; i < cases.size(); ++i) {
    out.each.push_back(PlaceSearch(list, WorstBy::stress, i).run(count_each));
  }
  return out;
}

WorstBoth find_worst_both(const Model& model, std::span<const FrameForces> cases,
                          std::size_t count) {
  PlaceList list(model, cases);
  return {PlaceSearch(list, WorstBy::stress).run(count),
          PlaceSearch(list, WorstBy::share_of_yield).run(count)};
}

std::vector<WorstPlace> find_worst_places(const Model& model, std::span<const Loads> loads,
                                          std::span<const Response> responses, std::size_t count,
                                          WorstBy by) {
  return find_worst_places(model, calc_case_forces(model.structure, loads, responses), count, by);
}

}  // namespace rig::frame
