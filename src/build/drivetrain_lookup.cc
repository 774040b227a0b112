#include "build/drivetrain_lookup.h"

#include <algorithm>
#include <cmath>

namespace rig::build {

bool is_in(Fate fate, Carried carried) {
  return fate == Fate::kStays ||
         fate == (carried == Carried::kAsMade ? Fate::kComesOut : Fate::kGoesIn);
}

Vec3 rearward(double slope_rad) { return {-std::cos(slope_rad), 0, -std::sin(slope_rad)}; }

std::vector<CaseFaces> find_faces(const Drivetrain& drivetrain, Carried carried) {
  std::vector<CaseFaces> out;
  double slope_rad = 0;
  Vec3 next = Vec3::Constant(kNaN);
  int line = 0;
  for (const auto& entry : drivetrain.segments) {
    const Segment& segment = entry.value;
    if (!is_in(segment.fate, carried)) continue;
    if (segment.slope.known()) slope_rad = segment.slope.si;
    CaseFaces faces{.segment = &entry, .p_VoF_V = next, .d_V = rearward(slope_rad)};
    if (segment.starts_at.known()) {
      faces.p_VoF_V = segment.starts_at.p_VP();
      if (!out.empty()) ++line;
    }
    faces.line = line;
    faces.p_VoR_V = faces.p_VoF_V + segment.length.si * faces.d_V;
    next = faces.p_VoR_V;
    out.push_back(faces);
  }
  return out;
}

std::vector<MountSide> find_sides(const DriveMount& mount) {
  std::vector<MountSide> out;
  if (!mount.at.known()) return out;
  for (const int sign : mount.both_sides ? std::vector{1, -1} : std::vector{0}) {
    MountSide side{.sign = sign, .p_VoM_V = mount.at.p_VP()};
    if (sign < 0) side.p_VoM_V.y() = -side.p_VoM_V.y();
    const double lean_rad = mount.lean.known() ? mount.lean.si : 0;
    const double y = side.p_VoM_V.y();
    const double inward = y > 0 ? -1 : y < 0 ? 1 : 0;
    side.axis_V = Vec3(0, inward * std::sin(lean_rad), std::cos(lean_rad)).normalized();
    out.push_back(side);
  }
  return out;
}

Mat3 mount_stiffness(const Vec3& axis_V, double compression_N_per_m, double shear_N_per_m,
                     double lengthwise_N_per_m) {
  const Vec3 across = axis_V.cross(Vec3::UnitX()).normalized();
  const Vec3 along = across.cross(axis_V);
  return compression_N_per_m * axis_V * axis_V.transpose() +
         shear_N_per_m * across * across.transpose() +
         lengthwise_N_per_m * along * along.transpose();
}

Mat3 mount_stiffness(const DriveMount& mount, const MountSide& side) {
  const double compression = mount.compression.si;
  const double shear = mount.shear.known() ? mount.shear.si : kShearOverCompression * compression;
  const double lengthwise = mount.lengthwise.known() ? mount.lengthwise.si : shear;
  return mount_stiffness(side.axis_V, compression, shear, lengthwise);
}

std::vector<const Entry<DriveMount>*> find_carriers(const Drivetrain& drivetrain,
                                                    const std::string& mass_id, Carried carried) {
  std::vector<const Entry<DriveMount>*> out;
  const auto faces = find_faces(drivetrain, carried);
  const auto is_mass = [&](const CaseFaces& one) {
    return !mass_id.empty() && one.segment->value.mass.id == mass_id;
  };
  const auto its = std::find_if(faces.begin(), faces.end(), is_mass);
  if (its == faces.end()) return out;
  for (const auto& mount : drivetrain.mounts) {
    if (!is_in(mount.value.fate, carried)) continue;
    const bool carries = std::any_of(faces.begin(), faces.end(), [&](const CaseFaces& one) {
      return one.line == its->line && one.segment->id == mount.value.segment.id;
    });
    if (carries) out.push_back(&mount);
  }
  return out;
}

}  // namespace rig::build
