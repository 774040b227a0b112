#pragma once

namespace rig::frame {

/// Torsion of a prismatic bar with warping, in terms of three deformations that don't mix:
///   twist phi from end to end,
///   difference D of the twist rates of its ends (t_to - t_from),
///   excess X of their mean over the mean twist rate, (t_from + t_to) / 2 - phi / L;
/// energy = 1/2 (GJ/L phi^2 + even D^2 + odd X^2). All functions are of h = half the length over
/// sqrt(E C_w / GJ) and hold from zero to infinity without cancellation.
struct VlasovBar {
  double length_m = 0;
  double GJ_Nm2 = 0;
  double EC_Nm4 = 0;  ///< E times the warping constant; zero: all torque is St Venant's.
  double h = 0;
  double even_Nm3 = 0;
  double odd_Nm3 = 0;
  /// Bimoment at both ends when these are held in twist and twist rate, per even torque of 1 N m/m:
  /// -L^2 (h coth h - 1) / (4 h^2).
  double held_end_m2 = 0;

  bool warps() const { return EC_Nm4 > 0; }
};

/// @param GJ_Nm2  >= 0.
/// @param EC_Nm4  >= 0.
VlasovBar make_vlasov_bar(double length_m, double GJ_Nm2, double EC_Nm4);

/// (h coth h - 1) / h^2, from 1/3 at zero falling to 1/h.
double vlasov_g(double h);

/// What the bimoment of that held bar is more at a place between than at its ends, m2.
double held_rise_m2(double length_m, double h, double share);

/// Energy of a bar so held and loaded, J.
double held_energy_J(const VlasovBar& bar);

/// sinh(h s) / sinh(h) and cosh(h s) / cosh(h) for s from -1 to 1.
struct Hyperbolic {
  double odd = 0;
  double even = 0;
};
Hyperbolic calc_hyperbolic(double h, double s);

}  // namespace rig::frame
