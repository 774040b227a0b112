#pragma once

#include <numbers>
#include <optional>
#include <vector>

#include "driveline/shaft_tube.h"

namespace rig::driveline {

/// Carbon steel. [Shigley] Table A-5: 30 Mpsi, 0.282 lb/in^3.
inline constexpr double kSteelModulus_Pa = 206.8e9;
inline constexpr double kSteelDensity_kg_per_m3 = 7806;

/// Share of the critical speed up to which a shaft is used; common practice (from memory).
inline constexpr double kCautiousSpeedShare = 0.70, kGreatestSpeedShare = 0.75;

/// Speed at which a shaft bows out and whirls: of its lowest bending vibration.
struct CriticalSpeed {
  double speed_rad_per_s = 0;

  double speed_rpm() const { return speed_rad_per_s * 30 / std::numbers::pi; }
};

/// Critical speed of one tube between two joints, pi^2 / L^2 sqrt(E I / (rho A)).
///
/// Even tube on ends that do not give and do not hold its slope. Shear and the tube's own turn of
/// its sections are left out: some 1 % too fast for 3 in on 50 in.
/// @param length_m  From joint centre to joint centre, > 0.
/// @errors  driveline.size_not_positive, driveline.wall_too_thick.
/// @source  [Shigley] Eq. 7-22 (from memory); Timoshenko.
Result<CriticalSpeed> calc_critical_speed(const ShaftTube& tube, double length_m,
                                          double modulus_Pa = kSteelModulus_Pa,
                                          double density_kg_per_m3 = kSteelDensity_kg_per_m3);

/// A stretch of one tube or bar.
struct ShaftPiece {
  ShaftTube tube;
  double length_m = kNaN;
  double modulus_Pa = kSteelModulus_Pa;
  double density_kg_per_m3 = kSteelDensity_kg_per_m3;
  bool joint_after = false;  ///< Between this piece and the next: the next may take any slope.
};

/// Something on the shaft that weighs more than the tube there: a yoke, a spline, a cross.
struct ShaftMass {
  double at_m = kNaN;  ///< From the first piece's start.
  double mass_kg = kNaN;
};

/// Where the shaft is held sideways: a joint on a case, or a bearing on rubber.
struct ShaftSupport {
  double at_m = kNaN;                       ///< From the first piece's start.
  std::optional<double> stiffness_N_per_m;  ///< Absent: does not give.
};

/// Pieces in a row, one shaft or several with joints between.
struct ShaftBeam {
  std::vector<ShaftPiece> pieces;
  std::vector<ShaftMass> masses;
  std::vector<ShaftSupport> supports;
};

/// Critical speed of a stepped shaft with masses, joints and bearings that give.
///
/// Euler-Bernoulli beam elements, at least 16 to the whole length and one to each part between two
/// steps, masses, supports or joints. Supports that do not give stand at least 1e-4 of the length
/// apart, or count as one. Left out: shear, the sections' own turn, gyroscopic couples,
/// the bearings' mass and damping. A bearing gives alike all round.
/// @errors  driveline.no_pieces, size_not_positive, wall_too_thick, place_outside, piece_too_short
///          (below 1e-4 of the whole), shaft_not_held (the shaft can move away without bending).
/// @accuracy  1e-6 for one span, 2e-5 for two of half the length, always too fast.
/// @source  Cubic beam elements with consistent mass, as in [Ferreira].
Result<CriticalSpeed> solve_critical_speed(const ShaftBeam& beam);

}  // namespace rig::driveline
