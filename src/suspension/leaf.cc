#include <cmath>

#include "suspension/leaf_internal.h"

namespace rig::suspension {
namespace {

/// Working length of the fixed-eye half whose eye stands `run_m` from the seat and `rise_m` above
/// it: run = L/4 + sqrt((3L/4)^2 - rise^2), solved for L.
double calc_half_length(double run_m, double rise_m) {
  const double square = run_m * run_m + rise_m * rise_m;
  return -0.5 * run_m + std::sqrt(0.25 * run_m * run_m + 2 * square);
}

}  // namespace

LeafElements calc_leaf_elements(const LeafPlaces& p) {
  const double a = std::abs(p.front_eye.x() - p.seat.x());
  const double b = std::abs(p.rear_eye.x() - p.seat.x());
  const double K = p.rate_N_per_m * a * a * b * b / (a + b);

  // Load as drawn: how far the arch has come down from free.
  const double share_front = b / (a + b);  // Height of the eye line above the seat station.
  const double eye_line =
      share_front * p.front_eye.z() + (1 - share_front) * p.rear_eye.z() - p.seat.z();
  const double load_N = p.rate_N_per_m * (p.free_arch_m - eye_line);

  // The two eye forces balance about C, so that the axle as drawn is at rest under its tyre load.
  const double to_front = p.front_eye.x() - p.p_VC.x(), to_rear = p.p_VC.x() - p.rear_eye.x();
  const double front_N = load_N * to_rear / (to_front + to_rear);

  LeafElements elements;
  const auto half = [&](const char* name, const Vec3& eye, double length, double force_N) {
    const double rate = K / (length * length * length);
    LeafHalf h;
    h.name = name;
    h.p_VP = eye;
    h.rate_N_per_m = rate;
    h.p_AQ = eye - p.p_VC;
    h.rise_unloaded_m = force_N / rate;
    h.lateral_rate_N_per_m = p.lateral_rate_N_per_m / 2;
    elements.halves.push_back(h);
  };
  half(".front", p.front_eye, a, front_N);
  half(".rear", p.rear_eye, b, load_N - front_N);

  const Vec3& eye = p.shackle_in_front ? p.rear_eye : p.front_eye;
  const double towards = eye.x() > p.seat.x() ? 1 : -1;
  const double length = calc_half_length(std::abs(eye.x() - p.seat.x()), eye.z() - p.seat.z());
  elements.p_VEye = eye;
  elements.p_VPivot = Vec3(p.seat.x() + towards * length / 4, eye.y(), p.seat.z());
  return elements;
}

}  // namespace rig::suspension
