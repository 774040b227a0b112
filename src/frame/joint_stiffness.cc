#include "frame/joint_stiffness.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rig::frame {
namespace {

/// factor (2r/h)^size (tt/t)^foot (t/h)^wall (b/h)^flange
struct Fit {
  double factor, size, foot, wall, flange;

  double at(const JointWall& w, double diameter_m, double foot_t_m) const {
    const double h = w.depth_m, t = w.thickness_m;
    return factor * std::pow(diameter_m / h, size) * std::pow(foot_t_m / t, foot) *
           std::pow(t / h, wall) * std::pow(w.flange_m / h, flange);
  }
};

// Our own fits to shell models of a tube through a web.
constexpr Fit kTilt{2.152, 1.311, 0.464, -0.349, 0.021};
constexpr Fit kSwing{2.001, 1.062, 0.396, -0.207, 0.012};
constexpr Fit kPush{17.75, 0.813, 0.334, -0.118, -0.035};

// The same of the end of a boxed stretch: (b/h), (t/h), (tp/t).
constexpr Fit kTwist{0.1009, 0, -0.879, -2.934, -0.348};
constexpr Fit kTwistAndWarp{-0.2518, 0, -0.569, -2.378, -1.089};
constexpr Fit kWarp{8.380, 0, -0.381, -1.376, -1.786};

JointStiffness calc_springs(const JointWall& w, double tilt_m, double swing_m, double push_m,
                            double foot_t_m) {
  const double t3 = std::pow(w.thickness_m, 3), h = w.depth_m;
  return {.about_rail_Nm_per_rad = w.E_Pa * t3 * kTilt.at(w, tilt_m, foot_t_m),
          .about_upright_Nm_per_rad = w.E_Pa * t3 * kSwing.at(w, swing_m, foot_t_m),
          .across_N_per_m = w.E_Pa * t3 / (h * h) * kPush.at(w, push_m, foot_t_m)};
}

}  // namespace

JointStiffness calc_tube_in_wall(const JointWall& wall, double mean_radius_m, double wall_m) {
  const double diameter_m = 2 * mean_radius_m;
  return calc_springs(wall, diameter_m, diameter_m, diameter_m, wall_m);
}

JointStiffness calc_foot_on_wall(const JointWall& wall, const JointFoot& foot) {
  // A plate on edge is as long as it is thick.
  const double length_m = std::max(foot.length_m, foot.thickness_m);
  const double height_m = std::max(foot.height_m, foot.thickness_m);
  return calc_springs(wall, height_m, length_m, std::sqrt(height_m * length_m), foot.thickness_m);
}

double calc_warping_on_wall(const JointStiffness& stiffness, const JointFoot& foot) {
  const double half_m = foot.height_m / 2;
  return 2 * (stiffness.about_upright_Nm_per_rad / 2) * half_m * half_m;
}

JointStiffness calc_tube_through_box(double E_Pa, double I_m4, double gap_m) {
  const double k = E_Pa * I_m4 / gap_m;
  return {.about_rail_Nm_per_rad = k,
          .about_upright_Nm_per_rad = k,
          .across_N_per_m = std::numeric_limits<double>::infinity()};
}

Eigen::Matrix2d calc_box_end_compliance(const JointWall& web, double plate_thickness_m,
                                        bool box_ahead) {
  const double E = web.E_Pa, h = web.depth_m;
  const auto entry = [&](const Fit& fit, int power) {
    return fit.at(web, h, plate_thickness_m) / (E * std::pow(h, power));
  };
  const double both = entry(kTwistAndWarp, 4) * (box_ahead ? 1 : -1);
  Eigen::Matrix2d compliance;
  compliance << entry(kTwist, 3), both, both, entry(kWarp, 5);
  return compliance;
}

}  // namespace rig::frame
