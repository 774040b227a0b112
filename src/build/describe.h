#pragma once

#include <string_view>

#include "build/describe_drivetrain.h"
#include "build/describe_frame.h"
#include "build/rules.h"
#include "build/types.h"
#include "build/words.h"

/// The build file's one description. A visitor walks it to read a file, to publish the JSON Schema
/// and to lay out a form, so that these three can't disagree.
///
/// A visitor has these members, each called once per key, in the order a form shows them:
/// - `field(key, member, doc [, rule])`: quantities, text, flags, enums, nested things, maps,
/// lists.
///   A rule is one of `Bounds`, `Allowed`, `KeysOf`, `Required` (build/rules.h).
/// - `reference(key, member, target, doc)`: a Reference, or a list of them; `target` is the way to
///   the map it points into, such as "masses" or "frame/rails"; "a|b" for either of two.
namespace rig::build {

template <typename V>
void describe(V& v, Bushing& x) {
  v.field("radial", x.radial, "Rate square to the bolt.", kPositive);
  v.field("axial", x.axial, "Rate along the bolt.", kPositive);
  v.field("conical", x.conical, "Rate against tilting the bolt in the bush.", kNotNegative);
  v.field("torsional", x.torsional, "Rate against turning about the bolt.", kNotNegative);
  v.field("bolt", x.bolt, "Which way the bolt runs; crosswise if left out.");
}

template <typename V>
void describe(V& v, JointEnd& x) {
  v.field("at", x.at, "Centre of the joint.");
  v.field("bushing", x.bushing, "The bush; leave out for a ball or rod end.");
  v.field("swing_limit", x.swing_limit, "Greatest angle away from where it sits as drawn.",
          Bounds{.min = 0, .max = 3.2, .above_min = true});
}

template <typename V>
void describe(V& v, Tube& x) {
  v.field("outside_diameter", x.outside_diameter, "Outside diameter.", kPositive);
  v.field("wall", x.wall, "Wall thickness.", kPositive);
}

template <typename V>
void describe(V& v, Link& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("role", x.role, "What it does.", Required{});
  v.field("both_sides", x.both_sides, "Given for the left and mirrored to the right.");
  v.field("frame", x.frame, "The end on the frame.");
  v.field("axle", x.axle, "The end on the axle.");
  v.field("tube", x.tube, "Its tube; adds its own stretch when an end has a bush.");
}

template <typename V>
void describe(V& v, Arm& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("kind", x.kind, "A-arm: apex on the axle. Radius arm: apex on the frame.", Required{});
  v.field("both_sides", x.both_sides, "Given for the left and mirrored to the right.");
  v.field("apex", x.apex, "The single joint.");
  v.field("first", x.first, "One of the two joints on the other side.");
  v.field("second", x.second, "The other of the two.");
}

template <typename V>
void describe(V& v, CoilWire& x) {
  v.field("diameter", x.diameter, "Of the wire.", kPositive);
  v.field("mean_diameter", x.mean_diameter, "Of the coil: outside less one wire.", kPositive);
  v.field("active_turns", x.active_turns, "Turns free to work, such as \"6 1/2\".", kPositive);
  v.field("ends", x.ends, "How the ends are made; squared and ground if left out.");
}

template <typename V>
void describe(V& v, Coil& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("both_sides", x.both_sides, "Given for the left and mirrored to the right.");
  v.field("upper", x.upper, "Centre of the seat on the frame.");
  v.field("lower", x.lower, "Centre of the seat on the axle.");
  v.field("free_length", x.free_length, "Length with no load.", kPositive);
  v.field("rate", x.rate, "Force per length.", kPositive);
  v.field("solid_length", x.solid_length, "Length with every coil touching.", kPositive);
  v.field("wire", x.wire, "Its wire, from which rate and solid length follow if not given.");
}

template <typename V>
void describe(V& v, Leaves& x) {
  v.field("count", x.count, "How many.", Allowed{kLeafCounts, true});
  v.field("width", x.width, "Of each.", kPositive);
  v.field("thickness", x.thickness, "Of each.", kPositive);
  v.field("full_length_leaves", x.full_length_leaves, "Those from eye to eye, the main leaf too.",
          Allowed{kLeafCounts});
}

template <typename V>
void describe(V& v, LeafPack& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("both_sides", x.both_sides, "Given for the left and mirrored to the right.");
  v.field("front_eye", x.front_eye, "Front eye as drawn.");
  v.field("rear_eye", x.rear_eye, "Rear eye as drawn.");
  v.field("seat", x.seat, "Where the main leaf sits on the axle.");
  v.field("free_arch", x.free_arch, "Eye line down to the seat, unloaded.", kOnTruck);
  v.field("rate", x.rate, "Vertical rate at the seat.", kPositive);
  v.field("lateral_rate", x.lateral_rate, "Sideways rate at the seat.", kPositive);
  v.field("eye_radial_rate", x.eye_radial_rate, "Rate of the bush in the fixed eye.", kPositive);
  v.field("shackle_in_front", x.shackle_in_front, "The shackle is at the front eye.");
  v.field("leaves", x.leaves, "Its leaves, from which the rate follows if not given.");
}

template <typename V>
void describe(V& v, BumpStop& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("both_sides", x.both_sides, "Given for the left and mirrored to the right.");
  v.field("frame", x.frame, "Foot of the stop on the frame.");
  v.field("axle", x.axle, "Pad on the axle.");
  v.field("free_height", x.free_height, "Height of the free stop.", kPositive);
  v.field("rate", x.rate, "Rate at first touch.", kPositive);
  v.field("end_rate", x.end_rate, "Rate at the end travel.", kPositive);
  v.field("end_travel", x.end_travel, "Compression at which the end rate is reached.", kPositive);
}

template <typename V>
void describe(V& v, Damper& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("both_sides", x.both_sides, "Given for the left and mirrored to the right.");
  v.field("frame", x.frame, "Eye on the frame.");
  v.field("axle", x.axle, "Eye on the axle.");
  v.field("closed_length", x.closed_length, "Eye to eye, fully in.", kPositive);
  v.field("open_length", x.open_length, "Eye to eye, fully out.", kPositive);
  v.field("gas_force", x.gas_force, "Force pushing the eyes apart.", kNotNegative);
  v.field("damping", x.damping, "Force per speed, mean of bump and rebound.", kPositive);
}

template <typename V>
void describe(V& v, AntiRollBar& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("span", x.span, "Between the drop links on the axle.", kPositive);
  v.field("rate", x.rate, "Force at one end per difference in travel of the ends.", kPositive);
}

template <typename V>
void describe(V& v, Axle& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("end", x.end, "Which end of the truck.", Required{});
  v.field("station", x.station, "Wheel line as drawn; 0 at the front, also if left out.", kOnTruck);
  v.field("height", x.height, "Wheel centres above the floor as drawn.", kPositive);
  v.field("track", x.track, "Between tyre centres.", kPositive);
  v.reference("tyre", x.tyre, "tyres", "The tyre on it.");
  v.field("steered", x.steered, "Its wheels steer.");
  v.field("brake_share", x.brake_share, "Share of the truck's braking.", kFraction);
  v.field("drive_share", x.drive_share, "Share of the truck's driving force.", kFraction);
  v.field("gear_ratio", x.gear_ratio, "Turns of the pinion for one of the wheels.", kPositive);
  v.field("rating", x.rating, "Gross axle weight rating.", kPositive);
  v.field("caster", x.caster, "As drawn, + top rearward.", kTilt);
  v.field("pinion", x.pinion, "As drawn, + nose up.", kTilt);
  v.field("bump_travel", x.bump_travel, "Wanted up travel from the drawn position.", kPositive);
  v.field("droop_travel", x.droop_travel, "Wanted down travel from the drawn position.", kPositive);
  v.field("lift", x.lift, "Wanted lift at ride beyond the mocked-up position.", kOnTruck);
  v.field("links", x.links, "Bars with a joint at each end.");
  v.field("arms", x.arms, "Stiff pieces with three joints.");
  v.field("coils", x.coils, "Coil springs.");
  v.field("leaf_packs", x.leaf_packs, "Leaf springs.");
  v.field("bump_stops", x.bump_stops, "Bump stops.");
  v.field("dampers", x.dampers, "Shock absorbers.");
  v.field("anti_roll_bars", x.anti_roll_bars, "Anti-roll bars.");
}

template <typename V>
void describe(V& v, Tyre& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("free_radius", x.free_radius, "Radius with no load.", kPositive);
  v.field("width", x.width, "Section width.", kPositive);
  v.field("rate", x.rate, "Vertical rate at working pressure.", kPositive);
  v.field("rating", x.rating, "Load rating of one tyre.", kPositive);
  v.field("wheel_rating", x.wheel_rating, "Load rating of one wheel.", kPositive);
}

template <typename V>
void describe(V& v, Fluid& x) {
  v.field("liquid", x.liquid, "What it is; other, of unknown density, if left out.");
  v.field("volume", x.volume, "Of the full tank.", kPositive);
  v.field("fill", x.fill, "How full.", kFraction);
  v.field("density", x.density, "Instead of the usual one.", kPositive);
}

template <typename V>
void describe(V& v, Size& x) {
  v.field("shape", x.shape, "Box or cylinder; a box if left out.");
  v.field("length", x.length, "Lengthwise, or along a cylinder's axis.", kNotNegative);
  v.field("width", x.width, "Crosswise, of a box.", kNotNegative);
  v.field("height", x.height, "Upright, of a box.", kNotNegative);
  v.field("diameter", x.diameter, "Of a cylinder.", kNotNegative);
  v.field("axis", x.axis, "Which way a cylinder lies; lengthwise if left out.");
}

template <typename V>
void describe(V& v, MassItem& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("mass", x.mass, "Its mass.", kNotNegative);
  v.field("fluid", x.fluid, "A liquid, instead of a mass.");
  v.field("at", x.at, "Its balance point as drawn.");
  v.field("size", x.size, "Outer size, for inertia and the picture.");
  v.reference("on", x.on, "axles", "The axle that carries it; leave out for the frame.");
  v.field("optional_load", x.optional_load, "Aboard only in load states that list it.");
}

template <typename V>
void describe(V& v, Fill& x) {
  v.field("fill", x.fill, "How full in this state.", kFraction);
}

template <typename V>
void describe(V& v, Trailer& x) {
  v.field("mass", x.mass, "Loaded trailer.", kPositive);
  v.field("tongue_load", x.tongue_load, "Downward on the ball.", kNotNegative);
}

template <typename V>
void describe(V& v, LoadState& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.reference("aboard", x.aboard, "masses", "Optional loads that are aboard.");
  v.field("fills", x.fills, "How full tanks are in this state, by the mass item's id.",
          KeysOf{"masses"});
  v.field("trailer", x.trailer, "What is on the hitch.");
}

template <typename V>
void describe(V& v, CornerWeighing& x) {
  v.field("label", x.label, "When and where.");
  v.reference("state", x.state, "load_states", "What was aboard.");
  v.field("front_left", x.front_left, "Reading under the tyre.", kNotNegative);
  v.field("front_right", x.front_right, "Reading under the tyre.", kNotNegative);
  v.field("rear_left", x.rear_left, "Reading under the tyre.", kNotNegative);
  v.field("rear_right", x.rear_right, "Reading under the tyre.", kNotNegative);
}

template <typename V>
void describe(V& v, LiftedWeighing& x) {
  v.field("label", x.label, "When and where.");
  v.reference("state", x.state, "load_states", "What was aboard.");
  v.field("lifted", x.lifted, "Which end was lifted.", Required{});
  v.field("lift", x.lift, "Rise of the lifted wheel centres.", kPositive);
  v.field("level_reading", x.level_reading, "Axle on the scale, truck level.", kPositive);
  v.field("lifted_reading", x.lifted_reading, "Same axle, other end lifted.", kPositive);
}

template <typename V>
void describe(V& v, Hitch& x) {
  v.field("ball", x.ball, "Centre of the ball as drawn.");
  v.field("tongue_rating", x.tongue_rating, "Of the hitch.", kPositive);
  v.field("trailer_rating", x.trailer_rating, "Of the hitch.", kPositive);
}

template <typename V>
void describe(V& v, Ratings& x) {
  v.field("gross_vehicle", x.gross_vehicle, "GVWR.", kPositive);
  v.field("gross_combination", x.gross_combination, "GCWR.", kPositive);
}

template <typename V>
void describe(V& v, Limits& x) {
  v.field("caster_change", x.caster_change, "Over the wanted travel.", kPositive);
  v.field("pinion_change", x.pinion_change, "Over the wanted travel.", kPositive);
  v.field("lateral_shift", x.lateral_shift, "Over the wanted travel.", kPositive);
  v.field("roll_steer", x.roll_steer, "Steer per roll, either way.",
          Bounds{.min = 0, .max = 1, .above_min = true});
  v.field("anti_squat_min", x.anti_squat_min, "Least anti-squat.", kAnti);
  v.field("anti_squat_max", x.anti_squat_max, "Greatest anti-squat.", kAnti);
  v.field("anti_dive_max", x.anti_dive_max, "Greatest anti-dive.", kAnti);
  v.field("height_error", x.height_error, "How it sits against how it is drawn.", kPositive);
  v.field("spring_travel_left", x.spring_travel_left, "Least travel before a coil is solid.",
          kNotNegative);
  v.field("shock_travel_left", x.shock_travel_left, "Least shock travel left.", kNotNegative);
  v.field("side_slope", x.side_slope, "Least side-slope limit.", kTilt);
}

template <typename V>
void describe(V& v, Variant& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("changes", x.changes, "What stands where instead, by place; null takes a thing out.");
}

template <typename V>
void describe(V& v, Units& x) {
  v.field("metric", x.metric, "Answer in millimetres and kilograms.");
  v.field("fraction_of_inch", x.fraction_of_inch, "Finest fraction printed.",
          Allowed{kFractionsOfInch});
}

template <typename V>
void describe(V& v, Build& x) {
  v.field("version", x.version, "Format of the file.", Allowed{kVersions, true});
  v.field("name", x.name, "Name of the build.");
  v.field("notice", x.notice, "A line printed with everything.");
  v.field("units", x.units, "How answers are printed.");
  v.field("load_states", x.load_states, "Who and what is aboard.");
  v.reference("ride_state", x.ride_state, "load_states", "The state in which it sits as drawn.");
  v.field("masses", x.masses, "Everything that has weight.");
  v.field("tyres", x.tyres, "Tyres.");
  v.field("axles", x.axles, "Front and rear axle.");
  v.field("frame", x.frame, "The frame.");
  v.field("drivetrain", x.drivetrain, "Engine, gearboxes, their mounts and the shafts.");
  v.field("hitch", x.hitch, "The hitch.");
  v.field("ratings", x.ratings, "Of the whole truck.");
  v.field("corner_weighings", x.corner_weighings, "Scale readings under the four tyres.");
  v.field("lifted_weighings", x.lifted_weighings, "Weighings with one axle lifted.");
  v.field("limits", x.limits, "What the builder accepts.");
  v.field("variants", x.variants, "Named changes to look at beside the build as it is.");
}

}  // namespace rig::build
