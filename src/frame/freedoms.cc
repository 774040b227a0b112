#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <optional>

#include "frame/faults_internal.h"
#include "frame/freedoms_internal.h"
#include "frame/index_internal.h"

namespace rig::frame {

namespace {

/// Stations along the line in which the joints reach furthest.
std::vector<double> list_stations(const Structure& structure) {
  Vec3 low = Vec3::Constant(std::numeric_limits<double>::infinity()), high = -low;
  for (const Joint& joint : structure.joints) {
    low = low.cwiseMin(joint.p_VoJ_V);
    high = high.cwiseMax(joint.p_VoJ_V);
  }
  Eigen::Index along = 0;
  (high - low).maxCoeff(&along);
  std::vector<double> out;
  out.reserve(structure.joints.size());
  for (const Joint& joint : structure.joints) out.push_back(joint.p_VoJ_V[along]);
  return out;
}

/// At which station each scalar acts; none for those that nothing elastic and no mode moves: they
/// stay zero.
std::vector<std::optional<double>> place_scalars(const Structure& structure,
                                                 const std::vector<double>& stations) {
  std::vector<std::optional<double>> out(structure.scalars.size());
  const auto place = [&](int scalar, double station) {
    for (int s = scalar; s >= 0 && !out[at(s)]; s = structure.scalars[at(s)].of)
      out[at(s)] = station;
  };
  for (std::size_t j = 0; j < structure.joints.size(); ++j) {
    for (const Mode& mode : structure.joints[j].modes) place(mode.scalar, stations[j]);
  }
  for (const Beam& beam : structure.beams) {
    if (!structure.sections[at(beam.section)]->warps()) continue;
    place(beam.warp_from, stations[at(beam.from)]);
    place(beam.warp_to, stations[at(beam.to)]);
  }
  for (const ScalarSpring& spring : structure.scalar_springs) {
    double station = stations.front();
    for (const int scalar : spring.scalars) station = out[at(scalar)].value_or(station);
    for (const int scalar : spring.scalars) place(scalar, station);
  }
  return out;
}

/// A root joint, or a scalar that is free by itself.
struct Node {
  double station = 0;
  int joint = -1;
  int scalar = -1;
};

JointMotion follow(const Structure& structure, const Freedoms& freedoms, const Joint& joint) {
  const JointMotion& leader = freedoms.joints[at(joint.follows)];
  const Vec3 p_LJ_V = joint.p_VoJ_V - structure.joints[at(joint.follows)].p_VoJ_V;
  JointMotion out{.freedom = leader.freedom, .p_RJ_V = leader.p_RJ_V + p_LJ_V};
  for (ModeMotion mode : leader.modes) {
    mode.displacement_V += mode.rotation_V.cross(p_LJ_V);
    out.modes.push_back(mode);
  }
  for (const Mode& mode : joint.modes) {
    const ScalarMotion& scalar = freedoms.scalars[at(mode.scalar)];
    if (scalar.freedom < 0) continue;
    out.modes.push_back({.freedom = scalar.freedom,
                         .displacement_V = scalar.ratio * mode.displacement_V,
                         .rotation_V = scalar.ratio * mode.rotation_V});
  }
  return out;
}

}  // namespace

Freedoms make_freedoms(const Structure& structure) {
  const std::vector<double> stations = list_stations(structure);
  const auto places = place_scalars(structure, stations);
  const auto is_free = [&](std::size_t s) { return !structure.scalars[s].held && places[s]; };
  Freedoms out;
  std::vector<Node> nodes;
  for (std::size_t j = 0; j < structure.joints.size(); ++j) {
    if (structure.joints[j].follows >= 0) continue;
    out.roots.push_back(static_cast<int>(j));
    nodes.push_back({.station = stations[j], .joint = static_cast<int>(j)});
  }
  for (std::size_t s = 0; s < structure.scalars.size(); ++s) {
    if (!is_free(s) || structure.scalars[s].of >= 0) continue;
    nodes.push_back({.station = *places[s], .scalar = static_cast<int>(s)});
  }
  std::stable_sort(nodes.begin(), nodes.end(),
                   [](const Node& a, const Node& b) { return a.station < b.station; });
  out.joints.resize(structure.joints.size());
  out.scalars.resize(structure.scalars.size());
  for (const Node& node : nodes) {
    if (node.joint >= 0) {
      out.joints[at(node.joint)].freedom = out.count;
      out.count += 6;
    } else {
      out.scalars[at(node.scalar)] = {.freedom = out.count++, .ratio = 1};
    }
  }
  for (std::size_t s = 0; s < structure.scalars.size(); ++s) {
    const Scalar& scalar = structure.scalars[s];
    if (scalar.of < 0 || !is_free(s)) continue;
    const ScalarMotion& origin = out.scalars[at(scalar.of)];
    out.scalars[s] = {.freedom = origin.freedom, .ratio = origin.ratio * scalar.ratio};
  }
  for (std::size_t j = 0; j < structure.joints.size(); ++j) {
    const Joint& joint = structure.joints[j];
    if (joint.follows >= 0) out.joints[j] = follow(structure, out, joint);
  }
  return out;
}

std::string words_of_freedom(const Structure& structure, const Freedoms& freedoms, int freedom) {
  for (const int joint : freedoms.roots) {
    const int first = freedoms.joints[at(joint)].freedom;
    if (freedom >= first && freedom < first + 6) {
      return named(structure.joints[at(joint)].place, "joint", at(joint));
    }
  }
  for (std::size_t s = 0; s < freedoms.scalars.size(); ++s) {
    if (freedoms.scalars[s].freedom == freedom && structure.scalars[s].of < 0) {
      return named(structure.scalars[s].place, "scalar", s);
    }
  }
  return {};
}

PointMotion calc_motion(const Structure& structure, const Freedoms& freedoms,
                        const Eigen::VectorXd& x, int joint, const Vec3& p_VoP_V) {
  const JointMotion& motion = freedoms.joints[at(joint)];
  const Vec3 p_JP_V = p_VoP_V - structure.joints[at(joint)].p_VoJ_V;
  PointMotion out{x.segment<3>(motion.freedom), x.segment<3>(motion.freedom + 3)};
  out.displacement_V += out.rotation_V.cross(motion.p_RJ_V + p_JP_V);
  for (const ModeMotion& mode : motion.modes) {
    out.displacement_V += x[mode.freedom] * (mode.displacement_V + mode.rotation_V.cross(p_JP_V));
    out.rotation_V += x[mode.freedom] * mode.rotation_V;
  }
  return out;
}

void add_force(const Structure& structure, const Freedoms& freedoms, int joint, const Vec3& p_VoP_V,
               const Vec3& f_P_V, const Vec3& t_V, Eigen::Ref<Eigen::VectorXd> forces) {
  const JointMotion& motion = freedoms.joints[at(joint)];
  const Vec3 p_JP_V = p_VoP_V - structure.joints[at(joint)].p_VoJ_V;
  const Vec3 t_J_V = t_V + p_JP_V.cross(f_P_V);
  forces.segment<3>(motion.freedom) += f_P_V;
  forces.segment<3>(motion.freedom + 3) += t_J_V + motion.p_RJ_V.cross(f_P_V);
  for (const ModeMotion& mode : motion.modes) {
    forces[mode.freedom] += mode.displacement_V.dot(f_P_V) + mode.rotation_V.dot(t_J_V);
  }
}

void Part::start() {
  freedoms_.clear();
  stiffness.setZero();
}

Part::Columns::ColXpr Part::add_column(int freedom) {
  const auto next = static_cast<Eigen::Index>(freedoms_.size());
  if (next == columns_.cols()) columns_.conservativeResize(Eigen::NoChange, 2 * next);
  freedoms_.push_back(freedom);
  return columns_.col(next);
}

void Part::add_point(const Structure& structure, const Freedoms& freedoms, int joint,
                     const Vec3& p_VoP_V, const By& by_displacement, const By& by_rotation) {
  const JointMotion& motion = freedoms.joints[at(joint)];
  const Vec3 p_JP_V = p_VoP_V - structure.joints[at(joint)].p_VoJ_V;
  const Vec3 p_RP_V = motion.p_RJ_V + p_JP_V;
  for (int i = 0; i < 3; ++i) add_column(motion.freedom + i) = by_displacement.col(i);
  for (int i = 0; i < 3; ++i) {
    // A unit rotation about axis i moves P by the axis cross p_RP.
    add_column(motion.freedom + 3 + i) =
        by_rotation.col(i) + by_displacement * Vec3::Unit(i).cross(p_RP_V);
  }
  for (const ModeMotion& mode : motion.modes) {
    add_column(mode.freedom) =
        by_displacement * (mode.displacement_V + mode.rotation_V.cross(p_JP_V)) +
        by_rotation * mode.rotation_V;
  }
}

void Part::add_scalar(const Freedoms& freedoms, int scalar, const Column& by) {
  const ScalarMotion& motion = freedoms.scalars[at(scalar)];
  if (motion.freedom >= 0) add_column(motion.freedom) = motion.ratio * by;
}

}  // namespace rig::frame
