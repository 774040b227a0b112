#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "build/types.h"

/// The words of the build file: names of the kinds of thing in it, and of the values of its enums.
namespace rig::build {

/// A name of the file as a sentence has it.
inline std::string spaced(std::string_view name) {
  std::string out(name);
  std::replace(out.begin(), out.end(), '_', ' ');
  return out;
}

/// The kinds of thing in the file, as the schema and messages call them.
template <typename T>
inline constexpr std::string_view kStructName{};
template <>
inline constexpr std::string_view kStructName<Point> = "point";
template <>
inline constexpr std::string_view kStructName<Bushing> = "bushing";
template <>
inline constexpr std::string_view kStructName<JointEnd> = "joint_end";
template <>
inline constexpr std::string_view kStructName<Tube> = "tube";
template <>
inline constexpr std::string_view kStructName<Link> = "link";
template <>
inline constexpr std::string_view kStructName<Arm> = "arm";
template <>
inline constexpr std::string_view kStructName<Coil> = "coil";
template <>
inline constexpr std::string_view kStructName<CoilWire> = "coil_wire";
template <>
inline constexpr std::string_view kStructName<Leaves> = "leaves";
template <>
inline constexpr std::string_view kStructName<LeafPack> = "leaf_pack";
template <>
inline constexpr std::string_view kStructName<BumpStop> = "bump_stop";
template <>
inline constexpr std::string_view kStructName<Damper> = "damper";
template <>
inline constexpr std::string_view kStructName<AntiRollBar> = "anti_roll_bar";
template <>
inline constexpr std::string_view kStructName<Axle> = "axle";
template <>
inline constexpr std::string_view kStructName<Tyre> = "tyre";
template <>
inline constexpr std::string_view kStructName<Fluid> = "fluid";
template <>
inline constexpr std::string_view kStructName<Size> = "size";
template <>
inline constexpr std::string_view kStructName<MassItem> = "mass_item";
template <>
inline constexpr std::string_view kStructName<Fill> = "fill";
template <>
inline constexpr std::string_view kStructName<Trailer> = "trailer";
template <>
inline constexpr std::string_view kStructName<LoadState> = "load_state";
template <>
inline constexpr std::string_view kStructName<CornerWeighing> = "corner_weighing";
template <>
inline constexpr std::string_view kStructName<LiftedWeighing> = "lifted_weighing";
template <>
inline constexpr std::string_view kStructName<Hitch> = "hitch";
template <>
inline constexpr std::string_view kStructName<Ratings> = "ratings";
template <>
inline constexpr std::string_view kStructName<Steel> = "steel";
template <>
inline constexpr std::string_view kStructName<SectionSizes> = "section";
template <>
inline constexpr std::string_view kStructName<Stretch> = "stretch";
template <>
inline constexpr std::string_view kStructName<Rail> = "rail";
template <>
inline constexpr std::string_view kStructName<BoxingPlate> = "boxing_plate";
template <>
inline constexpr std::string_view kStructName<Hole> = "hole";
template <>
inline constexpr std::string_view kStructName<CrossmemberPlace> = "crossmember_place";
template <>
inline constexpr std::string_view kStructName<Bolts> = "bolts";
template <>
inline constexpr std::string_view kStructName<EndPlate> = "end_plate";
template <>
inline constexpr std::string_view kStructName<Crossmember> = "crossmember";
template <>
inline constexpr std::string_view kStructName<Mount> = "mount";
template <>
inline constexpr std::string_view kStructName<Pull> = "pull";
template <>
inline constexpr std::string_view kStructName<DriveTorque> = "drive_torque";
template <>
inline constexpr std::string_view kStructName<Stand> = "stand";
template <>
inline constexpr std::string_view kStructName<Stage> = "stage";
template <>
inline constexpr std::string_view kStructName<Frame> = "frame";
template <>
inline constexpr std::string_view kStructName<Segment> = "segment";
template <>
inline constexpr std::string_view kStructName<DriveMount> = "drive_mount";
template <>
inline constexpr std::string_view kStructName<Output> = "output";
template <>
inline constexpr std::string_view kStructName<ShaftJoint> = "shaft_joint";
template <>
inline constexpr std::string_view kStructName<ShaftTube> = "shaft_tube";
template <>
inline constexpr std::string_view kStructName<Slip> = "slip";
template <>
inline constexpr std::string_view kStructName<CentreBearing> = "centre_bearing";
template <>
inline constexpr std::string_view kStructName<PropShaft> = "shaft";
template <>
inline constexpr std::string_view kStructName<Engine> = "engine";
template <>
inline constexpr std::string_view kStructName<Gear> = "gear";
template <>
inline constexpr std::string_view kStructName<Hoist> = "hoist";
template <>
inline constexpr std::string_view kStructName<Lift> = "lift";
template <>
inline constexpr std::string_view kStructName<Gap> = "gap";
template <>
inline constexpr std::string_view kStructName<Placing> = "placing";
template <>
inline constexpr std::string_view kStructName<Drivetrain> = "drivetrain";
template <>
inline constexpr std::string_view kStructName<Limits> = "limits";
template <>
inline constexpr std::string_view kStructName<Variant> = "variant";
template <>
inline constexpr std::string_view kStructName<Units> = "units";
template <>
inline constexpr std::string_view kStructName<Build> = "build";

template <typename E>
struct EnumName {
  E value;
  std::string_view name;
};

template <typename E>
EnumName(E, std::string_view) -> EnumName<E>;

/// The words of an enum in the file; specialised as an array of EnumName.
template <typename E>
inline constexpr std::array<EnumName<E>, 0> kNames{};
template <>
inline constexpr std::array kNames<From>{
    EnumName{From::kDesign, "design"}, EnumName{From::kTape, "tape"},
    EnumName{From::kScale, "scale"}, EnumName{From::kCatalogue, "catalogue"},
    EnumName{From::kEstimate, "estimate"}};
template <>
inline constexpr std::array kNames<Axis>{EnumName{Axis::kLengthwise, "lengthwise"},
                                         EnumName{Axis::kCrosswise, "crosswise"},
                                         EnumName{Axis::kUpright, "upright"}};
template <>
inline constexpr std::array kNames<LinkRole>{EnumName{LinkRole::kLower, "lower"},
                                             EnumName{LinkRole::kUpper, "upper"},
                                             EnumName{LinkRole::kTrackBar, "track_bar"}};
template <>
inline constexpr std::array kNames<CoilEnds>{EnumName{CoilEnds::kSquaredGround, "squared_ground"},
                                             EnumName{CoilEnds::kSquared, "squared"},
                                             EnumName{CoilEnds::kPlain, "plain"}};
template <>
inline constexpr std::array kNames<ArmKind>{EnumName{ArmKind::kAArm, "a_arm"},
                                            EnumName{ArmKind::kRadiusArm, "radius_arm"}};
template <>
inline constexpr std::array kNames<End>{EnumName{End::kFront, "front"},
                                        EnumName{End::kRear, "rear"}};
template <>
inline constexpr std::array kNames<Liquid>{
    EnumName{Liquid::kGasoline, "gasoline"}, EnumName{Liquid::kDiesel, "diesel"},
    EnumName{Liquid::kWater, "water"},       EnumName{Liquid::kEngineOil, "engine_oil"},
    EnumName{Liquid::kCoolant, "coolant"},   EnumName{Liquid::kOther, "other"}};
template <>
inline constexpr std::array kNames<Shape>{EnumName{Shape::kBox, "box"},
                                          EnumName{Shape::kCylinder, "cylinder"}};
template <>
inline constexpr std::array kNames<SectionShape>{
    EnumName{SectionShape::kChannel, "channel"},
    EnumName{SectionShape::kHat, "hat"},
    EnumName{SectionShape::kRectangularTube, "rectangular_tube"},
    EnumName{SectionShape::kRoundTube, "round_tube"},
    EnumName{SectionShape::kPlate, "plate"},
    EnumName{SectionShape::kAngle, "angle"}};
template <>
inline constexpr std::array kNames<RailOpening>{EnumName{RailOpening::kIn, "in"},
                                                EnumName{RailOpening::kOut, "out"}};
template <>
inline constexpr std::array kNames<Side>{
    EnumName{Side::kBoth, "both"}, EnumName{Side::kLeft, "left"}, EnumName{Side::kRight, "right"}};
template <>
inline constexpr std::array kNames<PlateFit>{EnumName{PlateFit::kBetween, "between"},
                                             EnumName{PlateFit::kOverTips, "over_tips"}};
template <>
inline constexpr std::array kNames<HoleWall>{EnumName{HoleWall::kWeb, "web"},
                                             EnumName{HoleWall::kPlate, "plate"},
                                             EnumName{HoleWall::kUpperFlange, "upper_flange"},
                                             EnumName{HoleWall::kLowerFlange, "lower_flange"}};
template <>
inline constexpr std::array kNames<HolePurpose>{
    EnumName{HolePurpose::kOther, "other"}, EnumName{HolePurpose::kDrain, "drain"},
    EnumName{HolePurpose::kAccess, "access"}, EnumName{HolePurpose::kBolt, "bolt"},
    EnumName{HolePurpose::kLine, "line"}};
template <>
inline constexpr std::array kNames<Fate>{
    EnumName{Fate::kStays, "stays"}, EnumName{Fate::kComesOut, "comes_out"},
    EnumName{Fate::kGoesIn, "goes_in"}, EnumName{Fate::kTemporary, "temporary"}};
template <>
inline constexpr std::array kNames<Facing>{
    EnumName{Facing::kForward, "forward"}, EnumName{Facing::kRearward, "rearward"},
    EnumName{Facing::kUp, "up"}, EnumName{Facing::kDown, "down"}};
template <>
inline constexpr std::array kNames<CrossmemberJoint>{
    EnumName{CrossmemberJoint::kWeb, "web"}, EnumName{CrossmemberJoint::kFlanges, "flanges"},
    EnumName{CrossmemberJoint::kThroughWeb, "through_web"},
    EnumName{CrossmemberJoint::kThroughWebAndPlate, "through_web_and_plate"},
    EnumName{CrossmemberJoint::kButted, "butted"}};
template <>
inline constexpr std::array kNames<Fastening>{EnumName{Fastening::kWelded, "welded"},
                                              EnumName{Fastening::kBolted, "bolted"}};
template <>
inline constexpr std::array kNames<SegmentKind>{
    EnumName{SegmentKind::kEngine, "engine"}, EnumName{SegmentKind::kBellhousing, "bellhousing"},
    EnumName{SegmentKind::kGearbox, "gearbox"}, EnumName{SegmentKind::kAdapter, "adapter"},
    EnumName{SegmentKind::kTransferCase, "transfer_case"}};
template <>
inline constexpr std::array kNames<ShaftJointKind>{
    EnumName{ShaftJointKind::kCardan, "cardan"},
    EnumName{ShaftJointKind::kDoubleCardan, "double_cardan"},
    EnumName{ShaftJointKind::kConstantVelocity, "constant_velocity"}};
template <>
inline constexpr std::array kNames<CentreKind>{EnumName{CentreKind::kLocked, "locked"},
                                               EnumName{CentreKind::kDifferential, "differential"}};
template <>
inline constexpr std::array kNames<PullDirection>{
    EnumName{PullDirection::kForward, "forward"}, EnumName{PullDirection::kRearward, "rearward"},
    EnumName{PullDirection::kLeft, "left"},       EnumName{PullDirection::kRight, "right"},
    EnumName{PullDirection::kUp, "up"},           EnumName{PullDirection::kDown, "down"}};

/// The word of the file for a value of an enum.
template <typename E>
std::string_view name_of(E value) {
  for (const auto& [of, name] : kNames<E>) {
    if (of == value) return name;
  }
  return {};
}

}  // namespace rig::build
