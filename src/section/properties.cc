#include "section/properties.h"

#include <Eigen/Cholesky>
#include <cmath>

#include "geometry/matrix.h"
#include "section/area_internal.h"

namespace rig::section {

namespace {

using Eigen::Index;
using Eigen::Matrix2d;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Ratio of the second moments of the midlines below which they count as one straight line.
constexpr double kFlat = 1e-12;
/// Warping constant of the midline over (I_y + I_z)^2 / A below which it is rounding.
constexpr double kNoWarping = 1e-20;

/// The walls as a net: nodes joined by strips of conductance t / L. Every potential of the section
/// (warping under twist, shear displacement under V) obeys d/ds(t du/ds) = -t g on it.
struct Net {
  struct Strip {
    Index from = 0, to = 0;
    double t = 0, L = 0, curvature = 0;
  };
  std::vector<Strip> strips;
  std::vector<Vec2> p_MN;            ///< From M, the centroid of the midlines.
  Eigen::LLT<MatrixXd> conductance;  ///< Without node 0, which is held at zero.

  const Vec2& start(const Strip& s) const { return p_MN[static_cast<std::size_t>(s.from)]; }
  const Vec2& end(const Strip& s) const { return p_MN[static_cast<std::size_t>(s.to)]; }

  VectorXd solve(const VectorXd& inflow) const {
    VectorXd u = VectorXd::Zero(inflow.size());
    u.tail(u.size() - 1) = conductance.solve(inflow.tail(inflow.size() - 1));
    return u;
  }

  /// Integral of f g t over the midlines; both linear along each wall.
  double integral(const VectorXd& f, const VectorXd& g) const {
    double sum = 0;
    for (const Strip& s : strips) {
      sum += s.t * s.L / 6 *
             (2 * f[s.from] * g[s.from] + f[s.from] * g[s.to] + f[s.to] * g[s.from] +
              2 * f[s.to] * g[s.to]);
    }
    return sum;
  }

  VectorXd coordinate(Index axis) const {
    VectorXd out(static_cast<Index>(p_MN.size()));
    for (Index i = 0; i < out.size(); ++i) out[i] = p_MN[static_cast<std::size_t>(i)][axis];
    return out;
  }
};

Net make_net(const Section& section, const Vec2& p_OM) {
  Net net;
  for (const Vec2& p : section.p_ON) net.p_MN.emplace_back(p - p_OM);
  const auto n = static_cast<Index>(net.p_MN.size());
  MatrixXd K = MatrixXd::Zero(n, n);
  for (const Wall& wall : section.walls) {
    const Net::Strip s{wall.from, wall.to, wall.thickness_m, wall_length_m(section, wall),
                       wall.curvature_per_m};
    const double k = s.t / s.L;
    K(s.from, s.from) += k;
    K(s.to, s.to) += k;
    K(s.from, s.to) -= k;
    K(s.to, s.from) -= k;
    net.strips.push_back(s);
  }
  net.conductance.compute(K.bottomRightCorner(n - 1, n - 1));
  return net;
}

/// Flow that grows by -t g along each wall and closes around each cell.
std::vector<WallFlow> solve_flows(const Net& net, const VectorXd& g) {
  VectorXd inflow = VectorXd::Zero(g.size());
  for (const auto& s : net.strips) {
    inflow[s.from] += s.t * s.L * (2 * g[s.from] + g[s.to]) / 6;
    inflow[s.to] += s.t * s.L * (g[s.from] + 2 * g[s.to]) / 6;
  }
  const VectorXd u = net.solve(inflow);
  std::vector<WallFlow> flows;
  for (const auto& s : net.strips) {
    const double even = s.t * (u[s.to] - u[s.from]) / s.L;
    const double from = even + s.t * s.L * (2 * g[s.from] + g[s.to]) / 6;
    flows.push_back({.from = from,
                     .middle = from - s.t * s.L * (3 * g[s.from] + g[s.to]) / 8,
                     .to = even - s.t * s.L * (g[s.from] + 2 * g[s.to]) / 6});
  }
  return flows;
}

/// Solves M x = b for a symmetric positive semidefinite M, the part of b that M can't reach left
/// out.
Vec2 solve_reachable(const Matrix2d& M, const Vec2& b) {
  const Axes axes = find_axes(M);
  Vec2 x = Vec2::Zero();
  for (Index i = 0; i < 2; ++i) {
    const double value = axes.values[i];
    if (value <= kFlat * axes.values[1]) continue;
    const Vec2 axis = axes.vectors.col(i);
    x += axis * (axis.dot(b) / value);
  }
  return x;
}

/// 1 / integral(q^2 / t), which Gauss's three points give exactly; zero for no flow.
double calc_shear_area_m2(const Net& net, const std::vector<WallFlows>& flows,
                          WallFlow WallFlows::*flow) {
  double sum = 0;
  const double off = std::sqrt(0.6) / 2;
  for (std::size_t w = 0; w < flows.size(); ++w) {
    const auto square = [&](double share) { return std::pow((flows[w].*flow).at(share), 2); };
    sum += net.strips[w].L / net.strips[w].t *
           (5 * square(0.5 - off) + 8 * square(0.5) + 5 * square(0.5 + off)) / 18;
  }
  return sum > 0 ? 1 / sum : 0;
}

void add_bending(const Matrix2d& second_m4, SectionProperties& out) {
  out.I_z_m4 = second_m4(0, 0);
  out.I_yz_m4 = second_m4(0, 1);
  out.I_y_m4 = second_m4(1, 1);
  const double half = (out.I_y_m4 - out.I_z_m4) / 2, mean = (out.I_y_m4 + out.I_z_m4) / 2;
  const double radius = std::hypot(half, out.I_yz_m4);
  out.I_major_m4 = mean + radius;
  out.I_minor_m4 = mean - radius;
  // Equal about every axis: the one along y is as good as any.
  out.major_axis_rad = radius > kFlat * mean ? std::atan2(-out.I_yz_m4, half) / 2 : 0;
}

/// Bredt's flows, J, sectorial coordinate about the shear centre, and the shear centre, from M.
VectorXd add_torsion(const Net& net, const Matrix2d& midline, SectionProperties& out) {
  const auto n = static_cast<Index>(net.p_MN.size());
  // dw/ds = r - q/t with r the arm of the wall about the pole, here M, and q free of sources.
  VectorXd inflow = VectorXd::Zero(n);
  for (const auto& s : net.strips) {
    const double pull = s.t / s.L * cross(net.start(s), net.end(s));
    inflow[s.from] -= pull;
    inflow[s.to] += pull;
  }
  VectorXd w = net.solve(inflow);
  for (std::size_t i = 0; i < net.strips.size(); ++i) {
    const auto& s = net.strips[i];
    const double twice_area = cross(net.start(s), net.end(s));
    out.flows[i].twist_m2 = s.t / s.L * (twice_area - (w[s.to] - w[s.from]));
    // As energy, which is q times the arm added up, since q is free of sources.
    out.cells_torsion_constant_m4 += std::pow(out.flows[i].twist_m2, 2) * s.L / s.t;
    const double bent = s.curvature * out.flows[i].twist_m2 / s.t;
    out.torsion_constant_m4 += s.L * s.t * s.t * s.t / 3 * (1 - bent * bent / 4);
  }
  out.torsion_constant_m4 += out.cells_torsion_constant_m4;
  const VectorXd y = net.coordinate(0), z = net.coordinate(1), one = VectorXd::Ones(n);
  w.array() -= net.integral(w, one) / out.area_m2;
  // About S: w - y_S z + z_S y, with no product with y or z.
  const Vec2 minus_z_y = solve_reachable(midline, Vec2(net.integral(w, y), net.integral(w, z)));
  const Vec2 p_MS(minus_z_y.y(), -minus_z_y.x());
  w += p_MS.y() * y - p_MS.x() * z;
  out.p_OS = p_MS;
  out.warping_constant_m6 = net.integral(w, w);
  for (const auto& s : net.strips) {
    const Vec2 along = (net.end(s) - net.start(s)) / s.L;
    const double a = along.dot(net.start(s) - p_MS), b = along.dot(net.end(s) - p_MS);
    out.warping_across_m6 += s.t * s.t * s.t / 12 * s.L * (a * a + a * b + b * b) / 3;
  }
  return w;
}

void add_shear_flows(const Net& net, const Matrix2d& midline, const VectorXd& w,
                     SectionProperties& out) {
  const VectorXd y = net.coordinate(0), z = net.coordinate(1);
  const auto set = [&](WallFlow WallFlows::*flow, const VectorXd& g) {
    const auto flows = solve_flows(net, g);
    for (std::size_t i = 0; i < flows.size(); ++i) out.flows[i].*flow = flows[i];
  };
  const Vec2 by_y = solve_reachable(midline, Vec2::UnitX());
  const Vec2 by_z = solve_reachable(midline, Vec2::UnitY());
  set(&WallFlows::shear_y_per_m, by_y.x() * y + by_y.y() * z);
  set(&WallFlows::shear_z_per_m, by_z.x() * y + by_z.y() * z);
  const double scale_m6 = std::pow(midline.trace(), 2) / out.area_m2;
  if (out.warping_constant_m6 > kNoWarping * scale_m6) {
    set(&WallFlows::warping_per_m2, w / out.warping_constant_m6);
  }
  out.shear_area_y_m2 = calc_shear_area_m2(net, out.flows, &WallFlows::shear_y_per_m);
  out.shear_area_z_m2 = calc_shear_area_m2(net, out.flows, &WallFlows::shear_z_per_m);
}

}  // namespace

Result<SectionProperties> solve_section(const Section& section) {
  if (Diagnostics faults = check_section(section); !faults.empty()) {
    return Failure{std::move(faults)};
  }
  SectionProperties out;
  std::vector<Stretch> stretches;
  for (const Wall& wall : section.walls) {
    stretches.push_back({.start = section.p_ON[static_cast<std::size_t>(wall.from)],
                         .end = section.p_ON[static_cast<std::size_t>(wall.to)],
                         .thickness_m = wall.thickness_m});
  }
  const Vec2 p_OM = calc_area_moments(stretches).p_OC;
  for (std::size_t w = 0; w < stretches.size(); ++w) {
    stretches[w].curvature_per_m = section.walls[w].curvature_per_m;
  }
  const AreaMoments area = calc_area_moments(stretches);
  out.area_m2 = area.area_m2;
  out.p_OC = area.p_OC;
  out.flows.resize(section.walls.size());
  const Net net = make_net(section, p_OM);
  const VectorXd y = net.coordinate(0), z = net.coordinate(1);
  Matrix2d midline;
  midline << net.integral(y, y), net.integral(y, z), net.integral(y, z), net.integral(z, z);
  const Vec2 spread = find_axis_values(midline);
  out.flat = spread[0] <= kFlat * spread[1];
  add_bending(area.second_m4, out);
  const VectorXd w = add_torsion(net, midline, out);
  out.p_OS += p_OM;
  out.sectorial_m2.assign(w.begin(), w.end());
  add_shear_flows(net, midline, w, out);
  return out;
}

}  // namespace rig::section
