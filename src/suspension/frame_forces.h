#pragma once

#include <string>
#include <vector>

#include "suspension/settle.h"

namespace rig::suspension {

/// What one end of an element puts on the frame where the truck has settled. In V: with the frame's
/// middle when it twists, into whose axes the ends' forces are turned.
struct FrameForce {
  std::string path;  ///< JSON pointer of the link, arm, spring, stop, shock or roll bar.
  std::string name;
  int axle = -1;                ///< Index.
  Vec3 p_VoP_V = Vec3::Zero();  ///< Where it is fixed to the frame, as drawn. Of a roll bar: C.
  Vec3 p_VoF_V = Vec3::Zero();  ///< A point of the force's line.
  Vec3 f_F_V = Vec3::Zero();    ///< N
  Vec3 t_V = Vec3::Zero();      ///< Couple besides, N m; of roll bars only.
};

/// The forces of all elements between frame and axles. With the weight of what the frame carries,
/// the tongue load and the pushes on the frame they are in balance.
///
/// Energy E of an element that depends on the way from P on the frame to Q on the axle alone: force
/// on the frame = + dE/dQ. A bush or leaf whose energy is told along the frame's axes also turns
/// the frame; its force on the frame then acts at Q.
std::vector<FrameForce> calc_frame_forces(const TruckModel& truck, const Settled& settled);

/// Net force and moment about Vo of what acts on the frame besides: weight, tongue, pushes, in V.
struct FrameWeight {
  Vec3 f_V = Vec3::Zero();
  Vec3 t_Vo_V = Vec3::Zero();
};
FrameWeight calc_frame_weight(const TruckModel& truck, const Settled& settled);

}  // namespace rig::suspension
