#include "frame/crossmember_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "frame/faults_internal.h"
#include "frame/index_internal.h"

namespace rig::frame {
namespace {

/// The rail on one side that a crossmember joins; -1 with a fault when there is none or several.
int find_rail(const build::Frame& frame, const build::Entry<build::Crossmember>& part,
              const std::vector<RailLine>& rails, int sign, const std::string& words,
              Diagnostics& faults) {
  int found = -1;
  for (const auto& joined : build::joined_rails(frame, part.value)) {
    if (joined.sign != sign) continue;
    for (std::size_t i = 0; i < rails.size(); ++i) {
      if (rails[i].rail != joined.rail || rails[i].sign != sign) continue;
      if (found >= 0) {
        add_fault(faults, "frame.two_rails", part.path + "/joins",
                  fmt::format("The {} passes several rails on the {}: {} and {}.", words,
                              sign > 0 ? "left" : "right", rails[at(found)].words, rails[i].words),
                  "Name the rails that it joins.");
        return -1;
      }
      found = static_cast<int>(i);
    }
  }
  if (found < 0) {
    add_fault(faults, "frame.not_between_rails", part.path,
              fmt::format("The {} meets no rail on the {}.", words, sign > 0 ? "left" : "right"),
              "Give the rail there, or its station, or take the crossmember out.");
  }
  return found;
}

}  // namespace

double CrossmemberLine::length_m() const {
  double length = 0;
  for (std::size_t i = 1; i < p_VoP_V.size(); ++i) length += (p_VoP_V[i] - p_VoP_V[i - 1]).norm();
  return length;
}

Vec3 CrossmemberLine::at(double along_m) const {
  for (std::size_t i = 1; i < p_VoP_V.size(); ++i) {
    const double length = (p_VoP_V[i] - p_VoP_V[i - 1]).norm();
    if (along_m <= length || i + 1 == p_VoP_V.size()) {
      return p_VoP_V[i - 1] + (p_VoP_V[i] - p_VoP_V[i - 1]) * std::min(along_m / length, 1.0);
    }
    along_m -= length;
  }
  return p_VoP_V.back();
}

double CrossmemberLine::nearest_m(const Vec3& p_VoQ_V, bool in_plan) const {
  const auto flat = [in_plan](Vec3 p) {
    if (in_plan) p.z() = 0;
    return p;
  };
  double best_m = 0, least = std::numeric_limits<double>::infinity(), before_m = 0;
  for (std::size_t i = 1; i < p_VoP_V.size(); ++i) {
    const Vec3 a = flat(p_VoP_V[i - 1]), along = flat(p_VoP_V[i]) - a;
    const double length = (p_VoP_V[i] - p_VoP_V[i - 1]).norm();
    const double share =
        along.squaredNorm() > 0
            ? std::clamp((flat(p_VoQ_V) - a).dot(along) / along.squaredNorm(), 0.0, 1.0)
            : 0;
    const double distance = (flat(p_VoQ_V) - a - share * along).norm();
    if (distance < least) {
      least = distance;
      best_m = before_m + share * length;
    }
    before_m += length;
  }
  return best_m;
}

Result<CrossmemberLine> make_crossmember_line(const build::Frame& frame,
                                              const build::Entry<build::Crossmember>& part,
                                              const std::vector<RailLine>& rails) {
  const build::Crossmember& value = part.value;
  CrossmemberLine line{.part = &part, .words = shop_words(value.label, part.id)};
  Diagnostics faults;
  if (!value.at.station.known()) {
    add_fault(faults, "frame.unknown_station", part.path + "/at/station",
              fmt::format("The station of the {} is not known.", line.words),
              "Measure where it meets the rails.");
  } else {
    line.left = find_rail(frame, part, rails, 1, line.words, faults);
    line.right = find_rail(frame, part, rails, -1, line.words, faults);
  }
  for (std::size_t i = 0; i < value.line.size(); ++i) {
    if (value.line[i].known()) continue;
    add_fault(faults, "frame.unknown_place", fmt::format("{}/line/{}", part.path, i),
              fmt::format("Corner {} of the {} is not known.", i + 1, line.words),
              "Give its station, offset and height, or take it out.");
  }
  if (!faults.empty()) return Failure{std::move(faults)};
  const auto end = [&](int rail) {
    Vec3 p = rails[at(rail)].at(value.at.station.si);
    if (value.at.height.known()) p.z() = value.at.height.si;
    return p;
  };
  line.p_VoP_V.push_back(end(line.left));
  for (const build::Point& corner : value.line) line.p_VoP_V.push_back(corner.p_VP());
  line.p_VoP_V.push_back(end(line.right));
  return line;
}

}  // namespace rig::frame
