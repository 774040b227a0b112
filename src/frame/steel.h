#pragma once

#include <string>

#include "base/nan.h"
#include "build/frame_parts.h"

namespace rig::frame {

/// Of any structural steel, for what a build's steel does not tell.
/// @source  E: AISC 360-16, Symbols (29 000 ksi, 200 000 MPa); Poisson's ratio: EN 1993-1-1, 3.2.6;
///          density: EN 1991-1-1, table A.4 (78.5 kN/m3). All from memory.
inline constexpr double kSteelE_Pa = 200e9;
inline constexpr double kSteelPoissonRatio = 0.3;
inline constexpr double kSteelDensity_kg_per_m3 = 7850;

/// What a part is made of, with the standard's numbers where the file tells none.
struct SteelNumbers {
  double E_Pa = kSteelE_Pa;
  double poisson_ratio = kSteelPoissonRatio;
  double density_kg_per_m3 = kSteelDensity_kg_per_m3;
  double yield_Pa = kNaN;  ///< NaN: not known.
  double ultimate_Pa = kNaN;

  double G_Pa() const { return E_Pa / (2 * (1 + poisson_ratio)); }
};

/// @param id  Of one of the frame's steels; empty or unknown: the standard's.
SteelNumbers find_steel(const build::Frame& frame, const std::string& id);

}  // namespace rig::frame
