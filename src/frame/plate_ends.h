#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "build/frame_lookup.h"
#include "build/types.h"
#include "frame/model.h"

/// Where boxing plates end, what is near to it, and how the plates are cut.
namespace rig::frame {

/// Outside depth of a rail at a station, m; of a taper its deeper end. NaN: not known.
double rail_depth_m(const build::Rail& rail, double station_m);

/// True where a plate that is in closes a rail on one side; at a plate's end too.
bool is_plated(const build::Frame& frame, const Selection& in, const std::string& rail_id, int sign,
               double station_m);

/// Stations that a crossmember's weld to a rail takes up: of a tube its diameter or width; of a
/// channel or angle from its web to its flange's edge if it lies open forward or rearward, else its
/// width. Unknown sizes count as nothing. Needs its station known.
build::StationRange calc_weld_range(const build::Crossmember& crossmember);

/// An end of a plate that is in, where open channel rail goes on.
struct PlateEnd {
  std::string plate_path;
  std::string rail_path;
  bool front = true;
  double station_m = 0;
  std::vector<int> signs;  ///< Sides that it is on: +1 left.
  double depth_m = kNaN;   ///< Of the rail there.
  /// The nearest weld of a crossmember, and how far the end is from it; 0: on it.
  const build::Entry<build::Crossmember>* nearest = nullptr;
  double to_weld_m = kNaN;
};

/// Every end of plates that are in whose places are known, but for those at a rail's end, where the
/// rail becomes a tube, or where the next plate begins.
std::vector<PlateEnd> list_plate_ends(const build::Build& build, const Selection& in);

/// The station nearest to an end that is at least `clear_m` from every crossmember's weld and from
/// each of the stations given, on the same rail, inside of it and behind (ahead of) the plate's
/// other end. Of two as near, that which makes the plate longer.
/// @param step_m  Distances from the end are whole multiples of it.
/// @return        Nothing within three depths.
std::optional<double> find_clear_end(const build::Build& build, const Selection& in,
                                     const PlateEnd& end, std::span<const double> avoid_m,
                                     double clear_m, double step_m);

/// A plate as it is sawn out.
struct PlateCut {
  double width_front_m = 0;  ///< Across the rail.
  double width_rear_m = 0;
  double length_m = 0;  ///< Along the rail's line.
  double less_m = 0;    ///< What it is smaller than the rail there: root gap, or twice the setback.
};

/// Smaller than the rail so that the weld lies in the corner and holds both: between the flanges by
/// a root gap of 1/16 in; over their tips by twice its thickness, twice 1/8 in at least.
/// @return  Nothing while a size or place is not known.
/// @source  Root gap and setback: common practice.
std::optional<PlateCut> calc_plate_cut(const build::Build& build,
                                       const build::Entry<build::BoxingPlate>& plate);

}  // namespace rig::frame
