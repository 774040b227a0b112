#include <algorithm>
#include <map>

#include "driveline/case_bodies_internal.h"
#include "geometry/cross.h"

namespace rig::driveline {
namespace {

using Mat6 = Eigen::Matrix<double, 6, 6>;
using Mat12 = Eigen::Matrix<double, 12, 12>;

/// A case that bends has twist and stretch of a round shell: A = 2 I / r^2, J = 2 I.
constexpr double kShellRadius_m = 0.15;
constexpr double kShearOverYoung = 1 / (2 * 1.3);  ///< Poisson's ratio 0.3.
/// Points nearer to each other than this along a case move as one, m: a beam between them would be
/// so stiff that rounding would show in what the mounts carry.
constexpr double kSamePlace_m = 0.02;

/// Euler-Bernoulli beam along its own x, [u; theta] of either end. [Przemieniecki68] eq. 5.116.
Mat12 beam_stiffness(double EI, double L) {
  const double EA = 2 * EI / (kShellRadius_m * kShellRadius_m);
  const double GJ = 2 * EI * kShearOverYoung;
  Mat12 K = Mat12::Zero();
  const auto couple = [&K](Eigen::Index i, Eigen::Index j, double k) {
    K(i, j) += k;
    if (i != j) K(j, i) += k;
  };
  couple(0, 0, EA / L), couple(6, 6, EA / L), couple(0, 6, -EA / L);
  couple(3, 3, GJ / L), couple(9, 9, GJ / L), couple(3, 9, -GJ / L);
  // Bending in x-y turns about +z, in x-z about -y.
  for (const auto& [u, turn, sign] : {std::tuple{1, 5, 1.0}, std::tuple{2, 4, -1.0}}) {
    const double shear = 12 * EI / (L * L * L), lever = sign * 6 * EI / (L * L);
    couple(u, u, shear), couple(u + 6, u + 6, shear), couple(u, u + 6, -shear);
    couple(u, turn, lever), couple(u, turn + 6, lever);
    couple(turn, u + 6, -lever), couple(u + 6, turn + 6, -lever);
    couple(turn, turn, 4 * EI / L), couple(turn + 6, turn + 6, 4 * EI / L);
    couple(turn, turn + 6, 2 * EI / L);
  }
  return K;
}

}  // namespace

CaseBodies::CaseBodies(const CaseLine& line) : mount_(line.mounts.size()) {
  points_.push_back(line.cases.front().p_VoF_V);
  for (std::size_t i = 0; i < line.cases.size(); ++i) {
    front_.push_back(points_.size() - 1);
    if (line.cases[i].bending_Nm2 == kStiff) {
      mass_.push_back(front_.back());
      for (std::size_t m = 0; m < mount_.size(); ++m) {
        if (line.mounts[m].on == i) mount_[m] = front_.back();
      }
    } else {
      add_bending_case(line, i);
    }
    rear_.push_back(points_.size() - 1);
  }
  K_ = Eigen::MatrixXd::Zero(6 * count(), 6 * count());
  for (const BeamSpan& beam : beams_) add_beam(beam);
}

void CaseBodies::add_bending_case(const CaseLine& line, std::size_t i) {
  const Case& one = line.cases[i];
  const Vec3 along = one.p_VoR_V - one.p_VoF_V;
  const double length_m = along.norm();
  const auto place_m = [&](const Vec3& p_VoP_V) {
    return std::clamp(along.dot(p_VoP_V - one.p_VoF_V) / length_m, 0.0, length_m);
  };
  std::vector<double> places{0, length_m, place_m(one.p_VoCm_V)};
  for (const CaseMount& mount : line.mounts) {
    if (mount.on == i) places.push_back(place_m(mount.p_VoM_V));
  }
  std::sort(places.begin(), places.end());
  std::map<double, std::size_t> body_at{{0.0, points_.size() - 1}};
  for (const double place : places) {
    const auto& [last, body] = *body_at.rbegin();
    if (place - last < kSamePlace_m) continue;
    beams_.push_back({body, points_.size(), one.bending_Nm2});
    body_at[place] = points_.size();
    points_.emplace_back(one.p_VoF_V + place / length_m * along);
  }
  const auto body_of = [&](const Vec3& p_VoP_V) {
    return std::prev(body_at.upper_bound(place_m(p_VoP_V)))->second;
  };
  mass_.push_back(body_of(one.p_VoCm_V));
  for (std::size_t m = 0; m < mount_.size(); ++m) {
    if (line.mounts[m].on == i) mount_[m] = body_of(line.mounts[m].p_VoM_V);
  }
}

void CaseBodies::add_beam(const BeamSpan& beam) {
  const Vec3 along = points_[beam.to] - points_[beam.from];
  const Vec3 x = along.normalized();
  const Vec3 y = Vec3::UnitZ().cross(x).normalized();
  Mat3 R_BV;
  R_BV << x.transpose(), y.transpose(), x.cross(y).transpose();
  Mat12 turn = Mat12::Zero();
  for (Eigen::Index i = 0; i < 12; i += 3) turn.block<3, 3>(i, i) = R_BV;
  const Mat12 K = turn.transpose() * beam_stiffness(beam.bending_Nm2, along.norm()) * turn;
  const auto from = static_cast<Eigen::Index>(6 * beam.from);
  const auto to = static_cast<Eigen::Index>(6 * beam.to);
  K_.block<6, 6>(from, from) += K.topLeftCorner<6, 6>();
  K_.block<6, 6>(from, to) += K.topRightCorner<6, 6>();
  K_.block<6, 6>(to, from) += K.bottomLeftCorner<6, 6>();
  K_.block<6, 6>(to, to) += K.bottomRightCorner<6, 6>();
}

Vec3 CaseBodies::travel(std::size_t body, const Vec3& p_VoP_V,
                        const Eigen::VectorXd& motion) const {
  const auto at = static_cast<Eigen::Index>(6 * body);
  const Vec3 u = motion.segment<3>(at), theta = motion.segment<3>(at + 3);
  return u + theta.cross(p_VoP_V - points_[body]);
}

void CaseBodies::add_force(std::size_t body, const Vec3& p_VoP_V, const Vec3& f_V, const Vec3& t_V,
                           Eigen::VectorXd& f) const {
  const auto at = static_cast<Eigen::Index>(6 * body);
  f.segment<3>(at) += f_V;
  f.segment<3>(at + 3) += (p_VoP_V - points_[body]).cross(f_V) + t_V;
}

Vec3 CaseBodies::turn(std::size_t body, const Eigen::VectorXd& motion) {
  return motion.segment<3>(static_cast<Eigen::Index>(6 * body + 3));
}

Eigen::Matrix<double, 3, 6> CaseBodies::travel_matrix(const Place& place) const {
  Eigen::Matrix<double, 3, 6> J;
  J << Mat3::Identity(), -cross_matrix(place.p_VoP_V - points_[place.body]);
  return J;
}

void CaseBodies::add_spring(const Place& of, const Place& by, const Mat3& spring_K,
                            Eigen::MatrixXd& K) const {
  K.block<6, 6>(static_cast<Eigen::Index>(6 * of.body), static_cast<Eigen::Index>(6 * by.body)) +=
      travel_matrix(of).transpose() * spring_K * travel_matrix(by);
}

}  // namespace rig::driveline
