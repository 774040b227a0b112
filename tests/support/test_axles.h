#pragma once

#include <string>
#include <vector>

#include "suspension/model.h"
#include "suspension/settle.h"
#include "suspension/sweep.h"

/// Invented axles for tests: plausible sizes, no real vehicle.
namespace rig::suspension::testing {

inline constexpr TruckNumbers kTruck{
    .wheelbase_m = 2.6, .cg_height_m = 0.75, .brake_share = 0.4, .drive_share = 0.5};
inline const Ground kFlat{{0, 0}, {0, 0}};

struct TestBar {
  std::string name;
  Vec3 p_VP;  ///< Frame end.
  Vec3 p_VQ;  ///< Axle end as drawn.
};

/// An axle of ideal bars; C at (x, 0, r).
inline AxleModel make_axle(std::string id, bool front, double x_m, double radius_m,
                           const std::vector<TestBar>& bars) {
  AxleModel axle;
  axle.id = std::move(id);
  axle.path = "/axles/" + axle.id;
  axle.front = front;
  axle.p_VC = Vec3(x_m, 0, radius_m);
  axle.loaded_radius_m = radius_m;
  axle.track_m = 1.6;
  for (const auto& bar : bars) {
    axle.bars.push_back({.name = bar.name,
                         .path = axle.path + "/links/" + bar.name,
                         .p_VP = bar.p_VP,
                         .p_AQ = bar.p_VQ - axle.p_VC,
                         .length_m = (bar.p_VQ - bar.p_VP).norm()});
  }
  const auto n = static_cast<Eigen::Index>(bars.size());
  axle.compliance_m_per_N = Eigen::MatrixXd::Zero(n, n);
  return axle;
}

inline Vec3 mirrored(const Vec3& p) { return {p.x(), -p.y(), p.z()}; }

/// Two lowers, one upper on the right, track bar; front.
inline AxleModel make_three_link_front() {
  const Vec3 frame(-0.95, 0.36, 0.56), axle(-0.06, 0.46, 0.40);
  return make_axle("front", true, 0, 0.45,
                   {{"lower.left", frame, axle},
                    {"lower.right", mirrored(frame), mirrored(axle)},
                    {"upper", {-0.80, -0.30, 0.74}, {-0.03, -0.28, 0.63}},
                    {"track_bar", {0.12, 0.47, 0.66}, {0.12, -0.42, 0.56}}});
}

/// Lowers nearly straight, uppers splayed to the housing's middle; rear.
inline AxleModel make_triangulated_rear() {
  const double x = -2.6;
  const Vec3 lower_frame(x + 0.98, 0.38, 0.58), lower_axle(x + 0.05, 0.52, 0.40);
  const Vec3 upper_frame(x + 0.82, 0.44, 0.74), upper_axle(x - 0.02, 0.12, 0.66);
  return make_axle("rear", false, x, 0.45,
                   {{"lower.left", lower_frame, lower_axle},
                    {"lower.right", mirrored(lower_frame), mirrored(lower_axle)},
                    {"upper.left", upper_frame, upper_axle},
                    {"upper.right", mirrored(upper_frame), mirrored(upper_axle)}});
}

/// Two lowers and an upper A-arm whose apex is on the housing; rear.
inline AxleModel make_a_arm_rear() {
  const double x = -2.6;
  const Vec3 lower_frame(x + 0.98, 0.42, 0.55), lower_axle(x + 0.05, 0.50, 0.40);
  const Vec3 foot(x + 0.75, 0.34, 0.73), apex(x - 0.02, 0, 0.68);
  return make_axle("rear", false, x, 0.45,
                   {{"lower.left", lower_frame, lower_axle},
                    {"lower.right", mirrored(lower_frame), mirrored(lower_axle)},
                    {"upper.first", foot, apex},
                    {"upper.second", mirrored(foot), apex}});
}

/// Four links side by side in plan and a track bar: held once too often, so every bar is given the
/// compliance of two bushes of 2 kN/mm... 8 kN/mm; rear.
inline AxleModel make_parallel_rear() {
  const double x = -2.6;
  const Vec3 lower_frame(x + 0.95, 0.45, 0.54), lower_axle(x + 0.03, 0.48, 0.40);
  const Vec3 upper_frame(x + 0.80, 0.40, 0.72), upper_axle(x + 0.00, 0.42, 0.62);
  AxleModel axle = make_axle("rear", false, x, 0.45,
                             {{"lower.left", lower_frame, lower_axle},
                              {"lower.right", mirrored(lower_frame), mirrored(lower_axle)},
                              {"upper.left", upper_frame, upper_axle},
                              {"upper.right", mirrored(upper_frame), mirrored(upper_axle)},
                              {"track_bar", {x - 0.15, 0.48, 0.62}, {x - 0.15, -0.44, 0.55}}});
  for (Eigen::Index i = 0; i < 5; ++i)
    axle.compliance_m_per_N(i, i) = i < 4 ? 2 / 8.0e6 : 2 / 6.0e6;
  return axle;
}

/// A coil over the axle at each side.
inline void add_coils(AxleModel& axle, double rate_N_per_m, double free_length_m,
                      double length_m = 0.36) {
  for (const int side : {1, -1}) {
    const Vec3 lower(axle.p_VC.x() + 0.02, 0.46 * side, axle.p_VC.z() + 0.08);
    axle.coils.push_back({.name = side > 0 ? "coil.left" : "coil.right",
                          .path = axle.path + "/coils/coil",
                          .p_VP = lower + Vec3(0, -0.02 * side, length_m),
                          .p_AQ = lower - axle.p_VC,
                          .free_length_m = free_length_m,
                          .rate_N_per_m = rate_N_per_m,
                          .solid_length_m = 0.18,
                          .drawn_length_m = Vec3(0, -0.02 * side, length_m).norm(),
                          .side = side});
  }
}

}  // namespace rig::suspension::testing
