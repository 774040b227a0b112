#include <cmath>

#include "driveline/from_build.h"

namespace rig::driveline {
namespace {

/// Puts a shaft together from the front.
class BeamMaker {
 public:
  explicit BeamMaker(const ShaftFromBuild& shaft) : shaft_(shaft) {
    beam_.supports.push_back({.at_m = 0, .stiffness_N_per_m = {}});
  }

  void add_tube(std::size_t t, double length_m) {
    const bool slides = t + 2 == shaft_.shaft.joint_count;
    const double stub_m = slides && shaft_.stub_diameter_m > 0 && shaft_.stub_length_m > 0
                              ? std::min(shaft_.stub_length_m, kMostStub * length_m)
                              : 0;
    if (stub_m > 0) {
      const double d = shaft_.stub_diameter_m;
      add_piece({.outside_diameter_m = d, .wall_m = d / 2}, stub_m, false);
      if (shaft_.slide_kg > 0) {
        beam_.masses.push_back({.at_m = at_m_ - stub_m / 2, .mass_kg = shaft_.slide_kg});
      }
    }
    add_piece(*shaft_.tubes[t], length_m - stub_m, !slides);
    if (slides) {
      beam_.supports.push_back({.at_m = at_m_, .stiffness_N_per_m = {}});
    } else {
      beam_.supports.push_back(
          {.at_m = at_m_ - shaft_.bearing_past_m, .stiffness_N_per_m = shaft_.bearing_N_per_m});
    }
  }

  ShaftBeam take() { return std::move(beam_); }

 private:
  static constexpr double kMostStub = 0.9;  ///< Of the piece: some tube is always left.

  void add_piece(const ShaftTube& tube, double length_m, bool joint_after) {
    beam_.pieces.push_back({.tube = tube, .length_m = length_m, .joint_after = joint_after});
    at_m_ += length_m;
  }

  const ShaftFromBuild& shaft_;
  ShaftBeam beam_;
  double at_m_ = 0;
};

}  // namespace

std::optional<ShaftBeam> make_shaft_beam(const ShaftFromBuild& shaft,
                                         std::span<const double> lengths_m) {
  const std::size_t tubes = shaft.shaft.joint_count - 1;
  RIG_REQUIRE(lengths_m.size() >= tubes);
  BeamMaker maker(shaft);
  for (std::size_t t = 0; t < tubes; ++t) {
    if (!shaft.tubes[t]) return std::nullopt;
    maker.add_tube(t, lengths_m[t]);
  }
  return maker.take();
}

bool is_even(const ShaftFromBuild& shaft) {
  return shaft.shaft.joint_count == 2 && !(shaft.stub_diameter_m > 0 && shaft.stub_length_m > 0);
}

}  // namespace rig::driveline
