#pragma once

#include "base/nan.h"

/// Rate of a leaf pack from its leaves.
namespace rig::suspension {

/// Leaf spring steel. [Bhandari] Ex. 10.25.
inline constexpr double kLeafModulus_Pa = 207e9;

/// A stack of leaves of one width and thickness.
struct LeafStack {
  int graduated = 0;    ///< The main leaf and the shorter ones under it, stepping down evenly.
  int full_length = 0;  ///< Leaves of full length and constant section besides those.
  double width_m = kNaN;
  double thickness_m = kNaN;
  double modulus_Pa = kLeafModulus_Pa;
};

/// The stack that a shop counts: `count` leaves, `full_length` of them (the main leaf included)
/// reaching from eye to eye. The main leaf counts with the graduated ones as long as there is a
/// shorter leaf for it to lead; when every leaf is of full length there is none.
LeafStack make_leaf_stack(int count, int full_length, double width_m, double thickness_m);

/// Stiffening factor SF of R = 32 E sum(I) SF / L^3: 1 for a stack of uniform strength, 1.5 for
/// full-length leaves only, and between them by their numbers, (3 nf + 2 ng) / (2 (nf + ng)).
///
/// Leaves of one thickness bending together without friction.
/// @source [HS-788] (1 and 1.5, from memory); [Bhandari] Ex. 10.25 (between).
double calc_leaf_stiffening_factor(const LeafStack& stack);

/// Rate at the tip of one half as a cantilever held at the seat, E b t^3 (3 nf + 2 ng) / (12 l^3).
/// With graduated leaves alone this is the quarter-elliptic spring, E n b t^3 / (6 l^3).
/// @param length_m  Seat to eye, > 0.
/// @source [Bhandari] Ex. 10.25.
double calc_leaf_cantilever_rate_N_per_m(const LeafStack& stack, double length_m);

/// Vertical rate at the seat of a pack whose eyes slide freely and whose seat may turn,
/// k_a k_b (a + b)^2 / (k_a a^2 + k_b b^2) with the halves' cantilever rates k_a, k_b.
///
/// The clamp at the seat is a line; friction between leaves, inserts and a leaning shackle (which
/// changes the rate to first order unless it stands square to the eye line) are left out.
/// @param a_m, b_m  Seat to front eye and seat to rear eye, > 0.
/// @source Statics; a = b is [HS-788] 32 E sum(I) SF / L^3.
double calc_leaf_pack_rate_N_per_m(const LeafStack& stack, double a_m, double b_m);

}  // namespace rig::suspension
