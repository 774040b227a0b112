#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "build/drivetrain_lookup.h"
#include "frame/attachment_points.h"
#include "frame/plan_internal.h"

namespace rig::frame {
namespace {

void append(Diagnostics& to, const Diagnostics& from) {
  to.insert(to.end(), from.begin(), from.end());
}

/// The part that a point hangs on: the nearest rail at its station (past the end of a rail its
/// end), or a nearer crossmember of those that are in.
class CarrierSearch {
 public:
  CarrierSearch(const std::vector<RailLine>& rails,
                const std::vector<CrossmemberLine>& crossmembers, const Attachment& attachment,
                const Selection* in = nullptr)
      : rails_(rails), crossmembers_(crossmembers), attachment_(attachment), in_(in) {}

  std::optional<Carried> find() {
    const bool on_rail = attachment_.kind == AttachmentKind::stand ||
                         attachment_.kind == AttachmentKind::axle_line ||
                         attachment_.kind == AttachmentKind::middle;
    for (std::size_t i = 0; i < rails_.size(); ++i) {
      const RailLine& rail = rails_[i];
      const double station_m = -attachment_.p_VoP_V.x();
      if (on_rail && (rail.sign != attachment_.sign || !rail.passes(station_m))) continue;
      const double at_m = std::clamp(station_m, rail.front_m(), rail.rear_m());
      offer({.rail = static_cast<int>(i), .at_m = at_m, .p_VoC_V = rail.at(at_m)});
    }
    // On a rail's own line nothing is nearer.
    if (least_ < build::kStationRounding_m) return take();
    for (std::size_t i = 0; i < crossmembers_.size() && !on_rail; ++i) {
      const CrossmemberLine& line = crossmembers_[i];
      if (in_ != nullptr && !in_->contains(line.part->id)) continue;
      const double at_m = line.nearest_m(attachment_.p_VoP_V, std::isnan(attachment_.p_VoP_V.z()));
      offer({.crossmember = static_cast<int>(i), .at_m = at_m, .p_VoC_V = line.at(at_m)});
    }
    return take();
  }

 private:
  /// A place that may carry.
  struct Offer {
    int rail = -1;
    int crossmember = -1;
    double at_m = 0;
    Vec3 p_VoC_V = Vec3::Zero();
    Vec3 p_VoP_V = Vec3::Zero();  ///< What would be carried there.
  };

  void offer(Offer one) {
    one.p_VoP_V = attachment_.p_VoP_V;
    // What has no offset or height of its own has those of what carries it.
    for (int axis = 0; axis < 3; ++axis) {
      if (std::isnan(one.p_VoP_V[axis])) one.p_VoP_V[axis] = one.p_VoC_V[axis];
    }
    const double distance = (one.p_VoP_V - one.p_VoC_V).norm();
    // Of two alike the rail, which comes first.
    if (!(distance < least_ - build::kStationRounding_m)) return;
    least_ = distance;
    best_ = one;
  }

  std::optional<Carried> take() const {
    if (!best_) return std::nullopt;
    Carried out{.attachment = attachment_,
                .rail = best_->rail,
                .crossmember = best_->crossmember,
                .at_m = best_->at_m};
    out.attachment.p_VoP_V = best_->p_VoP_V;
    out.attachment.p_VoC_V = best_->p_VoC_V;
    return out;
  }

  const std::vector<RailLine>& rails_;
  const std::vector<CrossmemberLine>& crossmembers_;
  const Attachment& attachment_;
  const Selection* in_;
  std::optional<Offer> best_;
  double least_ = std::numeric_limits<double>::infinity();
};

/// Which mounts are there with some of the parts in: docs/design/frame-stages.md.
class MountTimes {
 public:
  MountTimes(const build::Build& build, const std::vector<RailLine>& rails, const Selection& in)
      : build_(build),
        rails_(rails),
        in_(in),
        made_(build::donor_parts(build.frame)),
        planned_(build::planned_parts(build.frame)),
        finished_(is_finished()) {
    for (const auto& part : build.frame.crossmembers) {
      if (!made_.contains(part.id) && !planned_.contains(part.id)) continue;
      // One that is not known well enough carries nothing yet.
      if (auto line = make_crossmember_line(build.frame, part, rails)) {
        crossmembers_.push_back(*std::move(line));
      }
    }
  }

  bool has(const Attachment& mount) const {
    if (lies_on_rail(mount) && fate_of(mount) == build::Fate::kStays) return true;
    return is_there(mount, build::Carried::kAsMade) || is_there(mount, build::Carried::kAsPlanned);
  }

 private:
  bool is_finished() const {
    return std::all_of(planned_.begin(), planned_.end(),
                       [&](const std::string& id) { return in_.contains(id); }) &&
           std::none_of(made_.begin(), made_.end(), [&](const std::string& id) {
             return in_.contains(id) && !planned_.contains(id);
           });
  }

  /// Nothing that moves can be nearer.
  bool lies_on_rail(const Attachment& mount) const {
    const double station_m = -mount.p_VoP_V.x();
    return std::any_of(rails_.begin(), rails_.end(), [&](const RailLine& rail) {
      return rail.passes(station_m) &&
             std::abs(rail.at(station_m).y() - mount.p_VoP_V.y()) < build::kStationRounding_m;
    });
  }

  bool is_there(const Attachment& mount, build::Carried when) const {
    const build::Fate fate = fate_of(mount);
    if (!build::is_in(fate, when)) return false;
    const bool planned = when == build::Carried::kAsPlanned;
    // It comes and goes with the crossmember that it hangs on.
    const auto home =
        CarrierSearch(rails_, crossmembers_, mount, planned ? &planned_ : &made_).find();
    if (home && home->crossmember >= 0) {
      const auto& part = *crossmembers_[static_cast<std::size_t>(home->crossmember)].part;
      if (part.value.fate != build::Fate::kStays) return in_.contains(part.id);
    }
    if (fate == build::Fate::kStays) return true;
    return planned ? finished_ || !replaces_another(mount) : !finished_;
  }

  build::Fate fate_of(const Attachment& mount) const {
    if (const auto* one = find_on_frame(mount)) return one->value.fate;
    return find_of_case(mount)->value.fate;
  }

  const build::Entry<build::Mount>* find_on_frame(const Attachment& mount) const {
    return find_in(build_.frame.mounts, mount.path);
  }
  const build::Entry<build::DriveMount>* find_of_case(const Attachment& mount) const {
    return find_in(build_.drivetrain.mounts, mount.path);
  }
  template <typename Map>
  static auto find_in(const Map& map, const std::string& path) -> decltype(&*map.begin()) {
    for (const auto& entry : map) {
      if (entry.path == path) return &entry;
    }
    return nullptr;
  }

  /// What it will carry hangs on mounts that come out.
  bool replaces_another(const Attachment& mount) const {
    const auto* own = find_on_frame(mount);
    if (own == nullptr) {
      const auto& mounts = build_.drivetrain.mounts;
      return std::any_of(mounts.begin(), mounts.end(), [](const auto& other) {
        return other.value.fate == build::Fate::kComesOut;
      });
    }
    for (const auto& other : build_.frame.mounts) {
      if (other.value.fate != build::Fate::kComesOut) continue;
      for (const build::Reference& mass : other.value.carries) {
        for (const build::Reference& mine : own->value.carries) {
          if (mass.id == mine.id) return true;
        }
      }
    }
    return false;
  }

  const build::Build& build_;
  const std::vector<RailLine>& rails_;
  const Selection& in_;
  Selection made_, planned_;
  bool finished_;  ///< All that is planned is in, and nothing that comes out.
  std::vector<CrossmemberLine> crossmembers_;
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
  const MountTimes mounts(build, plan.rails, in);
  for (const Attachment& attachment : list_attachment_points(build)) {
    if (attachment.kind == AttachmentKind::mount && !mounts.has(attachment)) continue;
    if (auto carried = CarrierSearch(plan.rails, plan.crossmembers, attachment).find()) {
      plan.carried.push_back(*std::move(carried));
    }
  }
  return plan;
}

}  // namespace rig::frame
