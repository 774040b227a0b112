#include "check/frame_shape.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

#include "base/require.h"

namespace rig::check {
namespace {

constexpr double kExaggerations[] = {1, 2, 5, 10, 20, 50, 100, 200, 500, 1000};

/// Twist rate at one end of a beam, rad/m: its scalar, or where it has none the mean twist.
double twist_rate(const frame::Response& response, int scalar, double mean) {
  return scalar < 0 ? mean : response.scalar[static_cast<std::size_t>(scalar)];
}

}  // namespace

RigidMotion find_ride_motion(const frame::Model& model, const frame::Response& response) {
  constexpr std::size_t kEnough = 4;
  std::vector<Vec3> points, moved;
  for (const auto& attachment : model.attachments) {
    if (attachment.kind != frame::AttachmentKind::axle_line) continue;
    points.push_back(attachment.p_VoC_V);
    moved.push_back(
        frame::calc_displacement(model.structure, response, attachment.joint, attachment.p_VoC_V));
  }
  if (points.size() < kEnough) {
    points.clear();
    moved.clear();
    for (const auto& beam : model.structure.beams) {
      for (const auto& [joint, p] :
           {std::pair(beam.from, beam.p_VoF_V), std::pair(beam.to, beam.p_VoT_V)}) {
        points.push_back(p);
        moved.push_back(frame::calc_displacement(model.structure, response, joint, p));
      }
    }
  }
  return fit_rigid_motion(points, moved);
}

SectionMotion calc_section_motion(const frame::Structure& structure,
                                  const frame::Response& response, int beam, double share) {
  const frame::Beam& of = structure.beams[static_cast<std::size_t>(beam)];
  const Vec3 along = of.p_VoT_V - of.p_VoF_V;
  const double length_m = along.norm();
  const Vec3 x_V = along / length_m;
  const Vec3 y_V = (of.y_V - x_V * x_V.dot(of.y_V)).normalized();
  const Vec3 d_F_V = frame::calc_displacement(structure, response, of.from, of.p_VoF_V);
  const Vec3 d_T_V = frame::calc_displacement(structure, response, of.to, of.p_VoT_V);
  const Vec3& r_F_V = response.rotation_V[static_cast<std::size_t>(of.from)];
  const Vec3& r_T_V = response.rotation_V[static_cast<std::size_t>(of.to)];
  // The line turns with the section, and winds about the shear centres where they twist.
  const auto& p_OS = structure.sections[static_cast<std::size_t>(of.section)]->properties.p_OS;
  const Vec3 winds = x_V.cross(-p_OS.x() * y_V - p_OS.y() * x_V.cross(y_V));
  const double mean = (r_T_V - r_F_V).dot(x_V) / length_m;
  const Vec3 slope_F = r_F_V.cross(x_V) + twist_rate(response, of.warp_from, mean) * winds;
  const Vec3 slope_T = r_T_V.cross(x_V) + twist_rate(response, of.warp_to, mean) * winds;
  const double s = share;
  const Vec3 stretch = x_V * x_V.dot(d_T_V - d_F_V);
  const Vec3 d_V = d_F_V + s * stretch + s * s * (3 - 2 * s) * (d_T_V - d_F_V - stretch) +
                   length_m * s * (1 - s) * ((1 - s) * slope_F - s * slope_T);
  return {d_V, (1 - s) * r_F_V + s * r_T_V};
}

double find_exaggeration(double most_m, double readable_m) {
  RIG_REQUIRE(most_m >= 0 && readable_m > 0);
  double best = 1;
  for (const double factor : kExaggerations) {
    if (factor * most_m <= readable_m) best = factor;
  }
  return best;
}

double round_step_up(double value) {
  if (!(value > 0)) return 1;
  constexpr double kSteps[] = {1, 1.5, 2, 3, 4, 5, 6, 8, 10};
  constexpr double kRounding = 1e-9;
  const double decade = std::pow(10, std::floor(std::log10(value)));
  const double* step = std::find_if(std::begin(kSteps), std::end(kSteps), [&](double digit) {
    return digit * decade >= value * (1 - kRounding);
  });
  return (step == std::end(kSteps) ? 10 : *step) * decade;
}

}  // namespace rig::check
