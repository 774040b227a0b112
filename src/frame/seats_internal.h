#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "frame/model.h"

namespace rig::frame {

/// A place where a mass sits on the frame, and how stiffly.
struct Seat {
  const Attachment* on = nullptr;
  Mat3 K_V = Mat3::Identity();  ///< To one scale among the seats of a mass.
};

/// All seats of a mass: what it puts on each.
class Seats {
 public:
  /// @param seats  On attachments that live on; none: the mass has no mount.
  explicit Seats(std::vector<Seat> seats);

  bool empty() const { return seats_.empty(); }
  const Attachment& first() const { return *seats_.front().on; }

  /// A force through a point and a moment.
  void lay(const Vec3& p_VoCm_V, const Vec3& f_V, const Vec3& t_V, Loads& loads) const;

 private:
  std::vector<Seat> seats_;
  Vec3 middle_ = Vec3::Zero();
  Eigen::Matrix<double, 6, Eigen::Dynamic> balance_;  ///< What forces at the seats make.
  Eigen::Matrix<double, Eigen::Dynamic, 6> forces_;   ///< Of what they shall make.
};

/// Where a mass sits, as the model has its mounts.
Seats find_seats(const Model& model, const build::Build& build, const std::string& mass_id);

}  // namespace rig::frame
