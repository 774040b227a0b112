#pragma once

#include <string>
#include <vector>

#include "build/types.h"

/// What the parts of a drivetrain say together: where the cases stand, which are in, how a mount
/// holds.
namespace rig::build {

/// Which parts of the drivetrain are in.
enum class Carried {
  kAsMade,    ///< As its makers carried it: what stays and what comes out.
  kAsPlanned  ///< What stays and what goes in.
};

bool is_in(Fate fate, Carried carried);

/// Direction to the rear of a line that falls to the rear by an angle; of length 1.
Vec3 rearward(double slope_rad);

/// Middle of the faces of one case.
struct CaseFaces {
  const Entry<Segment>* segment = nullptr;
  Vec3 p_VoF_V = Vec3::Constant(kNaN);
  Vec3 p_VoR_V = Vec3::Constant(kNaN);  ///< NaN where its length is not known.
  Vec3 d_V = Vec3::Constant(kNaN);      ///< Along its line, towards the rear; of length 1.
  int line = 0;  ///< Counts up where a case stands apart: those of one number are bolted together.
};

/// Of the segments that are in, in their order; places are NaN from where something is not known.
std::vector<CaseFaces> find_faces(const Drivetrain& drivetrain, Carried carried);

/// One side of a mount.
struct MountSide {
  int sign = 0;  ///< +1 the left, -1 the right of a pair; 0 a single one.
  Vec3 p_VoM_V = Vec3::Zero();
  Vec3 axis_V = Vec3::UnitZ();  ///< Of compression; of length 1.
};

/// Its places and axes, two of a pair; none while its place is not known.
std::vector<MountSide> find_sides(const DriveMount& mount);

/// Shear rate of bonded rubber over its rate in compression, where it is not told; common practice
/// (from memory).
inline constexpr double kShearOverCompression = 1.0 / 3;

/// N/m, K = k_c a a^T + k_s s s^T + k_l l l^T: l is what is left of lengthwise across the axis a, s
/// the third way.
/// @param axis_V  Of length 1, not lengthwise.
Mat3 mount_stiffness(const Vec3& axis_V, double compression_N_per_m, double shear_N_per_m,
                     double lengthwise_N_per_m);

/// The same of a mount on one side. A shear rate that is not told is `kShearOverCompression` of
/// that in compression, a lengthwise rate as the shear rate. NaN without a rate in compression.
Mat3 mount_stiffness(const DriveMount& mount, const MountSide& side);

/// The mounts that carry a mass as one of the cases, with the others that are bolted to it; none
/// where it is no case or its line of cases has none.
std::vector<const Entry<DriveMount>*> find_carriers(const Drivetrain& drivetrain,
                                                    const std::string& mass_id,
                                                    Carried carried = Carried::kAsPlanned);

}  // namespace rig::build
