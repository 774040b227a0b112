#include "frame/bare_frame.h"

#include <algorithm>

namespace rig::frame {

BareFrame::BareFrame(const build::Build& of) {
  build_.units = of.units;
  build_.frame.steels = of.frame.steels;
  build_.frame.rails = of.frame.rails;
  build_.frame.plates = of.frame.plates;
  build_.frame.crossmembers = of.frame.crossmembers;
  for (const auto& axle : of.axles) {
    build::Axle line;
    line.end = axle.value.end;
    line.station = axle.value.station;
    build_.axles.push_back({axle.id, axle.path, std::move(line)});
  }
}

bool BareFrame::operator==(const BareFrame& other) const {
  const auto same_line = [](const build::Entry<build::Axle>& a,
                            const build::Entry<build::Axle>& b) {
    return a.id == b.id && a.path == b.path && a.value.end == b.value.end &&
           a.value.station == b.value.station;
  };
  return build_.units == other.build_.units && build_.frame == other.build_.frame &&
         std::ranges::equal(build_.axles, other.build_.axles, same_line);
}

}  // namespace rig::frame
