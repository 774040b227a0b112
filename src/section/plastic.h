#pragma once

#include "section/section.h"

namespace rig::section {

/// Plastic modulus about the axis square to `up`, which is the full-yield moment about it over the
/// yield stress: the least of the integral of |up . p - c| over c.
/// Each wall counts as the rectangle of its length and thickness.
/// @param up  Unit vector, (0, 1) for bending about y.
double calc_plastic_modulus_m3(const Section& section, const Vec2& up);

}  // namespace rig::section
