#include <fmt/format.h>

#include <algorithm>

#include "build/checks_internal.h"
#include "build/describe_frame.h"
#include "build/frame_lookup.h"

namespace rig::build {
namespace {

/// "a channel", "an angle".
std::string one(SectionShape shape) {
  return (shape == SectionShape::kAngle ? "an " : "a ") + spaced(name_of(shape));
}

/// The visitor that gathers the sizes that are given but belong to another shape.
class StraySizes {
 public:
  explicit StraySizes(SectionShape shape) : shape_(shape) {}
  template <typename Rule>
  void field(std::string_view key, const Length& size, std::string_view, const Rule&) {
    if (size.known() && !has_size(shape_, key)) keys.push_back(key);
    if (has_size(shape_, key)) known.push_back(key);
  }
  void field(std::string_view, const SectionShape&, std::string_view, Required) {}

  std::vector<std::string_view> keys;
  std::vector<std::string_view> known;

 private:
  SectionShape shape_;
};

class FrameChecker : Checks {
 public:
  FrameChecker(const Node& root, const Build& build, Faults& faults)
      : Checks(root, build, faults), frame_(build.frame) {}

  void check() {
    for (const auto& rail : frame_.rails) check_rail(rail);
    for (std::size_t i = 0; i < frame_.plates.size(); ++i) check_plate(i);
    for (const auto& crossmember : frame_.crossmembers) check_crossmember(crossmember);
    for (const auto& mount : frame_.mounts) {
      if (mount.value.both_sides && mount.value.offset.si < 0) report_side(mount.path);
      check_on_some_rail(mount.value.station, mount.path);
      check_listed_once(mount.value.carries, mount.path + "/carries");
    }
    check_stages();
  }

 private:
  void check_section(const std::optional<SectionSizes>& section, const std::string& path) {
    if (!section) return;
    StraySizes stray(section->shape);
    SectionSizes sizes = *section;
    describe(stray, sizes);
    for (const std::string_view key : stray.keys) {
      report("build.wrong_shape", path + "/" + std::string(key),
             fmt::format("{} has no {}", one(section->shape), spaced(key)),
             fmt::format("it takes: {}", listed(stray.known)));
    }
  }

  void check_rail_shape(const std::optional<SectionSizes>& section, const std::string& path) {
    check_section(section, path);
    if (!section) return;
    if (section->shape != SectionShape::kPlate && section->shape != SectionShape::kAngle) return;
    report("build.wrong_shape", path + "/shape",
           fmt::format("a rail is not {}", one(section->shape)), "give a channel, a hat or a tube");
  }

  void check_rail(const Entry<Rail>& entry) {
    const Rail& rail = entry.value;
    if (rail.both_sides && !rail.line.empty() &&
        std::all_of(rail.line.begin(), rail.line.end(),
                    [](const Point& p) { return p.offset.si < 0; })) {
      report_side(entry.path);
    }
    for (std::size_t i = 1; i < rail.line.size(); ++i) {
      const Length &before = rail.line[i - 1].station, &here = rail.line[i].station;
      if (!(here.si <= before.si)) continue;
      impossible(fmt::format("{}/line/{}/station", entry.path, i),
                 fmt::format("the point at {} does not lie behind the one at {} before it",
                             print(here), print(before)),
                 "give the points from front to rear; stations grow towards the rear");
    }
    check_rail_shape(rail.section, entry.path + "/section");
    for (std::size_t i = 0; i < rail.stretches.size(); ++i) check_stretch(entry, i);
  }

  void check_stretch(const Entry<Rail>& rail, std::size_t i) {
    const auto& [id, path, stretch] = rail.value.stretches[i];
    check_from_to(stretch.from, stretch.to, path, &rail);
    check_rail_shape(stretch.section, path + "/section");
    check_rail_shape(stretch.section_end, path + "/section_end");
    if (stretch.section && stretch.section_end &&
        stretch.section->shape != stretch.section_end->shape) {
      report("build.wrong_shape", path + "/section_end/shape",
             fmt::format("a taper can't go from {} to {}", one(stretch.section->shape),
                         one(stretch.section_end->shape)),
             "give both ends the same shape");
    }
    const auto range = station_range(stretch.from, stretch.to);
    for (std::size_t k = 0; k < i && range; ++k) {
      const auto& other = rail.value.stretches[k];
      const auto taken = station_range(other.value.from, other.value.to);
      if (!taken || !overlap(*range, *taken)) continue;
      report("build.overlap", path + "/from",
             fmt::format("it runs over the stretch \"{}\"", other.id),
             "let one end where the other begins");
    }
  }

  void check_from_to(const Length& from, const Length& to, const std::string& path,
                     const Entry<Rail>* rail) {
    if (from.si >= to.si) {
      impossible(path + "/to",
                 fmt::format("it ends at {}, which is not behind its beginning at {}", print(to),
                             print(from)),
                 "stations grow towards the rear; swap the two or mend one");
    }
    if (rail == nullptr) return;
    check_on_rail(from, path + "/from", *rail);
    check_on_rail(to, path + "/to", *rail);
  }

  void check_on_rail(const Length& station, const std::string& path, const Entry<Rail>& rail) {
    const auto range = station_range(rail.value);
    if (!range || !station.known() || range->holds(station.si)) return;
    report("build.outside_rail", path,
           fmt::format("{} is not on the rail \"{}\"", print(station), rail.id),
           fmt::format("it runs from {} to {}", print(range->from_m, units::Dimension::kLength),
                       print(range->to_m, units::Dimension::kLength)));
  }

  /// On any rail, as far as their ends are known.
  void check_on_some_rail(const Length& station, const std::string& path) {
    if (frame_.rails.empty() || !station.known()) return;
    double from_m = station.si, to_m = station.si;
    for (const auto& rail : frame_.rails) {
      const auto range = station_range(rail.value);
      if (!range || range->holds(station.si)) return;
      from_m = &rail == &frame_.rails.front() ? range->from_m : std::min(from_m, range->from_m);
      to_m = &rail == &frame_.rails.front() ? range->to_m : std::max(to_m, range->to_m);
    }
    report("build.outside_rail", path + "/station",
           fmt::format("no rail passes {}", print(station)),
           fmt::format("the rails run from {} to {}", print(from_m, units::Dimension::kLength),
                       print(to_m, units::Dimension::kLength)));
  }

  void check_plate(std::size_t i) {
    const auto& [id, path, plate] = frame_.plates[i];
    if (find(frame_.crossmembers, id) != nullptr) {
      report("build.same_id", path, fmt::format("there is a crossmember \"{}\" too", id),
             "stages name both by id: call one of the two something else");
    }
    const Entry<Rail>* rail = find(frame_.rails, plate.rail.id);
    check_from_to(plate.from, plate.to, path, rail);
    if (plate.fit == PlateFit::kOverTips && plate.inset.si > 0) {
      impossible(path + "/inset", "a plate over the tips of the flanges can't be set in",
                 R"(leave the inset out, or let it fit "between")");
    }
    if (plate.taper.si > 0 && 2 * plate.taper.si > plate.to.si - plate.from.si) {
      impossible(path + "/taper",
                 fmt::format("tapers of {} at both ends are longer than the plate of {}",
                             print(plate.taper),
                             print(plate.to.si - plate.from.si, units::Dimension::kLength)),
                 "make the tapers shorter or the plate longer");
    }
    if (rail == nullptr) return;
    check_plate_side(plate, path, *rail);
    check_plate_on_channel(plate, path, *rail);
    const auto range = station_range(plate.from, plate.to);
    for (std::size_t k = 0; k < i && range; ++k) {
      const auto& other = frame_.plates[k];
      const auto taken = station_range(other.value.from, other.value.to);
      const bool same_side = other.value.side == plate.side || other.value.side == Side::kBoth ||
                             plate.side == Side::kBoth;
      if (other.value.rail.id != plate.rail.id || !same_side || !taken ||
          !overlap(*range, *taken) || !can_meet(other.value.fate, plate.fate)) {
        continue;
      }
      report("build.overlap", path + "/from",
             fmt::format("it lies over the plate \"{}\"", other.id),
             "let one end where the other begins, or let one come out before the other goes in");
    }
  }

  void check_plate_side(const BoxingPlate& plate, const std::string& path,
                        const Entry<Rail>& rail) {
    const auto signs = signs_of(rail.value);
    if (signs.empty() || std::any_of(signs.begin(), signs.end(),
                                     [&](int sign) { return is_on(plate.side, sign); })) {
      return;
    }
    impossible(path + "/side", fmt::format("the rail \"{}\" is on the other side", rail.id),
               "name the side that the rail is on, or leave it out");
  }

  void check_plate_on_channel(const BoxingPlate& plate, const std::string& path,
                              const Entry<Rail>& rail) {
    const auto range = station_range(plate.from, plate.to);
    std::vector<std::optional<SectionShape>> shapes;
    if (!range) {
      if (rail.value.stretches.empty() && rail.value.section) {
        shapes.emplace_back(rail.value.section->shape);
      }
    } else {
      // Just inside of its ends, and wherever a stretch with a shape of its own begins.
      shapes = {shape_at(rail.value, range->from_m + 2 * kStationRounding_m),
                shape_at(rail.value, range->to_m - 2 * kStationRounding_m)};
      for (const auto& stretch : rail.value.stretches) {
        const auto part = station_range(stretch.value.from, stretch.value.to);
        if (part && overlap(*part, *range) && stretch.value.section) {
          shapes.emplace_back(stretch.value.section->shape);
        }
      }
    }
    for (const auto& shape : shapes) {
      if (!shape || *shape == SectionShape::kChannel) continue;
      report(
          "build.wrong_shape", path + "/rail",
          fmt::format("there the rail \"{}\" is {}, which no plate closes", rail.id, one(*shape)),
          "box a stretch that is a channel");
      return;
    }
  }

  void check_crossmember(const Entry<Crossmember>& entry) {
    const auto& [id, path, crossmember] = entry;
    check_section(crossmember.section, path + "/section");
    check_crossmember_station(crossmember, path);
    check_listed_once(crossmember.joins, path + "/joins");
    check_joint(crossmember, path);
    if (crossmember.bolts && crossmember.fastening == Fastening::kWelded) {
      impossible(path + "/bolts", "a welded crossmember has no bolts",
                 R"(say "fastening": "bolted", or take the bolts out)");
    }
    if (crossmember.end_plate && (crossmember.fastening == Fastening::kWelded ||
                                  crossmember.joint != CrossmemberJoint::kWeb)) {
      impossible(path + "/end_plate", "only a crossmember that is bolted to the web has one",
                 R"(say "joint": "web" and "fastening": "bolted", or take the end plate out)");
    }
    for (std::size_t i = 1; i < crossmember.line.size(); ++i) {
      const Length &before = crossmember.line[i - 1].offset, &here = crossmember.line[i].offset;
      if (!(here.si >= before.si)) continue;
      impossible(fmt::format("{}/line/{}/offset", path, i),
                 fmt::format("the corner at {} is not to the right of the one at {} before it",
                             print(here), print(before)),
                 "give the corners from left to right; offsets to the left are positive");
    }
  }

  void check_crossmember_station(const Crossmember& crossmember, const std::string& path) {
    if (crossmember.joins.empty()) {
      check_on_some_rail(crossmember.at.station, path + "/at");
      return;
    }
    for (const Reference& use : crossmember.joins) {
      const Entry<Rail>* rail = find(frame_.rails, use.id);
      if (rail == nullptr) continue;
      check_on_rail(crossmember.at.station, path + "/at/station", *rail);
    }
  }

  void check_joint(const Crossmember& crossmember, const std::string& path) {
    using Joint = CrossmemberJoint;
    const bool through =
        crossmember.joint == Joint::kThroughWeb || crossmember.joint == Joint::kThroughWebAndPlate;
    if (crossmember.section && through && !is_tube(crossmember.section->shape)) {
      report("build.wrong_shape", path + "/joint",
             fmt::format("{} does not go through a web", one(crossmember.section->shape)),
             R"(give a tube, or join it to the "web" or the "flanges")");
    }
    if (crossmember.section && crossmember.joint == Joint::kFlanges &&
        (crossmember.section->shape == SectionShape::kRoundTube ||
         crossmember.section->shape == SectionShape::kPlate)) {
      report("build.wrong_shape", path + "/joint",
             fmt::format("{} is not held by both flanges", one(crossmember.section->shape)),
             R"(join it to the "web", or let a tube go "through_web")");
    }
    if (crossmember.joint != Joint::kThroughWebAndPlate && crossmember.joint != Joint::kButted) {
      return;
    }
    for (const RailSide& joined : joined_rails(frame_, crossmember)) {
      if (has_second_wall(crossmember, joined)) continue;
      report("build.no_plate", path + "/joint",
             fmt::format("at {} there is no plate on the {} side of the rail \"{}\"",
                         print(crossmember.at.station), joined.sign > 0 ? "left" : "right",
                         joined.rail->id),
             R"(plate the rail there, or join it to the "web")");
      return;
    }
  }

  /// A tube for a rail, or a plate that is in whenever the crossmember is.
  bool has_second_wall(const Crossmember& crossmember, const RailSide& joined) const {
    const double station_m = crossmember.at.station.si;
    const auto shape = shape_at(joined.rail->value, station_m);
    if (!shape || is_tube(*shape)) return true;
    const auto plated_while = [&](Fate fate) {
      return std::any_of(frame_.plates.begin(), frame_.plates.end(), [&](const auto& plate) {
        const auto range = station_range(plate.value.from, plate.value.to);
        return plate.value.rail.id == joined.rail->id && is_on(plate.value.side, joined.sign) &&
               (!range || range->holds(station_m)) &&
               (plate.value.fate == fate || plate.value.fate == Fate::kStays);
      });
    };
    switch (crossmember.fate) {
      case Fate::kStays:
        return plated_while(Fate::kComesOut) && plated_while(Fate::kGoesIn);
      case Fate::kComesOut:
      case Fate::kGoesIn:
        return plated_while(crossmember.fate);
      case Fate::kTemporary:
        return true;
    }
    return true;
  }

  void check_stages() {
    PartsIn in = donor_parts(frame_);
    const auto is_part = [&](const std::string& id) {
      return find(frame_.crossmembers, id) != nullptr || find(frame_.plates, id) != nullptr;
    };
    for (const auto& [id, path, stage] : frame_.stages) {
      for (std::size_t i = 0; i < stage.take_out.size(); ++i) {
        const std::string& part = stage.take_out[i].id;
        if (!is_part(part) || in.erase(part) > 0) continue;
        report(
            "build.not_in", fmt::format("{}/take_out/{}", path, i),
            fmt::format("\"{}\" is not in at this stage", part),
            "put it in at an earlier stage, or let its \"fate\" say that the truck came with it");
      }
      for (std::size_t i = 0; i < stage.put_in.size(); ++i) {
        const std::string& part = stage.put_in[i].id;
        if (!is_part(part) || in.insert(part).second) continue;
        report("build.in_already", fmt::format("{}/put_in/{}", path, i),
               fmt::format("\"{}\" is in already at this stage", part),
               "take it out at an earlier stage, or let its \"fate\" say that it goes in");
      }
      check_listed_once(stage.aboard, path + "/aboard");
      for (const auto& stand : stage.stands) check_on_some_rail(stand.value.station, stand.path);
    }
  }

  const Frame& frame_;
};

}  // namespace

void check_frame(const Node& root, const Build& build, Faults& faults) {
  FrameChecker(root, build, faults).check();
  check_holes(root, build, faults);
}

}  // namespace rig::build
