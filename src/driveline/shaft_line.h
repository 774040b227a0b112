#pragma once

#include <array>
#include <cstddef>

#include "base/nan.h"
#include "base/result.h"
#include "driveline/cardan.h"
#include "geometry/pose.h"

namespace rig::driveline {

inline constexpr std::size_t kMostJoints = 4;
inline constexpr std::size_t kMostTubes = kMostJoints - 1;

enum class JointKind {
  kCardan,
  kDoubleCardan,      ///< Two crosses, centred so that each takes half of the angle.
  kConstantVelocity,  ///< Balls or tripods.
};

struct LineJoint {
  JointKind kind = JointKind::kCardan;
  Vec3 p_VP = Vec3::Constant(kNaN);  ///< Its centre.
};

/// Shafts in a row as they stand in one pose: an input shaft, joints with a tube between each and
/// the next, an output shaft.
struct ShaftLine {
  std::size_t joint_count = 0;          ///< 1 to `kMostJoints`.
  Vec3 d_in_V = Vec3::Constant(kNaN);   ///< Along the input shaft, towards the joints; any length.
  Vec3 d_out_V = Vec3::Constant(kNaN);  ///< Along the output shaft, away from them; any length.
  std::array<LineJoint, kMostJoints> joints;
  /// Of each tube: the turn from its yoke at the joint before it to its yoke at the joint after it,
  /// right-handed about the way from input to output. 0 = yokes in line. Where the joint before is
  /// no Cardan joint, from that joint's input yoke, carried straight through.
  std::array<double, kMostTubes> phase_rad{};

  std::size_t tube_count() const { return joint_count - 1; }
};

struct TubeMotion {
  double length_m = 0;  ///< From joint centre to joint centre.
  JointMotion drive;    ///< What it does while the input shaft turns steadily.
  JointMotion coast;    ///< What it does while the output shaft turns steadily.
};

struct ShaftLineMotion {
  std::array<double, kMostJoints> joint_angle_rad{};
  /// The one Cardan joint that makes of a steady input just what the whole line makes of it. Its
  /// angle is the resultant angle; driven from the other end it is the same.
  JointMotion line;
  std::array<TubeMotion, kMostTubes> tubes;
};

/// Joint angles, and how unsteadily the output and each tube turn.
///
/// Rigid shafts and joints without play. A Cardan joint carries the direction u of its input yoke's
/// arm to the output side by projecting it along that shaft: a linear map, as is every turn of a
/// yoke about its tube. A line is a product of such maps, and by its singular values exactly one
/// Cardan joint with cos(angle) = smallest / greatest; no turn is stepped through. Joints in
/// different planes, with yokes at any phase, are nothing special. Limits:
/// docs/design/driveline.md.
///
/// @errors  driveline.joint_count, zero_axis, joint_place, zero_length, phase_unknown, joint_square
///          (an angle of 90 degrees or more: the axes do not point along the line); all in one
///          pass, their path names the field.
/// @accuracy  Rounding: 1e-15 of the joints' own tan^2(b / 2) in that of the line, which is some
///            1e-8 rad of a line that cancels.
/// @source  [FischerPaul] for the phase between planes; product of the maps: own derivation, held
///          against the joints' crosses by direct vectors.
Result<ShaftLineMotion> calc_shaft_line(const ShaftLine& line);

}  // namespace rig::driveline
