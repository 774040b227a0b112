#include "frame/weights.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "build/drivetrain_lookup.h"
#include "frame/index_internal.h"
#include "geometry/cross.h"
#include "geometry/matrix.h"
#include "geometry/springs.h"

namespace rig::frame {
namespace {

/// Inertia over mass below which masses stand on one line, and nothing turns about it: (1 mm)^2.
constexpr double kNoInertia_m2 = 1e-6;
/// Shorter than this a mass is a point, m.
constexpr double kPoint_m = 1e-6;

/// A place where a mass sits on the frame, and how stiffly.
struct Seat {
  const Attachment* on = nullptr;
  Mat3 K_V = Mat3::Identity();  ///< To one scale among the seats of a mass.
};

void add_seats(const Model& model, const std::string& path, const build::DriveMount* rubber,
               std::vector<Seat>& out) {
  for (const Attachment& attachment : model.attachments) {
    if (attachment.kind != AttachmentKind::mount || attachment.path != path) continue;
    Seat seat{.on = &attachment};
    if (rubber != nullptr) {
      for (const build::MountSide& side : build::find_sides(*rubber)) {
        const bool same = (side.p_VoM_V - attachment.p_VoP_V).norm() < kPoint_m;
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

/// Where a mass sits: a case on the drivetrain's mounts where they are known with their rates, all
/// else on the frame's.
std::vector<Seat> find_seats(const Model& model, const build::Build& build,
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

void lay_on_seats(const std::vector<Seat>& seats, const Vec3& p_VoCm_V, const Vec3& f_V,
                  const Vec3& t_V, Loads& loads) {
  const auto n = static_cast<Eigen::Index>(seats.size());
  const double share = 1.0 / static_cast<double>(seats.size());
  // Six equations of balance about the middle of the seats. Of all forces that hold it those of a
  // stiff body on springs have the least energy: f = K B^T lambda.
  Vec3 middle = Vec3::Zero();
  for (const Seat& seat : seats) middle += share * seat.on->p_VoP_V;
  Eigen::MatrixXd balance(6, 3 * n), weighted(3 * n, 6);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Seat& seat = seats[at(static_cast<int>(i))];
    balance.block<3, 3>(0, 3 * i).setIdentity();
    balance.block<3, 3>(3, 3 * i) = cross_matrix(seat.on->p_VoP_V - middle);
    weighted.block<3, 6>(3 * i, 0) = seat.K_V * balance.block<6, 3>(0, 3 * i).transpose();
  }
  Eigen::VectorXd wanted(6);
  wanted << f_V, (p_VoCm_V - middle).cross(f_V) + t_V;
  const Eigen::VectorXd forces = weighted * solve_least_squares(balance * weighted, wanted);
  const Eigen::VectorXd left = wanted - balance * forces;
  for (Eigen::Index i = 0; i < n; ++i) {
    const Attachment& mount = *seats[at(static_cast<int>(i))].on;
    loads.points.push_back({.joint = mount.joint,
                            .p_VoP_V = mount.p_VoP_V,
                            .f_P_V = forces.segment<3>(3 * i) + share * left.head<3>(),
                            .t_V = share * left.tail<3>()});
  }
}

/// The rails of a model, as what can lie on them sees them.
class RailBeams {
 public:
  explicit RailBeams(const Model& model) : model_(model) {
    for (std::size_t b = 0; b < model.beams.size(); ++b) {
      const BeamPlace& place = model.beams[b];
      if (place.sign == 0) continue;
      const std::size_t side = place.sign > 0 ? 0 : 1;
      beams_[side].push_back(static_cast<int>(b));
    }
    for (auto& side : beams_) {
      std::sort(side.begin(), side.end(), [&](int a, int b) {
        return model_.beams[at(a)].begin_m < model_.beams[at(b)].begin_m;
      });
    }
  }

  bool has(std::size_t side) const { return !beams_[side].empty(); }

  /// An even force along stations on one side, as forces at the ends of the beams there that lie
  /// in the same line: each part's force at its middle, by the lever.
  void lay(std::size_t side, double front_m, double rear_m, const Vec3& f_V, const Vec3& p_VoF_V,
           Loads& loads) const {
    const auto& beams = beams_[side];
    const double begin_m = model_.beams[at(beams.front())].begin_m;
    const double end_m = model_.beams[at(beams.back())].end_m;
    front_m = std::clamp(front_m, begin_m, end_m);
    rear_m = std::clamp(rear_m, begin_m, end_m);
    const double length_m = rear_m - front_m;
    // What is moved to lie on the rails keeps its moment.
    const Vec3 p_VoM_V(-(front_m + rear_m) / 2, p_VoF_V.y(), p_VoF_V.z());
    const Vec3 lost = (p_VoF_V - p_VoM_V).cross(f_V);
    for (const int beam : beams) {
      const BeamPlace& place = model_.beams[at(beam)];
      const double from_m = std::max(front_m, place.begin_m);
      const double to_m = std::min(rear_m, place.end_m);
      if (length_m < kPoint_m) {
        if (place.end_m < front_m - kPoint_m) continue;
        lay_on_beam(beam, front_m, f_V, lost, p_VoM_V, loads);
        return;
      }
      if (!(to_m > from_m)) continue;
      const double part = (to_m - from_m) / length_m;
      const double station_m = (from_m + to_m) / 2;
      lay_on_beam(beam, station_m, part * f_V, part * lost, {-station_m, p_VoM_V.y(), p_VoM_V.z()},
                  loads);
    }
  }

  /// Offset of a side's rail at a station.
  double offset_m(std::size_t side, double station_m) const {
    const auto& beams = beams_[side];
    const int beam = nearest(beams, station_m);
    const Beam& b = model_.structure.beams[at(beam)];
    return b.p_VoF_V.y() + share_of(beam, station_m) * (b.p_VoT_V - b.p_VoF_V).y();
  }

 private:
  int nearest(const std::vector<int>& beams, double station_m) const {
    for (const int beam : beams) {
      if (station_m <= model_.beams[at(beam)].end_m) return beam;
    }
    return beams.back();
  }

  /// Share of a beam's length from its `from` end at a station, 0 to 1.
  double share_of(int beam, double station_m) const {
    const Beam& b = model_.structure.beams[at(beam)];
    const double from_m = -b.p_VoF_V.x(), to_m = -b.p_VoT_V.x();
    return std::clamp((station_m - from_m) / (to_m - from_m), 0.0, 1.0);
  }

  void lay_on_beam(int beam, double station_m, const Vec3& f_V, const Vec3& t_V,
                   const Vec3& p_VoF_V, Loads& loads) const {
    const Beam& b = model_.structure.beams[at(beam)];
    const double to_share = share_of(beam, station_m);
    // The two ends' forces act where the whole does: rigid arms keep the moment.
    for (const auto& [joint, share] :
         {std::pair{b.from, 1 - to_share}, std::pair{b.to, to_share}}) {
      if (share == 0) continue;
      const Vec3& p_VoJ_V = joint == b.from ? b.p_VoF_V : b.p_VoT_V;
      loads.points.push_back({.joint = joint,
                              .p_VoP_V = {p_VoJ_V.x(), p_VoF_V.y(), p_VoF_V.z()},
                              .f_P_V = share * f_V,
                              .t_V = share * t_V});
    }
  }

  const Model& model_;
  std::array<std::vector<int>, 2> beams_;  ///< Left, right; from the front.
};

void lay_along_rails(const RailBeams& rails, const Vec3& p_VoF_V, double length_m, const Vec3& f_V,
                     Loads& loads) {
  const double station_m = -p_VoF_V.x();
  const double front_m = station_m - length_m / 2;
  const double rear_m = station_m + length_m / 2;
  if (!rails.has(0) || !rails.has(1)) {
    rails.lay(rails.has(0) ? 0 : 1, front_m, rear_m, f_V, p_VoF_V, loads);
    return;
  }
  const double left_m = rails.offset_m(0, station_m), right_m = rails.offset_m(1, station_m);
  const double left_share = (p_VoF_V.y() - right_m) / (left_m - right_m);
  for (const std::size_t side : {0U, 1U}) {
    const double share = side == 0 ? left_share : 1 - left_share;
    Vec3 p = p_VoF_V;
    p.y() = side == 0 ? left_m : right_m;
    rails.lay(side, front_m, rear_m, share * f_V, p, loads);
  }
}

}  // namespace

Burdened lay_burdens(const Model& model, const build::Build& build, std::span<const Burden> burdens,
                     const AccelerationField& field) {
  Burdened out;
  const RailBeams rails(model);
  for (const Burden& burden : burdens) {
    const Vec3 f_V = -burden.mass_kg * field.at(burden.p_VoCm_V);
    const auto seats = find_seats(model, build, burden.id);
    if (seats.empty()) {
      lay_along_rails(rails, burden.p_VoCm_V, burden.length_m, f_V, out.loads);
      out.bearings.push_back(Bearing::along_rails);
    } else {
      lay_on_seats(seats, burden.p_VoCm_V, f_V, Vec3::Zero(), out.loads);
      out.bearings.push_back(Bearing::mounts);
    }
  }
  return out;
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

bool lay_couple_on_mounts(const Model& model, const build::Build& build, const std::string& mass_id,
                          const Vec3& t_V, Loads& loads) {
  const auto seats = find_seats(model, build, mass_id);
  if (seats.empty()) return false;
  lay_on_seats(seats, seats.front().on->p_VoP_V, Vec3::Zero(), t_V, loads);
  return true;
}

void lay_on_rails(const Model& model, const Vec3& p_VoF_V, const Vec3& f_V, Loads& loads) {
  lay_along_rails(RailBeams(model), p_VoF_V, 0, f_V, loads);
}

AccelerationField find_relief(std::span<const Burden> burdens, const Resultant& resultant) {
  double mass_kg = 0;
  Vec3 first_kg_m = Vec3::Zero();
  for (const Burden& burden : burdens) {
    mass_kg += burden.mass_kg;
    first_kg_m += burden.mass_kg * burden.p_VoCm_V;
  }
  AccelerationField field{
      .a_V = resultant.f_V / mass_kg, .alpha_V = Vec3::Zero(), .p_VoO_V = first_kg_m / mass_kg};
  Mat3 inertia = Mat3::Zero();
  for (const Burden& burden : burdens) {
    const Mat3 r = cross_matrix(burden.p_VoCm_V - field.p_VoO_V);
    inertia -= burden.mass_kg * r * r;
  }
  const Vec3 moment = resultant.t_Vo_V - field.p_VoO_V.cross(resultant.f_V);
  const Axes axes = find_axes(inertia);
  for (Eigen::Index i = 0; i < 3; ++i) {
    if (!(axes.values[i] > kNoInertia_m2 * mass_kg)) continue;
    const Vec3 axis = axes.vectors.col(i);
    field.alpha_V += axis.dot(moment) / axes.values[i] * axis;
  }
  return field;
}

}  // namespace rig::frame
