#pragma once

#include <vector>

#include "build/types.h"
#include "frame/model.h"

/// Where more of a frame could be closed.
namespace rig::frame {

/// Of a rail's depth: what a box's end loses of its reach, least and most.
/// @source  Our shell study, rule 7 of the joints: partial boxing loses 0.6 to 1 depth at each end.
inline constexpr double kReachLostLeast = 0.6;
inline constexpr double kReachLostMost = 1.0;

/// A stretch of open channel rail that could be closed, and the plates that would do it: one for
/// each rail, on every side where it is open there.
struct OpenStretch {
  double from_m = 0;  ///< Stations.
  double to_m = 0;
  std::vector<build::BoxingPlate> plates;
};

/// Stretches between natural stations: ends of rails, of their stretches and of plates, axle lines,
/// crossmembers. Beside a crossmember a stretch ends one rail depth short of its weld; what is then
/// shorter than two depths is left out, since a box loses up to one at either end; so are tapers.
///
/// A plate is as the first one that the rail has (thickness, fit, inset, steel), else between the
/// flanges, flush and as thick as the rail's wall.
std::vector<OpenStretch> list_open_stretches(const build::Build& build, const Selection& in);

/// Tubes of `in` that meet a boxed rail on either side and stop at one of its walls.
std::vector<const build::Entry<build::Crossmember>*> list_stopped_tubes(const build::Build& build,
                                                                        const Selection& in);

}  // namespace rig::frame
