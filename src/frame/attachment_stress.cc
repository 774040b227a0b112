#include "frame/attachment_stress.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "frame/index_internal.h"
#include "frame/place_limits_internal.h"

namespace rig::frame {

namespace {

/// Ends of beams that are no further apart than this meet, m.
constexpr double kMeet_m = 1e-6;

bool is_fixed_to_frame(AttachmentKind kind) {
  return kind != AttachmentKind::stand && kind != AttachmentKind::axle_line &&
         kind != AttachmentKind::middle;
}

/// Ends of the carrier's beams that meet where the attachment is carried: two, but one at an end of
/// the carrier.
std::vector<AlongBeam> list_carrying_ends(const Model& model, const Attachment& carried) {
  std::vector<std::pair<double, AlongBeam>> ends;
  double least_m = std::numeric_limits<double>::infinity();
  for (std::size_t b = 0; b < model.structure.beams.size(); ++b) {
    const Beam& beam = model.structure.beams[b];
    if (beam.member != carried.carrier) continue;
    for (const double share : {0.0, 1.0}) {
      const Vec3& p_VoE_V = share == 0 ? beam.p_VoF_V : beam.p_VoT_V;
      const double away_m = (p_VoE_V - carried.p_VoC_V).norm();
      least_m = std::min(least_m, away_m);
      ends.push_back({away_m, {static_cast<int>(b), share}});
    }
  }
  std::vector<AlongBeam> found;
  for (const auto& [away_m, end] : ends) {
    if (away_m <= least_m + kMeet_m) found.push_back(end);
  }
  return found;
}

class AttachmentSearch {
 public:
  AttachmentSearch(const Model& model, std::span<const FrameForces> cases)
      : model_(model), limits_(model), cases_(cases) {}

  WorstPlace find_worst(const std::vector<AlongBeam>& ends) const {
    WorstPlace worst;
    worst.stress.von_mises_Pa = -1;
    for (const Candidate& candidate : list_candidates(ends)) {
      if (!(candidate.bound_Pa > worst.stress.von_mises_Pa)) break;
      const BeamForces& carried = cases_[candidate.load_case].forces[at(candidate.at.beam)];
      const SectionStress found = find_section_stress(model_, carried, candidate.at);
      if (!(found.stress.von_mises_Pa > worst.stress.von_mises_Pa)) continue;
      worst = {.load_case = candidate.load_case,
               .at = candidate.at,
               .stress = found.stress,
               .yield_Pa = found.yield_Pa};
    }
    limits_.tell(cases_[worst.load_case].forces[at(worst.at.beam)], worst);
    return worst;
  }

 private:
  struct Candidate {
    double bound_Pa = 0;
    std::size_t load_case = 0;
    AlongBeam at;
  };

  /// Largest bound first, so that few sections are looked at.
  std::vector<Candidate> list_candidates(const std::vector<AlongBeam>& ends) const {
    std::vector<Candidate> out;
    for (const AlongBeam& end : ends) {
      const int section = model_.structure.beams[at(end.beam)].section;
      const StressBound& bound = model_.structure.sections[at(section)]->stress_bound;
      for (std::size_t c = 0; c < cases_.size(); ++c) {
        const double most_Pa = bound.von_mises_Pa(cases_[c].forces[at(end.beam)].at(end.share));
        out.push_back({.bound_Pa = most_Pa, .load_case = c, .at = end});
      }
    }
    std::stable_sort(out.begin(), out.end(), [](const Candidate& a, const Candidate& b) {
      return a.bound_Pa > b.bound_Pa;
    });
    return out;
  }

  const Model& model_;
  PlaceLimits limits_;
  std::span<const FrameForces> cases_;
};

}  // namespace

std::vector<AttachmentStress> find_attachment_stresses(const Model& model,
                                                       std::span<const FrameForces> cases) {
  std::vector<AttachmentStress> found;
  if (cases.empty()) return found;
  const AttachmentSearch search(model, cases);
  for (std::size_t a = 0; a < model.attachments.size(); ++a) {
    const Attachment& one = model.attachments[a];
    if (!is_fixed_to_frame(one.kind)) continue;
    found.push_back({.attachment = a, .worst = search.find_worst(list_carrying_ends(model, one))});
  }
  const auto rank = [](const AttachmentStress& one) {
    const double share = one.worst.share_of_yield();
    return std::pair(std::isnan(share) ? -1.0 : share, one.worst.stress.von_mises_Pa);
  };
  std::stable_sort(
      found.begin(), found.end(),
      [&](const AttachmentStress& a, const AttachmentStress& b) { return rank(a) > rank(b); });
  return found;
}

}  // namespace rig::frame
