#pragma once

#include <cstddef>
#include <span>
#include <variant>
#include <vector>

#include "frame/locked_stress_internal.h"
#include "frame/model.h"
#include "frame/place_limits_internal.h"
#include "frame/worst_places.h"

namespace rig::frame {

const BeamSection& section_at(const Model& model, int beam);

/// One place of a beam under one case.
struct Place {
  std::size_t load_case = 0;
  AlongBeam at;
  double bound_Pa = 0;  ///< Nothing in the section is stressed more.
};

/// All places that are looked at, in the order of beams, along each, and of cases, and what is
/// stressed there.
class PlaceList {
 public:
  /// @param cases  Must live as long as the list, as must the model.
  PlaceList(const Model& model, std::span<const FrameForces> cases);

  const Model& model() const { return model_; }
  const std::vector<Place>& places() const { return places_; }
  const PlaceLimits& limits() const { return limits_; }
  const BeamForces& carried(const Place& place) const;
  const LockedForces* locked(const Place& place) const;

  /// Calls with the stresses at a place, which are kept.
  template <typename Use>
  void with_stresses(std::size_t index, const Use& use) {
    std::visit(use, field_at(index));
  }

 private:
  using Field = std::variant<section::StressField, LockedStress>;

  void add(int beam);
  const Field& field_at(std::size_t index);
  Field make_field(const Place& place) const;

  const Model& model_;
  std::span<const FrameForces> cases_;
  PlaceLimits limits_;
  std::vector<std::vector<const LockedForces*>> locked_;
  std::vector<Place> places_;
  std::vector<int> field_of_;  ///< By place; -1: not made yet.
  std::vector<Field> fields_;
};

}  // namespace rig::frame
