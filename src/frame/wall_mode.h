#pragma once

#include <optional>

#include "frame/structure.h"
#include "section/stress.h"

namespace rig::frame {

enum class BeamEnd { from, to };

/// How a wall of a beam moves at one of its ends for one unit of the twist rate there, besides the
/// rigid motion of the beam's joint: it slides along the beam by -w and turns by the slope of w,
/// along the wall and (as a plate's normal turns) across it. For the web of a channel this is
/// ry_web = ry - e (twist rate), e the distance of the shear centre behind the web; the sign of the
/// other rail comes with its mirrored section.
///
/// A joint that follows the beam's joint with this mode is welded to that wall.
/// @param at       Middle of the wall's thickness at a share of its length; faces alike.
/// @param p_VoJ_V  Where the joint that will follow stands; rigidly on the wall. Not given: on it.
/// @return         Nothing when the beam does not warp there: a section with a cell, or an end
///                 without scalar.
std::optional<Mode> make_wall_mode(const Structure& structure, int beam, BeamEnd end,
                                   const section::WallPoint& at,
                                   const std::optional<Vec3>& p_VoJ_V = {});

/// Where that point of the wall is.
Vec3 calc_wall_point(const Structure& structure, int beam, BeamEnd end,
                     const section::WallPoint& at);

}  // namespace rig::frame
