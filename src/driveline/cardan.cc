#include "driveline/cardan.h"

#include <cmath>
#include <numbers>

#include "base/require.h"

namespace rig::driveline {
namespace {

void require_joint_angle(double angle_rad) {
  RIG_REQUIRE(angle_rad >= 0 && angle_rad < std::numbers::pi / 2);
}

}  // namespace

JointMotion calc_joint_motion_from_half_tangent(double half_tangent_squared) {
  const double t = half_tangent_squared;
  RIG_REQUIRE(t >= 0 && t < 1);
  const double c = (1 - t) / (1 + t);
  const double s2 = 4 * t / ((1 + t) * (1 + t));
  // |acceleration| = c s2 sin 2 phi / (A - B x)^2, x = cos 2 phi; its square is greatest where
  // B x^2 + A x - 2 B = 0.
  const double A = 1 - s2 / 2, B = s2 / 2;
  const double x = 4 * B / (A + std::sqrt(A * A + 8 * B * B));
  const double D = A - B * x;
  return {.angle_rad = 2 * std::atan(std::sqrt(t)),
          .greatest_ratio = 1 / c,
          .least_ratio = c,
          .acceleration_per_speed2 = c * s2 * std::sqrt((1 - x) * (1 + x)) / (D * D),
          .greatest_error_rad = std::atan(t / ((1 + t) * std::sqrt(c)))};
}

JointMotion calc_joint_motion(double angle_rad) {
  require_joint_angle(angle_rad);
  const double t = std::tan(angle_rad / 2);
  JointMotion motion = calc_joint_motion_from_half_tangent(t * t);
  motion.angle_rad = angle_rad;
  return motion;
}

double calc_output_turn_rad(double angle_rad, double input_turn_rad) {
  require_joint_angle(angle_rad);
  const double c = std::cos(angle_rad), lag = 2 * std::pow(std::sin(angle_rad / 2), 2);  // 1 - c
  const double y = std::sin(input_turn_rad), x = std::cos(input_turn_rad);
  return input_turn_rad + std::atan2(lag * x * y, c * x * x + y * y);
}

double calc_speed_ratio(double angle_rad, double input_turn_rad) {
  require_joint_angle(angle_rad);
  const double sx = std::sin(angle_rad) * std::cos(input_turn_rad);
  return std::cos(angle_rad) / (1 - sx * sx);
}

double calc_acceleration_per_speed2(double angle_rad, double input_turn_rad) {
  const double s = std::sin(angle_rad), ratio = calc_speed_ratio(angle_rad, input_turn_rad);
  return -ratio * ratio * s * s * std::sin(2 * input_turn_rad) / std::cos(angle_rad);
}

double solve_joint_angle_rad(double limit_rad_per_s2, double speed_rad_per_s) {
  RIG_REQUIRE(limit_rad_per_s2 > 0 && speed_rad_per_s > 0);
  const double wanted = limit_rad_per_s2 / (speed_rad_per_s * speed_rad_per_s);
  // The exact acceleration rises with the angle and is never below its small-angle form.
  double low = 0, high = std::sqrt(wanted);
  if (high >= std::numbers::pi / 2) high = std::nextafter(std::numbers::pi / 2, 0);
  for (int halvings = 0; halvings < 60; ++halvings) {
    const double middle = (low + high) / 2;
    const bool above = calc_joint_motion(middle).acceleration_per_speed2 > wanted;
    (above ? high : low) = middle;
  }
  return (low + high) / 2;
}

double calc_joint_angle_from_nonuniformity_rad(double nonuniformity) {
  const double U = nonuniformity;
  RIG_REQUIRE(U >= 0);
  // 1 / c - c = U.
  return std::acos(2 / (U + std::sqrt(U * U + 4)));
}

SecondaryCouples calc_secondary_couples(double angle_rad, double torque_Nm) {
  require_joint_angle(angle_rad);
  // With y = cos^2 of the turn from where the driving yoke is square to the plane of the shafts:
  // driving^2 = T^2 tan^2 b y, driven^2 = T^2 (1 + tan^2 b y - (cos b + sin^2 b y / cos b)^2).
  const double T = std::abs(torque_Nm), c = std::cos(angle_rad);
  return {.driving_Nm = T * std::tan(angle_rad),
          .driven_Nm = 2 * c * c >= 1 ? T * std::sin(angle_rad) : T / (2 * c)};
}

double calc_compound_angle_rad(double plan_rad, double side_rad) {
  return std::atan(std::hypot(std::tan(plan_rad), std::tan(side_rad)));
}

}  // namespace rig::driveline
