#include <algorithm>
#include <cmath>

#include "frame/holds_internal.h"
#include "frame/index_internal.h"
#include "geometry/matrix.h"

namespace rig::frame {

namespace {

using Eigen::Index;
using Matrix6 = Eigen::Matrix<double, 6, 6>;
using Vector6 = Eigen::Matrix<double, 6, 1>;

/// Springs to the ground that resist a motion less than this share of the one they resist most
/// don't hold it.
constexpr double kNotHeld = 1e-10;
/// A joint's rotation is held only where displacements can't do it.
constexpr double kRotationsLast = 1e-3;

/// Displacement at P (rows 0 to 2) and rotation of a rigid motion.
Matrix6 rigid_motion(const Vec3& p_MP_V, double size_m) {
  Matrix6 out = Matrix6::Identity();
  for (int i = 0; i < 3; ++i) out.block<3, 1>(0, 3 + i) = Vec3::Unit(i).cross(p_MP_V) / size_m;
  out.bottomRightCorner<3, 3>() /= size_m;
  return out;
}

/// What the springs to the ground resist, by rigid motion.
Matrix6 calc_ground_stiffness(const Structure& structure, const Holds& holds) {
  Matrix6 out = Matrix6::Zero();
  for (const JointSpring& spring : structure.joint_springs) {
    if (spring.from >= 0) continue;
    Matrix6 turn = Matrix6::Zero();
    turn.topLeftCorner<3, 3>() = turn.bottomRightCorner<3, 3>() = spring.R_VS.transpose();
    const Matrix6 motion = turn * rigid_motion(spring.p_VoP_V - holds.p_VoM_V, holds.size_m);
    Vector6 stiffness;
    stiffness << spring.stiffness_N_per_m, spring.stiffness_Nm_per_rad;
    out += motion.transpose() * stiffness.asDiagonal() * motion;
  }
  return out;
}

/// Freedoms that hold all motions, each time the one that the motions left move most.
void choose(const Structure& structure, const Freedoms& freedoms, Holds& holds) {
  // By row a freedom; motions that springs hold leave their columns at zero.
  using Moved = Eigen::Matrix<double, Eigen::Dynamic, 6, Eigen::RowMajor>;
  const Index count = 6 * static_cast<Index>(freedoms.roots.size()), free = holds.motions.cols();
  Matrix6 motions = Matrix6::Zero();
  motions.leftCols(free) = holds.motions;
  Moved moved(count, 6);
  for (std::size_t r = 0; r < freedoms.roots.size(); ++r) {
    const Vec3 p_MJ_V = structure.joints[at(freedoms.roots[r])].p_VoJ_V - holds.p_VoM_V;
    moved.middleRows<6>(6 * static_cast<Index>(r)) = rigid_motion(p_MJ_V, holds.size_m) * motions;
  }
  Moved left = moved;
  for (Index i = 0; i < count; ++i) {
    if (i % 6 >= 3) left.row(i) *= kRotationsLast * holds.size_m;
  }
  Eigen::MatrixXd chosen(free, free);
  for (Index k = 0; k < free; ++k) {
    Index best = 0;
    double most = 0;
    for (Index i = 0; i < count; ++i) {
      const double here = left.row(i).squaredNorm();
      if (!(here > most)) continue;
      most = here;
      best = i;
    }
    holds.freedoms.push_back(
        freedoms.joints[at(freedoms.roots[static_cast<std::size_t>(best / 6)])].freedom +
        static_cast<int>(best % 6));
    chosen.row(k) = moved.row(best).head(free);
    const Eigen::Matrix<double, 1, 6> axis = left.row(best).normalized();
    for (Index i = 0; i < count; ++i) left.row(i) -= left.row(i).dot(axis) * axis;
  }
  holds.motions_from_held = invert(chosen);
}

/// Where springs to the ground push, on the mean; the middle of the joints where there are none.
Vec3 find_middle(const Structure& structure) {
  Vec3 sum = Vec3::Zero();
  double weight = 0;
  for (const JointSpring& spring : structure.joint_springs) {
    if (spring.from >= 0) continue;
    weight += spring.stiffness_N_per_m.sum();
    sum += spring.stiffness_N_per_m.sum() * spring.p_VoP_V;
  }
  if (weight > 0) return sum / weight;
  for (const Joint& joint : structure.joints) sum += joint.p_VoJ_V;
  return sum / static_cast<double>(structure.joints.size());
}

/// The motions that a stiffness does not resist, each freedom measured by its own stiffness.
Eigen::MatrixXd find_free_motions(const Matrix6& ground) {
  const Vector6 scale =
      ground.diagonal().unaryExpr([](double v) { return v > 0 ? 1 / std::sqrt(v) : 1.0; });
  const Matrix6 scaled = scale.asDiagonal() * ground * scale.asDiagonal();
  const Axes axes = find_axes(scaled);
  Index free = 0;
  while (free < 6 && axes.values[free] <= kNotHeld) ++free;
  Eigen::MatrixXd motions = scale.asDiagonal() * axes.vectors.leftCols(free);
  return free == 0 ? motions : orthonormalise(motions);
}

}  // namespace

Holds make_holds(const Structure& structure, const Freedoms& freedoms) {
  Holds out;
  out.p_VoM_V = find_middle(structure);
  double size_m = 0;
  for (const Joint& joint : structure.joints) {
    size_m = std::max(size_m, (joint.p_VoJ_V - out.p_VoM_V).norm());
  }
  if (size_m > 0) out.size_m = size_m;
  out.motions = find_free_motions(calc_ground_stiffness(structure, out));
  if (out.motions.cols() > 0) choose(structure, freedoms, out);
  return out;
}

void stiffen(const Holds& holds, Skyline& stiffness) {
  for (const int freedom : holds.freedoms) {
    double& diagonal = stiffness.entry(freedom, freedom);
    diagonal += diagonal > 0 ? diagonal : 1;
  }
}

void bring_back(const Structure& structure, const Freedoms& freedoms, const Holds& holds,
                Eigen::Ref<Eigen::VectorXd> x) {
  if (holds.freedoms.empty()) return;
  Eigen::VectorXd held(static_cast<Index>(holds.freedoms.size()));
  for (Index i = 0; i < held.size(); ++i) held[i] = x[holds.freedoms[static_cast<std::size_t>(i)]];
  const Vector6 motion = holds.motions * (holds.motions_from_held * held);
  const Vec3 displacement = motion.head<3>(), rotation = motion.tail<3>() / holds.size_m;
  for (const int root : freedoms.roots) {
    const Vec3 p_MJ_V = structure.joints[at(root)].p_VoJ_V - holds.p_VoM_V;
    const Index first = freedoms.joints[at(root)].freedom;
    x.segment<3>(first) -= displacement + rotation.cross(p_MJ_V);
    x.segment<3>(first + 3) -= rotation;
  }
}

Unbalance calc_unbalance(const Structure& structure, const Holds& holds, const Loads& loads) {
  Unbalance out;
  if (holds.freedoms.empty()) return out;
  double forces_N = 0, moments_Nm = 0;
  for (const PointLoad& load : loads.points) {
    forces_N += load.f_P_V.norm();
    moments_Nm += load.t_V.norm() + (load.p_VoP_V - holds.p_VoM_V).cross(load.f_P_V).norm();
  }
  for (const LineLoad& line : loads.lines) {
    const Beam& beam = structure.beams[at(line.beam)];
    const double N = line.f_per_m_V.norm() * (beam.p_VoT_V - beam.p_VoF_V).norm();
    forces_N += N;
    moments_Nm += N * ((beam.p_VoF_V + beam.p_VoT_V) / 2 - holds.p_VoM_V).norm();
  }
  const Resultant all = calc_resultant(structure, loads);
  Vector6 resultant;
  resultant << all.f_V, (all.t_Vo_V - holds.p_VoM_V.cross(all.f_V)) / holds.size_m;
  const Vector6 left = holds.motions * (holds.motions.transpose() * resultant);
  out.f_V = left.head<3>();
  out.t_M_V = left.tail<3>() * holds.size_m;
  const double size_N = std::max(forces_N, moments_Nm / holds.size_m);
  if (size_N > 0) out.share = left.norm() / size_N;
  return out;
}

}  // namespace rig::frame
