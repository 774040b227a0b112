#include "frame/weights.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <map>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/seats_internal.h"
#include "geometry/cross.h"
#include "geometry/matrix.h"

namespace rig::frame {
namespace {

/// Inertia over mass below which masses stand on one line, and nothing turns about it: (1 mm)^2.
constexpr double kNoInertia_m2 = 1e-6;
/// Shorter than this a mass is a point, m.
constexpr double kPoint_m = 1e-6;

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

struct Seating::Impl {
  const Model& model;
  const build::Build& build;
  std::map<std::string, Seats> seats;  ///< By mass; empty where it lies on the rails.
};

Seating::Seating(const Model& model, const build::Build& build)
    : impl_(std::make_unique<Impl>(Impl{model, build, {}})) {}
Seating::~Seating() = default;

const Model& Seating::model() const { return impl_->model; }
const build::Build& Seating::build() const { return impl_->build; }

void Seating::find(std::span<const Burden> burdens) {
  for (const Burden& burden : burdens) {
    if (impl_->seats.contains(burden.id)) continue;
    impl_->seats.emplace(burden.id, find_seats(impl_->model, impl_->build, burden.id));
  }
}

Burdened Seating::lay(std::span<const Burden> burdens, const AccelerationField& field) const {
  Burdened out;
  const RailBeams rails(impl_->model);
  for (const Burden& burden : burdens) {
    const Vec3 f_V = -burden.mass_kg * field.at(burden.p_VoCm_V);
    const auto found = impl_->seats.find(burden.id);
    RIG_REQUIRE(found != impl_->seats.end());
    if (found->second.empty()) {
      lay_along_rails(rails, burden.p_VoCm_V, burden.length_m, f_V, out.loads);
      out.bearings.push_back(Bearing::along_rails);
    } else {
      found->second.lay(burden.p_VoCm_V, f_V, Vec3::Zero(), out.loads);
      out.bearings.push_back(Bearing::mounts);
    }
  }
  return out;
}

Burdened lay_burdens(const Model& model, const build::Build& build, std::span<const Burden> burdens,
                     const AccelerationField& field) {
  Seating seating(model, build);
  seating.find(burdens);
  return seating.lay(burdens, field);
}

bool lay_couple_on_mounts(const Model& model, const build::Build& build, const std::string& mass_id,
                          const Vec3& t_V, Loads& loads) {
  const Seats seats = find_seats(model, build, mass_id);
  if (seats.empty()) return false;
  seats.lay(seats.first().p_VoP_V, Vec3::Zero(), t_V, loads);
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
