#include "frame/steel.h"

namespace rig::frame {

SteelNumbers find_steel(const build::Frame& frame, const std::string& id) {
  SteelNumbers numbers;
  const auto* steel = build::find(frame.steels, id);
  if (steel == nullptr) return numbers;
  const build::Steel& told = steel->value;
  if (told.modulus.known()) numbers.E_Pa = told.modulus.si;
  if (told.poisson_ratio.known()) numbers.poisson_ratio = told.poisson_ratio.si;
  if (told.density.known()) numbers.density_kg_per_m3 = told.density.si;
  numbers.yield_Pa = told.yield.si;
  numbers.ultimate_Pa = told.ultimate.si;
  return numbers;
}

}  // namespace rig::frame
