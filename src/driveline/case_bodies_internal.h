#pragma once

#include <Eigen/Core>
#include <vector>

#include "driveline/cases.h"

namespace rig::driveline {

/// The stiff bodies of a line of cases: cases that do not bend are one with their neighbours; one
/// that bends has a body at each face and wherever something is on it, with a beam between each and
/// the next. A body's motion: of its own point, and its turn, [u; theta].
class CaseBodies {
 public:
  explicit CaseBodies(const CaseLine& line);

  Eigen::Index count() const { return static_cast<Eigen::Index>(points_.size()); }
  std::size_t at_front(std::size_t i) const { return front_[i]; }
  std::size_t at_rear(std::size_t i) const { return rear_[i]; }
  std::size_t at_mass(std::size_t i) const { return mass_[i]; }
  std::size_t at_mount(std::size_t m) const { return mount_[m]; }

  /// Of the beams.
  const Eigen::MatrixXd& stiffness() const { return K_; }

  Vec3 travel(std::size_t body, const Vec3& p_VoP_V, const Eigen::VectorXd& motion) const;
  static Vec3 turn(std::size_t body, const Eigen::VectorXd& motion);
  void add_force(std::size_t body, const Vec3& p_VoP_V, const Vec3& f_V, const Vec3& t_V,
                 Eigen::VectorXd& f) const;
  /// A place on a body.
  struct Place {
    std::size_t body;
    const Vec3& p_VoP_V;
  };
  /// Force at `of` against the travel of `by`.
  void add_spring(const Place& of, const Place& by, const Mat3& spring_K, Eigen::MatrixXd& K) const;

 private:
  Eigen::Matrix<double, 3, 6> travel_matrix(const Place& place) const;
  struct BeamSpan {
    std::size_t from, to;
    double bending_Nm2;
  };
  void add_bending_case(const CaseLine& line, std::size_t i);
  void add_beam(const BeamSpan& beam);

  std::vector<Vec3> points_;
  std::vector<std::size_t> front_, rear_, mass_, mount_;
  std::vector<BeamSpan> beams_;
  Eigen::MatrixXd K_;
};

}  // namespace rig::driveline
