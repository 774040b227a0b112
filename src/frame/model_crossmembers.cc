#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "frame/index_internal.h"
#include "frame/model_maker_internal.h"

namespace rig::frame {

void ModelMaker::check_crossmember_sizes(const build::Entry<build::Crossmember>& entry) {
  const build::Crossmember& part = entry.value;
  const std::string words = shop_words(part.label, entry.id), path = entry.path + "/section";
  if (!part.section) {
    fault("frame.unknown_section", path, fmt::format("The section of the {} is not known.", words),
          "Give its shape and sizes, or take it out.");
    return;
  }
  const Diagnostics unknown = list_unknown_sizes(*part.section, path, words);
  take_faults(unknown);
  if (unknown.empty()) check_shape(*part.section, path);
  if (needs_opening(part.section->shape) && !part.opens) {
    fault("frame.unknown_opening", entry.path + "/opens",
          fmt::format("Which way the {} lies open is not known.", words),
          "Say forward, rearward, up or down.");
  } else if (part.section->shape == build::SectionShape::kAngle &&
             part.opens != build::Facing::kForward && part.opens != build::Facing::kRearward) {
    fault("frame.opens_sideways", entry.path + "/opens",
          fmt::format("The level leg of the {} can't point up or down.", words),
          "Say forward or rearward.");
  }
}

void ModelMaker::add_crossmember(int index) {
  const CrossmemberLine& line = plan_.crossmembers[at(index)];
  const build::Crossmember& part = line.part->value;
  const SteelNumbers steel = steel_of(part.steel, line.part->path, line.words);
  const int member = add_member(line.part->id, line.words);
  crossmember_members_.push_back(member);
  crossmember_joints_.emplace_back();
  const std::string section_path = line.part->path + "/section";
  const build::Facing opens = part.opens.value_or(build::Facing::kForward);
  SectionKey key = list_sizes(*part.section);
  key.push_back(2 + static_cast<double>(opens));
  const int section =
      add_section(std::move(key), steel, section_path, [&]() -> Result<section::Section> {
        auto made = make_section(*part.section, section_path);
        if (!made) return made;
        return face_section(*made, part.section->shape, opens);
      });
  if (section < 0) return;

  const HeldEnd left = hold_end(line, /*left=*/true, steel),
                right = hold_end(line, /*left=*/false, steel);
  // The line is cut back to where it begins to bend.
  const auto cut_m = [](const HeldEnd& held, const Vec3& end, const Vec3& next) {
    const double across_m = std::abs(next.y() - end.y());
    return across_m > 0 ? held.inset_m * (next - end).norm() / across_m : 0;
  };
  const auto& p = line.p_VoP_V;
  const double begin_m = cut_m(left, p[0], p[1]), length_m = line.length_m();
  const double end_m = length_m - cut_m(right, p.back(), p[p.size() - 2]);
  if (!(end_m - begin_m > kSamePlace_m)) {
    fault("frame.no_room", line.part->path,
          fmt::format("Between the rails no length is left for the {}.", line.words),
          "Look at the rails' offsets and the flanges' widths.");
    return;
  }
  // Corners, and what is carried between them.
  std::vector<double> places{begin_m};
  double along_m = 0;
  for (std::size_t i = 1; i + 1 < p.size(); ++i) {
    along_m += (p[i] - p[i - 1]).norm();
    if (along_m > begin_m && along_m < end_m) places.push_back(along_m);
  }
  places.push_back(end_m);
  for (const Carried& carried : plan_.carried) {
    if (carried.crossmember != index) continue;
    const double at_m = std::clamp(carried.at_m, begin_m, end_m);
    const bool near = std::any_of(places.begin(), places.end(), [at_m](double place_m) {
      return std::abs(place_m - at_m) < kSamePlace_m;
    });
    if (!near) places.push_back(at_m);
  }
  std::sort(places.begin(), places.end());

  const bool warps = model_.structure.sections[at(section)]->warps();
  int before_joint = left.joint, before_warp = left.warp;
  crossmember_joints_.back().push_back({places.front(), left.joint});
  for (std::size_t i = 1; i < places.size(); ++i) {
    const bool last = i + 1 == places.size();
    const Vec3 from = line.at(places[i - 1]), to = line.at(places[i]);
    int joint = right.joint, warp = right.warp;
    if (!last) {
      const std::string where = place(line.words + ", offset", to.y());
      joint = add_joint({.p_VoJ_V = to, .place = where});
      warp = warps ? add_scalar({.place = where + ", warping"}) : -1;
    }
    model_.structure.beams.push_back({.from = before_joint,
                                      .to = joint,
                                      .p_VoF_V = from,
                                      .p_VoT_V = to,
                                      .y_V = Vec3::UnitX(),
                                      .section = section,
                                      .warp_from = warps ? before_warp : -1,
                                      .warp_to = warps ? warp : -1,
                                      .member = member});
    model_.beams.push_back({.path = line.part->path,
                            .section_path = line.part->path + "/section",
                            .begin_m = from.y(),
                            .end_m = to.y(),
                            .yield_Pa = steel.yield_Pa,
                            .ultimate_Pa = steel.ultimate_Pa});
    crossmember_joints_.back().push_back({places[i], joint});
    before_joint = joint;
    before_warp = warp;
  }
}

}  // namespace rig::frame
