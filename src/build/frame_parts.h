#pragma once

#include <optional>
#include <string>
#include <vector>

#include "build/values.h"

/// The ladder frame as the build file tells it: rails, boxing plates and crossmembers, what sits on
/// them, and the stages of the work.
namespace rig::build {

/// What a part is made of. What is not given falls back on the frame model's standard steel, but
/// for the yield stress: without it a stress has no verdict.
struct Steel {
  std::string label;
  Stress yield;
  Stress ultimate;
  Stress modulus;  ///< Young's.
  Ratio poisson_ratio;
  Density density;

  bool operator==(const Steel&) const = default;
};

enum class SectionShape { kChannel, kHat, kRectangularTube, kRoundTube, kPlate, kAngle };

/// A section by outside sizes. Each shape takes some of the sizes; the others may not be given.
struct SectionSizes {
  SectionShape shape = SectionShape::kChannel;
  Length depth;             ///< Channel, hat, rectangular tube.
  Length width;             ///< Rectangular tube; of a plate its larger size.
  Length flange;            ///< Channel: from the back of the web.
  Length crown;             ///< Hat: over the sides.
  Length brim;              ///< Hat: each, from the outside of its side.
  Length level_leg;         ///< Angle.
  Length upright_leg;       ///< Angle.
  Length outside_diameter;  ///< Round tube.
  Length thickness;
  Length flange_thickness;  ///< Channel: when it is not that of the web.
  Length inside_radius;     ///< Channel, hat, angle; unknown: a sharp corner.
  Length outside_radius;    ///< Rectangular tube; unknown: a sharp corner.

  bool operator==(const SectionSizes&) const = default;
};

/// A stretch of rail with another section, or one that tapers from `section` to `section_end`.
struct Stretch {
  Length from, to;  ///< Stations.
  std::optional<SectionSizes> section;
  std::optional<SectionSizes> section_end;

  bool operator==(const Stretch&) const = default;
};

enum class RailOpening { kIn, kOut };

/// One rail. `both_sides`: given for the left, mirrored to the right.
struct Rail {
  std::string label;
  bool both_sides = false;
  RailOpening opens = RailOpening::kIn;  ///< Of a channel.
  Reference steel;
  std::vector<Point>
      line;  ///< Middle of the web at mid-depth (of a tube: its middle), front first.
  std::optional<SectionSizes> section;
  Map<Stretch> stretches;

  bool operator==(const Rail&) const = default;
};

enum class Side { kBoth, kLeft, kRight };
enum class PlateFit { kBetween, kOverTips };

/// Whether a part is in the truck as it came (the donor) and as it is planned. `kTemporary`: only
/// in stages.
enum class Fate { kStays, kComesOut, kGoesIn, kTemporary };

/// A plate that closes a channel rail to a box.
struct BoxingPlate {
  std::string label;
  Reference rail;
  Side side = Side::kBoth;
  Length from, to;  ///< Stations.
  Length thickness;
  PlateFit fit = PlateFit::kBetween;
  Length inset;  ///< Of a plate between the flanges, behind their edges; unknown: flush.
  Length taper;  ///< Over which each end runs out to a point; unknown: cut square.
  Reference steel;
  Fate fate = Fate::kStays;

  bool operator==(const BoxingPlate&) const = default;
};

/// The wall of a channel rail, or of the plate that closes it.
enum class HoleWall { kWeb, kPlate, kUpperFlange, kLowerFlange };
enum class HolePurpose { kOther, kDrain, kAccess, kBolt, kLine };

/// A round hole in a wall of a rail, square through it.
struct Hole {
  std::string label;
  Reference rail;
  Side side = Side::kBoth;
  HoleWall wall = HoleWall::kWeb;
  Length station;           ///< Of its middle, as all places of it.
  Length above_lower_edge;  ///< Web, plate: over the rail's lower outside.
  Length from_web;          ///< Flanges: from the web's outside.
  Length diameter;
  HolePurpose purpose = HolePurpose::kOther;
  Fate fate = Fate::kStays;  ///< `kComesOut`: it is filled.

  bool operator==(const Hole&) const = default;
};

/// Where a crossmember meets the rails.
struct CrossmemberPlace {
  Length station;
  Length height;  ///< Of its reference line at the rails; unknown: the rail's mid-depth.

  bool operator==(const CrossmemberPlace&) const = default;
};

enum class Facing { kForward, kRearward, kUp, kDown };

/// How a crossmember's end is held.
enum class CrossmemberJoint {
  kWeb,                 ///< To the web alone.
  kFlanges,             ///< To both flanges and the web.
  kThroughWeb,          ///< A tube through the web.
  kThroughWebAndPlate,  ///< A tube through both walls of a box.
  kButted               ///< Against the face of a boxing plate or of a tube.
};
enum class Fastening { kWelded, kBolted };

/// The bolts of one end.
struct Bolts {
  int count = 1;
  Length diameter;
  Length spacing;  ///< Centre to centre, of the two furthest apart across the joint.

  bool operator==(const Bolts&) const = default;
};

/// A plate welded to each end and bolted to the rail's web, a bolt at each corner.
struct EndPlate {
  Length thickness;
  Length bolt_rise;   ///< From the lower to the upper bolts, centre to centre.
  Length bolt_reach;  ///< From the front to the rear bolts.

  bool operator==(const EndPlate&) const = default;
};

struct Crossmember {
  std::string label;
  CrossmemberPlace at;
  std::optional<SectionSizes> section;
  std::optional<Facing> opens;  ///< Of a channel, hat or angle.
  CrossmemberJoint joint = CrossmemberJoint::kWeb;
  Fastening fastening = Fastening::kWelded;
  std::optional<Bolts> bolts;
  std::optional<EndPlate> end_plate;
  std::vector<Point> line;       ///< Corners between the rails, left first; none: straight.
  std::vector<Reference> joins;  ///< Rails; none named: those that pass its station.
  Reference steel;
  Fate fate = Fate::kStays;

  bool operator==(const Crossmember&) const = default;
};

/// Where masses sit on the frame.
struct Mount {
  std::string label;
  bool both_sides = false;
  Length station;
  Length offset;
  std::vector<Reference> carries;
  Fate fate = Fate::kStays;

  bool operator==(const Mount&) const = default;
};

enum class PullDirection { kForward, kRearward, kLeft, kRight, kUp, kDown };

/// A winch or recovery point and what may pull on it.
struct Pull {
  std::string label;
  Point at;
  Force pull;
  PullDirection direction = PullDirection::kForward;

  bool operator==(const Pull&) const = default;
};

/// What the shafts towards the axles carry together, at the most, and whose mounts hold against it.
struct DriveTorque {
  std::string label;
  Reference on;   ///< The mass that the shafts come out of; mounts carry it.
  Torque torque;  ///< Positive as of shafts that turn clockwise seen from the front.

  bool operator==(const DriveTorque&) const = default;
};

/// A stand under a rail.
struct Stand {
  Length station;
  Side side = Side::kBoth;

  bool operator==(const Stand&) const = default;
};

/// The truck at one moment of the work. The first begins with the donor, each other one with what
/// the one before it left in.
struct Stage {
  std::string label;
  std::vector<Reference> take_out;  ///< Crossmembers and plates.
  std::vector<Reference> put_in;
  Map<Stand> stands;  ///< None: it stands on its wheels.
  std::vector<Reference> aboard;

  bool operator==(const Stage&) const = default;
};

struct Frame {
  /// Between the axle lines; overrides what the frame model would give.
  AngularStiffness twist_stiffness;
  Reference own_mass;  ///< The item of the masses that is the frame itself.
  Map<Steel> steels;
  Map<Rail> rails;
  Map<BoxingPlate> plates;
  Map<Hole> holes;
  Map<Crossmember> crossmembers;
  Map<Mount> mounts;
  Map<Pull> pulls;
  Map<DriveTorque> drive_torques;
  Map<Stage> stages;

  bool operator==(const Frame&) const = default;
};

}  // namespace rig::build
