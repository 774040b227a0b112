#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/Dense>
#include <cmath>
#include <functional>

#include "frame/beam_internal.h"
#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using section::SectionForces;
using testing::make_beam;
using testing::make_steel;
using testing::uniform;

/// A beam of a random section from the pool, its ends tied in warping or not.
Structure make_one_beam(std::mt19937& random, const section::Section& section) {
  Structure s;
  s.joints.resize(2);
  s.joints[0].p_VoJ_V = testing::random_vector(random, 1);
  s.joints[1].p_VoJ_V = s.joints[0].p_VoJ_V +
                        testing::random_vector(random, 1).normalized() * uniform(random, 0.1, 3);
  s.scalars.resize(2);
  s.members = {{"bar", "bar"}};
  s.sections = {make_steel(section)};
  s.beams = {make_beam(s, 0, 1, 0, testing::random_vector(random, 1), testing::pick(random, 2) - 1,
                       testing::pick(random, 2) ? 1 : -1)};
  return s;
}

EvenLoad random_load(std::mt19937& random) {
  const Vec3 f = testing::random_vector(random, 1000), m = testing::random_vector(random, 100);
  return {.axial_N_per_m = f.x(),
          .shear_N_per_m = f.tail<2>(),
          .moment_Nm_per_m = m.tail<2>(),
          .torque_Nm_per_m = m.x()};
}

/// Gauss's five points on many stretches.
double integrate(const std::function<double(double)>& f, int stretches = 60) {
  constexpr double kAt[] = {0, 0.5384693101056831, 0.9061798459386640};
  constexpr double kWeight[] = {0.5688888888888889, 0.4786286704993665, 0.2369268850561891};
  double sum = 0;
  for (int i = 0; i < stretches; ++i) {
    const double middle = (i + 0.5) / stretches, half = 0.5 / stretches;
    sum += half * kWeight[0] * f(middle);
    for (int k = 1; k < 3; ++k) {
      sum += half * kWeight[k] * (f(middle - half * kAt[k]) + f(middle + half * kAt[k]));
    }
  }
  return sum;
}

Eigen::Matrix<double, 12, 1> as_vector(const BeamForces& f) {
  const SectionForces a = f.at(0.3), b = f.at(0.8);
  Eigen::Matrix<double, 12, 1> out;
  out << a.axial_N, a.shear_y_N, a.shear_z_N, a.moment_y_Nm, a.moment_z_Nm, a.bimoment_Nm2,
      b.torque_St_Venant_Nm, b.torque_warping_Nm, b.moment_y_Nm, b.moment_z_Nm, b.bimoment_Nm2,
      b.shear_y_N;
  return out;
}

// Every beam force is the derivative that the equations of the beam say it is, and the strains it
// makes add up to the motion of the ends. This is the whole theory, once for each random beam.
RC_GTEST_PROP(Beam, ForcesAreInEquilibriumAndStrainsFitTheEnds, ()) {
  std::mt19937 random(*rc::gen::arbitrary<unsigned>());
  const auto pool = testing::make_pool();
  const Structure s =
      make_one_beam(random, pool[static_cast<std::size_t>(testing::pick(random, 10))]);
  const Element e = make_element(s, s.beams[0]);
  const BeamSection& made = s.sections[0];
  const section::SectionProperties& p = made.properties;
  EndMotion q;
  for (double& v : q) v = uniform(random, -1e-3, 1e-3);
  const EvenLoad load = random_load(random);
  const Deformation d = calc_deformation(e, q);
  const BeamForces forces = calc_forces(e, d, load);
  const double L = e.length_m, E = made.E_Pa, G = made.G_Pa;
  const double scale_N = as_vector(forces).cwiseAbs().maxCoeff();

  const auto slope = [&](const std::function<double(const SectionForces&)>& get) {
    const double at = 0.37, step = 1e-5;
    return (get(forces.at(at + step)) - get(forces.at(at - step))) / (2 * step * L);
  };
  const SectionForces f = forces.at(0.37);
  const auto near = [&](double a, double b) {
    RC_ASSERT(std::abs(a - b) <= 1e-6 * scale_N / std::min(L, 1.0));
  };
  near(slope([](const auto& x) { return x.axial_N; }), -load.axial_N_per_m);
  near(slope([](const auto& x) { return x.shear_y_N; }), -load.shear_N_per_m.x());
  near(slope([](const auto& x) { return x.shear_z_N; }), -load.shear_N_per_m.y());
  near(slope([](const auto& x) { return x.moment_y_Nm; }), f.shear_z_N - load.moment_Nm_per_m.x());
  near(slope([](const auto& x) { return x.moment_z_Nm; }), -f.shear_y_N - load.moment_Nm_per_m.y());
  near(slope([](const auto& x) { return x.torque_St_Venant_Nm + x.torque_warping_Nm; }),
       -load.torque_Nm_per_m);
  near(slope([](const auto& x) { return x.bimoment_Nm2; }), f.torque_warping_Nm);

  // Strains: stretch, curvatures, shear, twist rate.
  const double D = p.I_y_m4 * p.I_z_m4 - p.I_yz_m4 * p.I_yz_m4;
  const auto bend_y = [&](double share) {
    const SectionForces x = forces.at(share);
    return (p.I_z_m4 * x.moment_y_Nm + p.I_yz_m4 * x.moment_z_Nm) / (E * D);
  };
  const auto bend_z = [&](double share) {
    const SectionForces x = forces.at(share);
    return (p.I_y_m4 * x.moment_z_Nm + p.I_yz_m4 * x.moment_y_Nm) / (E * D);
  };
  const auto inverse = [](double area) { return area > 0 ? 1 / area : 0.0; };
  const auto shear_y = [&](double share) {
    const SectionForces x = forces.at(share);
    return (inverse(p.shear_area_y_m2) * x.shear_y_N + made.shear_cross_per_m2 * x.shear_z_N) / G;
  };
  const auto shear_z = [&](double share) {
    const SectionForces x = forces.at(share);
    return (inverse(p.shear_area_z_m2) * x.shear_z_N + made.shear_cross_per_m2 * x.shear_y_N) / G;
  };
  const auto rate = [&](double share) {
    return forces.at(share).torque_St_Venant_Nm / (G * p.torsion_constant_m4);
  };
  // 1e-9 of the motions, which are of the order of 1e-3; the smallest stiffness decides.
  const auto fits = [](double a, double b) { RC_ASSERT(std::abs(a - b) <= 2e-9); };
  fits(q[6] - q[0] + p.p_OC.y() * (q[10] - q[4]) - p.p_OC.x() * (q[11] - q[5]),
       L * integrate([&](double x) { return forces.at(x).axial_N / (E * p.area_m2); }));
  fits(q[10] - q[4], L * integrate(bend_y));
  fits(q[11] - q[5], L * integrate(bend_z));
  fits(q[9] - q[3], L * integrate(rate));
  // v_S' = rz + shear, w_S' = -ry + shear; rotations from those at `from`.
  const double across = q[7] - q[1] - p.p_OS.y() * (q[9] - q[3]);
  const double up = q[8] - q[2] + p.p_OS.x() * (q[9] - q[3]);
  fits(across, L * (q[5] + L * integrate([&](double x) { return (1 - x) * bend_z(x); }) +
                    integrate(shear_y)));
  fits(up, L * (-q[4] - L * integrate([&](double x) { return (1 - x) * bend_y(x); }) +
                integrate(shear_z)));
  if (!made.warps()) {
    RC_ASSERT(f.bimoment_Nm2 == 0 && f.torque_warping_Nm == 0);
    return;
  }
  const double EC = E * (p.warping_constant_m6 + p.warping_across_m6);
  const double largest_Nm2 = std::abs(forces.bimoment_even_Nm2) +
                             std::abs(forces.bimoment_odd_Nm2) +
                             std::abs(load.torque_Nm_per_m) * L * L;
  if (s.beams[0].warp_from >= 0) {
    fits(rate(0), q[kFromRate]);
  } else {
    RC_ASSERT(std::abs(forces.at(0).bimoment_Nm2) <= 1e-9 * largest_Nm2);
  }
  if (s.beams[0].warp_to >= 0) {
    fits(rate(1), q[kToRate]);
  } else {
    RC_ASSERT(std::abs(forces.at(1).bimoment_Nm2) <= 1e-9 * largest_Nm2);
  }
  // B = -E Cw times the slope of the twist rate, added up so that steep ends count too.
  fits(rate(1) - rate(0),
       -L / EC * integrate([&](double x) { return forces.at(x).bimoment_Nm2; }, 4000));
}

// Stiffness and forces are two routes to the same end forces; energy is the third.
RC_GTEST_PROP(Beam, StiffnessForcesAndEnergyAgree, ()) {
  std::mt19937 random(*rc::gen::arbitrary<unsigned>());
  const auto pool = testing::make_pool();
  const Structure s =
      make_one_beam(random, pool[static_cast<std::size_t>(testing::pick(random, 10))]);
  const Element e = make_element(s, s.beams[0]);
  const section::SectionProperties& p = s.sections[0]->properties;
  EndMotion q;
  for (double& v : q) v = uniform(random, -1e-3, 1e-3);
  const EvenLoad load = random_load(random);
  const auto by = calc_deformation_matrix(e);
  const EndMotion on_ends =
      by.transpose() * (calc_stiffness(e) * (by * q)) - calc_end_loads(e, load);
  const BeamForces forces = calc_forces(e, calc_deformation(e, q), load);
  const auto face = [&](double share, double sign) {
    const SectionForces f = forces.at(share);
    Eigen::Matrix<double, 7, 1> out;
    out << f.axial_N, f.shear_y_N, f.shear_z_N,
        f.torque_St_Venant_Nm + f.torque_warping_Nm + p.p_OS.x() * f.shear_z_N -
            p.p_OS.y() * f.shear_y_N,
        f.moment_y_Nm + p.p_OC.y() * f.axial_N, f.moment_z_Nm - p.p_OC.x() * f.axial_N,
        -f.bimoment_Nm2;
    return Eigen::Matrix<double, 7, 1>(sign * out);
  };
  const auto from = face(0, -1), to = face(1, 1);
  const double size = on_ends.cwiseAbs().maxCoeff();
  RC_ASSERT((on_ends.segment<6>(kFromEnd) - from.head<6>()).norm() <= 1e-9 * size);
  RC_ASSERT((on_ends.segment<6>(kToEnd) - to.head<6>()).norm() <= 1e-9 * size);
  RC_ASSERT(std::abs(on_ends[kFromRate] - from[6]) <= 1e-9 * size);
  RC_ASSERT(std::abs(on_ends[kToRate] - to[6]) <= 1e-9 * size);

  const BeamSection& made = s.sections[0];
  const double E = made.E_Pa, G = made.G_Pa;
  const double EC = E * (p.warping_constant_m6 + p.warping_across_m6);
  const double energy_J =
      e.length_m / 2 *
      integrate(
          [&](double share) {
            const SectionForces f = forces.at(share);
            const Vec2 M(f.moment_y_Nm, f.moment_z_Nm), V(f.shear_z_N, -f.shear_y_N);
            double sum =
                f.axial_N * f.axial_N / e.EA_N + M.dot(e.compliance * M) +
                V.dot(e.shear_compliance * V) +
                f.torque_St_Venant_Nm * f.torque_St_Venant_Nm / (G * p.torsion_constant_m4);
            if (made.warps()) sum += f.bimoment_Nm2 * f.bimoment_Nm2 / EC;
            return sum;
          },
          4000);
  RC_ASSERT(std::abs(calc_energy_J(e, calc_deformation(e, q), load) - energy_J) <= 1e-8 * energy_J);
}

// Rigid motion strains nothing: 1e-9 of what the same motion of one end alone would.
RC_GTEST_PROP(Beam, RigidMotionGivesNoStress, ()) {
  std::mt19937 random(*rc::gen::arbitrary<unsigned>());
  const auto pool = testing::make_pool();
  const Structure s =
      make_one_beam(random, pool[static_cast<std::size_t>(testing::pick(random, 10))]);
  const Element e = make_element(s, s.beams[0]);
  const Vec3 u = testing::random_vector(random, 1), turn = testing::random_vector(random, 1);
  EndMotion rigid = EndMotion::Zero(), one = EndMotion::Zero();
  rigid.segment<6>(kFromEnd) << u, turn;
  rigid.segment<6>(kToEnd) << u + turn.cross(Vec3(e.length_m, 0, 0)), turn;
  one.segment<6>(kToEnd) = rigid.segment<6>(kToEnd);
  const auto moved = as_vector(calc_forces(e, calc_deformation(e, rigid), {}));
  const auto strained = as_vector(calc_forces(e, calc_deformation(e, one), {}));
  RC_ASSERT(moved.norm() <= 1e-12 * strained.norm());
}

// [Vlasov] (from memory): the closed forms of a bar held against warping at both ends, one or none,
// by long doubles and straightforward, where these do not cancel.
TEST(VlasovBar, MatchesTheClosedForms) {
  for (const long double h : {0.2L, 0.7L, 1.9L, 2.1L, 5.0L, 12.0L}) {
    const long double L = 1.3L, EC = 70, GJ = 4 * h * h * EC / (L * L);
    const VlasovBar bar =
        make_vlasov_bar(static_cast<double>(L), static_cast<double>(GJ), static_cast<double>(EC));
    const long double tanh_h = std::tanh(h);
    EXPECT_NEAR(bar.h, static_cast<double>(h), 1e-14 * bar.h);
    const auto same = [](double value, long double expected) {
      const auto e = static_cast<double>(expected);
      EXPECT_NEAR(value, e, 1e-13 * std::abs(e));
    };
    // Twist with both ends held: GJ / L / (1 - tanh h / h) in all.
    same(bar.GJ_Nm2 / bar.length_m + bar.odd_Nm3 / (bar.length_m * bar.length_m),
         GJ / L / (1 - tanh_h / h));
    same(bar.even_Nm3, EC / L * h / tanh_h);
    same(bar.held_end_m2, -L * L / 4 * (h / tanh_h - 1) / (h * h));
    const long double p = 0.3L;
    same(bar.held_end_m2 + held_rise_m2(bar.length_m, bar.h, 0.3),
         -L * L / 4 * (h * std::cosh(h * (2 * p - 1)) / std::sinh(h) - 1) / (h * h));
    same(held_energy_J(bar), L * L * L / (2 * GJ) * (1 / 12.0L - (h / tanh_h - 1) / (4 * h * h)));
    same(calc_hyperbolic(bar.h, -0.4).odd, std::sinh(-0.4L * h) / std::sinh(h));
    same(calc_hyperbolic(bar.h, -0.4).even, std::cosh(-0.4L * h) / std::cosh(h));
  }
}

TEST(VlasovBar, HoldsAtBothLimits) {
  for (const double h : {0.0, 1e-200, 1e-9, 1e-4}) {
    const double L = 2, EC = 3;
    const VlasovBar bar = make_vlasov_bar(L, 4 * h * h * EC / (L * L), EC);
    // Like a beam in bending: 12, 1, 1/12, 1/720.
    EXPECT_NEAR(bar.odd_Nm3, 12 * EC / L, 1e-7 * bar.odd_Nm3);
    EXPECT_NEAR(bar.even_Nm3, EC / L, 1e-7 * bar.even_Nm3);
    EXPECT_NEAR(bar.held_end_m2, -L * L / 12, 1e-8);
    EXPECT_NEAR(bar.held_end_m2 + held_rise_m2(L, h, 0.5), L * L / 24, 1e-8);
    EXPECT_NEAR(held_energy_J(bar), std::pow(L, 5) / (1440 * EC), 1e-8);
    EXPECT_NEAR(calc_hyperbolic(h, -0.3).odd, -0.3, 1e-8);
    EXPECT_NEAR(calc_hyperbolic(h, -0.3).even, 1, 1e-7);
  }
  for (const double h : {1e3, 1e6, 1e12}) {
    const double L = 2, GJ = 5, EC = GJ * L * L / (4 * h * h);
    const VlasovBar bar = make_vlasov_bar(L, GJ, EC);
    EXPECT_NEAR(bar.odd_Nm3 / (GJ * L), 1 / (h - 1), 1e-9 / h);
    EXPECT_NEAR(bar.even_Nm3, EC / L * h, 1e-9 * bar.even_Nm3);
    EXPECT_NEAR(bar.held_end_m2, -L * L / 4 * (h - 1) / (h * h), 1e-9 / h);
    EXPECT_NEAR(bar.held_end_m2 + held_rise_m2(L, h, 0.5), L * L / (4 * h * h), 1e-9 / h);
    EXPECT_EQ(calc_hyperbolic(h, 0.5).odd, std::exp(-h / 2));
    EXPECT_EQ(calc_hyperbolic(h, -1).odd, -1);
    EXPECT_EQ(calc_hyperbolic(h, 1).even, 1);
  }
}

}  // namespace
}  // namespace rig::frame
