#pragma once

#include <span>

#include "driveline/cases.h"

namespace rig::driveline {

/// The worst that any flange sees over several loads.
struct WorstFlange {
  std::size_t flange = 0;  ///< Rear face of this case.
  std::size_t load = 0;    ///< Which of the loads.
  CutLoad cut;
};

/// By bending moment; none for a single case.
/// @errors As `solve_cases`.
Result<std::optional<WorstFlange>> find_worst_flange(const CaseLine& line,
                                                     std::span<const CaseLoads> loads);

/// A support under the cases, behind their last mount.
struct SupportPlace {
  std::size_t on = 0;  ///< Which case.
  Vec3 p_VoM_V = Vec3::Zero();
  double greatest_load_N = 0;  ///< That it carries, either way.
  WorstFlange worst;           ///< With it.
};

/// Where a further upright support makes the greatest flange moment over the loads least: tried
/// along the cases' middles from the front face of the first case behind the last mount's own to
/// the last face, then closed in on by the golden section.
///
/// @param rate_N_per_m  Of the support, upright; sideways and along it has a third of that.
/// @return  None where no place makes the greatest moment less by a twentieth.
/// @errors  As `solve_cases`.
Result<std::optional<SupportPlace>> find_support_place(const CaseLine& line,
                                                       std::span<const CaseLoads> loads,
                                                       double rate_N_per_m);

/// How the rates of one mount change the worst flange.
struct MountRate {
  std::size_t mount = 0;
  double factor = 1;  ///< On all its rates.
  WorstFlange worst;
};

/// The factor from 1/30 to 30 on the rates of one group of mounts (all of one path) at which the
/// greatest flange moment over the loads is least: what equal rates, or softer rear ones, save.
/// @return  None where no factor makes it less by a tenth.
Result<std::optional<MountRate>> find_better_rate(const CaseLine& line,
                                                  std::span<const CaseLoads> loads);

}  // namespace rig::driveline
