#pragma once

#include "base/nan.h"
#include "build/types.h"

/// A round-wire compression coil from what calipers and a thread of turns tell.
namespace rig::suspension {

/// Carbon and low-alloy spring steel. [Shigley] Table A-5: 11.5 Mpsi.
inline constexpr double kSpringSteelShear_Pa = 79.3e9;
inline constexpr double kSpringSteelDensity_kg_per_m3 = 7850;

/// Within these a coil can be wound and behaves as the formulas say. [Shigley] Eqs. 10-18, 10-19.
inline constexpr double kLeastIndex = 4, kGreatestIndex = 12;
inline constexpr double kLeastTurns = 3, kMostTurns = 15;

struct CoilWire {
  double diameter_m = kNaN;  ///< Of the wire.
  /// Of the coil, to the middle of the wire: outside less one wire diameter.
  double mean_diameter_m = kNaN;
  double active_turns = kNaN;  ///< Turns free to work.
  build::CoilEnds ends = build::CoilEnds::kSquaredGround;
  double shear_modulus_Pa = kSpringSteelShear_Pa;
};

/// Rate G d^4 / (8 D^3 Na).
///
/// Round wire, close-wound (small helix angle), linear elastic; no turn touches another.
/// @param wire  Every size > 0.
/// @source [Shigley] Eq. 10-9; [Bhandari] ch. 10.
double calc_coil_rate_N_per_m(const CoilWire& wire);

/// Spring index D / d.
double calc_coil_index(const CoilWire& wire);

/// Turns from tip to tip: two more than the active ones with squared ends.
/// @source [Shigley] Table 10-1.
double calc_total_turns(const CoilWire& wire);

/// Length with every turn touching: d Nt ground, d (Nt + 1) otherwise.
/// @source [Shigley] Table 10-1.
double calc_solid_length_m(const CoilWire& wire);

/// How much more the inside of the turn is stressed than a straight bar in torsion.
struct CoilStressFactors {
  double wahl = 0;          ///< (4C - 1) / (4C - 4) + 0.615 / C.
  double bergstrasser = 0;  ///< (4C + 2) / (4C - 3).
  double shear_only = 0;    ///< 1 + 0.5 / C: for a load that stays.
};

/// @param index  C = D / d > 1.
/// @source [Shigley] Eqs. 10-3 to 10-7.
CoilStressFactors calc_coil_stress_factors(double index);

/// Shear stress at the inside of the turn, factor * 8 F D / (pi d^3).
/// @param load_N  Along the coil, + in compression.
double calc_coil_stress_Pa(const CoilWire& wire, double load_N, double factor);

/// How the two ends of a coil are held, for buckling. [Shigley] Table 10-2.
enum class CoilSeating { kFlatBothEnds, kFlatAndPinned, kPinnedBothEnds, kFlatAndFree };

/// Free length from which a steel coil may bow out sideways under load: 2.63 D / alpha with alpha
/// 0.5, 0.707, 1 and 2 in the order of `CoilSeating`.
/// @source [Shigley] Eq. 10-13, Table 10-2 (from memory).
double calc_buckling_length_m(const CoilWire& wire, CoilSeating seating);

/// First natural frequency of the coil along itself between two seats: 0.5 sqrt(k / m), m the mass
/// of the active turns. Keep 15 to 20 times above what shakes it.
/// @source [Shigley] Eq. 10-25.
double calc_surge_frequency_Hz(const CoilWire& wire);

enum class WireSteel { kMusic, kOilTempered, kHardDrawn, kChromeVanadium, kChromeSilicon };

/// Least tensile strength A / d^m of spring wire.
///
/// Tabulated up to 6 mm (music) to 16 mm; thicker wire extrapolates.
/// @source [Shigley] Table 10-4 (from memory): ASTM A228, A229, A227, A232, A401.
double calc_wire_strength_Pa(WireSteel steel, double diameter_m);

}  // namespace rig::suspension
