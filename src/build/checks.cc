#include <fmt/format.h>

#include <unordered_map>
#include <unordered_set>

#include "build/checks_internal.h"
#include "build/read_internal.h"

namespace rig::build {
namespace {

/// Shares are typed in whole percents and hundredths: more over 1 than this is not rounding.
constexpr double kShareRounding = 1e-6;
/// A front axle further than this from its own line contradicts the datum.
constexpr double kDatumRounding_m = 1e-6;

class Checker : Checks {
 public:
  Checker(const Node& root, const Build& build, Faults& faults) : Checks(root, build, faults) {
    for (const auto& item : build.masses) masses_.emplace(item.id, &item.value);
  }

  void check() {
    for (const auto& item : build_.masses) check_mass(item);
    for (const auto& state : build_.load_states) check_load_state(state);
    for (const auto& axle : build_.axles) check_axle(axle);
    check_axles_together();
    check_limits();
  }

 private:
  void check_mass(const Entry<MassItem>& item) {
    if (!item.value.mass.known() || !item.value.fluid) return;
    report("build.mass_and_fluid", item.path + "/fluid",
           fmt::format("\"{}\" has a mass and a fluid", item.id),
           "keep the fluid, which has its own mass, and make the tank an item of its own");
  }

  void check_load_state(const Entry<LoadState>& state) {
    std::unordered_set<std::string_view> seen;
    for (std::size_t i = 0; i < state.value.aboard.size() && !faults_.full(); ++i) {
      const std::string& id = state.value.aboard[i].id;
      const auto item = masses_.find(id);
      if (item == masses_.end()) continue;  // not read, or dangling: reported already
      const std::string path = fmt::format("{}/aboard/{}", state.path, i);
      if (!seen.insert(id).second) {
        report("build.listed_twice", path, fmt::format("\"{}\" is already on this list", id),
               "a thing is aboard once; make a second one an item of its own");
      } else if (!item->second->optional_load) {
        report("build.not_optional", path, fmt::format("\"{}\" is aboard in every state", id),
               "say \"optional_load\": true in the item, or take it off this list");
      }
    }
    for (const auto& fill : state.value.fills) {
      const auto item = masses_.find(fill.id);
      if (item == masses_.end() || item->second->fluid) continue;
      faults_.add("build.dangling_id", fill.path, locate(root_, fill.path).key,
                  fmt::format("\"{}\" holds no fluid", fill.id),
                  suggest("", fluids(), "Those with a fluid are"));
    }
  }

  std::vector<std::string_view> fluids() const {
    std::vector<std::string_view> ids;
    for (const auto& item : build_.masses) {
      if (item.value.fluid) ids.push_back(item.id);
    }
    return ids;
  }

  void check_axle(const Entry<Axle>& axle) {
    for (const auto& [id, path, link] : axle.value.links) {
      if (link.tube) check_tube(link.tube->outside_diameter, link.tube->wall, path + "/tube");
      check_side(link.both_sides, {&link.frame.at, &link.axle.at}, path);
    }
    for (const auto& [id, path, arm] : axle.value.arms) {
      check_side(arm.both_sides, {&arm.apex.at, &arm.first.at, &arm.second.at}, path);
    }
    for (const auto& [id, path, coil] : axle.value.coils) {
      check_side(coil.both_sides, {&coil.upper, &coil.lower}, path);
      if (coil.upper.height.si <= coil.lower.height.si) {
        impossible(path + "/upper/height",
                   fmt::format("the upper seat at {} is not above the lower one at {}",
                               print(coil.upper.height), print(coil.lower.height)),
                   "the upper seat is the frame's and the lower one the axle's; swap the two or "
                   "mend one");
      }
      if (coil.solid_length.si >= coil.free_length.si) {
        impossible(path + "/solid_length",
                   fmt::format("the coil is {} long solid and {} long free",
                               print(coil.solid_length), print(coil.free_length)),
                   "the solid length is the shorter one");
      }
    }
    for (const auto& [id, path, pack] : axle.value.leaf_packs) {
      check_side(pack.both_sides, {&pack.front_eye, &pack.rear_eye, &pack.seat}, path);
      if (pack.rear_eye.station.si <= pack.front_eye.station.si) {
        impossible(path + "/rear_eye/station",
                   fmt::format("the rear eye at {} is not behind the front eye at {}",
                               print(pack.rear_eye.station), print(pack.front_eye.station)),
                   "stations grow towards the rear; swap the two eyes or mend one");
      }
    }
    for (const auto& [id, path, stop] : axle.value.bump_stops) check_bump_stop(stop, path);
    for (const auto& [id, path, damper] : axle.value.dampers) {
      check_side(damper.both_sides, {&damper.frame, &damper.axle}, path);
      if (damper.closed_length.si >= damper.open_length.si) {
        impossible(path + "/open_length",
                   fmt::format("the damper is {} long open and {} long closed",
                               print(damper.open_length), print(damper.closed_length)),
                   "the open length is the longer one");
      }
    }
  }

  void check_bump_stop(const BumpStop& stop, const std::string& path) {
    check_side(stop.both_sides, {&stop.frame, &stop.axle}, path);
    if (stop.end_travel.si >= stop.free_height.si) {
      impossible(path + "/end_travel",
                 fmt::format("a stop {} high can't be pressed {}", print(stop.free_height),
                             print(stop.end_travel)),
                 "the end travel is less than the free height");
    }
    if (stop.end_rate.si < stop.rate.si) {
      impossible(path + "/end_rate",
                 fmt::format("the stop ends softer, {}, than it begins, {}", print(stop.end_rate),
                             print(stop.rate)),
                 "the end rate is at least the rate at first touch");
    }
  }

  void check_axles_together() {
    double brake_share = 0;
    double drive_share = 0;
    const Entry<Axle>* front = nullptr;
    const Entry<Axle>* rear = nullptr;
    for (std::size_t i = 0; i < build_.axles.size(); ++i) {
      const Entry<Axle>& axle = build_.axles[i];
      if (i == 2) {
        impossible(axle.path, fmt::format("\"{}\" is a third axle", axle.id),
                   "a build has one front and one rear axle");
      }
      if (i >= 2) continue;
      check_share(axle.value.brake_share, brake_share, axle.path + "/brake_share", "braking");
      check_share(axle.value.drive_share, drive_share, axle.path + "/drive_share", "driving force");
      // An end that was not read stands as front and is reported already.
      if (root_has_end(axle)) {
        const Entry<Axle>*& same = axle.value.end == End::kFront ? front : rear;
        if (same != nullptr) {
          impossible(axle.path + "/end",
                     fmt::format(R"("{}" and "{}" are at the same end)", same->id, axle.id),
                     R"(one is "front" and the other "rear")");
        }
        same = &axle;
      }
    }
    if (front != nullptr && std::abs(front->value.station.si) > kDatumRounding_m) {
      report("build.datum", front->path + "/station",
             fmt::format("the front axle stands at {}", print(front->value.station)),
             "stations are measured from the front axle's own line: it stands at 0");
    }
    if (rear != nullptr && rear->value.station.si <= 0) {
      impossible(rear->path + "/station",
                 fmt::format("the rear axle at {} is not behind the front axle",
                             print(rear->value.station)),
                 "stations grow towards the rear; the rear axle's is the wheelbase");
    }
  }

  bool root_has_end(const Entry<Axle>& axle) const {
    const Member* end = root_.find("axles")->value.find(axle.id)->value.find("end");
    return end != nullptr && (end->value.text == "front" || end->value.text == "rear");
  }

  void check_share(const Ratio& share, double& sum, const std::string& path,
                   std::string_view what) {
    if (!share.known()) return;
    sum += share.si;
    if (sum <= 1 + kShareRounding) return;
    impossible(path, fmt::format("the axles' shares of the {} add up to {:.4g} %", what, 100 * sum),
               "together they are at most 100 %");
  }

  void check_limits() {
    const Limits& limits = build_.limits;
    if (!(limits.anti_squat_min.si > limits.anti_squat_max.si)) return;
    impossible("/limits/anti_squat_max",
               fmt::format("the greatest anti-squat, {}, is less than the least, {}",
                           print(limits.anti_squat_max), print(limits.anti_squat_min)),
               "swap the two or mend one");
  }

  std::unordered_map<std::string_view, const MassItem*> masses_;
};

}  // namespace

void check_together(const Node& root, const Build& build, Faults& faults) {
  Checker(root, build, faults).check();
  check_frame(root, build, faults);
  check_drivetrain(root, build, faults);
}

}  // namespace rig::build
