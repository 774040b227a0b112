#include "weigh/items.h"

#include <algorithm>
#include <cmath>

#include "build/known_to.h"
#include "units/factors.h"

namespace rig::weigh {
namespace {

/// Collects what one item lacks.
struct Lacks {
  const std::string& label;
  std::vector<Missing>& missing;

  void add(const std::string& path, const std::string& what, const char* needed) const {
    missing.push_back({.path = path, .what = what + " of " + label, .needed = needed});
  }
};

constexpr const char* kNeededForWeight = "its part of weight and balance";
constexpr const char* kNeededForInertia = "its own part of the inertia; it counts as a point";

struct KnownMass {
  double mass_kg = 0;
  double plus_minus_kg = 0;
  double fill_plus_minus_kg = 0;
  bool plus_minus_given = false;
};

std::optional<KnownMass> find_fluid_mass(const build::Fluid& fluid, const std::string& path,
                                         const build::Ratio& fill, const std::string& fill_path,
                                         const Lacks& lacks) {
  build::Density density = fluid.density;
  if (!density.known()) {
    if (const auto usual = find_usual_density(fluid.liquid)) {
      density.si = usual->density_kg_per_m3;
      density.plus_minus_si = usual->plus_minus_kg_per_m3;
    }
  }
  if (!fluid.volume.known()) lacks.add(path + "/volume", "tank volume", kNeededForWeight);
  if (!fill.known()) lacks.add(fill_path, "fill", kNeededForWeight);
  if (!density.known()) lacks.add(path + "/density", "density", kNeededForWeight);
  if (!fluid.volume.known() || !fill.known() || !density.known()) return std::nullopt;
  const double by_volume = half_width(fluid.volume) * fill.si * density.si;
  const double by_fill = half_width(fill) * fluid.volume.si * density.si;
  const double by_density = half_width(density) * fluid.volume.si * fill.si;
  return KnownMass{.mass_kg = fluid.volume.si * fill.si * density.si,
                   .plus_minus_kg = std::hypot(by_volume, by_fill, by_density),
                   .fill_plus_minus_kg = by_fill,
                   .plus_minus_given = half_width_told(fluid.volume) || half_width_told(fill) ||
                                       half_width_told(density)};
}

int axis_index(build::Axis axis) {
  switch (axis) {
    case build::Axis::kLengthwise:
      return 0;
    case build::Axis::kCrosswise:
      return 1;
    case build::Axis::kUpright:
      return 2;
  }
  return 0;
}

Mat3 find_inertia(double mass_kg, const build::Size& size, const std::string& path,
                  const Lacks& lacks) {
  bool complete = true;
  const auto need = [&](const build::Length& length, const char* key) {
    if (length.known()) return;
    complete = false;
    lacks.add(path + "/" + key, key, kNeededForInertia);
  };
  need(size.length, "length");
  if (size.shape == build::Shape::kCylinder) {
    need(size.diameter, "diameter");
    if (!complete) return Mat3::Zero();
    return calc_cylinder_inertia(mass_kg, size.diameter.si, size.length.si, axis_index(size.axis));
  }
  need(size.width, "width");
  need(size.height, "height");
  if (!complete) return Mat3::Zero();
  return calc_box_inertia(mass_kg, {size.length.si, size.width.si, size.height.si});
}

bool place_known(const build::Point& at, const std::string& path, const Lacks& lacks) {
  if (!at.station.known()) lacks.add(path + "/station", "station", kNeededForWeight);
  if (!at.offset.known()) lacks.add(path + "/offset", "offset", kNeededForWeight);
  if (!at.height.known()) lacks.add(path + "/height", "height", kNeededForWeight);
  return at.known();
}

std::optional<Item> find_item(const build::Entry<build::MassItem>& entry,
                              const build::Entry<build::Fill>* fill,
                              std::vector<Missing>& missing) {
  const build::MassItem& source = entry.value;
  Item item{.id = entry.id,
            .path = entry.path,
            .label = source.label.empty() ? entry.id : source.label,
            .carried_by = source.on.id,
            .properties = {}};
  const Lacks lacks{.label = item.label, .missing = missing};
  std::optional<KnownMass> mass;
  if (source.fluid) {
    const std::string path = entry.path + "/fluid";
    mass =
        fill == nullptr
            ? find_fluid_mass(*source.fluid, path, source.fluid->fill, path + "/fill", lacks)
            : find_fluid_mass(*source.fluid, path, fill->value.fill, fill->path + "/fill", lacks);
  } else if (source.mass.known()) {
    mass = KnownMass{.mass_kg = source.mass.si,
                     .plus_minus_kg = half_width(source.mass),
                     .fill_plus_minus_kg = 0,
                     .plus_minus_given = half_width_told(source.mass)};
  } else {
    lacks.add(entry.path + "/mass", "mass", kNeededForWeight);
  }
  if (!place_known(source.at, entry.path + "/at", lacks) || !mass) return std::nullopt;
  item.properties = {
      .mass_kg = mass->mass_kg, .p_VoBcm_V = source.at.p_VP(), .I_BBcm_V = Mat3::Zero()};
  if (source.size) {
    item.properties.I_BBcm_V =
        find_inertia(mass->mass_kg, *source.size, entry.path + "/size", lacks);
  }
  item.mass_plus_minus_kg = mass->plus_minus_kg;
  item.fill_plus_minus_kg = mass->fill_plus_minus_kg;
  item.plus_minus_given = mass->plus_minus_given;
  item.p_plus_minus_V = {place_half_width(source.at.station), place_half_width(source.at.offset),
                         place_half_width(source.at.height)};
  return item;
}

bool aboard(const build::Entry<build::MassItem>& entry, const build::LoadState& state) {
  if (!entry.value.optional_load) return true;
  return std::any_of(state.aboard.begin(), state.aboard.end(),
                     [&](const build::Reference& reference) { return reference.id == entry.id; });
}

}  // namespace

Result<Items> resolve_items(const build::Build& build, const std::string& state_id) {
  const build::LoadState bare;
  const build::LoadState* state = &bare;
  if (!state_id.empty()) {
    const auto* entry = build::find(build.load_states, state_id);
    if (entry == nullptr) {
      return fail("weigh.unknown_state", "/load_states",
                  "There is no load state \"" + state_id + "\".",
                  "Name one of the file's load states.");
    }
    state = &entry->value;
  }
  Items result;
  for (const auto& entry : build.masses) {
    if (!aboard(entry, *state)) continue;
    if (auto item = find_item(entry, build::find(state->fills, entry.id), result.missing)) {
      result.items.push_back(*std::move(item));
      continue;
    }
    const build::MassItem& source = entry.value;
    const build::Point& at = source.at;
    result.left_out.push_back({.id = entry.id,
                               .path = entry.path,
                               .label = source.label.empty() ? entry.id : source.label,
                               .nothing_known = !source.mass.known() && !source.fluid &&
                                                !at.station.known() && !at.offset.known() &&
                                                !at.height.known()});
  }
  for (const auto& fill : state->fills) {
    const auto* item = build::find(build.masses, fill.id);
    if (item != nullptr && item->value.fluid) continue;
    result.faults.push_back({.code = "weigh.fill_without_fluid",
                             .path = fill.path,
                             .message = "\"" + fill.id + "\" is no tank, so it can't be filled.",
                             .remedy = "Name a mass item that has a fluid.",
                             .at = {}});
  }
  return result;
}

std::optional<UsualDensity> find_usual_density(build::Liquid liquid) {
  using units::kg_per_m3_from_lb_per_gal;
  // Half-widths: half of the printed range (gasoline 0.71-0.78 g/cm3, diesel 6.9-7.1 lb/gal, water
  // 8.33-8.345 lb/gal, all rounded up), or the 3 % that the table allows.
  switch (liquid) {
    case build::Liquid::kWater:
      return UsualDensity{kg_per_m3_from_lb_per_gal(8.33), kg_per_m3_from_lb_per_gal(0.02)};
    case build::Liquid::kGasoline:
      return UsualDensity{kg_per_m3_from_lb_per_gal(6.15), 35};
    case build::Liquid::kDiesel:
      return UsualDensity{kg_per_m3_from_lb_per_gal(7.05), kg_per_m3_from_lb_per_gal(0.1)};
    case build::Liquid::kEngineOil:
      return UsualDensity{kg_per_m3_from_lb_per_gal(7.3), kg_per_m3_from_lb_per_gal(0.03 * 7.3)};
    case build::Liquid::kCoolant:
      return UsualDensity{kg_per_m3_from_lb_per_gal(8.9), kg_per_m3_from_lb_per_gal(0.03 * 8.9)};
    case build::Liquid::kOther:
      return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace rig::weigh
