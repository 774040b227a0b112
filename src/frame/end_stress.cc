#include "frame/end_stress.h"

#include <algorithm>
#include <optional>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/stress_bound_internal.h"
#include "section/stress.h"

namespace rig::frame {
namespace {

/// Places looked at along each beam's part of a stretch, less one.
constexpr int kEighths = 8;

/// Looks along rails of one model. Bounds by section sort out places that can't be the worst.
class RailSearch {
 public:
  explicit RailSearch(const Model& model)
      : model_(model), bounds_(model.structure.sections.size()) {}

  /// Makes `most` the worst place of a stretch if it is worse than what `most` is.
  void look(const std::vector<BeamForces>& forces, const std::string& rail_path, int sign,
            double from_m, double to_m, EndStress& most) {
    const Structure& s = model_.structure;
    for (std::size_t b = 0; b < s.beams.size(); ++b) {
      const BeamPlace& place = model_.beams[b];
      if (place.path != rail_path || place.sign != sign) continue;
      const double begin_m = std::max(from_m, place.begin_m), end_m = std::min(to_m, place.end_m);
      if (!(end_m - begin_m > build::kStationRounding_m)) continue;
      const BeamSection& section = s.sections[at(s.beams[b].section)];
      for (int i = 0; i <= kEighths; ++i) {
        const double station_m = begin_m + (end_m - begin_m) * i / kEighths;
        const double share =
            std::clamp((place.end_m - station_m) / (place.end_m - place.begin_m), 0.0, 1.0);
        const section::SectionForces here = forces[b].at(share);
        if (!(bound_of(s.beams[b].section).von_mises_Pa(here) > most.von_mises_Pa)) continue;
        const auto worst = section::find_worst_stress(section.section, section.properties, here);
        RIG_REQUIRE(worst.has_value());
        if (!(worst->von_mises_Pa > most.von_mises_Pa)) continue;
        most.sign = sign;
        most.von_mises_Pa = worst->von_mises_Pa;
        most.station_m = station_m;
        most.yield_Pa = place.yield_Pa;
      }
    }
  }

 private:
  const StressBound& bound_of(int section) {
    auto& bound = bounds_[at(section)];
    if (!bound) bound = calc_stress_bound(model_.structure.sections[at(section)]);
    return *bound;
  }

  const Model& model_;
  std::vector<std::optional<StressBound>> bounds_;
};

}  // namespace

EndStress find_rail_stress(const Model& model, const std::vector<BeamForces>& forces,
                           const std::string& rail_path, int sign, double from_m, double to_m) {
  EndStress most{.sign = sign};
  RailSearch(model).look(forces, rail_path, sign, from_m, to_m, most);
  return most;
}

std::vector<EndStress> find_end_stresses(const Model& model, std::span<const PlateEnd> ends,
                                         std::span<const Loads> loads,
                                         std::span<const Response> responses) {
  RIG_REQUIRE(loads.size() == responses.size());
  std::vector<EndStress> out;
  for (const PlateEnd& end : ends) {
    out.push_back({.plate_path = end.plate_path, .front = end.front});
  }
  if (ends.empty()) return out;
  RailSearch search(model);
  for (std::size_t c = 0; c < loads.size(); ++c) {
    const auto forces = calc_all_beam_forces(model.structure, loads[c], responses[c]);
    for (std::size_t i = 0; i < ends.size(); ++i) {
      const PlateEnd& end = ends[i];
      const double before_Pa = out[i].von_mises_Pa;
      for (const int sign : end.signs) {
        search.look(forces, end.rail_path, sign, end.station_m - end.depth_m,
                    end.station_m + end.depth_m, out[i]);
      }
      if (out[i].von_mises_Pa > before_Pa) out[i].load_case = c;
    }
  }
  return out;
}

}  // namespace rig::frame
