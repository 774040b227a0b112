#pragma once

#include <cmath>

#include "suspension/model.h"

/// Scalars with first and second derivatives in the six axle coordinates, for the elements'
/// energies.
namespace rig::suspension {

/// The axle's attitude and the three axes its angles turn about, all in V.
struct AxleAxes {
  Vec3 p_VC = Vec3::Zero();
  Mat3 R_VA = Mat3::Identity();
  Vec3 w_roll = Vec3::UnitX();   ///< Spin per unit of roll.
  Vec3 w_pitch = Vec3::UnitY();  ///< Spin per unit of pitch.

  static Vec3 w_yaw() { return Vec3::UnitZ(); }
  const Vec3 w(int angle) const { return angle == 0 ? w_roll : angle == 1 ? w_pitch : w_yaw(); }
};

inline AxleAxes axes_from_coordinates(const Vec6& q) {
  const double cr = std::cos(q[kRoll]), sr = std::sin(q[kRoll]);
  const double cp = std::cos(q[kPitch]), sp = std::sin(q[kPitch]);
  const double cy = std::cos(q[kYaw]), sy = std::sin(q[kYaw]);
  AxleAxes axes;
  axes.p_VC = q.head<3>();
  axes.R_VA << cy * cp, cy * sp * sr - sy * cr, cy * sp * cr + sy * sr,  //
      sy * cp, sy * sp * sr + cy * cr, sy * sp * cr - cy * sr,           //
      -sp, cp * sr, cp * cr;
  axes.w_roll = axes.R_VA.col(0);
  axes.w_pitch = Vec3(-sy, cy, 0);
  return axes;
}

/// Value, gradient and Hessian.
struct Jet {
  double value = 0;
  Vec6 gradient = Vec6::Zero();
  Mat6 hessian = Mat6::Zero();

  Jet& operator+=(const Jet& other) {
    value += other.value;
    gradient += other.gradient;
    hessian += other.hessian;
    return *this;
  }
};

/// f(x) of a jet x, from f, f' and f'' at its value.
inline Jet chain(const Jet& x, double f, double f1, double f2) {
  return {f, f1 * x.gradient, f1 * x.hessian + f2 * x.gradient * x.gradient.transpose()};
}

/// 1/2 k (x - x0)^2.
inline Jet spring_energy(const Jet& x, double x0, double rate) {
  const double stretch = x.value - x0;
  return chain(x, 0.5 * rate * stretch * stretch, rate * stretch, rate);
}

/// a / b.
inline Jet quotient(const Jet& a, const Jet& b) {
  const double v = a.value / b.value;
  const Vec6 g = (a.gradient - v * b.gradient) / b.value;
  const Mat6 cross = g * b.gradient.transpose();
  return {v, g, (a.hessian - v * b.hessian - cross - cross.transpose()) / b.value};
}

/// Derivatives of the axle-fixed point that stands at `r_V` from C in the three angles: columns
/// w_k x r.
inline Mat3 turning(const AxleAxes& axes, const Vec3& r_V) {
  Mat3 turned;
  for (int k = 0; k < 3; ++k) turned.col(k) = axes.w(k).cross(r_V);
  return turned;
}

/// Derivatives of that point in all coordinates.
inline Eigen::Matrix<double, 3, 6> point_jacobian(const AxleAxes& axes, const Vec3& r_V) {
  Eigen::Matrix<double, 3, 6> J;
  J << Mat3::Identity(), turning(axes, r_V);
  return J;
}

/// Second derivatives of `u . (rotated r_V)` in the three angles. Angles nest yaw outermost, so the
/// derivative in angles i <= j is w_j x (w_i x r).
/// @param turned  `turning(axes, r_V)`.
inline Mat3 rotation_curvature(const AxleAxes& axes, const Mat3& turned, const Vec3& u) {
  Mat3 H;
  for (int i = 0; i < 3; ++i) {
    for (int j = i; j < 3; ++j) H(i, j) = H(j, i) = u.dot(axes.w(j).cross(turned.col(i)));
  }
  return H;
}

/// Between frame point P (in V) and axle point Q (in A).
inline double calc_distance(const AxleAxes& axes, const Vec3& p_VP, const Vec3& p_AQ) {
  return (axes.p_VC + axes.R_VA * p_AQ - p_VP).norm();
}

/// The distance between frame point P (in V) and axle point Q (in A).
inline Jet distance_jet(const AxleAxes& axes, const Vec3& p_VP, const Vec3& p_AQ) {
  const Vec3 r = axes.R_VA * p_AQ;
  const Vec3 d = axes.p_VC + r - p_VP;
  const double length = d.norm();
  const Vec3 u = d / length;
  const Mat3 turned = turning(axes, r);
  Jet jet;
  jet.value = length;
  jet.gradient << u, turned.transpose() * u;
  // Of J = [1, turned]: (J^T J - g g^T) / length.
  jet.hessian << Mat3::Identity(), turned, turned.transpose(), turned.transpose() * turned;
  jet.hessian = (jet.hessian - jet.gradient * jet.gradient.transpose()) / length;
  jet.hessian.bottomRightCorner<3, 3>() += rotation_curvature(axes, turned, u);
  return jet;
}

/// Component of frame point P, seen from C, along an axle-fixed axis: (R a) . (P - C).
inline Jet component_jet(const AxleAxes& axes, const Vec3& axis_A, const Vec3& p_VP) {
  const Vec3 n = axes.R_VA * axis_A;
  const Vec3 d = p_VP - axes.p_VC;
  Jet jet;
  jet.value = n.dot(d);
  jet.gradient.head<3>() = -n;
  const Mat3 turned = turning(axes, n);
  jet.gradient.tail<3>() = turned.transpose() * d;
  jet.hessian.topRightCorner<3, 3>() = -turned;
  jet.hessian.bottomLeftCorner<3, 3>() = -turned.transpose();
  jet.hessian.bottomRightCorner<3, 3>() = rotation_curvature(axes, turned, d);
  return jet;
}

/// Component of the way from frame point P to axle point Q along a frame-fixed axis: a . (Q - P).
inline Jet frame_component_jet(const AxleAxes& axes, const Vec3& axis_V, const Vec3& p_VP,
                               const Vec3& p_AQ) {
  const Vec3 r = axes.R_VA * p_AQ;
  Jet jet;
  jet.value = axis_V.dot(axes.p_VC + r - p_VP);
  const Mat3 turned = turning(axes, r);
  jet.gradient << axis_V, turned.transpose() * axis_V;
  jet.hessian.bottomRightCorner<3, 3>() = rotation_curvature(axes, turned, axis_V);
  return jet;
}

}  // namespace rig::suspension
