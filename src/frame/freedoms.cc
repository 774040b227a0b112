#include <fmt/format.h>

#include "frame/faults_internal.h"
#include "frame/freedoms_internal.h"
#include "frame/index_internal.h"

namespace rig::frame {

namespace {

/// Scalars that something elastic or a mode moves; the others stay zero.
std::vector<bool> find_used(const Structure& structure) {
  std::vector<bool> used(structure.scalars.size(), false);
  const auto use = [&](int scalar) {
    for (int s = scalar; s >= 0 && !used[at(s)]; s = structure.scalars[at(s)].of)
      used[at(s)] = true;
  };
  for (const Joint& joint : structure.joints) {
    for (const Mode& mode : joint.modes) use(mode.scalar);
  }
  for (const Beam& beam : structure.beams) {
    if (!structure.sections[at(beam.section)].warps()) continue;
    use(beam.warp_from);
    use(beam.warp_to);
  }
  for (const ScalarSpring& spring : structure.scalar_springs) {
    for (const int scalar : spring.scalars) use(scalar);
  }
  return used;
}

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
  Freedoms out;
  for (std::size_t j = 0; j < structure.joints.size(); ++j) {
    if (structure.joints[j].follows < 0) out.roots.push_back(static_cast<int>(j));
  }
  out.count = 6 * static_cast<int>(out.roots.size());
  const std::vector<bool> used = find_used(structure);
  for (std::size_t s = 0; s < structure.scalars.size(); ++s) {
    const Scalar& scalar = structure.scalars[s];
    ScalarMotion motion;
    if (scalar.held || !used[s]) {
      // Stays zero.
    } else if (scalar.of >= 0) {
      motion = out.scalars[at(scalar.of)];
      motion.ratio *= scalar.ratio;
    } else {
      motion = {.freedom = out.count++, .ratio = 1};
    }
    out.scalars.push_back(motion);
  }
  int next = 0;
  for (const Joint& joint : structure.joints) {
    if (joint.follows >= 0) {
      out.joints.push_back(follow(structure, out, joint));
    } else {
      out.joints.push_back({.freedom = next});
      next += 6;
    }
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
