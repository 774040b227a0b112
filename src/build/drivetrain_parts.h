#pragma once

#include <optional>
#include <string>
#include <vector>

#include "build/frame_parts.h"
#include "build/values.h"

/// The drivetrain as the build file tells it: the cases from the engine back, what carries them,
/// the propeller shafts to the axles, and the gears.
namespace rig::build {

enum class SegmentKind { kEngine, kBellhousing, kGearbox, kAdapter, kTransferCase };

/// One piece of the line of cases, bolted to the one before it in the file. The first one, and any
/// that stands apart, says where it starts.
struct Segment {
  std::string label;
  SegmentKind kind = SegmentKind::kEngine;
  Length length;   ///< From its front to its rear face, along the crank line.
  Reference mass;  ///< Its item of the masses.
  Point
      starts_at;  ///< Centre of its front face, of a first one; unknown: where the one before ends.
  Angle slope;    ///< Of its line, + down to the rear; unknown: as the one before; level.
  AngularStiffness bending;   ///< End moments per angle between its faces; unknown: stiff.
  Torque flange_limit;        ///< Most bending moment that its rear face may carry.
  Length width;               ///< Across, half of it on each side of its line.
  Length above;               ///< How far it reaches above its line ...
  Length below;               ///< ... and below it.
  std::string front_pattern;  ///< Bolt pattern of the face, as the shop calls it.
  std::string rear_pattern;
  Fate fate = Fate::kStays;

  bool operator==(const Segment&) const = default;
};

/// A rubber between the cases and the frame. `both_sides`: given for the left, mirrored to the
/// right.
struct DriveMount {
  std::string label;
  bool both_sides = false;
  Reference segment;
  Point at;
  Stiffness compression;  ///< Along its own axis.
  Stiffness shear;        ///< Across its axis, lengthwise and crosswise alike.
  Stiffness lengthwise;   ///< Where it differs from `shear`.
  Angle lean;             ///< Of its axis from upright, + top towards the middle of the truck.
  Length snub_gap;        ///< Travel along its axis until it is stopped, either way.
  Stiffness snub_rate;    ///< Added beyond that.
  Force rating;           ///< Most it may carry along its axis.
  Fate fate = Fate::kStays;

  bool operator==(const DriveMount&) const = default;
};

/// Where a shaft leaves a case.
struct Output {
  std::string label;
  Reference segment;
  End end = End::kRear;
  Point joint;  ///< Centre of the shaft's joint at it.
  Angle slope;  ///< Of its axis, + down to the rear; unknown: its segment's.

  bool operator==(const Output&) const = default;
};

enum class ShaftJointKind { kCardan, kDoubleCardan, kConstantVelocity };

struct ShaftJoint {
  ShaftJointKind kind = ShaftJointKind::kCardan;
  Angle bind;     ///< Greatest angle it can take.
  Torque rating;  ///< Most torque in short use.

  bool operator==(const ShaftJoint&) const = default;
};

struct ShaftTube {
  Length outside_diameter;
  Length wall;

  bool operator==(const ShaftTube&) const = default;
};

/// The sliding spline: lengths are those between the joints of the piece that slides.
struct Slip {
  Length closed;            ///< Pushed home.
  Length open;              ///< Where the splines come out.
  Length least_engagement;  ///< Of the splines, that must be left.
  Length plain_yoke;        ///< From the joint's centre to the weld, at the plain end ...
  Length sliding_yoke;      ///< ... and at the sliding end, pushed home.
  Length stub_diameter;     ///< Of the splined bar, thinner than the tube.
  Length stub_length;       ///< Of it between joint and tube, at ride.
  Mass mass;                ///< Of the sliding yoke with its splines.

  bool operator==(const Slip&) const = default;
};

/// A bearing on the frame that ends the front piece of a shaft in two pieces.
struct CentreBearing {
  Point joint;           ///< Centre of the joint just behind it.
  ShaftJoint behind;     ///< That joint.
  ShaftTube front_tube;  ///< Of the piece before it.
  Angle front_yokes;     ///< How far that piece's yokes are out of line.
  Stiffness rate;        ///< Of its rubber, across the shaft; unknown: does not give.
  Length past;           ///< From its middle on to the joint; unknown: none.

  bool operator==(const CentreBearing&) const = default;
};

/// A propeller shaft from a case to an axle, or to a case that stands apart.
struct PropShaft {
  std::string label;
  Reference from;   ///< Output.
  Reference to;     ///< Axle, or segment.
  Point end_joint;  ///< Centre of the joint at that end, as drawn.
  ShaftJoint start;
  ShaftJoint end;
  ShaftTube tube;
  Angle yokes;  ///< How far the tube's two yokes are out of line; unknown: in line.
  Slip slip;
  std::optional<CentreBearing> bearing;
  Reference steel;       ///< Of the tube.
  AngularSpeed fastest;  ///< That it turns; unknown: the drivetrain's `shaft_speed`.

  bool operator==(const PropShaft&) const = default;
};

struct Engine {
  Torque torque;              ///< Most at the crank.
  AngularSpeed torque_speed;  ///< Where it makes that.
  AngularSpeed idle;
  AngularSpeed top_speed;  ///< Governed or red line.
  int cylinders = 0;       ///< 0: not told. Four-stroke.
  GearRatio converter;     ///< Most torque multiplication of a converter; unknown: a clutch.

  bool operator==(const Engine&) const = default;
};

/// A gear, or a range of the transfer cases: turns in for one turn out.
struct Gear {
  std::string label;
  GearRatio ratio;

  bool operator==(const Gear&) const = default;
};

/// What lifts the cases.
struct Hoist {
  Mass capacity;  ///< At the hole it is set to, from its own plate.
  Angle sling;    ///< Of each leg from level.
  int legs = 0;   ///< 0: not told.

  bool operator==(const Hoist&) const = default;
};

/// What hangs on the hoist at once.
struct Lift {
  std::string label;
  std::vector<Reference> takes;  ///< Segments.
  Length hook;                   ///< Station of the hook.

  bool operator==(const Lift&) const = default;
};

/// A place where a case comes near something: shifter and floor, fan and radiator, pan and axle.
struct Gap {
  std::string label;
  Reference segment;  ///< The case that moves.
  Point at;           ///< On it.
  Point to;           ///< On what it comes near.
  Reference axle;     ///< That `to` belongs to; empty: the frame or body.
  Length least;       ///< That is to be left; unknown: 1/2 in (common practice).

  bool operator==(const Gap&) const = default;
};

/// How far the line of cases may still be moved from where it is drawn.
struct Placing {
  Length up;
  Length down;
  Length left;        ///< Unknown: not at all.
  Length right;       ///< Unknown: not at all.
  Angle least_slope;  ///< Of the first case, + down to the rear.
  Angle most_slope;

  bool operator==(const Placing&) const = default;
};

/// How torque is shared between the axles.
enum class CentreKind {
  kLocked,       ///< Both turn alike: either may have to take all of it.
  kDifferential  ///< By the axles' `drive_share`, as long as both grip.
};

struct Drivetrain {
  Map<Segment> segments;
  Map<DriveMount> mounts;
  Map<Output> outputs;
  Map<PropShaft> shafts;
  std::optional<Engine> engine;
  Map<Gear> gears;   ///< Of the gearbox.
  Map<Gear> ranges;  ///< Of all that is behind it, together.
  Ratio grip;        ///< Friction of the tyres on the ground.
  Ratio efficiency;  ///< Share of the torque that gears and joints leave.
  CentreKind centre = CentreKind::kLocked;
  AngularSpeed shaft_speed;  ///< Fastest that the shafts turn; unknown: from engine and gears.
  Map<Gap> gaps;
  std::optional<Placing> placing;
  std::optional<Hoist> hoist;
  Map<Lift> lifts;

  bool operator==(const Drivetrain&) const = default;
};

}  // namespace rig::build
