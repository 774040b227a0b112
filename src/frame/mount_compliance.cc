#include "frame/mount_compliance.h"

#include <Eigen/Cholesky>
#include <algorithm>

#include "geometry/cross.h"
#include "geometry/matrix.h"

namespace rig::frame {
namespace {

using Mat6x12 = Eigen::Matrix<double, 6, 12>;

/// Resultant of forces at the supports, about their middle.
Mat6x12 resultant_matrix(const AxlePoints& supports, const Vec3& p_VoO_V) {
  Mat6x12 B;
  for (std::size_t i = 0; i < supports.size(); ++i) {
    const auto at = static_cast<Eigen::Index>(3 * i);
    B.block<3, 3>(0, at).setIdentity();
    B.block<3, 3>(3, at) = cross_matrix(supports[i].p_VoP_V - p_VoO_V);
  }
  return B;
}

/// A force of 1 N on a point along a way, with what holds the frame against it.
class UnitLoads {
 public:
  explicit UnitLoads(const AxlePoints& supports) : supports_(supports) {
    for (const JointPoint& support : supports) p_VoO_V_ += support.p_VoP_V / 4;
    const Mat6x12 B = resultant_matrix(supports, p_VoO_V_);
    const Eigen::Matrix<double, 6, 6> BB = B * B.transpose();
    holds_ = find_axis_values(Mat3(BB.bottomRightCorner<3, 3>()))[0] >
             kInLine * BB.bottomRightCorner<3, 3>().trace();
    if (holds_)
      reactions_ = -B.transpose() * BB.ldlt().solve(Eigen::Matrix<double, 6, 6>::Identity());
  }

  bool can_hold() const { return holds_; }

  Loads make(const JointPoint& point, const Vec3& f_V) const {
    Eigen::Matrix<double, 6, 1> resultant;
    resultant << f_V, (point.p_VoP_V - p_VoO_V_).cross(f_V);
    const Eigen::Matrix<double, 12, 1> held = reactions_ * resultant;
    Loads loads;
    loads.points.push_back({.joint = point.joint, .p_VoP_V = point.p_VoP_V, .f_P_V = f_V});
    for (std::size_t i = 0; i < supports_.size(); ++i) {
      loads.points.push_back({.joint = supports_[i].joint,
                              .p_VoP_V = supports_[i].p_VoP_V,
                              .f_P_V = held.segment<3>(static_cast<Eigen::Index>(3 * i))});
    }
    return loads;
  }

 private:
  static constexpr double kInLine = 1e-9;
  const AxlePoints& supports_;
  Vec3 p_VoO_V_ = Vec3::Zero();
  bool holds_ = false;
  Eigen::Matrix<double, 12, 6> reactions_;
};

/// Work of a load's forces on a response.
double calc_work(const Structure& structure, const Loads& loads, const Response& response) {
  double work = 0;
  for (const PointLoad& load : loads.points) {
    work += load.f_P_V.dot(calc_displacement(structure, response, load.joint, load.p_VoP_V));
  }
  return work;
}

}  // namespace

Result<Eigen::MatrixXd> calc_mount_compliance(const Solver& solver, const AxlePoints& supports,
                                              std::span<const JointPoint> points) {
  const Structure& structure = solver.structure();
  const auto is_known = [&](const JointPoint& point) {
    return point.joint >= 0 && static_cast<std::size_t>(point.joint) < structure.joints.size();
  };
  if (!std::all_of(points.begin(), points.end(), is_known) ||
      !std::all_of(supports.begin(), supports.end(), is_known)) {
    return fail("frame.unknown_joint", "", "a mount hangs on a joint that the frame does not have");
  }
  const UnitLoads unit(supports);
  if (!unit.can_hold()) {
    return fail("frame.points_in_line", "",
                "the axle points that carry the frame lie in one line, so they can't hold it",
                "give both axles their stations");
  }
  std::vector<Loads> loads;
  for (const JointPoint& point : points) {
    for (int way = 0; way < 3; ++way) loads.push_back(unit.make(point, Vec3::Unit(way)));
  }
  const auto responses = solver.solve(loads);
  if (!responses) return Failure{responses.error()};
  const auto n = static_cast<Eigen::Index>(loads.size());
  Eigen::MatrixXd C(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j <= i; ++j) {
      C(i, j) = C(j, i) = calc_work(structure, loads[static_cast<std::size_t>(i)],
                                    (*responses)[static_cast<std::size_t>(j)]);
    }
  }
  return C;
}

}  // namespace rig::frame
