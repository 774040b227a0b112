#include "driveline/cases.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <map>

#include "driveline/carried_mounts_internal.h"
#include "driveline/case_bodies_internal.h"
#include "geometry/cross.h"
#include "geometry/matrix.h"
#include "geometry/springs.h"

namespace rig::driveline {
namespace {

/// Stops in and out of touch settle in a few rounds; a mount has two.
constexpr int kMostRounds = 60;

/// Share of a case's length at which a point stands, its face at either end.
double share_along(const Case& one, const Vec3& p_VoP_V) {
  const Vec3 along = one.p_VoR_V - one.p_VoF_V;
  return std::clamp(along.dot(p_VoP_V - one.p_VoF_V) / along.squaredNorm(), 0.0, 1.0);
}

Vec3 torque_on(const CaseLoads& loads, std::size_t i) {
  return i < loads.t_V.size() ? loads.t_V[i] : Vec3::Zero().eval();
}

/// Which way a mount is past its stop, + up along its axis; 0: it is clear.
int side_of_stop(const CaseMount& mount, const Vec3& squeeze_V, const Vec3& rest_V) {
  const double along_m = mount.axis_V.dot(squeeze_V - rest_V);
  if (std::abs(along_m) <= mount.snub_gap_m) return 0;
  return along_m > 0 ? 1 : -1;
}

void resolve(const Vec3& way, CutLoad& load) {
  load.torsion_Nm = load.t_V.dot(way);
  load.bending_Nm = (load.t_V - load.torsion_Nm * way).norm();
  load.shear_N = (load.f_V - load.f_V.dot(way) * way).norm();
}

/// One line under any loads. What its mounts make stiff is made once for each set of stops that
/// touch.
class CasesSolver {
 public:
  explicit CasesSolver(const CaseLine& line) : line_(line), bodies_(line) {}

  /// @param rest  From which stops are counted, the same for all loads; null: stops do not touch.
  CasesAtRest solve(const CaseLoads& loads, const CasesAtRest* rest) {
    const Eigen::VectorXd f = forces_of(loads);
    Touching touching(line_.mounts.size(), 0);
    CasesAtRest out = solve(touching, f, rest);
    if (rest == nullptr) return out;
    for (int round = 0; round < kMostRounds; ++round) {
      Touching now = touching_at(out, *rest);
      if (now == touching) break;
      touching = std::move(now);
      out = solve(touching, f, rest);
    }
    return out;
  }

 private:
  /// The line with the stops that touch.
  struct Stopped {
    CarriedMounts mounts;
    Eigen::LDLT<Eigen::MatrixXd> factors;
    Eigen::VectorXd push_N;
  };

  Eigen::VectorXd forces_of(const CaseLoads& loads) const {
    Eigen::VectorXd f = Eigen::VectorXd::Zero(bodies_.count() * 6);
    for (std::size_t i = 0; i < line_.cases.size(); ++i) {
      const Case& one = line_.cases[i];
      bodies_.add_force(bodies_.at_mass(i), one.p_VoCm_V, one.mass_kg * loads.felt_V,
                        torque_on(loads, i), f);
    }
    return f;
  }

  Touching touching_at(const CasesAtRest& at, const CasesAtRest& rest) const {
    Touching touching;
    for (std::size_t m = 0; m < line_.mounts.size(); ++m) {
      touching.push_back(
          side_of_stop(line_.mounts[m], at.mounts[m].squeeze_V, rest.mounts[m].squeeze_V));
    }
    return touching;
  }

  const Stopped& stopped(const Touching& touching, const CasesAtRest* rest) {
    const auto known = stopped_.find(touching);
    if (known != stopped_.end()) return known->second;
    Stopped made{.mounts = CarriedMounts(line_, touching, rest),
                 .factors = {},
                 .push_N = Eigen::VectorXd::Zero(bodies_.count() * 6)};
    Eigen::MatrixXd K = bodies_.stiffness();
    for (std::size_t m = 0; m < line_.mounts.size(); ++m) {
      bodies_.add_force(bodies_.at_mount(m), place(m), made.mounts.push_N(m), Vec3::Zero(),
                        made.push_N);
      for (std::size_t by = 0; by < line_.mounts.size(); ++by) {
        if (by != m && !made.mounts.are_coupled()) continue;
        bodies_.add_spring({bodies_.at_mount(m), place(m)}, {bodies_.at_mount(by), place(by)},
                           made.mounts.stiffness(m, by), K);
      }
    }
    made.factors.compute(K);
    return stopped_.emplace(touching, std::move(made)).first->second;
  }

  CasesAtRest solve(const Touching& touching, const Eigen::VectorXd& f, const CasesAtRest* rest) {
    const Stopped& on = stopped(touching, rest);
    return tell(on.mounts, touching, on.factors.solve(f + on.push_N));
  }

  CasesAtRest tell(const CarriedMounts& mounts, const Touching& touching,
                   const Eigen::VectorXd& motion) const {
    Eigen::VectorXd travel(static_cast<Eigen::Index>(3 * line_.mounts.size()));
    for (std::size_t m = 0; m < line_.mounts.size(); ++m) {
      travel.segment<3>(static_cast<Eigen::Index>(3 * m)) =
          bodies_.travel(bodies_.at_mount(m), place(m), motion);
    }
    const Eigen::VectorXd forces = mounts.forces_N(travel), squeeze = mounts.squeeze_m(travel);
    CasesAtRest out;
    for (std::size_t m = 0; m < line_.mounts.size(); ++m) {
      const auto at = static_cast<Eigen::Index>(3 * m);
      MountLoad load{.f_V = forces.segment<3>(at),
                     .travel_V = travel.segment<3>(at),
                     .squeeze_V = squeeze.segment<3>(at),
                     .snubbed = touching[m] != 0};
      load.along_N = line_.mounts[m].axis_V.dot(load.f_V);
      out.mounts.push_back(load);
    }
    for (std::size_t i = 0; i < line_.cases.size(); ++i) {
      const Case& one = line_.cases[i];
      const std::size_t front = bodies_.at_front(i), rear = bodies_.at_rear(i);
      out.front_travel_V.push_back(bodies_.travel(front, one.p_VoF_V, motion));
      out.rear_travel_V.push_back(bodies_.travel(rear, one.p_VoR_V, motion));
      out.front_turn_V.push_back(bodies_.turn(front, motion));
      out.rear_turn_V.push_back(bodies_.turn(rear, motion));
    }
    return out;
  }

  const Vec3& place(std::size_t mount) const { return line_.mounts[mount].p_VoM_V; }

  const CaseLine& line_;
  CaseBodies bodies_;
  std::map<Touching, Stopped> stopped_;
};

/// How a stiff line can still move, in words; empty where its mounts hold it.
std::string find_loose_way(const CaseLine& line) {
  std::vector<PointSpring> springs;
  springs.reserve(line.mounts.size());
  for (const CaseMount& mount : line.mounts) springs.push_back({mount.p_VoM_V, mount.K_V});
  const auto K = calc_body_stiffness(springs, line.p_VoCm_V());
  const Eigen::VectorXd ways = find_axis_values(K);
  constexpr double kLoose = 1e-9;  // of the stiffest way: rounding leaves some 1e-15
  if (ways[0] > kLoose * ways[5]) return {};
  Eigen::Index most = 0;
  find_axes(K).vectors.col(0).cwiseAbs().maxCoeff(&most);
  constexpr const char* kWays[] = {"forward and back", "sideways",        "up and down",
                                   "over to a side",   "nose up or down", "round to a side"};
  return kWays[most];
}

Diagnostics check_held(const CaseLine& line) {
  RIG_REQUIRE(!line.cases.empty());
  if (line.mounts.empty()) {
    return fail("driveline.no_mounts", "/drivetrain/mounts", "nothing carries the cases",
                "give the mounts that they hang on")
        .diagnostics;
  }
  const std::string loose = find_loose_way(line);
  if (loose.empty()) return {};
  return fail("driveline.not_held", "/drivetrain/mounts",
              "the mounts do not hold the cases: they can move " + loose,
              "give another mount, or rates in every direction to those there are")
      .diagnostics;
}

void add_flanges(const CaseLine& line, const CaseLoads& loads, CasesAtRest& out) {
  for (std::size_t i = 0; i + 1 < line.cases.size(); ++i) {
    out.flanges.push_back(calc_cut_load(line, loads, out, i, 1));
  }
}

}  // namespace

double CaseLine::mass_kg() const {
  double mass = 0;
  for (const Case& one : cases) mass += one.mass_kg;
  return mass;
}

Vec3 CaseLine::p_VoCm_V() const {
  Vec3 first = Vec3::Zero();
  for (const Case& one : cases) first += one.mass_kg * one.p_VoCm_V;
  return first / mass_kg();
}

Mat3 CaseLine::I_Cm_V() const {
  const Vec3 middle = p_VoCm_V();
  Mat3 inertia = Mat3::Zero();
  for (const Case& one : cases) {
    const Mat3 r = cross_matrix(one.p_VoCm_V - middle);
    inertia += one.I_Cm_V - one.mass_kg * r * r;
  }
  return inertia;
}

Result<CasesAtRest> solve_cases(const CaseLine& line, const CaseLoads& loads,
                                const CasesAtRest* rest) {
  if (Diagnostics faults = check_held(line); !faults.empty()) return Failure{std::move(faults)};
  CasesAtRest out = CasesSolver(line).solve(loads, rest);
  add_flanges(line, loads, out);
  return out;
}

Result<std::vector<CasesAtRest>> solve_loads(const CaseLine& line,
                                             std::span<const CaseLoads> loads) {
  if (Diagnostics faults = check_held(line); !faults.empty()) return Failure{std::move(faults)};
  CasesSolver solver(line);
  std::vector<CasesAtRest> out;
  out.reserve(loads.size());
  for (const CaseLoads& load : loads) {
    out.push_back(solver.solve(load, out.empty() ? nullptr : &out.front()));
    add_flanges(line, load, out.back());
  }
  return out;
}

CaseMotion calc_case_motion(const CaseLine& line, const CasesAtRest& at_rest, std::size_t on,
                            const Vec3& p_VoP_V) {
  const Case& one = line.cases[on];
  const double share = share_along(one, p_VoP_V);
  const auto with = [&](const Vec3& p_VoO_V, const Vec3& travel_V, const Vec3& turn_V) {
    return CaseMotion{travel_V + turn_V.cross(p_VoP_V - p_VoO_V), turn_V};
  };
  const CaseMotion front = with(one.p_VoF_V, at_rest.front_travel_V[on], at_rest.front_turn_V[on]);
  const CaseMotion rear = with(one.p_VoR_V, at_rest.rear_travel_V[on], at_rest.rear_turn_V[on]);
  return {(1 - share) * front.travel_V + share * rear.travel_V,
          (1 - share) * front.turn_V + share * rear.turn_V};
}

CutLoad calc_cut_load(const CaseLine& line, const CaseLoads& loads, const CasesAtRest& at_rest,
                      std::size_t on, double share) {
  const Case& cut = line.cases[on];
  const Vec3 p_VoC_V = cut.p_VoF_V + share * (cut.p_VoR_V - cut.p_VoF_V);
  const auto is_before = [&](std::size_t i, const Vec3& p_VoP_V) {
    return i < on || (i == on && (share >= 1 || share_along(cut, p_VoP_V) < share));
  };
  CutLoad load;
  const auto add = [&](const Vec3& p_VoP_V, const Vec3& f_V) {
    load.f_V += f_V;
    load.t_V += (p_VoP_V - p_VoC_V).cross(f_V);
  };
  for (std::size_t i = 0; i <= on; ++i) {
    const Case& one = line.cases[i];
    if (!is_before(i, one.p_VoCm_V)) continue;
    add(one.p_VoCm_V, one.mass_kg * loads.felt_V);
    load.t_V += torque_on(loads, i);
  }
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    const CaseMount& mount = line.mounts[m];
    if (is_before(mount.on, mount.p_VoM_V)) add(mount.p_VoM_V, at_rest.mounts[m].f_V);
  }
  resolve((cut.p_VoF_V - cut.p_VoR_V).normalized(), load);
  return load;
}

}  // namespace rig::driveline
