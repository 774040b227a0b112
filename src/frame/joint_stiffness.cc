#include "frame/joint_stiffness.h"

#include <algorithm>
#include <cmath>

namespace rig::frame {
namespace {

/// Proportions of a joint; h is the wall's depth.
struct Ratios {
  double height;  ///< Of the foot over h.
  double length;  ///< Of the foot over h.
  double foot;    ///< Its thickness over the wall's.
  double wall;    ///< The wall's thickness over h.
  double side;    ///< b/h of an open rail; of a boxed one its wall over the plate.
};

struct Range {
  double low, high;

  bool holds(double value) const { return low <= value && value <= high; }
};

struct Ranges {
  Range height, length, foot, wall, side;

  bool hold(const Ratios& r) const {
    return height.holds(r.height) && length.holds(r.length) && foot.holds(r.foot) &&
           wall.holds(r.wall) && side.holds(r.side);
  }
};

/// Beyond this height over h there are no models: the strips of wall above and below the foot are
/// taken as no narrower.
constexpr double kHighest = 0.9;

/// factor height^a (1 - height)^b length^c foot^d wall^e side^f
struct Fit {
  double factor, height, strips, length, foot, wall, side;

  double at(const Ratios& r) const {
    return factor * std::pow(r.height, height) *
           std::pow(1 - std::min(r.height, kHighest), strips) * std::pow(r.length, length) *
           std::pow(r.foot, foot) * std::pow(r.wall, wall) * std::pow(r.side, side);
  }
};

struct JointFit {
  Fit tilt, swing, push, roll, warp;
  double centre;  ///< Over the flange.
  Ranges ranges;
};

// Printed by tests/shells/fits.py.
constexpr JointFit kTube{
    .tilt = {0.4750, 0.329, -2.028, 0, 0.489, -0.251, 0.075},
    .swing = {0.6730, 0.333, -1.437, 0, 0.394, -0.130, 0.056},
    .push = {2.613, -0.151, -2.038, 0, 0.365, -0.147, 0.104},
    .roll = {std::numeric_limits<double>::infinity(), 0, 0, 0, 0, 0, 0},
    .warp = {},
    .centre = 0,
    .ranges = {{0.22, 0.57}, {0, 1}, {0.5, 1.51}, {0.018, 0.047}, {0.27, 0.505}},
};
constexpr JointFit kChannelOnWeb{
    .tilt = {1.127, 1.194, -1.103, 0.408, 0.130, -0.650, 0.314},
    .swing = {1.561, 0.114, -0.932, 1.083, 0.120, -0.327, 0.100},
    .push = {5.713, 0.262, -1.813, 0.331, 0.248, -0.243, 0.140},
    .roll = {0.007326, 2.536, 0.200, 1.506, 0.383, -2.836, -0.385},
    .warp = {0.3257, 0.569, -1.254, 1.444, 0.212, -0.305, 0.053},
    .centre = 0.54,
    .ranges = {{0.39, 0.9}, {0.165, 0.5}, {0.5, 1.51}, {0.018, 0.047}, {0.27, 0.505}},
};
constexpr JointFit kFlatChannelOnWeb{
    .tilt = {1.445, 0.462, -1.534, 0.304, 0.175, -0.200, -0.012},
    .swing = {2.826, -0.047, -1.161, 1.249, 0.104, -0.085, 0.048},
    .push = {7.241, -0.012, -1.797, 0.353, 0.151, -0.057, -0.010},
    .roll = {0.01112, 1.576, 0.302, 2.081, 0.612, -2.749, -0.040},
    .warp = {0.5970, 0.893, -1.031, 1.647, 0.147, -0.258, 0.022},
    .centre = 0.36,
    .ranges = {{0.18, 0.52}, {0.36, 1.01}, {0.5, 1.34}, {0.021, 0.044}, {0.33, 0.505}},
};
constexpr JointFit kChannelOnPlate{
    .tilt = {4.303, 1.280, -0.622, 0.400, 0.368, -0.272, 0.873},
    .swing = {1.560, -0.135, -1.049, 1.198, 0.118, -0.310, 0.520},
    .push = {12.95, 0.419, -1.450, 0.421, 0.251, -0.260, 0.961},
    .roll = {0.007571, 2.001, -0.013, 1.227, 0.638, -2.791, -0.280},
    .warp = {0.4464, 0.627, -1.186, 1.489, 0.221, -0.255, 0.316},
    .centre = 0.51,
    .ranges = {{0.41, 0.86}, {0.2, 0.505}, {0.66, 1.51}, {0.018, 0.0435}, {0.67, 1.51}},
};

JointStiffness calc_springs(const JointFit& fit, const Ratios& r, const JointWall& wall,
                            double flange_m) {
  const double unit_Nm = wall.E_Pa * std::pow(wall.thickness_m, 3);
  const double h2_m2 = wall.depth_m * wall.depth_m;
  return {.about_rail_Nm_per_rad = unit_Nm * fit.tilt.at(r),
          .about_upright_Nm_per_rad = unit_Nm * fit.swing.at(r),
          .across_N_per_m = unit_Nm / h2_m2 * fit.push.at(r),
          .about_own_axis_Nm_per_rad = unit_Nm * fit.roll.at(r),
          .warping_Nm3 = unit_Nm * h2_m2 * fit.warp.at(r),
          .centre_m = fit.centre * flange_m,
          .within_fit = fit.ranges.hold(r)};
}

Ratios ratios_of(const JointWall& wall, const JointFoot& foot, double side) {
  return {.height = foot.height_m / wall.depth_m,
          .length = foot.length_m / wall.depth_m,
          .foot = foot.thickness_m / wall.thickness_m,
          .wall = wall.thickness_m / wall.depth_m,
          .side = side};
}

double flange_over_depth(const JointWall& wall) { return wall.flange_m / wall.depth_m; }

}  // namespace

JointStiffness calc_tube_in_wall(const JointWall& wall, double mean_radius_m, double wall_m) {
  const JointFoot foot{
      .height_m = 2 * mean_radius_m, .length_m = 2 * mean_radius_m, .thickness_m = wall_m};
  return calc_springs(kTube, ratios_of(wall, foot, flange_over_depth(wall)), wall, 0);
}

JointStiffness calc_channel_on_web(const JointWall& web, const JointFoot& foot) {
  return calc_springs(kChannelOnWeb, ratios_of(web, foot, flange_over_depth(web)), web,
                      foot.length_m);
}

JointStiffness calc_flat_channel_on_web(const JointWall& web, const JointFoot& foot) {
  return calc_springs(kFlatChannelOnWeb, ratios_of(web, foot, flange_over_depth(web)), web,
                      foot.height_m);
}

JointStiffness calc_channel_on_plate(const JointWall& plate, double rail_wall_m,
                                     const JointFoot& foot) {
  return calc_springs(kChannelOnPlate, ratios_of(plate, foot, rail_wall_m / plate.thickness_m),
                      plate, foot.length_m);
}

JointStiffness calc_channel_between_flanges(const JointWall& web, const JointFoot& foot,
                                            double channel_EI_Nm2, double inset_m) {
  const Ratios r = ratios_of(web, foot, flange_over_depth(web));
  const double unit_Nm = web.E_Pa * web.thickness_m * web.depth_m * web.depth_m;
  return {.about_rail_Nm_per_rad = unit_Nm * 0.1483 * std::pow(r.length, -0.293) *
                                   std::pow(r.foot, 0.062) * std::pow(r.wall, 0.098) *
                                   std::pow(r.side, 1.740),
          .about_upright_Nm_per_rad = channel_EI_Nm2 / inset_m,
          .across_N_per_m = std::numeric_limits<double>::infinity(),
          .about_own_axis_Nm_per_rad = unit_Nm * 0.008711 * std::pow(r.length, 1.290) *
                                       std::pow(r.foot, 0.581) * std::pow(r.wall, -0.763) *
                                       std::pow(r.side, 0.033),
          .within_fit = Range{0.95, 1.05}.holds(r.height) && Range{0.2, 0.43}.holds(r.length) &&
                        Range{0.66, 1.34}.holds(r.foot) && Range{0.021, 0.037}.holds(r.wall) &&
                        Range{0.28, 0.5}.holds(r.side)};
}

JointStiffness calc_foot_on_wall(const JointWall& wall, const JointFoot& foot) {
  // A plate on edge is as long as it is thick.
  const JointFoot solid{.height_m = std::max(foot.height_m, foot.thickness_m),
                        .length_m = std::max(foot.length_m, foot.thickness_m),
                        .thickness_m = foot.thickness_m};
  JointStiffness springs = calc_channel_on_web(wall, solid);
  springs.centre_m = 0;
  springs.within_fit = false;
  return springs;
}

JointStiffness calc_tube_through_box(double E_Pa, double I_m4, double gap_m) {
  const double k = E_Pa * I_m4 / gap_m;
  return {.about_rail_Nm_per_rad = k,
          .about_upright_Nm_per_rad = k,
          .across_N_per_m = std::numeric_limits<double>::infinity()};
}

BoxEnd calc_box_end(const JointWall& web, double plate_thickness_m, bool box_ahead,
                    bool opens_to_right) {
  const double E = web.E_Pa, h = web.depth_m;
  const auto fit = [&](double factor, double flange, double wall, double plate) {
    return factor * std::pow(web.flange_m / h, flange) * std::pow(web.thickness_m / h, wall) *
           std::pow(plate_thickness_m / web.thickness_m, plate);
  };
  const double twist = fit(0.3589, -0.408, -2.623, -0.663) / (E * std::pow(h, 3));
  const double both = fit(0.4931, -1.106, -2.199, -0.501) / (E * std::pow(h, 4));
  const double rate = fit(5.039, -1.866, -1.482, -0.317) / (E * std::pow(h, 5));
  // Mirrored fore and aft the twist rate and the bending change their signs, mirrored left and
  // right the twist and the twist rate.
  const double fore = box_ahead ? 1 : -1, side = opens_to_right ? 1 : -1;
  return {.compliance = (Eigen::Matrix2d() << twist, -fore * both, -fore * both, rate).finished(),
          .rise = {-side * h * fit(0.5991, 0.901, 0.055, 0.200),
                   -fore * side * h * h * fit(0.05964, 0.257, 0.172, 0.140)},
          .bend = {-fore * side * fit(0.1052, -0.674, 0.800, 0.952),
                   side * h * fit(0.03691, 0.501, -0.135, 0.691)},
          .swing_rad_per_Nm = fit(0.262, -2.552, -1.209, -0.056) / (E * std::pow(h, 3)),
          .within_fit = Range{0.27, 0.505}.holds(web.flange_m / h) &&
                        Range{0.018, 0.047}.holds(web.thickness_m / h) &&
                        Range{0.5, 1.51}.holds(plate_thickness_m / web.thickness_m)};
}

}  // namespace rig::frame
