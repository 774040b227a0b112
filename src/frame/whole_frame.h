#pragma once

#include <vector>

#include "frame/model.h"
#include "frame/stiffness.h"

/// What a build's frame is as a whole: how stiff, and what each part does for it.
namespace rig::frame {

/// Stiffness of the free frame between its axle lines, and each member's share of it: of the
/// elastic energy that the beams hold in the measurement. What the joints hold is the rest to 1.
struct WholeFrame {
  TorsionStiffness torsion;
  BendingStiffness bending;
  LozengingStiffness lozenging;
  std::vector<double> torsion_shares;  ///< By `Structure::members`.
  std::vector<double> bending_shares;
  std::vector<double> lozenging_shares;
};

/// Where the axle lines and the middle between them pass the rails.
/// @errors frame.no_axle_line (an axle line that no rail passes, or axles without stations).
Result<MeasuringPoints> find_measuring_points(const Model& model);

/// @param solver  Of the model's structure.
/// @errors  Those of `find_measuring_points` and of the measurements in frame/stiffness.h.
Result<WholeFrame> measure_whole_frame(const Model& model, const Solver& solver);

}  // namespace rig::frame
