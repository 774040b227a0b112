#pragma once

#include <span>
#include <string>
#include <vector>

#include "frame/plate_ends.h"
#include "frame/worst_places.h"

/// How a rail is stressed where a plate ends.
namespace rig::frame {

struct EndStress {
  std::string plate_path;
  bool front = true;
  int sign = 1;  ///< Of the side that is stressed most, +1: left.
  std::size_t load_case = 0;
  double station_m = 0;
  double von_mises_Pa = 0;
  double yield_Pa = kNaN;  ///< Of the rail; NaN: not known.
};

/// Largest von Mises' stress of the rail within a depth of each end of `ends`, to either side of
/// it, over all sides that the plate is on and all cases. Looked at are eighths of each beam's part
/// of that; what a plate's end adds by itself beams do not have.
std::vector<EndStress> find_end_stresses(const Model& model, std::span<const PlateEnd> ends,
                                         std::span<const FrameForces> cases);

/// Largest von Mises' stress of one side of a rail between two stations.
/// @param forces  What all beams carry, by beam.
/// @return        Zero where the rail is not; `station_m`, `von_mises_Pa` and `yield_Pa` are told.
EndStress find_rail_stress(const Model& model, const std::vector<BeamForces>& forces,
                           const std::string& rail_path, int sign, double from_m, double to_m);

}  // namespace rig::frame
