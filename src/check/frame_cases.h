#pragma once

#include <string>
#include <vector>

#include "check/report.h"
#include "frame/weights.h"

namespace rig::check {

/// A pull from outside on the frame: tongue, trailer, winch.
struct FramePull {
  Vec3 p_VoP_V = Vec3::Zero();
  Vec3 f_P_W = Vec3::Zero();
};

/// A couple that a mass puts on its mounts.
struct FrameCouple {
  std::string mass_id;
  Vec3 t_W = Vec3::Zero();
};

/// The truck under one kind of use, settled: what its frame has to carry. Rules: docs/findings.md.
struct FrameCase {
  std::string id;     ///< "standing", "bump", "braking" ...
  std::string label;  ///< "Braking at 0.8 g"
  std::string basis;
  std::string state;  ///< Id of the load state it is made from.
  suspension::TruckModel truck;
  suspension::Settled settled;
  std::vector<frame::Burden> burdens;  ///< What the frame carries.
  std::vector<FramePull> pulls;
  std::vector<FrameCouple> couples;
  Vec3 a_W = Vec3::Zero();  ///< That all of it is under; gravity is + along z.
};

/// A case that can't be told, and why.
struct LeftOutCase {
  std::string label;
  std::string why;
};

struct FrameCases {
  std::vector<FrameCase> cases;
  std::vector<LeftOutCase> left_out;
};

/// Every load state standing still, and the others from the state with the most on the ground.
/// States that have not settled give none.
FrameCases make_frame_cases(const build::Build& build, const Report& report);

/// A case's forces on a frame: of every link, spring, stop and shock where it is fixed, of the
/// hitch and the pulls, and of what lies on it. What is left of balance, because pushes move with
/// the wheels that they act on, is taken up by inertia (`frame::find_relief`).
///
/// @errors frame.not_carried (a point of the suspension that no part of the frame carries).
Result<frame::Loads> lay_case(const build::Build& build, const frame::Model& model,
                              const FrameCase& of);

/// The same of several cases on one frame.
/// @param seating  Knows where the case's burdens sit.
Result<frame::Loads> lay_case(const frame::Seating& seating, const FrameCase& of);

}  // namespace rig::check
