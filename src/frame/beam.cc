#include <Eigen/Dense>

#include "frame/beam_internal.h"

namespace rig::frame {

namespace {

using Eigen::Matrix2d;

/// (V_z, -V_y) of (V_y, V_z): shear in the sense of the moments about (y, z), whose slope it is.
Vec2 turned(const Vec2& shear) { return {shear.y(), -shear.x()}; }

WarpEnds find_warp_ends(const Beam& beam, bool warps) {
  if (!warps) return WarpEnds::free;
  if (beam.warp_from >= 0) return beam.warp_to >= 0 ? WarpEnds::tied : WarpEnds::from_tied;
  return beam.warp_to >= 0 ? WarpEnds::to_tied : WarpEnds::free;
}

/// Stiffness of a bar free to warp at one end against the twist rate of the other: odd and even
/// parts in series.
double one_end_Nm3(const VlasovBar& bar) {
  return 4 * bar.even_Nm3 * bar.odd_Nm3 / (4 * bar.even_Nm3 + bar.odd_Nm3);
}

/// Difference D of the twist rates and excess X of their mean (see `VlasovBar`), with the rates of
/// free ends found.
struct Warping {
  double difference = 0, excess = 0;
};

Warping find_warping(const Element& element, const Deformation& d, const EvenLoad& even) {
  const VlasovBar& bar = element.torsion;
  // Even torque works on the difference of the rates with -load.
  const double load = -bar.held_end_m2 * even.torque_Nm_per_m;
  const double both = bar.even_Nm3 + bar.odd_Nm3 / 4;
  switch (element.ends) {
    case WarpEnds::tied:
      return {d[6], d[7]};
    case WarpEnds::to_tied: {
      const double difference = (bar.odd_Nm3 / 2 * d[6] - load) / both;
      return {difference, d[6] - difference / 2};
    }
    case WarpEnds::from_tied: {
      const double difference = -(bar.odd_Nm3 / 2 * d[6] + load) / both;
      return {difference, d[6] + difference / 2};
    }
    case WarpEnds::free:
      break;
  }
  return {bar.warps() ? -load / bar.even_Nm3 : 0, 0};
}

}  // namespace

Mat3 calc_axes(const Beam& beam) {
  Mat3 R_VB;
  R_VB.col(0) = (beam.p_VoT_V - beam.p_VoF_V).normalized();
  R_VB.col(1) = (beam.y_V - R_VB.col(0) * R_VB.col(0).dot(beam.y_V)).normalized();
  R_VB.col(2) = R_VB.col(0).cross(R_VB.col(1));
  return R_VB;
}

Element make_element(const Structure& structure, const Beam& beam) {
  const BeamSection& made = structure.sections[static_cast<std::size_t>(beam.section)];
  const section::SectionProperties& p = made.properties;
  Element e;
  e.R_VB = calc_axes(beam);
  e.length_m = (beam.p_VoT_V - beam.p_VoF_V).norm();
  const double L = e.length_m;
  e.p_OC = p.p_OC;
  e.p_OS = p.p_OS;
  e.EA_N = made.E_Pa * p.area_m2;
  e.EI_Nm2 << p.I_y_m4, -p.I_yz_m4, -p.I_yz_m4, p.I_z_m4;
  e.EI_Nm2 *= made.E_Pa;
  e.compliance = e.EI_Nm2.inverse();
  const auto flexible = [](double area) { return area > 0 ? 1 / area : 0.0; };
  e.shear_compliance << flexible(p.shear_area_z_m2), -made.shear_cross_per_m2,
      -made.shear_cross_per_m2, flexible(p.shear_area_y_m2);
  e.shear_compliance /= made.G_Pa;
  e.chord_N = (e.compliance * (L * L / 12) + e.shear_compliance).inverse();
  const bool warps = made.warps();
  e.torsion =
      make_vlasov_bar(L, made.G_Pa * p.torsion_constant_m4,
                      warps ? made.E_Pa * (p.warping_constant_m6 + p.warping_across_m6) : 0);
  e.ends = find_warp_ends(beam, e.torsion.warps());
  return e;
}

Deformation calc_deformation(const Element& e, const EndMotion& q) {
  const auto from = q.segment<6>(kFromEnd), to = q.segment<6>(kToEnd);
  const double L = e.length_m;
  Deformation d = Deformation::Zero();
  d[0] = to[0] - from[0] + e.p_OC.y() * (to[4] - from[4]) - e.p_OC.x() * (to[5] - from[5]);
  d[1] = to[4] - from[4];
  d[2] = to[5] - from[5];
  const double twist = to[3] - from[3];
  // v_S = v - z_S rx, w_S = w + y_S rx.
  const double across = to[1] - from[1] - e.p_OS.y() * twist;
  const double up = to[2] - from[2] + e.p_OS.x() * twist;
  d[3] = (from[4] + to[4]) / 2 + up / L;
  d[4] = (from[5] + to[5]) / 2 - across / L;
  d[5] = twist;
  switch (e.ends) {
    case WarpEnds::tied:
      d[6] = q[kToRate] - q[kFromRate];
      d[7] = (q[kFromRate] + q[kToRate]) / 2 - twist / L;
      break;
    case WarpEnds::from_tied:
      d[6] = q[kFromRate] - twist / L;
      break;
    case WarpEnds::to_tied:
      d[6] = q[kToRate] - twist / L;
      break;
    case WarpEnds::free:
      break;
  }
  return d;
}

Eigen::Matrix<double, 8, 14> calc_deformation_matrix(const Element& e) {
  Eigen::Matrix<double, 8, 14> out;
  for (Eigen::Index i = 0; i < 14; ++i) out.col(i) = calc_deformation(e, EndMotion::Unit(i));
  return out;
}

Eigen::Matrix<double, 8, 8> calc_stiffness(const Element& e) {
  const double L = e.length_m;
  Eigen::Matrix<double, 8, 8> k = Eigen::Matrix<double, 8, 8>::Zero();
  k(0, 0) = e.EA_N / L;
  k.block<2, 2>(1, 1) = e.EI_Nm2 / L;
  k.block<2, 2>(3, 3) = e.chord_N * L;
  k(5, 5) = e.torsion.GJ_Nm2 / L;
  switch (e.ends) {
    case WarpEnds::tied:
      k(6, 6) = e.torsion.even_Nm3;
      k(7, 7) = e.torsion.odd_Nm3;
      break;
    case WarpEnds::from_tied:
    case WarpEnds::to_tied:
      k(6, 6) = one_end_Nm3(e.torsion);
      break;
    case WarpEnds::free:
      break;
  }
  return k;
}

void add_line_load(const Element& e, const LineLoad& line, EvenLoad& even) {
  const Vec3 f_B = e.R_VB.transpose() * line.f_per_m_V;
  const Vec2 p_CP = line.p_OP - e.p_OC, p_SP = line.p_OP - e.p_OS;
  even.axial_N_per_m += f_B.x();
  even.shear_N_per_m += f_B.tail<2>();
  even.moment_Nm_per_m += f_B.x() * Vec2(p_CP.y(), -p_CP.x());
  even.torque_Nm_per_m += p_SP.x() * f_B.z() - p_SP.y() * f_B.y();
}

EndMotion calc_end_loads(const Element& e, const EvenLoad& even) {
  const double L = e.length_m;
  EndMotion out = EndMotion::Zero();
  auto from = out.segment<6>(kFromEnd), to = out.segment<6>(kToEnd);
  // Half at each end, on the lines of centroids and shear centres.
  from[0] = to[0] = even.axial_N_per_m * L / 2;
  from.segment<2>(1) = to.segment<2>(1) = even.shear_N_per_m * L / 2;
  from[3] = to[3] = even.torque_Nm_per_m * L / 2;
  const Vec2 end_moment = turned(even.shear_N_per_m) * (L * L / 12);
  // Moments along the beam: shear that they make in the held beam, in the sense of (V_z, -V_y), and
  // the rest as moments at the ends.
  const Vec2 g = e.chord_N * (e.compliance * even.moment_Nm_per_m) * (L * L / 12);
  from.segment<2>(1) += Vec2(-g.y(), g.x());
  to.segment<2>(1) -= Vec2(-g.y(), g.x());
  const Vec2 rest = (even.moment_Nm_per_m - g) * (L / 2);
  from.segment<2>(4) = rest - end_moment;
  to.segment<2>(4) = rest + end_moment;
  // On to O.
  for (const Eigen::Index end : {kFromEnd, kToEnd}) {
    auto f = out.segment<6>(end);
    f[3] += e.p_OS.x() * f[2] - e.p_OS.y() * f[1];
    f[4] += e.p_OC.y() * f[0];
    f[5] -= e.p_OC.x() * f[0];
  }
  const VlasovBar& bar = e.torsion;
  const double load = -bar.held_end_m2 * even.torque_Nm_per_m;
  const double tied = bar.warps() ? load * bar.odd_Nm3 / 2 / (bar.even_Nm3 + bar.odd_Nm3 / 4) : 0;
  switch (e.ends) {
    case WarpEnds::tied:
      out[kFromRate] = load;
      out[kToRate] = -load;
      break;
    case WarpEnds::from_tied:
      out[kFromRate] = tied;
      from[3] += tied / L;
      to[3] -= tied / L;
      break;
    case WarpEnds::to_tied:
      out[kToRate] = -tied;
      from[3] -= tied / L;
      to[3] += tied / L;
      break;
    case WarpEnds::free:
      break;
  }
  return out;
}

BeamForces calc_forces(const Element& e, const Deformation& d, const EvenLoad& even) {
  const double L = e.length_m;
  BeamForces out{.length_m = L, .load = even};
  out.axial_N = e.EA_N / L * d[0];
  const Vec2 from_moments = e.chord_N * (e.compliance * even.moment_Nm_per_m) * (L * L / 12);
  const Vec2 g = e.chord_N * d.segment<2>(3) + from_moments;
  out.shear_N = Vec2(-g.y(), g.x());
  out.moment_Nm = e.EI_Nm2 / L * d.segment<2>(1) + turned(even.shear_N_per_m) * (L * L / 24);
  const VlasovBar& bar = e.torsion;
  out.torque_Nm = bar.GJ_Nm2 / L * d[5];
  if (!bar.warps()) return out;
  const Warping warping = find_warping(e, d, even);
  out.warps = true;
  out.h = bar.h;
  out.tanh_h = std::tanh(bar.h);
  out.held_end_m2 = bar.held_end_m2;
  out.torque_Nm -= bar.odd_Nm3 * warping.excess / L;
  out.bimoment_even_Nm2 = -bar.even_Nm3 * warping.difference;
  out.bimoment_odd_Nm2 = -bar.odd_Nm3 * warping.excess / 2;
  return out;
}

double calc_energy_J(const Element& e, const Deformation& d, const EvenLoad& even) {
  const double L = e.length_m;
  const VlasovBar& bar = e.torsion;
  const Warping warping = find_warping(e, d, even);
  const double ends =
      e.EA_N / L * d[0] * d[0] + d.segment<2>(1).dot(e.EI_Nm2 * d.segment<2>(1)) / L +
      d.segment<2>(3).dot(e.chord_N * d.segment<2>(3)) * L + bar.GJ_Nm2 / L * d[5] * d[5] +
      bar.even_Nm3 * warping.difference * warping.difference +
      bar.odd_Nm3 * warping.excess * warping.excess;
  // Of the beam held at both ends; it does no work on the motion of the ends.
  const auto square = [](const Matrix2d& m, const Vec2& v) { return v.dot(m * v); };
  const Vec2 q = turned(even.shear_N_per_m);
  const Vec2 g = e.chord_N * (e.compliance * even.moment_Nm_per_m) * (L * L / 12);
  const double held = even.axial_N_per_m * even.axial_N_per_m * std::pow(L, 3) / (12 * e.EA_N) +
                      square(e.compliance, q) * std::pow(L, 5) / 720 +
                      square(e.shear_compliance, q) * std::pow(L, 3) / 12 +
                      square(e.compliance, g - even.moment_Nm_per_m) * std::pow(L, 3) / 12 +
                      square(e.shear_compliance, g) * L +
                      2 * held_energy_J(bar) * even.torque_Nm_per_m * even.torque_Nm_per_m;
  return (ends + held) / 2;
}

}  // namespace rig::frame
