#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/model_maker_internal.h"

namespace rig::frame {
namespace {

/// A taper is made of steps over which no size changes by more than this share.
constexpr double kTaperStep = 0.05;
constexpr int kMostSteps = 20;

/// A stretch that passes a station and has a section.
const build::Entry<build::Stretch>* stretch_at(const build::Rail& rail, double station_m) {
  for (const auto& stretch : rail.stretches) {
    const auto range = build::station_range(stretch.value.from, stretch.value.to);
    if (range && stretch.value.section && station_m >= range->from_m && station_m <= range->to_m) {
      return &stretch;
    }
  }
  return nullptr;
}

int count_taper_steps(const build::Stretch& stretch) {
  if (!stretch.section || !stretch.section_end) return 1;
  const MidlineSizes a = midline_sizes(*stretch.section), b = midline_sizes(*stretch.section_end);
  double change = 0;
  for (const auto member :
       {&MidlineSizes::depth_m, &MidlineSizes::width_m, &MidlineSizes::wall_m}) {
    const double larger = std::max(a.*member, b.*member);
    if (larger > 0) change = std::max(change, std::abs(a.*member - b.*member) / larger);
  }
  return std::clamp(static_cast<int>(std::ceil(change / kTaperStep)), 1, kMostSteps);
}

}  // namespace

std::size_t MadeRail::node_at(double station_m) const {
  std::size_t best = 0;
  for (std::size_t i = 1; i < nodes.size(); ++i) {
    if (std::abs(nodes[i].station_m - station_m) < std::abs(nodes[best].station_m - station_m)) {
      best = i;
    }
  }
  return best;
}
const RailBay* MadeRail::bay_ahead(std::size_t node) const {
  return node == 0 ? nullptr : &bays[node - 1];
}
const RailBay* MadeRail::bay_behind(std::size_t node) const {
  return node + 1 == nodes.size() ? nullptr : &bays[node];
}

void ModelMaker::check_rail_sizes(const build::Entry<build::Rail>& entry) {
  const build::Rail& rail = entry.value;
  const std::string words = shop_words(rail.label, entry.id);
  const auto check = [&](const std::optional<build::SectionSizes>& sizes, const std::string& path) {
    if (!sizes) return;
    const Diagnostics unknown = list_unknown_sizes(*sizes, path, words);
    take_faults(unknown);
    if (unknown.empty()) check_shape(*sizes, path);
  };
  check(rail.section, entry.path + "/section");
  for (const auto& [id, path, stretch] : rail.stretches) {
    check(stretch.section, path + "/section");
    check(stretch.section_end, path + "/section_end");
    for (const auto& [key, end] :
         {std::pair("from", &stretch.from), std::pair("to", &stretch.to)}) {
      if (end->known()) continue;
      fault("frame.unknown_place", fmt::format("{}/{}", path, key),
            fmt::format("Where the stretch \"{}\" of the {} {} is not known.", id, words,
                        end == &stretch.from ? "begins" : "ends"),
            "Give its station, or take the stretch out.");
    }
  }
  // A rail without a section of its own may have stretches all along.
  std::vector<double> ends;
  if (const auto range = build::station_range(rail)) ends = {range->from_m, range->to_m};
  for (const auto& stretch : rail.stretches) {
    for (const auto* end : {&stretch.value.from, &stretch.value.to}) {
      if (end->known()) ends.push_back(end->si);
    }
  }
  std::sort(ends.begin(), ends.end());
  bool told = rail.section.has_value() || ends.size() > 1;
  for (std::size_t i = 1; i < ends.size() && !rail.section; ++i) {
    told = told && stretch_at(rail, (ends[i - 1] + ends[i]) / 2) != nullptr;
  }
  if (!told) {
    fault("frame.unknown_section", entry.path + "/section",
          fmt::format("The section of the {} is not known.", words),
          "Give its shape, depth, flange and thickness.");
  }
  for (const auto& plate : build_.frame.plates) {
    if (plate.value.rail.id != entry.id || !in_.contains(plate.id)) continue;
    const std::string plate_words = shop_words(plate.value.label, plate.id);
    if (!plate.value.thickness.known()) {
      fault("frame.unknown_size", plate.path + "/thickness",
            fmt::format("The thickness of the {} is not known.", plate_words),
            "Give it, or take the plate out.");
    }
    for (const auto& [key, end] :
         {std::pair("from", &plate.value.from), std::pair("to", &plate.value.to)}) {
      if (end->known()) continue;
      fault("frame.unknown_place", fmt::format("{}/{}", plate.path, key),
            fmt::format("Where the {} {} is not known.", plate_words,
                        end == &plate.value.from ? "begins" : "ends"),
            "Give its station, or take the plate out.");
    }
  }
}

std::vector<ModelMaker::Stretch> ModelMaker::stiff_flanges(const RailLine& line, int index) const {
  std::vector<Stretch> stretches;
  for (const CrossmemberLine& crossmember : plan_.crossmembers) {
    const build::Crossmember& part = crossmember.part->value;
    const bool forward = part.opens == build::Facing::kForward;
    if ((crossmember.left != index && crossmember.right != index) ||
        part.joint != build::CrossmemberJoint::kFlanges ||
        part.fastening == build::Fastening::kBolted ||
        part.section->shape != build::SectionShape::kChannel ||
        (!forward && part.opens != build::Facing::kRearward)) {
      continue;
    }
    const double station_m = part.at.station.si;
    const double edge_m = station_m + (forward ? -1 : 1) * midline_sizes(*part.section).width_m;
    if (!line.passes(edge_m)) continue;
    stretches.push_back({std::min(station_m, edge_m), std::max(station_m, edge_m)});
  }
  return stretches;
}

std::vector<double> ModelMaker::stations_of(const RailLine& line, int index) const {
  std::vector<double> stations;
  const auto add = [&](double station_m) {
    if (line.passes(station_m)) {
      stations.push_back(std::clamp(station_m, line.front_m(), line.rear_m()));
    }
  };
  for (const Vec3& p : line.p_VoP_V) add(-p.x());
  for (const auto& stretch : line.rail->value.stretches) {
    const build::Stretch& value = stretch.value;
    const int steps = count_taper_steps(value);
    for (int i = 0; i <= steps; ++i) {
      add(value.from.si + (value.to.si - value.from.si) * i / steps);
    }
  }
  for (const auto& plate : build_.frame.plates) {
    if (plate.value.rail.id != line.rail->id || !in_.contains(plate.id) ||
        !build::is_on(plate.value.side, line.sign)) {
      continue;
    }
    add(plate.value.from.si);
    add(plate.value.to.si);
  }
  for (const CrossmemberLine& crossmember : plan_.crossmembers) {
    if (crossmember.left == index || crossmember.right == index) {
      add(crossmember.part->value.at.station.si);
    }
  }
  for (const Stretch& stretch : stiff_flanges(line, index)) {
    add(stretch.from_m);
    add(stretch.to_m);
  }
  std::sort(stations.begin(), stations.end());
  const auto same = [](double a, double b) { return b - a < build::kStationRounding_m; };
  stations.erase(std::unique(stations.begin(), stations.end(), same), stations.end());
  const auto add_apart = [&](double at_m) {
    const bool near = std::any_of(stations.begin(), stations.end(), [at_m](double station_m) {
      return std::abs(station_m - at_m) < kSamePlace_m;
    });
    if (!near) stations.push_back(at_m);
  };
  for (const Carried& carried : plan_.carried) {
    if (carried.rail == index) add_apart(carried.at_m);
  }
  for (const RailMark& mark : marks_) {
    if (mark.rail == index) add_apart(mark.station_m);
  }
  std::sort(stations.begin(), stations.end());
  return stations;
}

RailBay ModelMaker::bay_at(const RailLine& line, double station_m) const {
  const build::Rail& rail = line.rail->value;
  RailBay bay;
  if (const auto* stretch = stretch_at(rail, station_m)) {
    const auto& [id, path, value] = *stretch;
    bay.sizes = *value.section;
    bay.section_path = path + "/section";
    if (value.section_end) {
      bay.sizes = mix_sizes(*value.section, *value.section_end,
                            (station_m - value.from.si) / (value.to.si - value.from.si));
    }
  } else {
    RIG_REQUIRE(rail.section.has_value());
    bay.sizes = *rail.section;
    bay.section_path = line.rail->path + "/section";
  }
  if (bay.sizes.shape != build::SectionShape::kChannel) return bay;
  for (const auto& plate : build_.frame.plates) {
    if (plate.value.rail.id == line.rail->id && in_.contains(plate.id) &&
        build::is_on(plate.value.side, line.sign) && plate.value.from.si < station_m &&
        station_m < plate.value.to.si) {
      bay.plate = &plate;
    }
  }
  return bay;
}

int ModelMaker::section_of(const RailLine& line, const RailBay& bay, const SteelNumbers& steel) {
  // A channel is made open to the left.
  const bool to_the_right =
      bay.sizes.shape == build::SectionShape::kChannel && line.opens_to_the_right();
  SectionKey key = list_sizes(bay.sizes);
  key.push_back(to_the_right ? 1 : 0);
  if (bay.plate != nullptr) {
    const build::BoxingPlate& plate = bay.plate->value;
    key.insert(key.end(), {static_cast<double>(plate.fit), plate.thickness.si,
                           plate.inset.known() ? plate.inset.si : -1});
  }
  return add_section(std::move(key), steel, bay.section_path, [&]() -> Result<section::Section> {
    auto made = bay.plate == nullptr ? make_section(bay.sizes, bay.section_path)
                                     : make_boxed_section(bay.sizes, bay.section_path,
                                                          bay.plate->value, bay.plate->path);
    if (!made || !to_the_right) return made;
    return section::mirror_section(*made);
  });
}

void ModelMaker::add_rail(int index) {
  const RailLine& line = plan_.rails[at(index)];
  const build::Rail& value = line.rail->value;
  MadeRail rail{
      .line = &line,
      .member = add_member(
          value.both_sides ? line.rail->id + (line.sign > 0 ? ".left" : ".right") : line.rail->id,
          line.words)};
  const SteelNumbers steel =
      steel_of(value.steel, line.rail->path, shop_words(value.label, line.rail->id));
  const auto stations = stations_of(line, index);
  rail.nodes.reserve(stations.size());
  rail.bays.reserve(stations.size());
  model_.beams.reserve(model_.beams.size() + stations.size());
  for (const double station_m : stations) {
    rail.nodes.push_back({.station_m = station_m, .p_VoP_V = line.at(station_m)});
  }
  bool sound = true;
  std::vector<int> sections;
  for (std::size_t i = 0; i + 1 < stations.size(); ++i) {
    RailBay bay = bay_at(line, (stations[i] + stations[i + 1]) / 2);
    sections.push_back(section_of(line, bay, steel));
    sound = sound && sections.back() >= 0;
    bay.warps = sound && model_.structure.sections[at(sections.back())]->warps();
    rail.bays.push_back(std::move(bay));
  }
  if (!sound) return;
  add_rail_joints(rail, stiff_flanges(line, index));
  for (std::size_t i = 0; i < rail.bays.size(); ++i) {
    RailBay& bay = rail.bays[i];
    const RailNode &front = rail.nodes[i], &rear = rail.nodes[i + 1];
    bay.beam = static_cast<int>(model_.structure.beams.size());
    model_.structure.beams.push_back({.from = rear.joint_ahead,
                                      .to = front.joint_behind,
                                      .p_VoF_V = rear.p_VoP_V,
                                      .p_VoT_V = front.p_VoP_V,
                                      .y_V = Vec3::UnitY(),
                                      .section = sections[i],
                                      .warp_from = bay.warps ? rear.warp : -1,
                                      .warp_to = bay.warps ? front.warp : -1,
                                      .member = rail.member});
    BeamPlace where{.path = line.rail->path,
                    .section_path = bay.section_path,
                    .sign = line.sign,
                    .begin_m = front.station_m,
                    .end_m = rear.station_m,
                    .runs_back = true,
                    .yield_Pa = steel.yield_Pa,
                    .ultimate_Pa = steel.ultimate_Pa};
    if (bay.plate != nullptr) {
      where.plates = {bay.plate->path};
      const std::string& own = bay.plate->value.steel.id;
      where.plate_yield_Pa = own.empty() ? steel.yield_Pa : find_steel(build_.frame, own).yield_Pa;
    }
    model_.beams.push_back(std::move(where));
  }
  join_rail_ends(rail);
  rails_.push_back(std::move(rail));
}

}  // namespace rig::frame
