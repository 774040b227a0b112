#include <fmt/format.h>

#include <cmath>

#include "driveline/from_build.h"
#include "driveline/from_build_internal.h"

namespace rig::driveline {
namespace {

JointKind kind_of(build::ShaftJointKind kind) {
  switch (kind) {
    case build::ShaftJointKind::kCardan:
      return JointKind::kCardan;
    case build::ShaftJointKind::kDoubleCardan:
      return JointKind::kDoubleCardan;
    case build::ShaftJointKind::kConstantVelocity:
      return JointKind::kConstantVelocity;
  }
  return JointKind::kCardan;
}

std::optional<ShaftTube> tube_of(const build::ShaftTube& tube) {
  if (!tube.outside_diameter.known() || !tube.wall.known()) return std::nullopt;
  return ShaftTube{.outside_diameter_m = tube.outside_diameter.si, .wall_m = tube.wall.si};
}

/// Makes one shaft.
class ShaftMaker {
 public:
  ShaftMaker(const build::Build& build, const build::Entry<build::PropShaft>& entry)
      : build_(build), entry_(entry), name_(name_of_entry(entry)) {
    out_.path = entry.path;
    out_.label = name_;
  }

  ShaftFromBuild make() {
    const build::PropShaft& shaft = entry_.value;
    take_joint(shaft.start);
    if (shaft.bearing) {
      const build::CentreBearing& bearing = *shaft.bearing;
      take_joint(bearing.behind);
      if (bearing.joint.known()) {
        out_.shaft.bearings[0].p_VB = bearing.joint.p_VP();
      } else {
        lack("/bearing/joint", "place of the bearing");
      }
      take_tube(bearing.front_tube, bearing.front_yokes);
      if (bearing.rate.known()) out_.bearing_N_per_m = bearing.rate.si;
      if (bearing.past.known()) out_.bearing_past_m = bearing.past.si;
    }
    take_joint(shaft.end);
    take_tube(shaft.tube, shaft.yokes);
    out_.shaft.joint_count = joints_;
    if (shaft.slip.closed.known() && shaft.slip.open.known()) {
      out_.shaft.spline = Spline{.tube = tubes_ - 1,
                                 .closed_length_m = shaft.slip.closed.si,
                                 .out_length_m = shaft.slip.open.si};
      if (shaft.slip.least_engagement.known()) {
        out_.shaft.spline->least_engagement_m = shaft.slip.least_engagement.si;
      }
    }
    take_slide(shaft.slip);
    out_.fastest_rad_per_s = shaft.fastest.si;
    const auto* steel = build::find(build_.frame.steels, shaft.steel.id);
    if (steel != nullptr) out_.yield_Pa = steel->value.yield.si;
    take_start();
    take_end();
    place_bearing();
    return std::move(out_);
  }

 private:
  void lack(const char* key, const char* what) {
    out_.missing.push_back({entry_.path + key, fmt::format("{} of the {}", what, name_),
                            "the angles and lengths of that shaft"});
  }

  void take_joint(const build::ShaftJoint& joint) {
    auto& made = out_.shaft.joints.at(joints_);
    made.kind = kind_of(joint.kind);
    if (joint.bind.known()) made.bind_rad = joint.bind.si;
    if (joint.rating.known()) out_.ratings_Nm.at(joints_) = joint.rating.si;
    ++joints_;
  }

  void take_tube(const build::ShaftTube& tube, const build::Angle& yokes) {
    out_.tubes.at(tubes_) = tube_of(tube);
    if (yokes.known()) out_.shaft.phase_rad.at(tubes_) = yokes.si;
    ++tubes_;
  }

  void take_slide(const build::Slip& slip) {
    out_.plain_yoke_m = slip.plain_yoke.si;
    out_.sliding_yoke_m = slip.sliding_yoke.si;
    out_.stub_diameter_m = slip.stub_diameter.si;
    out_.stub_length_m = slip.stub_length.si;
    if (slip.mass.known()) out_.slide_kg = slip.mass.si;
  }

  /// The bearing stands before its joint, on the front tube's line.
  void place_bearing() {
    if (!entry_.value.bearing) return;
    CentreBearing& bearing = out_.shaft.bearings[0];
    const Vec3 along = bearing.p_VB - out_.drawn.p_VIn;
    if (!along.allFinite() || along.norm() <= out_.bearing_past_m) return;
    bearing.joint_past_m = out_.bearing_past_m;
    bearing.p_VB -= out_.bearing_past_m * along.normalized();
  }

  /// Slope of a case's own line.
  double slope_of(const std::string& segment) const {
    for (const build::CaseFaces& faces :
         build::find_faces(build_.drivetrain, build::Carried::kAsPlanned)) {
      if (faces.segment->id == segment) return std::asin(-faces.d_V.z());
    }
    return kNaN;
  }

  void take_start() {
    const auto* output = build::find(build_.drivetrain.outputs, entry_.value.from.id);
    if (output == nullptr) return lack("/from", "start");
    const build::Output& from = output->value;
    out_.from_case = from.segment.id;
    const auto tell = [&](const char* key, const char* what) {
      out_.missing.push_back({output->path + key,
                              fmt::format("{} of the {}", what, name_of_entry(*output)),
                              fmt::format("the angles and lengths of the {}", name_)});
    };
    if (from.joint.known()) {
      out_.drawn.p_VIn = from.joint.p_VP();
    } else {
      tell("/joint", "place");
    }
    const double slope = from.slope.known() ? from.slope.si : slope_of(from.segment.id);
    if (std::isnan(slope)) return tell("/slope", "slope");
    out_.drawn.d_in_V = build::rearward(slope);
    if (from.end == build::End::kFront) out_.drawn.d_in_V = -out_.drawn.d_in_V;
  }

  void take_end() {
    const build::PropShaft& shaft = entry_.value;
    if (shaft.end_joint.known()) {
      out_.drawn.p_VOut = shaft.end_joint.p_VP();
    } else {
      lack("/end_joint", "end");
    }
    const auto* axle = build::find(build_.axles, shaft.to.id);
    if (axle == nullptr) {
      const double slope = slope_of(shaft.to.id);
      if (std::isnan(slope)) return lack("/to", "axle or case at the end");
      out_.to_case = shaft.to.id;
      out_.drawn.d_out_V = build::rearward(slope);
      return;
    }
    out_.axle = axle->id;
    const build::Angle& pinion = axle->value.pinion;
    if (!pinion.known()) {
      out_.missing.push_back({axle->path + "/pinion",
                              fmt::format("pinion angle of the {}", name_of_entry(*axle)),
                              fmt::format("the angles of the {}", name_)});
      return;
    }
    // The nose points to the truck's middle, up by the pinion angle; the shaft goes on against it.
    const double middle = axle->value.end == build::End::kRear ? 1 : -1;
    out_.drawn.d_out_V = -Vec3(middle * std::cos(pinion.si), 0, std::sin(pinion.si));
  }

  const build::Build& build_;
  const build::Entry<build::PropShaft>& entry_;
  std::string name_;
  ShaftFromBuild out_;
  std::size_t joints_ = 0, tubes_ = 0;
};

}  // namespace

std::vector<ShaftFromBuild> shafts_from_build(const build::Build& build) {
  std::vector<ShaftFromBuild> out;
  for (const auto& shaft : build.drivetrain.shafts) out.push_back(ShaftMaker(build, shaft).make());
  return out;
}

}  // namespace rig::driveline
