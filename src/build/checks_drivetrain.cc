#include <fmt/format.h>

#include "build/checks_internal.h"
#include "build/words.h"

namespace rig::build {
namespace {

class DrivetrainChecker : Checks {
 public:
  DrivetrainChecker(const Node& root, const Build& build, Faults& faults)
      : Checks(root, build, faults), drivetrain_(build.drivetrain) {}

  void check() {
    for (const auto& mount : drivetrain_.mounts) {
      check_side(mount.value.both_sides, {&mount.value.at}, mount.path);
    }
    for (const auto& shaft : drivetrain_.shafts) check_shaft(shaft);
    for (const auto& lift : drivetrain_.lifts) {
      check_listed_once(lift.value.takes, lift.path + "/takes");
    }
    check_masses();
    check_engine();
    check_placing();
    check_gaps();
  }

 private:
  void check_shaft(const Entry<PropShaft>& entry) {
    const PropShaft& shaft = entry.value;
    check_tube(shaft.tube.outside_diameter, shaft.tube.wall, entry.path + "/tube");
    if (shaft.bearing) {
      const ShaftTube& tube = shaft.bearing->front_tube;
      check_tube(tube.outside_diameter, tube.wall, entry.path + "/bearing/front_tube");
    }
    if (shaft.slip.closed.si >= shaft.slip.open.si) {
      impossible(entry.path + "/slip/open",
                 fmt::format("the shaft is {} long open and {} long closed", print(shaft.slip.open),
                             print(shaft.slip.closed)),
                 "the open length is the longer one");
    }
    if (shaft.slip.stub_length.si >= shaft.slip.closed.si) {
      impossible(entry.path + "/slip/stub_length",
                 fmt::format("the splined bar is {} long in a shaft of {}",
                             print(shaft.slip.stub_length), print(shaft.slip.closed)),
                 "it is a part of the closed length");
    }
    check_ends(entry);
  }

  /// A shaft goes from one case to what its output points at.
  void check_ends(const Entry<PropShaft>& entry) {
    const Entry<Output>* from = find(drivetrain_.outputs, entry.value.from.id);
    if (from == nullptr) return;
    const Entry<Axle>* axle = find(build_.axles, entry.value.to.id);
    if (axle != nullptr && axle->value.end != from->value.end) {
      impossible(entry.path + "/to",
                 fmt::format("\"{}\" points to the {} and \"{}\" is at the {}", from->id,
                             name_of(from->value.end), axle->id, name_of(axle->value.end)),
                 "take the output that points at the axle, or mend its end");
    }
    if (axle == nullptr && !entry.value.to.id.empty() &&
        entry.value.to.id == from->value.segment.id) {
      impossible(entry.path + "/to",
                 fmt::format("it goes from \"{0}\" to \"{0}\"", entry.value.to.id),
                 "it goes to an axle, or to a case that stands apart");
    }
  }

  /// Two cases of one mass would weigh twice.
  void check_masses() {
    for (const auto& segment : drivetrain_.segments) {
      if (segment.value.mass.id.empty()) continue;
      for (const auto& other : drivetrain_.segments) {
        if (&other == &segment) break;
        if (other.value.mass.id != segment.value.mass.id) continue;
        report("build.listed_twice", segment.path + "/mass",
               fmt::format("\"{}\" is the mass of \"{}\" already", segment.value.mass.id, other.id),
               "give each case a mass of its own, or say both are one case");
      }
    }
  }

  void check_engine() {
    if (!drivetrain_.engine) return;
    const Engine& engine = *drivetrain_.engine;
    check_below_top(engine.idle, "/drivetrain/engine/idle", "idles at");
    check_below_top(engine.torque_speed, "/drivetrain/engine/torque_speed", "pulls best at");
  }
  void check_below_top(const AngularSpeed& speed, const std::string& path, std::string_view does) {
    const AngularSpeed& top = drivetrain_.engine->top_speed;
    if (!(speed.si > top.si)) return;
    impossible(path,
               fmt::format("it {} {} and turns {} at the most", does, print(speed), print(top)),
               "the top speed is the greatest; mend one of the two");
  }

  /// A place can't come near itself.
  void check_gaps() {
    for (const auto& gap : drivetrain_.gaps) {
      const Gap& x = gap.value;
      if (!x.at.known() || !x.to.known() || x.at.p_VP() != x.to.p_VP()) continue;
      impossible(gap.path + "/to", "it is the same place as \"at\"",
                 "give the place that the case comes near");
    }
  }

  void check_placing() {
    if (!drivetrain_.placing) return;
    const Placing& placing = *drivetrain_.placing;
    if (!(placing.least_slope.si > placing.most_slope.si)) return;
    impossible("/drivetrain/placing/least_slope",
               fmt::format("the least slope is {} and the greatest {}", print(placing.least_slope),
                           print(placing.most_slope)),
               "the greatest is the larger one");
  }

  const Drivetrain& drivetrain_;
};

}  // namespace

void check_drivetrain(const Node& root, const Build& build, Faults& faults) {
  DrivetrainChecker(root, build, faults).check();
}

}  // namespace rig::build
