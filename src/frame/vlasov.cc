#include <algorithm>
#include <cmath>

#include "frame/vlasov_internal.h"

namespace rig::frame {

namespace {

/// Below this h the continued fraction of tanh is taken, above it hyperbolic functions: both are
/// good to some 10 roundings there.
constexpr double kSmall = 2;
/// Twelve levels leave less than 1e-20 at `kSmall`.
constexpr int kLastOdd = 29;

/// s of h coth h - 1 = h^2 / (3 + h^2 s), from 1/5 at zero falling to 1/h.
double vlasov_s(double h) {
  if (h > kSmall) return (h * h / (h / std::tanh(h) - 1) - 3) / (h * h);
  double tail = kLastOdd;
  for (int odd = kLastOdd - 2; odd >= 5; odd -= 2) tail = odd + h * h / tail;
  return 1 / tail;
}

}  // namespace

double vlasov_g(double h) { return 1 / (3 + h * h * vlasov_s(h)); }

VlasovBar make_vlasov_bar(double length_m, double GJ_Nm2, double EC_Nm4) {
  VlasovBar bar{.length_m = length_m, .GJ_Nm2 = GJ_Nm2, .EC_Nm4 = EC_Nm4};
  if (!bar.warps()) return bar;
  bar.h = length_m / 2 * std::sqrt(GJ_Nm2 / EC_Nm4);
  const double g = vlasov_g(bar.h);
  bar.even_Nm3 = EC_Nm4 / length_m * (1 + bar.h * bar.h * g);
  bar.odd_Nm3 = EC_Nm4 / length_m * 4 / g;
  bar.held_end_m2 = -length_m * length_m / 4 * g;
  return bar;
}

double held_rise_m2(double length_m, double h, double share) {
  // L^2 / 2 sinh(h p) sinh(h (1 - p)) / (h sinh h), p the share.
  double rise = share * (1 - share);
  if (h > 0) {
    rise = std::expm1(-2 * h * share) / std::expm1(-2 * h) *
           (std::expm1(-2 * h * (1 - share)) / (-2 * h));
  }
  return length_m * length_m / 2 * rise;
}

double held_energy_J(const VlasovBar& bar) {
  const double L = bar.length_m;
  if (!bar.warps()) return L * L * L / (24 * bar.GJ_Nm2);
  return std::pow(L, 5) / bar.EC_Nm4 * vlasov_s(bar.h) * vlasov_g(bar.h) / 96;
}

Hyperbolic calc_hyperbolic(double h, double s) {
  if (!(h > 0)) return {s, 1};
  const double a = std::min(std::abs(s), 1.0);
  const double fall = std::exp(h * (a - 1));
  const double here = std::expm1(-2 * h * a), end = std::expm1(-2 * h);
  return {std::copysign(fall * here / end, s), fall * (2 + here) / (2 + end)};
}

}  // namespace rig::frame
