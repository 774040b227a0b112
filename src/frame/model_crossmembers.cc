#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/joint_stiffness.h"
#include "frame/model_maker_internal.h"

namespace rig::frame {
namespace {

using build::CrossmemberJoint;
using build::SectionShape;

bool faces_lengthwise(const build::Crossmember& part) {
  return part.opens == build::Facing::kForward || part.opens == build::Facing::kRearward;
}

/// Height and length along the rail of what is welded to the wall.
JointFoot foot_of(const build::Crossmember& part) {
  const MidlineSizes sizes = midline_sizes(*part.section);
  JointFoot foot{.height_m = sizes.depth_m, .length_m = sizes.width_m, .thickness_m = sizes.wall_m};
  // A channel on its back, or a hat on edge.
  const bool hat = part.section->shape == SectionShape::kHat;
  if (needs_opening(part.section->shape) && faces_lengthwise(part) == hat) {
    std::swap(foot.height_m, foot.length_m);
  }
  return foot;
}

JointStiffness softened(JointStiffness k, double share) {
  return {k.about_rail_Nm_per_rad * share, k.about_upright_Nm_per_rad * share,
          k.across_N_per_m * share};
}

/// From the web's middle inwards to that of the plate, m.
double plate_inset_m(const build::SectionSizes& channel, const build::BoxingPlate& plate) {
  const double edge_m = channel.flange.si - channel.thickness.si / 2;
  const double half_m = plate.thickness.si / 2;
  if (plate.fit == build::PlateFit::kOverTips) return edge_m + half_m;
  return edge_m - half_m - (plate.inset.known() ? plate.inset.si : 0);
}

}  // namespace

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
  if (unknown.empty()) {
    if (const auto made = make_section(*part.section, path); !made) take_faults(made.error());
  }
  if (needs_opening(part.section->shape) && !part.opens) {
    fault("frame.unknown_opening", entry.path + "/opens",
          fmt::format("Which way the {} lies open is not known.", words),
          "Say forward, rearward, up or down.");
  } else if (part.section->shape == SectionShape::kAngle && !faces_lengthwise(part)) {
    fault("frame.opens_sideways", entry.path + "/opens",
          fmt::format("The level leg of the {} can't point up or down.", words),
          "Say forward or rearward.");
  }
}

double ModelMaker::Meeting::gap_m() const {
  return boxed() ? plate_inset_m(bay->sizes, bay->plate->value) : midline_sizes(bay->sizes).width_m;
}

bool ModelMaker::Meeting::plate_first() const {
  return boxed() && rail->line->rail->value.opens == build::RailOpening::kIn;
}

ModelMaker::Meeting ModelMaker::meet(const CrossmemberLine& line, bool left) {
  MadeRail& rail = rails_[at(left ? line.left : line.right)];
  const std::size_t node = rail.node_at(line.part->value.at.station.si);
  const RailBay *ahead = rail.bay_ahead(node), *behind = rail.bay_behind(node);
  const bool box_ahead = ahead != nullptr && ahead->plate != nullptr;
  return {.rail = &rail,
          .node = node,
          .bay = box_ahead || behind == nullptr ? ahead : behind,
          .left = left,
          .words = fmt::format("{} at the {}", line.words, rail.line->words)};
}

ModelMaker::HeldEnd ModelMaker::hold_end(const CrossmemberLine& line, bool left,
                                         const SteelNumbers& steel) {
  const build::Crossmember& part = line.part->value;
  const Meeting meeting = meet(line, left);
  const bool second_wall = meeting.boxed() || meeting.tube();
  const bool bolted = part.fastening == build::Fastening::kBolted;
  switch (part.joint) {
    case CrossmemberJoint::kFlanges:
      if (!second_wall && !bolted) return hold_by_flanges(line, meeting);
      assume(line.part->path + "/joint",
             fmt::format("The {}: held as by {} alone{}.", meeting.words,
                         meeting.boxed()  ? "the plate"
                         : meeting.tube() ? "the tube's face"
                                          : "the web",
                         bolted ? ", until it is known what bolts in the flanges add" : ""));
      return hold_by_wall(line, meeting,
                          second_wall ? CrossmemberJoint::kButted : CrossmemberJoint::kWeb);
    case CrossmemberJoint::kThroughWebAndPlate:
      if (second_wall) return hold_by_box(line, meeting, steel);
      // The plate is not in at this stage.
      return hold_by_wall(line, meeting, CrossmemberJoint::kThroughWeb);
    case CrossmemberJoint::kWeb:
    case CrossmemberJoint::kThroughWeb:
    case CrossmemberJoint::kButted:
      return hold_by_wall(line, meeting, part.joint);
  }
  return {};
}

ModelMaker::HeldEnd ModelMaker::hold_by_flanges(const CrossmemberLine& line,
                                                const Meeting& meeting) {
  const build::Crossmember& part = line.part->value;
  const MidlineSizes rail = midline_sizes(meeting.bay->sizes);
  HeldEnd held{.joint = web_joint(*meeting.rail, meeting.node), .inset_m = rail.width_m / 2};
  const int rail_warp = meeting.rail->nodes[meeting.node].warp;
  if (rail_warp < 0) return held;
  if (part.section->shape == SectionShape::kChannel && faces_lengthwise(part)) {
    // Their flanges lie in one plane and turn together about the upright: h t of the rail is h t of
    // the crossmember, each about its own axis (rails forward, crossmembers to the right).
    held.warp = add_scalar({.of = rail_warp,
                            .ratio = rail.depth_m / midline_sizes(*part.section).depth_m,
                            .place = meeting.words + ", warping"});
  } else if (part.section->shape == SectionShape::kRectangularTube) {
    model_.structure.scalars[at(rail_warp)].held = true;
    assume(
        line.part->path + "/joint",
        fmt::format("The {}: between the flanges it keeps the rail from warping.", meeting.words));
  }
  return held;
}

ModelMaker::HeldEnd ModelMaker::hold_by_box(const CrossmemberLine& line, const Meeting& meeting,
                                            const SteelNumbers& steel) {
  const build::Crossmember& part = line.part->value;
  const auto tube =
      section::solve_section(*make_section(*part.section, line.part->path + "/section"));
  RIG_REQUIRE(tube.has_value());
  JointStiffness stiffness = calc_tube_through_box(steel.E_Pa, tube->I_y_m4, meeting.gap_m());
  HeldEnd held;
  if (meeting.tube()) {
    held.inset_m = midline_sizes(meeting.bay->sizes).width_m / 2;
  } else if (meeting.plate_first()) {
    held.inset_m = meeting.gap_m();
  }
  if (part.fastening == build::Fastening::kBolted) stiffness = softened(stiffness, kBoltedShare);
  held.joint = add_soft_joint(line, meeting, held.inset_m, stiffness);
  return held;
}

ModelMaker::HeldEnd ModelMaker::hold_by_wall(const CrossmemberLine& line, const Meeting& meeting,
                                             CrossmemberJoint joint) {
  const build::Crossmember& part = line.part->value;
  const MidlineSizes rail = midline_sizes(meeting.bay->sizes);
  JointWall wall{.E_Pa = find_steel(build_.frame, meeting.rail->line->rail->value.steel.id).E_Pa,
                 .depth_m = rail.depth_m,
                 .flange_m = rail.width_m,
                 .thickness_m = rail.wall_m};
  HeldEnd held;
  if (joint == CrossmemberJoint::kButted && meeting.plate_first()) {
    wall.thickness_m = meeting.bay->plate->value.thickness.si;
    held.inset_m = meeting.gap_m();
  } else if (meeting.tube()) {
    held.inset_m = rail.width_m / 2;
  }
  const JointFoot foot = foot_of(part);
  JointStiffness stiffness;
  if (part.section->shape == SectionShape::kRoundTube) {
    stiffness = calc_tube_in_wall(wall, foot.height_m / 2, foot.thickness_m);
  } else {
    stiffness = calc_foot_on_wall(wall, foot);
    assume(line.part->path + "/joint",
           fmt::format("The {}: how soft it is follows from tubes, an estimate.", meeting.words));
  }
  if (part.fastening == build::Fastening::kBolted) {
    stiffness = softened(stiffness, kBoltedShare);
    assume(line.part->path + "/fastening",
           fmt::format("The {}: bolted, taken as half as stiff as welded.", meeting.words));
  }
  held.joint = add_soft_joint(line, meeting, held.inset_m, stiffness);
  if (part.section->shape == SectionShape::kChannel) {
    held.warp = add_scalar({.place = meeting.words + ", warping"});
    add_scalar_spring({held.warp},
                      Eigen::MatrixXd::Constant(1, 1, calc_warping_on_wall(stiffness, foot)),
                      meeting.words + ", warping");
  }
  return held;
}

int ModelMaker::add_soft_joint(const CrossmemberLine& line, const Meeting& meeting, double inset_m,
                               const JointStiffness& stiffness) {
  const Beam& beam = model_.structure.beams[at(meeting.bay->beam)];
  const Vec3 along = (beam.p_VoT_V - beam.p_VoF_V).normalized();
  const Vec3 upright = along.cross(Vec3::UnitY()).normalized(), across = upright.cross(along);
  // The springs work where the crossmember begins.
  Joint soft{.p_VoJ_V = meeting.left ? line.p_VoP_V.front() : line.p_VoP_V.back(),
             .follows = carrying_joint(*meeting.rail, meeting.node),
             .modes = {},
             .place = meeting.words};
  soft.p_VoJ_V.y() += (meeting.left ? -1 : 1) * inset_m;
  const auto add_spring = [&](double k, const Vec3& displacement, const Vec3& rotation,
                              const char* words) {
    if (!std::isfinite(k)) return;
    const int scalar = add_scalar({.place = fmt::format("{}, {}", meeting.words, words)});
    soft.modes.push_back(
        {.scalar = scalar, .displacement_V = displacement, .rotation_V = rotation});
    add_scalar_spring({scalar}, Eigen::MatrixXd::Constant(1, 1, k), soft.place);
  };
  const Vec3 none = Vec3::Zero();
  add_spring(stiffness.about_rail_Nm_per_rad, none, along, "tilt");
  add_spring(stiffness.about_upright_Nm_per_rad, none, upright, "swing");
  add_spring(stiffness.across_N_per_m, across, none, "push");
  return add_joint(std::move(soft));
}

void ModelMaker::add_crossmember(int index) {
  const CrossmemberLine& line = plan_.crossmembers[at(index)];
  const build::Crossmember& part = line.part->value;
  const SteelNumbers steel = steel_of(part.steel, line.part->path, line.words);
  const int member = add_member(line.part->id, line.words);
  crossmember_members_.push_back(member);
  crossmember_joints_.emplace_back();
  const section::Section made = *make_section(*part.section, line.part->path + "/section");
  const int section = add_section(
      fmt::format("{} {}", line.part->path, steel.E_Pa),
      face_section(made, part.section->shape, part.opens.value_or(build::Facing::kForward)), steel,
      line.part->path + "/section");
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

  const bool warps = model_.structure.sections[at(section)].warps();
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
