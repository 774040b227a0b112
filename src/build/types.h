#pragma once

#include <optional>
#include <string>
#include <vector>

#include "build/drivetrain_parts.h"
#include "build/frame_parts.h"
#include "build/values.h"

/// The build: one truck as its file tells it, typed and in SI. Everything may be unknown: what
/// needs an unknown value says so and is left out; nothing is guessed. docs/build-file.md describes
/// the file.
namespace rig::build {

/// A rubber or polymer bush; its bolt runs along `bolt`.
struct Bushing {
  Stiffness radial;
  Stiffness axial;
  AngularStiffness conical;    ///< Against tilting the bolt in the bush.
  AngularStiffness torsional;  ///< Against turning about the bolt.
  Axis bolt = Axis::kCrosswise;
};

/// One end of a link: where it is, and a bush if it has one. Without a bush it is an ideal ball.
struct JointEnd {
  Point at;
  std::optional<Bushing> bushing;
  Angle swing_limit;  ///< Greatest angle of the joint away from where it sits as drawn.
};

struct Tube {
  Length outside_diameter;
  Length wall;
};

enum class LinkRole { kLower, kUpper, kTrackBar };

/// A bar with a joint at each end. `both_sides`: given for the left, mirrored to the right.
struct Link {
  std::string label;
  LinkRole role = LinkRole::kLower;
  bool both_sides = false;
  JointEnd frame;
  JointEnd axle;
  std::optional<Tube> tube;
};

enum class ArmKind { kAArm, kRadiusArm };

/// A stiff piece with three joints. A-arm: the apex on the axle, two feet on the frame. Radius arm:
/// the apex on the frame, two feet on the axle.
struct Arm {
  std::string label;
  ArmKind kind = ArmKind::kAArm;
  bool both_sides = false;
  JointEnd apex;
  JointEnd first;
  JointEnd second;
};

enum class CoilEnds { kSquaredGround, kSquared, kPlain };

/// A coil's wire, as calipers and counting tell it.
struct CoilWire {
  Length diameter;
  Length mean_diameter;  ///< Of the coil, to the middle of the wire.
  Ratio active_turns;    ///< Those free to work.
  CoilEnds ends = CoilEnds::kSquaredGround;
};

/// A coil between two seats. With a wire, a rate and a solid length that are not given follow from
/// it.
struct Coil {
  std::string label;
  bool both_sides = false;
  Point upper;  ///< Centre of the seat on the frame.
  Point lower;  ///< Centre of the seat on the axle.
  Length free_length;
  Stiffness rate;
  Length solid_length;
  std::optional<CoilWire> wire;
};

/// The leaves of a pack, all of one width and thickness.
struct Leaves {
  int count = 1;
  Length width;
  Length thickness;
  int full_length_leaves = 1;  ///< The main leaf included.
};

/// A semi-elliptic leaf pack. Eyes are where the pins are on the frame (rear: the spring's own eye,
/// at the shackle); the seat is where the main leaf sits on the axle. With its leaves, a rate that
/// is not given follows from them.
struct LeafPack {
  std::string label;
  bool both_sides = false;
  Point front_eye;
  Point rear_eye;
  Point seat;
  Length free_arch;  ///< Seat to eye line, unloaded; + when the seat is below the eyes.
  Stiffness rate;
  Stiffness lateral_rate;
  Stiffness eye_radial_rate;  ///< Of the bush in the fixed eye; unknown: rigid.
  bool shackle_in_front = false;
  std::optional<Leaves> leaves;
};

/// A rubber stop that touches when its two points are `free_height` apart.
struct BumpStop {
  std::string label;
  bool both_sides = false;
  Point frame;
  Point axle;
  Length free_height;
  Stiffness rate;      ///< At first touch.
  Stiffness end_rate;  ///< At `end_travel`; the rate grows with the square of compression.
  Length end_travel;
};

struct Damper {
  std::string label;
  bool both_sides = false;
  Point frame;
  Point axle;
  Length closed_length;  ///< Eye to eye, fully in.
  Length open_length;    ///< Eye to eye, fully out.
  Force gas_force;       ///< Pushes the eyes apart.
  Damping damping;       ///< Slope of force against speed, mean of bump and rebound.
};

/// Resists the difference in height of its two ends.
struct AntiRollBar {
  std::string label;
  Length span;     ///< Between the two drop links on the axle.
  Stiffness rate;  ///< Force at one end per difference in travel between the ends.
};

struct Axle {
  std::string label;
  End end = End::kFront;
  Length station;  ///< Of the wheel line as drawn; 0 for the front axle by definition of the datum.
  Length height;   ///< Of the wheel centres above the floor as drawn.
  Length track;    ///< Between tyre centre planes.
  Reference tyre;
  bool steered = false;
  Ratio brake_share;     ///< Of the whole truck's braking.
  Ratio drive_share;     ///< Of the whole truck's driving force.
  GearRatio gear_ratio;  ///< Turns of the pinion for one of the wheels.
  Mass rating;           ///< Gross axle weight rating.
  Angle caster;          ///< As drawn, + top rearward.
  Angle pinion;          ///< As drawn, + nose up.
  Length bump_travel;    ///< Wanted, from the drawn position.
  Length droop_travel;   ///< Wanted, from the drawn position.
  Length lift;           ///< Wanted at ride, beyond where the axle stands in the mock-up.
  Map<Link> links;
  Map<Arm> arms;
  Map<Coil> coils;
  Map<LeafPack> leaf_packs;
  Map<BumpStop> bump_stops;
  Map<Damper> dampers;
  Map<AntiRollBar> anti_roll_bars;
};

struct Tyre {
  std::string label;
  Length free_radius;
  Length width;
  Stiffness rate;
  Mass rating;        ///< Load rating of the tyre.
  Mass wheel_rating;  ///< Load rating of the wheel.
};

enum class Liquid { kGasoline, kDiesel, kWater, kEngineOil, kCoolant, kOther };

/// A tank and what is in it; the tank's own mass is a mass item.
struct Fluid {
  Liquid liquid = Liquid::kOther;
  Volume volume;    ///< Of the full tank.
  Ratio fill;       ///< 0 to 1.
  Density density;  ///< Overrides the liquid's usual density.
};

enum class Shape { kBox, kCylinder };

/// Outer size of a mass item, its mass spread evenly in it.
struct Size {
  Shape shape = Shape::kBox;
  Length length;                  ///< Lengthwise (box), along the axis (cylinder).
  Length width;                   ///< Crosswise (box only).
  Length height;                  ///< Upright (box only).
  Length diameter;                ///< Cylinder only.
  Axis axis = Axis::kLengthwise;  ///< Of a cylinder.
};

/// Something with mass. `on` empty: on the frame; else the id of the axle that carries it
/// (unsprung).
struct MassItem {
  std::string label;
  Mass mass;
  std::optional<Fluid> fluid;  ///< Instead of `mass`.
  Point at;
  std::optional<Size> size;
  Reference on;
  bool optional_load = false;  ///< Aboard only in load states that list it.
};

struct Fill {
  Ratio fill;
};

struct Trailer {
  Mass mass;
  Force tongue_load;  ///< Downward on the hitch ball.
};

/// Who and what is aboard. Items that are not optional loads are always aboard.
struct LoadState {
  std::string label;
  std::vector<Reference> aboard;  ///< Optional loads that are aboard.
  Map<Fill> fills;                ///< By id of the fluid's mass item, instead of its own fill.
  std::optional<Trailer> trailer;
};

/// Scale readings under the four tyres.
struct CornerWeighing {
  std::string label;
  Reference state;
  Mass front_left, front_right, rear_left, rear_right;
};

/// One axle lifted, the other's weight read level and lifted (method of ISO 10392).
struct LiftedWeighing {
  std::string label;
  Reference state;
  End lifted = End::kRear;
  Length lift;          ///< Rise of the lifted axle's wheel centres.
  Mass level_reading;   ///< Of the axle that stays on the scale.
  Mass lifted_reading;  ///< The same axle, the other one lifted.
};

struct Hitch {
  Point ball;
  Force tongue_rating;
  Mass trailer_rating;
};

struct Ratings {
  Mass gross_vehicle;      ///< GVWR.
  Mass gross_combination;  ///< GCWR.
};

/// What the builder accepts; a value not given falls back on the check's published or
/// common-practice default.
struct Limits {
  Angle caster_change;   ///< Over the wanted travel, either way.
  Angle pinion_change;   ///< Over the wanted travel, either way.
  Length lateral_shift;  ///< Over the wanted travel, either way.
  Ratio roll_steer;      ///< Either way.
  Ratio anti_squat_min, anti_squat_max;
  Ratio anti_dive_max;
  Length height_error;        ///< Between how it sits and how it is drawn, at a corner.
  Length spring_travel_left;  ///< Least bump travel before solid.
  Length shock_travel_left;   ///< Least shock travel left at either end of the wanted travel.
  Angle side_slope;           ///< Least static side-slope limit.
};

/// What a variant changes: JSON pointers and what stands there instead. The values stay in the
/// document; build/variant.h lays them over.
struct Changes {};

/// Named changes to look at beside the build as it is.
struct Variant {
  std::string label;
  Changes changes;
};

struct Units {
  bool metric = false;
  int fraction_of_inch = 16;

  bool operator==(const Units&) const = default;
};

struct Build {
  int version = 1;
  std::string name;
  std::string notice;  ///< A line printed with everything, such as that the data is invented.
  Units units;
  Map<LoadState> load_states;
  Reference ride_state;  ///< The load state in which it must sit as drawn.
  Map<MassItem> masses;
  Map<Tyre> tyres;
  Map<Axle> axles;
  Frame frame;
  Drivetrain drivetrain;
  std::optional<Hitch> hitch;
  Ratings ratings;
  Map<CornerWeighing> corner_weighings;
  Map<LiftedWeighing> lifted_weighings;
  Limits limits;
  Map<Variant> variants;
};

}  // namespace rig::build
