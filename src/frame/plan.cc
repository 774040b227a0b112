#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "frame/attachment_points.h"
#include "frame/plan_internal.h"

namespace rig::frame {
namespace {

void append(Diagnostics& to, const Diagnostics& from) {
  to.insert(to.end(), from.begin(), from.end());
}

/// The part that a point hangs on: the nearest rail at its station (past the end of a rail its
/// end), or a nearer crossmember.
class CarrierSearch {
 public:
  CarrierSearch(const FramePlan& plan, const Attachment& attachment)
      : plan_(plan), attachment_(attachment) {}

  std::optional<Carried> find() {
    const bool on_rail = attachment_.kind == AttachmentKind::stand ||
                         attachment_.kind == AttachmentKind::axle_line ||
                         attachment_.kind == AttachmentKind::middle;
    for (std::size_t i = 0; i < plan_.rails.size(); ++i) {
      const RailLine& rail = plan_.rails[i];
      const double station_m = -attachment_.p_VoP_V.x();
      if (on_rail && (rail.sign != attachment_.sign || !rail.passes(station_m))) continue;
      const double at_m = std::clamp(station_m, rail.front_m(), rail.rear_m());
      offer({.rail = static_cast<int>(i), .at_m = at_m}, rail.at(at_m));
    }
    for (std::size_t i = 0; i < plan_.crossmembers.size() && !on_rail; ++i) {
      const CrossmemberLine& line = plan_.crossmembers[i];
      const double at_m = line.nearest_m(attachment_.p_VoP_V, std::isnan(attachment_.p_VoP_V.z()));
      offer({.crossmember = static_cast<int>(i), .at_m = at_m}, line.at(at_m));
    }
    return best_;
  }

 private:
  void offer(Carried carried, const Vec3& p_VoC_V) {
    carried.attachment = attachment_;
    Vec3& p = carried.attachment.p_VoP_V;
    // What has no offset or height of its own has those of what carries it.
    for (int axis = 0; axis < 3; ++axis) {
      if (std::isnan(p[axis])) p[axis] = p_VoC_V[axis];
    }
    const double distance = (p - p_VoC_V).norm();
    // Of two alike the rail, which comes first.
    if (!(distance < least_ - build::kStationRounding_m)) return;
    least_ = distance;
    carried.attachment.p_VoC_V = p_VoC_V;
    best_ = std::move(carried);
  }

  const FramePlan& plan_;
  const Attachment& attachment_;
  std::optional<Carried> best_;
  double least_ = std::numeric_limits<double>::infinity();
};

}  // namespace

Result<FramePlan> make_plan(const build::Build& build, const Selection& in) {
  const build::Frame& frame = build.frame;
  FramePlan plan;
  Diagnostics faults;
  if (frame.rails.empty()) {
    faults.push_back(
        {.code = "frame.no_rails",
         .path = "/frame/rails",
         .message = "The frame has no rails yet.",
         .remedy = "Give the rails first: their section and the points where they bend.",
         .at = {}});
  }
  for (const auto& rail : frame.rails) {
    std::vector<int> signs = build::signs_of(rail.value);
    if (signs.empty()) signs.push_back(1);  // No offset is known: its line says so.
    for (const int sign : signs) {
      auto line = make_rail_line(rail, sign);
      if (line) {
        plan.rails.push_back(*std::move(line));
      } else {
        append(faults, line.error());
        break;
      }
    }
  }
  if (!faults.empty()) return Failure{std::move(faults)};
  for (const auto& part : frame.crossmembers) {
    if (!in.contains(part.id)) continue;
    auto line = make_crossmember_line(frame, part, plan.rails);
    if (line) {
      plan.crossmembers.push_back(*std::move(line));
    } else {
      append(faults, line.error());
    }
  }
  if (!faults.empty()) return Failure{std::move(faults)};
  for (const Attachment& attachment : list_attachment_points(build)) {
    if (auto carried = CarrierSearch(plan, attachment).find()) {
      plan.carried.push_back(*std::move(carried));
    }
  }
  return plan;
}

}  // namespace rig::frame
