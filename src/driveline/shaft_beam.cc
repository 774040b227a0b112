#include <algorithm>
#include <array>
#include <cmath>

#include "driveline/shaft_beam_internal.h"

namespace rig::driveline::internal {
namespace {

constexpr double kElementsPerShaft = 16;
/// A mass or a bearing that gives has a node of its own unless there is one as near as this share
/// of the length; in an element as short as that it stands as well: 1e-6 of the speed at most.
constexpr double kLeastNodeShare = 0.01;

struct BeamStretch {
  double bending_Nm2 = 0;
  double mass_kg_per_m = 0;
  double from_m = 0, to_m = 0;
};

/// Greatest values of a shaft, and its length: the units of its matrices.
struct Scale {
  double length_m = 0;
  double bending_Nm2 = 0;
  double mass_kg_per_m = 0;
};

std::vector<BeamStretch> make_stretches(const ShaftBeam& beam) {
  std::vector<BeamStretch> stretches;
  double at_m = 0;
  for (const ShaftPiece& piece : beam.pieces) {
    const TubeSection section = calc_tube_section(piece.tube);
    stretches.push_back({.bending_Nm2 = piece.modulus_Pa * section.second_moment_m4,
                         .mass_kg_per_m = piece.density_kg_per_m3 * section.area_m2,
                         .from_m = at_m,
                         .to_m = at_m + piece.length_m});
    at_m += piece.length_m;
  }
  return stretches;
}

Scale make_scale(const std::vector<BeamStretch>& stretches) {
  Scale scale{.length_m = stretches.back().to_m};
  for (const BeamStretch& stretch : stretches) {
    scale.bending_Nm2 = std::max(scale.bending_Nm2, stretch.bending_Nm2);
    scale.mass_kg_per_m = std::max(scale.mass_kg_per_m, stretch.mass_kg_per_m);
  }
  return scale;
}

/// Adds a place unless one as near as `gap` is there.
void add_place(std::vector<double>& places, double share, double gap) {
  const auto near = [&](double place) { return std::abs(place - share) < gap; };
  if (std::none_of(places.begin(), places.end(), near)) places.push_back(share);
}

/// Places of the nodes, as shares of the length: all that is told, and elements short enough.
std::vector<double> make_nodes(const ShaftBeam& beam, const std::vector<BeamStretch>& stretches) {
  const double length_m = stretches.back().to_m;
  std::vector<double> places{0};
  for (const auto& stretch : stretches) places.push_back(stretch.to_m / length_m);
  for (const auto& support : beam.supports) {
    if (!support.stiffness_N_per_m) add_place(places, support.at_m / length_m, kLeastPieceShare);
  }
  for (const auto& support : beam.supports) {
    add_place(places, support.at_m / length_m, kLeastNodeShare);
  }
  for (const auto& mass : beam.masses) add_place(places, mass.at_m / length_m, kLeastNodeShare);
  std::sort(places.begin(), places.end());
  std::vector<double> nodes{0};
  for (std::size_t i = 1; i < places.size(); ++i) {
    const double from = places[i - 1], to = places[i];
    const int count = static_cast<int>(std::ceil((to - from) * kElementsPerShaft * (1 - 1e-9)));
    for (int k = 1; k <= count; ++k) nodes.push_back(from + (to - from) * k / count);
  }
  return nodes;
}

/// Deflection and slope of both ends; -1 where held.
using ElementFreedoms = std::array<Eigen::Index, 4>;

struct Freedoms {
  std::vector<ElementFreedoms> of_element;
  Eigen::Index count = 0;
};

Freedoms number_freedoms(const ShaftBeam& beam, const std::vector<BeamStretch>& stretches,
                         const std::vector<double>& nodes) {
  const double length_m = stretches.back().to_m;
  const auto node_at = [&](double at_m) {
    const double share = at_m / length_m;
    const auto nearer = [&](double a, double b) {
      return std::abs(a - share) < std::abs(b - share);
    };
    return static_cast<std::size_t>(std::min_element(nodes.begin(), nodes.end(), nearer) -
                                    nodes.begin());
  };
  std::vector<bool> held(nodes.size()), jointed(nodes.size());
  for (const ShaftSupport& support : beam.supports) {
    if (!support.stiffness_N_per_m) held[node_at(support.at_m)] = true;
  }
  for (std::size_t i = 0; i + 1 < stretches.size(); ++i) {
    if (beam.pieces[i].joint_after) jointed[node_at(stretches[i].to_m)] = true;
  }
  Freedoms freedoms;
  freedoms.of_element.resize(nodes.size() - 1);
  for (std::size_t n = 0; n < nodes.size(); ++n) {
    const Eigen::Index deflection = held[n] ? -1 : freedoms.count++;
    const Eigen::Index before = freedoms.count++;
    const Eigen::Index after = jointed[n] ? freedoms.count++ : before;
    if (n > 0) {
      freedoms.of_element[n - 1][2] = deflection;
      freedoms.of_element[n - 1][3] = before;
    }
    if (n + 1 < nodes.size()) {
      freedoms.of_element[n][0] = deflection;
      freedoms.of_element[n][1] = after;
    }
  }
  return freedoms;
}

void add_block(const ElementFreedoms& at, const Eigen::Matrix4d& block, Eigen::MatrixXd& matrix) {
  for (std::size_t i = 0; i < at.size(); ++i) {
    for (std::size_t j = 0; j < at.size(); ++j) {
      if (at[i] < 0 || at[j] < 0) continue;
      matrix(at[i], at[j]) += block(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
    }
  }
}

Eigen::Matrix4d element_stiffness(double bending, double h) {
  Eigen::Matrix4d K;
  K << 12, 6 * h, -12, 6 * h,               //
      6 * h, 4 * h * h, -6 * h, 2 * h * h,  //
      -12, -6 * h, 12, -6 * h,              //
      6 * h, 2 * h * h, -6 * h, 4 * h * h;
  return K * (bending / (h * h * h));
}

Eigen::Matrix4d element_mass(double mass_per_length, double h) {
  Eigen::Matrix4d M;
  M << 156, 22 * h, 54, -13 * h,              //
      22 * h, 4 * h * h, 13 * h, -3 * h * h,  //
      54, 13 * h, 156, -22 * h,               //
      -13 * h, -3 * h * h, -22 * h, 4 * h * h;
  return M * (mass_per_length * h / 420);
}

/// What the deflection at a place is made of.
Eigen::Vector4d deflection_shape(double share_of_element, double h) {
  const double s = share_of_element;
  return {1 - s * s * (3 - 2 * s), h * s * (1 - s) * (1 - s), s * s * (3 - 2 * s),
          h * s * s * (s - 1)};
}

}  // namespace

BeamMatrices make_beam_matrices(const ShaftBeam& beam) {
  const std::vector<BeamStretch> stretches = make_stretches(beam);
  const Scale scale = make_scale(stretches);
  const std::vector<double> nodes = make_nodes(beam, stretches);
  const Freedoms freedoms = number_freedoms(beam, stretches, nodes);
  BeamMatrices matrices{.K = Eigen::MatrixXd::Zero(freedoms.count, freedoms.count),
                        .M = Eigen::MatrixXd::Zero(freedoms.count, freedoms.count),
                        .unit_rad_per_s = std::sqrt(scale.bending_Nm2 / scale.mass_kg_per_m) /
                                          (scale.length_m * scale.length_m)};
  auto stretch = stretches.begin();
  for (std::size_t n = 0; n + 1 < nodes.size(); ++n) {
    const double middle_m = (nodes[n] + nodes[n + 1]) / 2 * scale.length_m;
    while (stretch->to_m < middle_m) ++stretch;
    const double h = nodes[n + 1] - nodes[n];
    add_block(freedoms.of_element[n],
              element_stiffness(stretch->bending_Nm2 / scale.bending_Nm2, h), matrices.K);
    add_block(freedoms.of_element[n], element_mass(stretch->mass_kg_per_m / scale.mass_kg_per_m, h),
              matrices.M);
  }
  const auto add_at = [&](double at_m, double value, Eigen::MatrixXd& matrix) {
    const double share = std::fmin(at_m / scale.length_m, 1);
    std::size_t n = 0;
    while (n + 2 < nodes.size() && nodes[n + 1] < share) ++n;
    const double h = nodes[n + 1] - nodes[n];
    const Eigen::Vector4d shape = deflection_shape((share - nodes[n]) / h, h);
    add_block(freedoms.of_element[n], value * shape * shape.transpose(), matrix);
  };
  const double mass_kg = scale.mass_kg_per_m * scale.length_m;
  for (const ShaftMass& mass : beam.masses) add_at(mass.at_m, mass.mass_kg / mass_kg, matrices.M);
  const double stiffness = scale.bending_Nm2 / std::pow(scale.length_m, 3);
  for (const ShaftSupport& support : beam.supports) {
    if (!support.stiffness_N_per_m) continue;
    add_at(support.at_m, *support.stiffness_N_per_m / stiffness, matrices.K);
  }
  return matrices;
}

}  // namespace rig::driveline::internal
