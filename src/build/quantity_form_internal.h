#pragma once

#include "base/nan.h"
#include "build/describe.h"
#include "build/types.h"

namespace rig::build {

/// A number with its unit as one piece of text, such as "41 5/8 in"; a ratio may be a bare number.
template <units::Dimension D>
struct Amount {
  double si = kNaN;
};

/// The long form of a quantity in the file.
template <units::Dimension D>
struct QuantityForm {
  Bounds bounds;
  Amount<D> value;
  Amount<D> plus_minus;
  From from = From::kDesign;
  std::string note;
};

template <typename V, units::Dimension D>
void describe(V& v, QuantityForm<D>& x) {
  v.field("value", x.value, "The number with its unit.", x.bounds);
  v.field("plus_minus", x.plus_minus, "How far off it may be, either way.", kNotNegative);
  v.field("from", x.from, "How it is known; by design if left out.");
  v.field("note", x.note, "Anything worth remembering.");
}

}  // namespace rig::build
