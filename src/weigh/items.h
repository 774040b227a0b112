#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "build/types.h"
#include "weigh/mass_properties.h"

namespace rig::weigh {

/// One mass item that is aboard in a load state, all it needs known.
struct Item {
  std::string id;
  std::string path;        ///< JSON pointer of the mass item.
  std::string label;       ///< Its label, or its id.
  std::string carried_by;  ///< Id of the axle that carries it; empty: the frame.
  MassProperties properties;
  double mass_plus_minus_kg = 0;       ///< build/known_to.h.
  double fill_plus_minus_kg = 0;       ///< The part of it that is a tank's fill in this state.
  Vec3 p_plus_minus_V = Vec3::Zero();  ///< Half-widths of its place, m; build/known_to.h.
  bool plus_minus_given = false;       ///< Of its mass, or that it is an estimate.

  double mass_kg() const { return properties.mass_kg; }
  const Vec3& p_VoCm_V() const { return properties.p_VoBcm_V; }
};

/// An item that is aboard but counts for nothing, as its mass or place is not known.
struct LeftOut {
  std::string id;
  std::string path;            ///< JSON pointer of the mass item.
  std::string label;           ///< Its label, or its id.
  bool nothing_known = false;  ///< Neither mass nor any part of its place.
};

struct Items {
  std::vector<Item> items;        ///< In the file's order.
  std::vector<LeftOut> left_out;  ///< In the file's order.
  std::vector<Missing> missing;   ///< What an item lacked.
  Diagnostics faults;             ///< weigh.fill_without_fluid.
};

/// What is aboard in a load state: every item that is no optional load, the optional loads that the
/// state lists, liquids by volume, fill and density.
///
/// An item whose mass or place is not known is left out and listed. An item without a size is a
/// point; one with half a size is a point too, and listed.
///
/// @param state_id  A load state of the build; empty: no optional load, tanks as their items say.
/// @errors weigh.unknown_state.
Result<Items> resolve_items(const build::Build& build, const std::string& state_id);

/// The usual density of a liquid and half of its usual spread.
struct UsualDensity {
  double density_kg_per_m3 = 0;
  double plus_minus_kg_per_m3 = 0;
};

/// Nothing for `kOther`.
/// @source references.md WT-11 (water at 60 F), WT-12 (gasoline), WT-13 (diesel), WT-14 (oil,
/// coolant).
std::optional<UsualDensity> find_usual_density(build::Liquid liquid);

}  // namespace rig::weigh
