#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "frame/bare_frame.h"
#include "frame/open_stretches.h"

/// What plates that close stretches of the rails do for a frame as a whole.
namespace rig::frame {

/// Between the axle lines: frame/whole_frame.h.
struct FrameStiffness {
  double torsion_Nm_per_rad = 0;
  double bending_N_per_m = 0;
  double lozenging_N_per_m = 0;
};

/// What closing an open stretch would do.
struct StretchGain {
  OpenStretch stretch;
  double plate_length_m = 0;  ///< Along the rails, of all its plates together.
  double plate_mass_kg = 0;
  FrameStiffness with;

  /// Torsion stiffness gained per length and per mass of plate.
  double per_length(const FrameStiffness& now) const {
    return (with.torsion_Nm_per_rad - now.torsion_Nm_per_rad) / plate_length_m;
  }
  double per_mass(const FrameStiffness& now) const {
    return (with.torsion_Nm_per_rad - now.torsion_Nm_per_rad) / plate_mass_kg;
  }
};

/// The open rail just beyond one end of a plate.
struct BesidePlate {
  /// Largest von Mises' stress over one rail depth beyond the end, of both sides, with the plate
  /// over that without: under the same couple from axle to axle.
  double same_couple = 1;
  /// The same for the same twist from axle to axle.
  double same_twist = 1;
};

/// What a plate that is in does.
struct PlateEffect {
  std::string path;
  FrameStiffness without;            ///< The frame without it alone.
  double mass_kg = 0;                ///< On all sides.
  std::optional<BesidePlate> front;  ///< None: no open rail beyond this end.
  std::optional<BesidePlate> rear;
};

/// A tube that meets a plate but does not run through both walls of the box.
struct TubeEffect {
  std::string path;
  FrameStiffness through;  ///< The frame with this tube through both walls.
};

struct BoxAdvice {
  FrameStiffness now;
  std::vector<StretchGain> stretches;  ///< Most torsion stiffness per length of plate first.
  std::vector<PlateEffect> plates;     ///< In the order of the file.
  std::vector<TubeEffect> tubes;
};

/// Measures the frame with each open stretch closed, without each plate, and with each stopped tube
/// through both walls: one model each. A stretch whose plate does not fit into the rail is left
/// out.
///
/// @errors    Those of `make_model`, `Solver::make` and `measure_whole_frame` for the frame as it
///            is.
/// @accuracy  Stiffness as the model: 10 % in torsion where it is boxed. Stress beside a box within
///            10 % of shells away from the junction (docs/design/frame-model.md).
Result<BoxAdvice> advise_boxing(const BareFrame& frame, const Selection& in, SectionBook& book);

}  // namespace rig::frame
