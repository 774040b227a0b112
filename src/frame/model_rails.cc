#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/model_maker_internal.h"
#include "frame/wall_mode.h"
#include "geometry/matrix.h"

namespace rig::frame {
namespace {

/// Rails whose ends are nearer than this are welded to each other, m.
constexpr double kSameEnd_m = 0.005;
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
    if (!unknown.empty()) return;
    if (const auto made = make_section(*sizes, path); !made) take_faults(made.error());
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
  std::sort(stations.begin(), stations.end());
  const auto same = [](double a, double b) { return b - a < build::kStationRounding_m; };
  stations.erase(std::unique(stations.begin(), stations.end(), same), stations.end());
  for (const Carried& carried : plan_.carried) {
    if (carried.rail != index) continue;
    const double at_m = carried.at_m;
    const bool near = std::any_of(stations.begin(), stations.end(), [at_m](double station_m) {
      return std::abs(station_m - at_m) < kSamePlace_m;
    });
    if (!near) stations.push_back(at_m);
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
  auto made = bay.plate == nullptr ? make_section(bay.sizes, bay.section_path)
                                   : make_boxed_section(bay.sizes, bay.section_path,
                                                        bay.plate->value, bay.plate->path);
  if (!made) {
    take_faults(made.error());
    return -1;
  }
  // A channel is made open to the left.
  const bool inwards = line.rail->value.opens == build::RailOpening::kIn;
  const bool to_the_right =
      bay.sizes.shape == build::SectionShape::kChannel && inwards == (line.sign > 0);
  const std::string key = fmt::format("{} {} {} {} {} {} {}", bay.section_path, bay.sizes.depth.si,
                                      bay.sizes.thickness.si, bay.sizes.outside_diameter.si,
                                      bay.plate == nullptr ? "" : bay.plate->path,
                                      to_the_right ? "right" : "left", steel.E_Pa);
  return add_section(key, to_the_right ? section::mirror_section(*made) : *made, steel,
                     bay.section_path);
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
  for (const double station_m : stations) {
    rail.nodes.push_back({.station_m = station_m, .p_VoP_V = line.at(station_m)});
  }
  bool sound = true;
  std::vector<int> sections;
  for (std::size_t i = 0; i + 1 < stations.size(); ++i) {
    RailBay bay = bay_at(line, (stations[i] + stations[i + 1]) / 2);
    sections.push_back(section_of(line, bay, steel));
    sound = sound && sections.back() >= 0;
    bay.warps = sound && model_.structure.sections[at(sections.back())].warps();
    rail.bays.push_back(std::move(bay));
  }
  if (!sound) return;
  add_rail_joints(rail);
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

void ModelMaker::add_rail_joints(MadeRail& rail) {
  for (std::size_t i = 0; i < rail.nodes.size(); ++i) {
    RailNode& node = rail.nodes[i];
    const std::string where = place(rail.line->words, node.station_m);
    const RailBay *ahead = rail.bay_ahead(i), *behind = rail.bay_behind(i);
    const bool warps = (ahead != nullptr && ahead->warps) || (behind != nullptr && behind->warps);
    if (warps) node.warp = add_scalar({.place = where + ", warping"});
    node.joint_ahead = node.joint_behind = add_joint({.p_VoJ_V = node.p_VoP_V, .place = where});
    if (ahead == nullptr || behind == nullptr || !warps || ahead->warps == behind->warps) continue;
    if (ahead->plate != nullptr || behind->plate != nullptr) {
      add_box_end(rail, i);
    } else {
      assume(
          behind->section_path,
          fmt::format("Where the {} turns from a channel to a tube, at the {}, the channel's end "
                      "is taken as free to warp.",
                      shop_words(rail.line->rail->value.label, rail.line->rail->id), where));
    }
  }
}

void ModelMaker::add_box_end(MadeRail& rail, std::size_t i) {
  RailNode& node = rail.nodes[i];
  const RailBay &ahead = *rail.bay_ahead(i), &behind = *rail.bay_behind(i);
  const bool box_ahead = ahead.plate != nullptr;
  const RailBay &box = box_ahead ? ahead : behind, &open = box_ahead ? behind : ahead;
  const SteelNumbers steel = find_steel(build_.frame, rail.line->rail->value.steel.id);
  const MidlineSizes sizes = midline_sizes(open.sizes);
  const Eigen::Matrix2d compliance =
      calc_box_end_compliance({.E_Pa = steel.E_Pa,
                               .depth_m = sizes.depth_m,
                               .flange_m = sizes.width_m,
                               .thickness_m = sizes.wall_m},
                              box.plate->value.thickness.si, box_ahead);
  const std::string where = place(rail.line->words, node.station_m);
  // The rail's own axis, forward.
  const Vec3 along =
      (rail.nodes[i > 0 ? i - 1 : i].p_VoP_V - rail.nodes[i > 0 ? i : i + 1].p_VoP_V).normalized();
  const int twist = add_scalar({.place = where + ", twist of the box's end"});
  const int soft = add_joint({.p_VoJ_V = node.p_VoP_V,
                              .follows = node.joint_ahead,
                              .modes = {{.scalar = twist, .rotation_V = along}},
                              .place = where + ", open end"});
  (box_ahead ? node.joint_behind : node.joint_ahead) = soft;
  Eigen::MatrixXd stiffness = invert(compliance);
  if (!(compliance.determinant() > 0)) {
    // Beyond the walls that the fit is for its two parts would not belong together.
    stiffness = compliance.diagonal().cwiseInverse().asDiagonal();
    assume(box.plate->path,
           fmt::format("The end of the {} at the {} is outside of what its softness was fitted to.",
                       shop_words(box.plate->value.label, box.plate->id), where));
  }
  stiffness(0, 1) = stiffness(1, 0) = (stiffness(0, 1) + stiffness(1, 0)) / 2;
  add_scalar_spring({twist, node.warp}, stiffness, where + ", end of the box");
}

void ModelMaker::join_rail_ends(MadeRail& rail) {
  for (const MadeRail& other : rails_) {
    for (const RailNode* mine : {&rail.nodes.front(), &rail.nodes.back()}) {
      for (const RailNode* theirs : {&other.nodes.front(), &other.nodes.back()}) {
        if ((mine->p_VoP_V - theirs->p_VoP_V).norm() > kSameEnd_m) continue;
        Joint& joint = model_.structure.joints[at(mine->joint_ahead)];
        if (joint.follows >= 0) continue;
        joint.follows = theirs->joint_ahead;
        if (mine->warp >= 0 && theirs->warp >= 0) {
          Scalar& warp = model_.structure.scalars[at(mine->warp)];
          warp.of = theirs->warp;
          warp.ratio = 1;
        }
        assume(rail.line->rail->path, fmt::format("The {} and the {} meet end to end: taken as "
                                                  "welded together.",
                                                  other.line->words, rail.line->words));
      }
    }
  }
}

int ModelMaker::web_joint(MadeRail& rail, std::size_t i) {
  RailNode& node = rail.nodes[i];
  if (node.web >= 0) return node.web;
  const RailBay *ahead = rail.bay_ahead(i), *behind = rail.bay_behind(i);
  const bool use_behind = behind != nullptr && behind->warps;
  const RailBay* bay = use_behind ? behind : ahead;
  node.web = use_behind ? node.joint_behind : node.joint_ahead;
  if (bay == nullptr || !bay->warps) return node.web;
  const Structure& structure = model_.structure;
  const Beam& beam = structure.beams[at(bay->beam)];
  const section::Section& section = structure.sections[at(beam.section)].section;
  const int wall = section::find_wall(section, "web");
  if (wall < 0) return node.web;
  const auto mode = make_wall_mode(structure, bay->beam, use_behind ? BeamEnd::to : BeamEnd::from,
                                   {.wall = wall, .share = 0.5}, node.p_VoP_V);
  if (!mode) return node.web;
  node.web = add_joint({.p_VoJ_V = node.p_VoP_V,
                        .follows = node.web,
                        .modes = {*mode},
                        .place = place(rail.line->words, node.station_m) + ", web"});
  return node.web;
}

int ModelMaker::carrying_joint(MadeRail& rail, std::size_t i) {
  const RailBay *ahead = rail.bay_ahead(i), *behind = rail.bay_behind(i);
  if (ahead != nullptr && ahead->plate != nullptr) return rail.nodes[i].joint_ahead;
  if (behind != nullptr && behind->plate != nullptr) return rail.nodes[i].joint_behind;
  return web_joint(rail, i);
}

}  // namespace rig::frame
