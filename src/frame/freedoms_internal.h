#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "frame/structure.h"

namespace rig::frame {

/// Value of a scalar: `ratio` times a freedom; always zero where there is none.
struct ScalarMotion {
  int freedom = -1;
  double ratio = 0;
};

/// A scalar's share in the motion of a joint.
struct ModeMotion {
  int freedom = -1;
  Vec3 displacement_V = Vec3::Zero();  ///< Of J, per unit of the freedom.
  Vec3 rotation_V = Vec3::Zero();
};

/// Motion of a joint: rigidly with its root, and its modes.
struct JointMotion {
  int freedom = -1;               ///< First of the root's six: displacement, rotation.
  Vec3 p_RJ_V = Vec3::Zero();     ///< From the root.
  std::vector<ModeMotion> modes;  ///< With those of the joints that it follows.
};

/// What is free to move, once each follower hangs on its root and each proportional scalar on its
/// origin: six in a row for each root and one for each scalar, numbered along the frame, so that
/// what is tied together is near.
struct Freedoms {
  int count = 0;
  std::vector<JointMotion> joints;
  std::vector<ScalarMotion> scalars;
  std::vector<int> roots;  ///< Joints that follow none.
};

/// @param structure  One that passed `check_structure`.
Freedoms make_freedoms(const Structure& structure);

/// Where a freedom is, in the shop's words.
std::string words_of_freedom(const Structure& structure, const Freedoms& freedoms, int freedom);

/// Displacement and rotation of a point of a joint as the freedoms move.
struct PointMotion {
  Vec3 displacement_V = Vec3::Zero();
  Vec3 rotation_V = Vec3::Zero();
};
PointMotion calc_motion(const Structure& structure, const Freedoms& freedoms,
                        const Eigen::VectorXd& x, int joint, const Vec3& p_VoP_V);

/// Adds a force and moment on a point of a joint to the forces on the freedoms.
void add_force(const Structure& structure, const Freedoms& freedoms, int joint, const Vec3& p_VoP_V,
               const Vec3& f_P_V, const Vec3& t_V, Eigen::Ref<Eigen::VectorXd> forces);

/// Something elastic: energy 1/2 d^T stiffness d, d = rows times the freedoms it knows. Rows that
/// are not needed are zero.
class Part {
 public:
  static constexpr int kRows = 8;
  using Columns = Eigen::Matrix<double, kRows, Eigen::Dynamic>;
  using By = Eigen::Matrix<double, kRows, 3>;
  using Column = Eigen::Matrix<double, kRows, 1>;

  Eigen::Matrix<double, kRows, kRows> stiffness;

  /// Empties it.
  void start();

  /// Adds, row by row, `by_displacement` times the displacement of a point of a joint and
  /// `by_rotation` times the joint's rotation.
  void add_point(const Structure& structure, const Freedoms& freedoms, int joint,
                 const Vec3& p_VoP_V, const By& by_displacement, const By& by_rotation);
  void add_scalar(const Freedoms& freedoms, int scalar, const Column& by);

  const std::vector<int>& freedoms() const { return freedoms_; }
  const Columns& columns() const { return columns_; }  ///< By freedom, and some more.

 private:
  /// The column of one more freedom.
  Columns::ColXpr add_column(int freedom);

  std::vector<int> freedoms_;
  Columns columns_ = Columns(kRows, 32);
};

}  // namespace rig::frame
