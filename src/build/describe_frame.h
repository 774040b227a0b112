#pragma once

#include "build/frame_parts.h"
#include "build/rules.h"
#include "build/words.h"

/// The frame's part of the build file's description: build/describe.h.
namespace rig::build {

template <typename V>
void describe(V& v, Point& x) {
  v.field("station", x.station, "Behind the front-axle line, + aft.", kOnTruck);
  v.field("offset", x.offset, "From the centreline, + left.", kOnTruck);
  v.field("height", x.height, "Above the floor.", kOnTruck);
}

template <typename V>
void describe(V& v, Steel& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("yield", x.yield, "Yield stress; without it a stress has no verdict.", kPositive);
  v.field("ultimate", x.ultimate, "Tensile strength.", kPositive);
  v.field("modulus", x.modulus, "Young's modulus; 200 GPa (29 000 ksi) if left out.", kPositive);
  v.field("poisson_ratio", x.poisson_ratio, "0.3 if left out.", Bounds{.min = 0, .max = 0.5});
  v.field("density", x.density, "7850 kg/m3 if left out.", kPositive);
}

template <typename V>
void describe(V& v, SectionSizes& x) {
  v.field("shape", x.shape, "What it is when it is sawn through.", Required{});
  v.field("depth", x.depth, "Outside, of a channel, hat or rectangular tube.", kPositive);
  v.field("width", x.width, "Outside, of a rectangular tube or a plate.", kPositive);
  v.field("flange", x.flange, "Of a channel, from the back of its web.", kPositive);
  v.field("crown", x.crown, "Of a hat, over its sides.", kPositive);
  v.field("brim", x.brim, "Of a hat, each, from the outside of its side.", kPositive);
  v.field("level_leg", x.level_leg, "Of an angle, outside.", kPositive);
  v.field("upright_leg", x.upright_leg, "Of an angle, outside.", kPositive);
  v.field("outside_diameter", x.outside_diameter, "Of a round tube.", kPositive);
  v.field("thickness", x.thickness, "Of the wall.", kPositive);
  v.field("flange_thickness", x.flange_thickness,
          "Of a channel's flanges, when it is not that of the web.", kPositive);
  v.field("inside_radius", x.inside_radius,
          "Of the bends of a channel, hat or angle; sharp if left out.", kNotNegative);
  v.field("outside_radius", x.outside_radius, "Of a rectangular tube's corners; sharp if left out.",
          kNotNegative);
}

template <typename V>
void describe(V& v, Stretch& x) {
  v.field("from", x.from, "Station where it begins.", kOnTruck);
  v.field("to", x.to, "Station where it ends.", kOnTruck);
  v.field("section", x.section, "Its section; of a taper, that at its front end.");
  v.field("section_end", x.section_end, "Of a taper: the section at its rear end.");
}

template <typename V>
void describe(V& v, Rail& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("both_sides", x.both_sides, "Given for the left and mirrored to the right.");
  v.field("opens", x.opens, "Which way a channel lies open; in if left out.");
  v.reference("steel", x.steel, "frame/steels", "What it is made of.");
  v.field("section", x.section, "Its section, but in the stretches that have another.");
  v.field("line", x.line, "Middle of the web at mid-depth, from front to rear.");
  v.field("stretches", x.stretches, "Where it has another section, or tapers.");
}

template <typename V>
void describe(V& v, BoxingPlate& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.reference("rail", x.rail, "frame/rails", "The rail it closes.");
  v.field("side", x.side, "On which side of the truck; both if left out.");
  v.field("from", x.from, "Station of its front end.", kOnTruck);
  v.field("to", x.to, "Station of its rear end.", kOnTruck);
  v.field("thickness", x.thickness, "Of the plate.", kPositive);
  v.field("fit", x.fit, "Between the flanges, or over their tips; between if left out.");
  v.field("inset", x.inset, "Behind the flanges' edges; flush if left out.", kNotNegative);
  v.field("taper", x.taper, "Over which each end runs out to a point; square if left out.",
          kNotNegative);
  v.reference("steel", x.steel, "frame/steels", "What it is made of; the rail's if left out.");
  v.field("fate", x.fate, "Whether it stays, comes out, goes in or is temporary.");
}

template <typename V>
void describe(V& v, Hole& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.reference("rail", x.rail, "frame/rails", "The rail it is in, or whose plate.");
  v.field("side", x.side, "On which side of the truck; both if left out.");
  v.field("wall", x.wall, "Through which wall it goes.", Required{});
  v.field("station", x.station, "Of its middle.", kOnTruck);
  v.field("above_lower_edge", x.above_lower_edge,
          "Of a hole in web or plate: its middle over the rail's lower outside.", kPositive);
  v.field("from_web", x.from_web, "Of a hole in a flange: its middle from the outside of the web.",
          kPositive);
  v.field("diameter", x.diameter, "Of the hole.", kPositive);
  v.field("purpose", x.purpose, "What it is for.");
  v.field("fate", x.fate, "Whether it stays, goes in (is new) or comes out (is filled).");
}

template <typename V>
void describe(V& v, CrossmemberPlace& x) {
  v.field("station", x.station, "Where it meets the rails.", kOnTruck);
  v.field("height", x.height, "Of its middle at the rails; the rails' mid-depth if left out.",
          kOnTruck);
}

template <typename V>
void describe(V& v, Bolts& x) {
  v.field("count", x.count, "At each end.", Allowed{kBoltCounts, true});
  v.field("diameter", x.diameter, "Of each.", kPositive);
  v.field("spacing", x.spacing, "Between the two furthest apart, centre to centre.", kPositive);
}

template <typename V>
void describe(V& v, EndPlate& x) {
  v.field("thickness", x.thickness, "Of the plate.", kPositive);
  v.field("bolt_rise", x.bolt_rise, "From its lower to its upper bolts, centre to centre.",
          kPositive);
  v.field("bolt_reach", x.bolt_reach, "From its front to its rear bolts, centre to centre.",
          kPositive);
}

template <typename V>
void describe(V& v, Crossmember& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("at", x.at, "Where it meets the rails.");
  v.field("section", x.section, "Its section.");
  v.field("opens", x.opens,
          "Which way a channel lies open, a hat's brims or an angle's leg point.");
  v.field("joint", x.joint, "How its ends are held.", Required{});
  v.field("fastening", x.fastening, "Welded or bolted; welded if left out.");
  v.field("bolts", x.bolts, "Of each end, if it is bolted.");
  v.field("end_plate", x.end_plate,
          "Welded to each end and bolted to the rail's web, a bolt at each corner.");
  v.reference("steel", x.steel, "frame/steels", "What it is made of.");
  v.field("fate", x.fate, "Whether it stays, comes out, goes in or is temporary.");
  v.field("line", x.line, "Corners between the rails from left to right, if it isn't straight.");
  v.reference("joins", x.joins, "frame/rails", "Rails it joins; those it passes if left out.");
}

template <typename V>
void describe(V& v, Mount& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("both_sides", x.both_sides, "Given for the left and mirrored to the right.");
  v.field("station", x.station, "Behind the front-axle line, + aft.", kOnTruck);
  v.field("offset", x.offset, "From the centreline, + left.", kOnTruck);
  v.reference("carries", x.carries, "masses", "What sits on it.");
  v.field("fate", x.fate, "Whether it stays, comes out or goes in.");
}

template <typename V>
void describe(V& v, Pull& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.field("at", x.at, "Where the rope or shackle pulls.");
  v.field("pull", x.pull, "The most it may pull.", kPositive);
  v.field("direction", x.direction, "Which way it pulls.", Required{});
}

template <typename V>
void describe(V& v, DriveTorque& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.reference("on", x.on, "masses", "What the shafts come out of: its mounts hold against them.");
  v.field("torque", x.torque,
          "Of all shafts towards the axles together: engine torque times the gears; + as of shafts "
          "that turn clockwise seen from the front.");
}

template <typename V>
void describe(V& v, Stand& x) {
  v.field("station", x.station, "Behind the front-axle line, + aft.", kOnTruck);
  v.field("side", x.side, "Under which rail; both if left out.");
}

template <typename V>
void describe(V& v, Stage& x) {
  v.field("label", x.label, "What the shop calls it.");
  v.reference("take_out", x.take_out, "frame/crossmembers|frame/plates", "What comes out now.");
  v.reference("put_in", x.put_in, "frame/crossmembers|frame/plates", "What goes in now.");
  v.field("stands", x.stands, "What it stands on; its wheels if there are none.");
  v.reference("aboard", x.aboard, "masses", "What sits on the frame meanwhile.");
}

template <typename V>
void describe(V& v, Frame& x) {
  v.field("twist_stiffness", x.twist_stiffness, "Between the axle lines.", kPositive);
  v.reference("own_mass", x.own_mass, "masses", "Which of the masses is the frame itself.");
  v.field("steels", x.steels, "What its parts are made of.");
  v.field("rails", x.rails, "The rails.");
  v.field("plates", x.plates, "Plates that close a channel rail to a box.");
  v.field("holes", x.holes, "Round holes in the rails and their plates.");
  v.field("crossmembers", x.crossmembers, "What joins the rails, tubes too.");
  v.field("mounts", x.mounts, "Where masses sit on the frame.");
  v.field("pulls", x.pulls, "Winch and recovery points.");
  v.field("drive_torques", x.drive_torques,
          "What the shafts turn with, and what holds against it.");
  v.field("stages", x.stages, "The work in its order, beginning with the truck as it came.");
}

}  // namespace rig::build
