#include <algorithm>

#include "build/drivetrain_lookup.h"
#include "frame/seats_internal.h"
#include "frame/weights.h"
#include "geometry/cross.h"
#include "geometry/matrix.h"
#include "geometry/springs.h"

namespace rig::frame {
namespace {

/// Mounts nearer to each other than this are one, m.
constexpr double kSameMount_m = 1e-6;

void add_seats(const Model& model, const std::string& path, const build::DriveMount* rubber,
               std::vector<Seat>& out) {
  for (const Attachment& attachment : model.attachments) {
    if (attachment.kind != AttachmentKind::mount || attachment.path != path) continue;
    Seat seat{.on = &attachment};
    if (rubber != nullptr) {
      for (const build::MountSide& side : build::find_sides(*rubber)) {
        const bool same = (side.p_VoM_V - attachment.p_VoP_V).norm() < kSameMount_m;
        if (same) seat.K_V = build::mount_stiffness(*rubber, side);
      }
    }
    out.push_back(seat);
  }
}

/// The drivetrain's mounts of a known rate that carry a mass as one of the cases, the makers' and
/// the planned.
std::vector<const build::Entry<build::DriveMount>*> find_rubbers(const build::Build& build,
                                                                 const std::string& mass_id) {
  std::vector<const build::Entry<build::DriveMount>*> out;
  for (const auto when : {build::Carried::kAsMade, build::Carried::kAsPlanned}) {
    for (const auto* mount : build::find_carriers(build.drivetrain, mass_id, when)) {
      const bool new_one = std::find(out.begin(), out.end(), mount) == out.end();
      if (new_one && mount->value.compression.known()) out.push_back(mount);
    }
  }
  return out;
}

/// Of these, where the frame of the model has them.
std::vector<Seat> seats_on(const Model& model,
                           const std::vector<const build::Entry<build::DriveMount>*>& rubbers) {
  std::vector<Seat> out;
  for (const auto* mount : rubbers) add_seats(model, mount->path, &mount->value, out);
  return out;
}

/// Whether springs at the seats resist every motion of what sits on them.
bool hold(const std::vector<Seat>& seats, const Vec3& p_VoCm_V) {
  constexpr double kGives = 1e-6;  // of the stiffest way
  std::vector<PointSpring> springs;
  springs.reserve(seats.size());
  for (const Seat& seat : seats) springs.push_back({seat.on->p_VoP_V, seat.K_V});
  const Eigen::VectorXd ways = find_axis_values(calc_body_stiffness(springs, p_VoCm_V));
  return ways[0] > kGives * ways[5];
}

/// A case sits on the drivetrain's mounts where they are known with their rates, all else on the
/// frame's.
std::vector<Seat> list_seats(const Model& model, const build::Build& build,
                             const std::string& mass_id) {
  std::vector<Seat> out = seats_on(model, find_rubbers(build, mass_id));
  if (!out.empty()) return out;
  for (const auto& mount : build.frame.mounts) {
    const auto& carries = mount.value.carries;
    const bool its = std::any_of(carries.begin(), carries.end(),
                                 [&](const build::Reference& mass) { return mass.id == mass_id; });
    if (its) add_seats(model, mount.path, nullptr, out);
  }
  return out;
}

}  // namespace

Seats::Seats(std::vector<Seat> seats) : seats_(std::move(seats)) {
  if (seats_.empty()) return;
  const auto n = static_cast<Eigen::Index>(seats_.size());
  for (const Seat& seat : seats_) middle_ += seat.on->p_VoP_V / static_cast<double>(n);
  // Six equations of balance about the middle of the seats. Of all forces that hold it those of a
  // stiff body on springs have the least energy: f = K B^T lambda.
  balance_.resize(6, 3 * n);
  Eigen::MatrixXd weighted(3 * n, 6);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Seat& seat = seats_[static_cast<std::size_t>(i)];
    balance_.block<3, 3>(0, 3 * i).setIdentity();
    balance_.block<3, 3>(3, 3 * i) = cross_matrix(seat.on->p_VoP_V - middle_);
    weighted.block<3, 6>(3 * i, 0) = seat.K_V * balance_.block<6, 3>(0, 3 * i).transpose();
  }
  forces_ = weighted * invert_by_least_squares(balance_ * weighted);
}

void Seats::lay(const Vec3& p_VoCm_V, const Vec3& f_V, const Vec3& t_V, Loads& loads) const {
  const double share = 1.0 / static_cast<double>(seats_.size());
  Eigen::Matrix<double, 6, 1> wanted;
  wanted << f_V, (p_VoCm_V - middle_).cross(f_V) + t_V;
  const Eigen::VectorXd forces = forces_ * wanted;
  const Eigen::Matrix<double, 6, 1> left = wanted - balance_ * forces;
  for (std::size_t i = 0; i < seats_.size(); ++i) {
    const Attachment& mount = *seats_[i].on;
    loads.points.push_back(
        {.joint = mount.joint,
         .p_VoP_V = mount.p_VoP_V,
         .f_P_V = forces.segment<3>(3 * static_cast<Eigen::Index>(i)) + share * left.head<3>(),
         .t_V = share * left.tail<3>()});
  }
}

Seats find_seats(const Model& model, const build::Build& build, const std::string& mass_id) {
  return Seats(list_seats(model, build, mass_id));
}

std::vector<std::string> find_unheld(const Model& model, const build::Build& build,
                                     std::span<const Burden> burdens) {
  std::vector<std::string> out;
  for (const Burden& burden : burdens) {
    const auto rubbers = find_rubbers(build, burden.id);
    if (rubbers.empty()) continue;
    const auto seats = seats_on(model, rubbers);
    if (seats.empty() || !hold(seats, burden.p_VoCm_V)) out.push_back(burden.id);
  }
  return out;
}

}  // namespace rig::frame
