#include "frame/stiffness.h"

#include <fmt/format.h>

#include <Eigen/LU>
#include <optional>

#include "frame/faults_internal.h"
#include "geometry/matrix.h"

namespace rig::frame {
namespace {

using Eigen::Vector4d;

/// Length or width of the axle points, over the larger of both, below which there is none.
constexpr double kInLine = 1e-6;

double length_m(const AxlePoints& p) {
  return (p[0].p_VoP_V + p[1].p_VoP_V - p[2].p_VoP_V - p[3].p_VoP_V).x() / 2;
}

void check_point(const Structure& structure, const JointPoint& point, const char* name,
                 Diagnostics& out) {
  if (point.joint < 0 || static_cast<std::size_t>(point.joint) >= structure.joints.size()) {
    add_fault(
        out, "frame.unknown_joint", fmt::format("/{}/joint", name),
        fmt::format("the stiffness is measured on joint {}, which there is not", point.joint));
  }
  if (!point.p_VoP_V.allFinite()) {
    add_fault(out, "frame.not_finite", fmt::format("/{}", name),
              "a place where the stiffness is measured has a number that is none");
  }
}

Diagnostics check(const Structure& structure, const MeasuringPoints& points, bool with_middle) {
  Diagnostics out;
  check_point(structure, points.front_left, "front_left", out);
  check_point(structure, points.front_right, "front_right", out);
  check_point(structure, points.rear_left, "rear_left", out);
  check_point(structure, points.rear_right, "rear_right", out);
  if (with_middle) {
    check_point(structure, points.middle_left, "middle_left", out);
    check_point(structure, points.middle_right, "middle_right", out);
  }
  for (std::size_t i = 0; i < structure.joint_springs.size(); ++i) {
    if (structure.joint_springs[i].from >= 0) continue;
    add_fault(out, "frame.not_free", fmt::format("/joint_springs/{}", i),
              "the stiffness of a frame is measured while nothing holds it",
              "leave out what ties it to the ground");
  }
  if (!out.empty()) return out;
  const AxlePoints p = axle_points(points);
  const double length = std::abs(length_m(p));
  const double front = std::abs((p[0].p_VoP_V - p[1].p_VoP_V).y());
  const double rear = std::abs((p[2].p_VoP_V - p[3].p_VoP_V).y());
  const double size = std::max({length, front, rear});
  if (!(std::min({length, front, rear}) > kInLine * size)) {
    add_fault(out, "frame.points_in_line", "",
              "the points on which the stiffness is measured have no length or width",
              "two points on each rail, at the axles' stations");
  }
  return out;
}

/// What vertical forces on the axle points make: force up, moments about x and y.
Eigen::Matrix<double, 3, 4> calc_levers(const AxlePoints& points) {
  Eigen::Matrix<double, 3, 4> out;
  for (int i = 0; i < 4; ++i) {
    const Vec3& p = points[static_cast<std::size_t>(i)].p_VoP_V;
    out.col(i) = Vec3(1, p.y(), -p.x());
  }
  return out;
}

void push(const JointPoint& point, const Vec3& f_V, Loads& loads) {
  loads.points.push_back({.joint = point.joint, .p_VoP_V = point.p_VoP_V, .f_P_V = f_V});
}

void push_up(const AxlePoints& points, const Vector4d& forces_N, Loads& loads) {
  for (int i = 0; i < 4; ++i) {
    push(points[static_cast<std::size_t>(i)], {0, 0, forces_N[i]}, loads);
  }
}

/// Vertical forces on the axle points, smallest in squares, that bring loads to balance.
void balance(const Structure& structure, const AxlePoints& points, Loads& loads) {
  const Resultant left = calc_resultant(structure, loads);
  const auto levers = calc_levers(points);
  const Vec3 wanted = -Vec3(left.f_V.z(), left.t_Vo_V.x(), left.t_Vo_V.y());
  push_up(points, levers.transpose() * (levers * levers.transpose()).inverse() * wanted, loads);
}

/// The one kind of vertical forces on the axle points that is in balance by itself, of 1 N m about
/// x at the front.
Vector4d calc_twisting(const AxlePoints& points) {
  const auto levers = calc_levers(points);
  const Vector4d out = find_axes(levers.transpose() * levers).vectors.col(0);
  const double middle_m = levers.row(1).mean();
  return out / ((levers(1, 0) - middle_m) * out[0] + (levers(1, 1) - middle_m) * out[1]);
}

Loads twisting_loads(const AxlePoints& points) {
  Loads out;
  push_up(points, calc_twisting(points), out);
  return out;
}

/// Work of loads on the displacements of a response.
double calc_work_J(const Structure& structure, const Loads& loads, const Response& response) {
  double out = 0;
  for (const PointLoad& load : loads.points) {
    out += load.f_P_V.dot(calc_displacement(structure, response, load.joint, load.p_VoP_V));
  }
  return out;
}

/// What loads do to a frame.
Result<Measurement> measure(const Solver& solver, Loads loads) {
  auto responses = solver.solve({&loads, 1});
  if (!responses) return Failure{responses.error()};
  return Measurement{std::move(loads), std::move(responses->front())};
}

/// Force per displacement, or moment per turn, of a measurement under a unit of it.
double calc_stiffness(const Structure& structure, const Measurement& measured) {
  return 1 / calc_work_J(structure, measured.loads, measured.response);
}

/// The sum of two answers, the second `share` times.
Measurement add(const Measurement& a, const Measurement& b, double share) {
  Measurement out = a;
  for (PointLoad load : b.loads.points) {
    load.f_P_V *= share;
    out.loads.points.push_back(load);
  }
  for (std::size_t i = 0; i < out.response.displacement_V.size(); ++i) {
    out.response.displacement_V[i] += share * b.response.displacement_V[i];
    out.response.rotation_V[i] += share * b.response.rotation_V[i];
  }
  for (std::size_t i = 0; i < out.response.scalar.size(); ++i) {
    out.response.scalar[i] += share * b.response.scalar[i];
  }
  return out;
}

}  // namespace

AxlePoints axle_points(const MeasuringPoints& points) {
  return {points.front_left, points.front_right, points.rear_left, points.rear_right};
}

Result<TorsionStiffness> solve_torsion_stiffness(const Solver& solver,
                                                 const MeasuringPoints& points) {
  const Structure& s = solver.structure();
  if (Diagnostics faults = check(s, points, false); !faults.empty()) {
    return Failure{std::move(faults)};
  }
  auto measured = measure(solver, twisting_loads(axle_points(points)));
  if (!measured) return Failure{measured.error()};
  return TorsionStiffness{calc_stiffness(s, *measured), std::move(*measured)};
}

Result<BendingStiffness> solve_bending_stiffness(const Solver& solver,
                                                 const MeasuringPoints& points,
                                                 const TorsionStiffness* torsion) {
  const Structure& s = solver.structure();
  if (Diagnostics faults = check(s, points, true); !faults.empty()) {
    return Failure{std::move(faults)};
  }
  const AxlePoints axles = axle_points(points);
  Loads loads;
  push(points.middle_left, {0, 0, -0.5}, loads);
  push(points.middle_right, {0, 0, -0.5}, loads);
  balance(s, axles, loads);
  const auto bent = measure(solver, std::move(loads));
  if (!bent) return Failure{bent.error()};
  std::optional<TorsionStiffness> own;
  if (torsion == nullptr) {
    auto solved = solve_torsion_stiffness(solver, points);
    if (!solved) return Failure{solved.error()};
    torsion = &own.emplace(*std::move(solved));
  }
  const Measurement& twisted = torsion->measured;
  // Supports stay in one plane: the twist there that the load makes is taken back.
  const double share = -calc_work_J(s, twisted.loads, bent->response) /
                       calc_work_J(s, twisted.loads, twisted.response);
  Measurement measured = add(*bent, twisted, share);
  return BendingStiffness{calc_stiffness(s, measured), std::move(measured)};
}

Result<LozengingStiffness> solve_lozenging_stiffness(const Solver& solver,
                                                     const MeasuringPoints& points) {
  const Structure& s = solver.structure();
  if (Diagnostics faults = check(s, points, false); !faults.empty()) {
    return Failure{std::move(faults)};
  }
  const AxlePoints axles = axle_points(points);
  Loads loads;
  for (const JointPoint& left : {axles[0], axles[2]}) push(left, {0.5, 0, 0}, loads);
  for (const JointPoint& right : {axles[1], axles[3]}) push(right, {-0.5, 0, 0}, loads);
  const double aside_N = -calc_resultant(s, loads).t_Vo_V.z() / length_m(axles);
  for (const JointPoint& front : {axles[0], axles[1]}) push(front, {0, aside_N / 2, 0}, loads);
  for (const JointPoint& rear : {axles[2], axles[3]}) push(rear, {0, -aside_N / 2, 0}, loads);
  balance(s, axles, loads);
  auto measured = measure(solver, std::move(loads));
  if (!measured) return Failure{measured.error()};
  return LozengingStiffness{calc_stiffness(s, *measured), std::move(*measured)};
}

}  // namespace rig::frame
