#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "build/frame_parts.h"
#include "section/section.h"

/// From the sizes of the build file to sections as they lie in the frame.
namespace rig::frame {

/// The sizes that a shape can't be without and that are not known yet, as faults at their keys.
/// @param words  Whose section it is: "frame rail".
/// @errors  frame.unknown_size.
Diagnostics list_unknown_sizes(const build::SectionSizes& sizes, const std::string& path,
                               const std::string& words);

/// The section of the sizes as its maker lays it (section/shapes.h). Needs the sizes known.
/// @errors  Those of the makers, the paths those of the build file: `path` + "/thickness".
Result<section::Section> make_section(const build::SectionSizes& sizes, const std::string& path);

/// A channel closed by a plate.
/// @errors  As `make_section`; section.plate_does_not_fit.
Result<section::Section> make_boxed_section(const build::SectionSizes& channel,
                                            const std::string& channel_path,
                                            const build::BoxingPlate& plate,
                                            const std::string& plate_path);

/// Shape and sizes, -1 for those that are not known: what tells one section from another.
std::vector<double> list_sizes(const build::SectionSizes& sizes);

/// Between two sets of sizes of one shape, `share` of the way.
build::SectionSizes mix_sizes(const build::SectionSizes& from, const build::SectionSizes& to,
                              double share);

/// A crossmember's section, whose y is forward and z up, turned the way it lies open; its parts by
/// what they are then: "front flange".
section::Section face_section(const section::Section& section, build::SectionShape shape,
                              build::Facing opens);

/// Which way a crossmember without `opens` may still be laid: tubes and plates lie the same.
bool needs_opening(build::SectionShape shape);

/// Between the middles of the upper and lower walls, and from one side wall's middle to the other's
/// (of a channel, from the web's to the flanges' edge), m. Needs the sizes known.
struct MidlineSizes {
  double depth_m = 0;
  double width_m = 0;
  double wall_m = 0;
};
MidlineSizes midline_sizes(const build::SectionSizes& sizes);

}  // namespace rig::frame
