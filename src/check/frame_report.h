#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/nan.h"
#include "frame/cut.h"
#include "frame/end_stress.h"
#include "frame/hole_stress.h"
#include "frame/whole_frame.h"

namespace rig::check {

struct LoadedFrame;

/// The frame with some of its parts in.
struct FrameState {
  std::string id;     ///< "donor", "planned", or "stage." and the stage's id.
  std::string label;  ///< "As it came"
  std::string path;   ///< Of the stage; of the others that of the frame.
  std::vector<frame::Member> members;
  std::vector<double> member_masses_kg;  ///< By member.
  std::vector<frame::Assumption> assumptions;
  std::optional<frame::WholeFrame> whole;  ///< Absent while the axle lines are not known.

  double mass_kg() const;
};

/// One of the places that are stressed most.
struct StressPlace {
  std::string where;  ///< "left frame rail, lower flange, 2 in ahead of the gearbox crossmember"
  std::string path;   ///< Of the part.
  std::string case_id;
  double von_mises_Pa = kNaN;
  double axial_Pa = kNaN;
  double yield_Pa = kNaN;  ///< NaN: not known.
  bool near_joint = false;
  bool distorts = false;
  int sign = 0;           ///< Of a rail: +1 left, -1 right.
  double along_m = kNaN;  ///< Station on a rail, offset on a crossmember.
};

/// Something that is fixed to the planned frame, and the greatest stress of what carries it there.
struct FixedPoint {
  std::string label;  ///< "left lower link of the rear axle"
  std::string path;   ///< Of the point or mount.
  int sign = 0;       ///< +1 left, -1 right; 0: neither.
  StressPlace stress;
};

/// A hole of the planned frame in the case that stresses its edge most.
struct HoleReport {
  std::string case_id;
  frame::HoleStress stress;
};

/// The planned frame under one case.
struct FrameCaseReport {
  std::string id, label, basis, state;
  std::vector<StressPlace> worst;  ///< At most one: where von Mises' stress is greatest.
};

/// A stage of the work.
struct StageReport {
  std::string id, label, path;
  std::optional<frame::StageCut> cut;  ///< Absent with a fault, which the diagnostics tell.
};

/// What there is to say of the frame.
struct FrameReport {
  std::vector<FrameState> states;   ///< Donor, planned, then the stages in their order.
  std::vector<StageReport> stages;  ///< In their order.
  std::vector<FrameCaseReport> cases;
  std::vector<StressPlace> worst;  ///< The worst dozen over all cases, worst first.
  /// By what is fixed to it, over all cases: `frame::find_attachment_stresses`, in its order.
  std::vector<FixedPoint> points;
  std::vector<HoleReport> holes;  ///< By hole and side.
  /// By end of the planned plates where open rail goes on; empty without cases.
  std::vector<frame::EndStress> plate_ends;
  struct LeftOut {
    std::string label, why;
  };
  std::vector<LeftOut> left_out;        ///< Cases that can't be told.
  std::vector<std::string> laid_along;  ///< Labels of masses without mounts.
  double laid_along_kg = 0;
  std::shared_ptr<const LoadedFrame> loaded;  ///< As planned; null where nothing loads it.

  const FrameState* state(const std::string& id) const;
  /// Twist stiffness of the planned frame between the axle lines, N m/rad; NaN: not known.
  double twist_stiffness_Nm_per_rad() const;
};

}  // namespace rig::check
