#include "frame/end_stress.h"

#include <algorithm>

#include "base/require.h"
#include "frame/index_internal.h"
#include "section/stress.h"

namespace rig::frame {
namespace {

/// Places looked at along each beam's part of a stretch, less one.
constexpr int kEighths = 8;

/// Makes `most` the worst place of a stretch if it is worse than what `most` is. Bounds by section
/// sort out places that can't be.
void look_along(const Model& model, const std::vector<BeamForces>& forces,
                const std::string& rail_path, int sign, double from_m, double to_m,
                EndStress& most) {
  const Structure& s = model.structure;
  for (std::size_t b = 0; b < s.beams.size(); ++b) {
    const BeamPlace& place = model.beams[b];
    if (place.path != rail_path || place.sign != sign) continue;
    const double begin_m = std::max(from_m, place.begin_m), end_m = std::min(to_m, place.end_m);
    if (!(end_m - begin_m > build::kStationRounding_m)) continue;
    const BeamSection& section = s.sections[at(s.beams[b].section)];
    for (int i = 0; i <= kEighths; ++i) {
      const double station_m = begin_m + (end_m - begin_m) * i / kEighths;
      const double share =
          std::clamp((place.end_m - station_m) / (place.end_m - place.begin_m), 0.0, 1.0);
      const section::SectionForces here = forces[b].at(share);
      if (!(section.stress_bound.von_mises_Pa(here) > most.von_mises_Pa)) continue;
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

}  // namespace

EndStress find_rail_stress(const Model& model, const std::vector<BeamForces>& forces,
                           const std::string& rail_path, int sign, double from_m, double to_m) {
  EndStress most{.sign = sign};
  look_along(model, forces, rail_path, sign, from_m, to_m, most);
  return most;
}

std::vector<EndStress> find_end_stresses(const Model& model, std::span<const PlateEnd> ends,
                                         std::span<const FrameForces> cases) {
  std::vector<EndStress> out;
  for (const PlateEnd& end : ends) {
    out.push_back({.plate_path = end.plate_path, .front = end.front});
  }
  for (std::size_t c = 0; c < cases.size(); ++c) {
    for (std::size_t i = 0; i < ends.size(); ++i) {
      const PlateEnd& end = ends[i];
      const double before_Pa = out[i].von_mises_Pa;
      for (const int sign : end.signs) {
        look_along(model, cases[c].forces, end.rail_path, sign, end.station_m - end.depth_m,
                   end.station_m + end.depth_m, out[i]);
      }
      if (out[i].von_mises_Pa > before_Pa) out[i].load_case = c;
    }
  }
  return out;
}

}  // namespace rig::frame
