#pragma once

#include <string_view>

#include "build/drivetrain_parts.h"
#include "build/rules.h"
#include "build/words.h"

/// The drivetrain's part of the build file's description; build/describe.h says what a visitor is.
namespace rig::build {

template <typename V>
void describe(V& v, Segment& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("kind", x.kind, "What it is.", Required{});
  v.field("length", x.length, "From its front to its rear face.", kPositive);
  v.reference("mass", x.mass, "masses", "Which of the masses it is.");
  v.field("starts_at", x.starts_at,
          "Centre of its front face; of the first, and of one that stands apart.");
  v.field("slope", x.slope, "Of its line, + down to the rear; as the one before if left out.",
          kTilt);
  v.field("bending", x.bending, "Moment at its faces per angle between them; stiff if left out.",
          kPositive);
  v.field("flange_limit", x.flange_limit, "Most bending moment that its rear face may carry.",
          kPositive);
  v.field("width", x.width, "Across, half of it on each side of its line.", kPositive);
  v.field("above", x.above, "How far it reaches above its line.", kPositive);
  v.field("below", x.below, "How far it reaches below its line.", kPositive);
  v.field("front_pattern", x.front_pattern, "Bolt pattern of its front face.");
  v.field("rear_pattern", x.rear_pattern, "Bolt pattern of its rear face.");
  v.field("fate", x.fate, "Whether it stays, comes out or goes in.");
}

template <typename V>
void describe(V& v, DriveMount& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("both_sides", x.both_sides, "Given for the left and mirrored to the right.");
  v.reference("segment", x.segment, "drivetrain/segments", "What it carries.");
  v.field("at", x.at, "Middle of the rubber.");
  v.field("compression", x.compression, "Rate along its own axis.", kPositive);
  v.field("shear", x.shear, "Rate across its axis.", kPositive);
  v.field("lengthwise", x.lengthwise, "Rate along the truck, where it is another.", kPositive);
  v.field("lean", x.lean, "Of its axis from upright, + top towards the middle.", kTilt);
  v.field("snub_gap", x.snub_gap, "Travel along its axis until it is stopped.", kNotNegative);
  v.field("snub_rate", x.snub_rate, "Rate added beyond that.", kPositive);
  v.field("rating", x.rating, "Most it may carry along its axis.", kPositive);
  v.field("fate", x.fate, "Whether it stays, comes out or goes in.");
}

template <typename V>
void describe(V& v, Output& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.reference("segment", x.segment, "drivetrain/segments", "The case it belongs to.");
  v.field("end", x.end, "Towards which axle it points.", Required{});
  v.field("joint", x.joint, "Centre of the shaft's joint at it.");
  v.field("slope", x.slope, "Of its axis, + down to the rear; its case's if left out.", kTilt);
}

template <typename V>
void describe(V& v, ShaftJoint& x) {
  v.field("kind", x.kind, "One cross, two crosses, or constant velocity.", Required{});
  v.field("bind", x.bind, "Greatest angle it can take.",
          Bounds{.min = 0, .max = 1.2, .above_min = true});
  v.field("rating", x.rating, "Most torque in short use.", kPositive);
}

template <typename V>
void describe(V& v, ShaftTube& x) {
  v.field("outside_diameter", x.outside_diameter, "Outside diameter.", kPositive);
  v.field("wall", x.wall, "Wall thickness.", kPositive);
}

template <typename V>
void describe(V& v, Slip& x) {
  v.field("closed", x.closed, "Joint to joint, pushed home.", kPositive);
  v.field("open", x.open, "Joint to joint, where the splines come out.", kPositive);
  v.field("least_engagement", x.least_engagement, "Of the splines, that must be left.",
          kNotNegative);
  v.field("plain_yoke", x.plain_yoke, "Joint centre to weld, at the plain end.", kPositive);
  v.field("sliding_yoke", x.sliding_yoke, "Joint centre to weld, at the sliding end pushed home.",
          kPositive);
  v.field("stub_diameter", x.stub_diameter, "Of the splined bar, thinner than the tube.",
          kPositive);
  v.field("stub_length", x.stub_length, "Of it between joint and tube, at ride.", kPositive);
  v.field("mass", x.mass, "Of the sliding yoke with its splines.", kPositive);
}

template <typename V>
void describe(V& v, CentreBearing& x) {
  v.field("joint", x.joint, "Centre of the joint just behind the bearing.");
  v.field("behind", x.behind, "That joint.");
  v.field("front_tube", x.front_tube, "Tube of the piece before it.");
  v.field("front_yokes", x.front_yokes, "How far that piece's yokes are out of line.", kTurn);
  v.field("rate", x.rate, "Of its rubber, across the shaft; does not give if left out.", kPositive);
  v.field("past", x.past, "From its middle on to the joint behind it.", kNotNegative);
}

template <typename V>
void describe(V& v, PropShaft& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.reference("from", x.from, "drivetrain/outputs", "Where it leaves the case.");
  v.reference("to", x.to, "axles|drivetrain/segments", "The axle, or a case that stands apart.");
  v.field("end_joint", x.end_joint, "Centre of the joint at that end, as drawn.");
  v.field("start", x.start, "The joint at the case.");
  v.field("end", x.end, "The joint at the other end.");
  v.field("tube", x.tube, "Its tube; the rear one of a shaft in two pieces.");
  v.field("yokes", x.yokes, "How far the tube's yokes are out of line; in line if left out.",
          kTurn);
  v.field("slip", x.slip, "How far it slides.");
  v.field("bearing", x.bearing, "The bearing of a shaft in two pieces.");
  v.reference("steel", x.steel, "frame/steels", "What its tube is made of.");
  v.field("fastest", x.fastest,
          "Fastest that it turns; as all shafts if left out (a front shaft may be slower).",
          kPositive);
}

template <typename V>
void describe(V& v, Engine& x) {
  v.field("torque", x.torque, "Most at the crank.", kPositive);
  v.field("torque_speed", x.torque_speed, "Where it makes that.", kPositive);
  v.field("idle", x.idle, "Idle speed.", kPositive);
  v.field("top_speed", x.top_speed, "Governed speed or red line.", kPositive);
  v.field("cylinders", x.cylinders, "How many.", Allowed{kCylinderCounts});
  v.field("converter", x.converter, "Most torque multiplication; a clutch if left out.",
          Bounds{.min = 1, .max = 5});
}

template <typename V>
void describe(V& v, Gear& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("ratio", x.ratio, "Turns in for one turn out.", kPositive);
}

template <typename V>
void describe(V& v, Hoist& x) {
  v.field("capacity", x.capacity, "At the hole it is set to, from its own plate.", kPositive);
  v.field("sling", x.sling, "Of each leg from level.",
          Bounds{.min = 0, .max = 1.571, .above_min = true});
  v.field("legs", x.legs, "Of the sling.", Allowed{kLegCounts});
}

template <typename V>
void describe(V& v, Lift& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.reference("takes", x.takes, "drivetrain/segments", "What hangs on the hoist at once.");
  v.field("hook", x.hook, "Station of the hook.", kOnTruck);
}

template <typename V>
void describe(V& v, Gap& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.reference("segment", x.segment, "drivetrain/segments", "The case that moves.");
  v.field("at", x.at, "The place on the case.");
  v.field("to", x.to, "The place that it comes near.");
  v.reference("axle", x.axle, "axles", "The axle that this belongs to; frame or body if left out.");
  v.field("least", x.least, "That is to be left; 1/2 in if left out.", kNotNegative);
}

template <typename V>
void describe(V& v, Placing& x) {
  v.field("up", x.up, "How far the cases may still go up.", kNotNegative);
  v.field("down", x.down, "How far they may still go down.", kNotNegative);
  v.field("left", x.left, "How far they may still go to the left; not at all if left out.",
          kNotNegative);
  v.field("right", x.right, "How far they may still go to the right; not at all if left out.",
          kNotNegative);
  v.field("least_slope", x.least_slope, "Least slope of the first case, + down to the rear.",
          kTilt);
  v.field("most_slope", x.most_slope, "Greatest slope of it.", kTilt);
}

template <typename V>
void describe(V& v, Drivetrain& x) {
  v.field("segments", x.segments, "The cases from the engine back.");
  v.field("mounts", x.mounts, "What carries them.");
  v.field("outputs", x.outputs, "Where shafts leave the cases.");
  v.field("shafts", x.shafts, "Propeller shafts.");
  v.field("engine", x.engine, "What the engine gives.");
  v.field("gears", x.gears, "Of the gearbox.");
  v.field("ranges", x.ranges, "Of all that is behind the gearbox, together.");
  v.field("grip", x.grip, "Friction of the tyres on the ground.",
          Bounds{.min = 0, .max = 2, .above_min = true});
  v.field("efficiency", x.efficiency, "Share of the torque that gears and joints leave.",
          Bounds{.min = 0, .max = 1, .above_min = true});
  v.field("centre", x.centre, "Whether both shafts turn alike or share by a differential.");
  v.field("shaft_speed", x.shaft_speed,
          "Fastest that the shafts turn; from engine and gears if left out.", kPositive);
  v.field("gaps", x.gaps, "Where a case comes near something.");
  v.field("placing", x.placing, "How far the cases may still be moved.");
  v.field("hoist", x.hoist, "What lifts the cases.");
  v.field("lifts", x.lifts, "What hangs on it, in the order of the work.");
}

}  // namespace rig::build
