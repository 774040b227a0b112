#include "suspension/leaf_rate.h"

#include "base/require.h"

namespace rig::suspension {

LeafStack make_leaf_stack(int count, int full_length, double width_m, double thickness_m) {
  RIG_REQUIRE(count >= 1 && full_length >= 1 && full_length <= count);
  const int extra = full_length == count ? count : full_length - 1;
  return {.graduated = count - extra,
          .full_length = extra,
          .width_m = width_m,
          .thickness_m = thickness_m};
}

double calc_leaf_stiffening_factor(const LeafStack& stack) {
  const int leaves = stack.graduated + stack.full_length;
  RIG_REQUIRE(stack.graduated >= 0 && stack.full_length >= 0 && leaves >= 1);
  return (3.0 * stack.full_length + 2.0 * stack.graduated) / (2.0 * leaves);
}

double calc_leaf_cantilever_rate_N_per_m(const LeafStack& stack, double length_m) {
  RIG_REQUIRE(stack.width_m > 0 && stack.thickness_m > 0 && stack.modulus_Pa > 0 && length_m > 0);
  const double t = stack.thickness_m;
  const double sum_I_m4 = (stack.graduated + stack.full_length) * stack.width_m * t * t * t / 12;
  // Half of 32 E sum(I) SF / L^3 with L = 2 l.
  return 2 * stack.modulus_Pa * sum_I_m4 * calc_leaf_stiffening_factor(stack) /
         (length_m * length_m * length_m);
}

double calc_leaf_pack_rate_N_per_m(const LeafStack& stack, double a_m, double b_m) {
  const double k_a = calc_leaf_cantilever_rate_N_per_m(stack, a_m);
  const double k_b = calc_leaf_cantilever_rate_N_per_m(stack, b_m);
  const double whole = a_m + b_m;
  return k_a * k_b * whole * whole / (k_a * a_m * a_m + k_b * b_m * b_m);
}

}  // namespace rig::suspension
