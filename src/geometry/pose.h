#pragma once

#include <Eigen/Core>
#include <Eigen/Geometry>

namespace rig {

using Vec3 = Eigen::Vector3d;
using Mat3 = Eigen::Matrix3d;

/// Position and orientation of a frame B seen from a frame A: `p_AQ = R_AB * p_BQ + p_AB`.
struct Pose {
  Mat3 R_AB = Mat3::Identity();
  Vec3 p_AB = Vec3::Zero();

  Vec3 operator*(const Vec3& p_BQ) const { return R_AB * p_BQ + p_AB; }
  Pose operator*(const Pose& X_BC) const { return {R_AB * X_BC.R_AB, R_AB * X_BC.p_AB + p_AB}; }
  Pose inverse() const { return {R_AB.transpose(), -(R_AB.transpose() * p_AB)}; }
};

/// Elementary rotations about +x, +y, +z by an angle in radians (right-handed).
inline Mat3 rotation_x(double angle_rad) {
  return Eigen::AngleAxisd(angle_rad, Vec3::UnitX()).toRotationMatrix();
}
inline Mat3 rotation_y(double angle_rad) {
  return Eigen::AngleAxisd(angle_rad, Vec3::UnitY()).toRotationMatrix();
}
inline Mat3 rotation_z(double angle_rad) {
  return Eigen::AngleAxisd(angle_rad, Vec3::UnitZ()).toRotationMatrix();
}

/// Rz(yaw) Ry(pitch) Rx(roll), ISO 8855 order and signs: pitch nose-down positive, yaw to the left.
inline Mat3 rotation_from_yaw_pitch_roll(double yaw_rad, double pitch_rad, double roll_rad) {
  return rotation_z(yaw_rad) * rotation_y(pitch_rad) * rotation_x(roll_rad);
}

}  // namespace rig
