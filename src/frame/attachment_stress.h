#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "frame/worst_places.h"

/// How the frame is stressed where things are fixed to it.
namespace rig::frame {

/// The greatest stress of what carries one thing, where it carries it.
struct AttachmentStress {
  std::size_t attachment = 0;  ///< Index into `Model::attachments`.
  WorstPlace worst;            ///< On its carrier, with the case that does it.
};

/// Von Mises' greatest stress over all cases of the member that carries each thing, in the sections
/// on both sides of the joint that it hangs on. Links, arms, springs, shocks, stops, hitch, pulls
/// and mounts are told; stands, axle lines and the middle are not fixed to the frame.
///
/// As `find_worst_places`: one place stands for one section, and what beams do not have (the
/// bracket's own stress in the wall, the joint's) comes on top.
///
/// @return  Largest share of yield first; where the yield is not known last, by stress. Empty
///          without cases.
/// @accuracy  That of the beams' stress: docs/design/frame-model.md.
std::vector<AttachmentStress> find_attachment_stresses(const Model& model,
                                                       std::span<const FrameForces> cases);

}  // namespace rig::frame
