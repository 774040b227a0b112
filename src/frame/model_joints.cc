#include <fmt/format.h>

#include <algorithm>
#include <cmath>

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

/// What holds a crossmember that ends on a wall.
/// @param rail_wall_m  Thickness of the rail's web, whatever the wall is.
/// @param closed       The wall is one of a box: a plate, or a tube's side.
JointStiffness springs_of(const build::Crossmember& part, const JointWall& wall, double rail_wall_m,
                          bool closed) {
  const JointFoot foot = foot_of(part);
  if (part.section->shape == SectionShape::kRoundTube) {
    return calc_tube_in_wall(wall, foot.height_m / 2, foot.thickness_m);
  }
  if (part.section->shape != SectionShape::kChannel) return calc_foot_on_wall(wall, foot);
  if (faces_lengthwise(part)) {
    return closed ? calc_channel_on_plate(wall, rail_wall_m, foot)
                  : calc_channel_on_web(wall, foot);
  }
  JointStiffness springs = calc_flat_channel_on_web(wall, foot);
  springs.within_fit = springs.within_fit && !closed;
  return springs;
}

/// Which way a channel's flanges point from its web, by the rail's axes.
Vec3 opening_V(const build::Crossmember& part, const Vec3& along, const Vec3& upright) {
  switch (*part.opens) {
    case build::Facing::kForward:
      return along;
    case build::Facing::kRearward:
      return -along;
    case build::Facing::kUp:
      return upright;
    case build::Facing::kDown:
      return -upright;
  }
  return along;
}

/// From the web's middle inwards to that of the plate, m.
double plate_inset_m(const build::SectionSizes& channel, const build::BoxingPlate& plate) {
  const double edge_m = channel.flange.si - channel.thickness.si / 2;
  const double half_m = plate.thickness.si / 2;
  if (plate.fit == build::PlateFit::kOverTips) return edge_m + half_m;
  return edge_m - half_m - (plate.inset.known() ? plate.inset.si : 0);
}

}  // namespace

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
      if (laps_flanges(line, meeting)) return hold_by_bolted_flanges(line, meeting);
      assume(line.part->path + "/joint",
             fmt::format("The {}: held as by {} alone{}.", meeting.words,
                         meeting.boxed()  ? "the plate"
                         : meeting.tube() ? "the tube's face"
                                          : "the web",
                         bolted ? ", its bolts through the flanges not being known" : ""));
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
    const JointWall web = web_of(meeting);
    const auto& channel = properties_of(*part.section, line.part->path + "/section");
    const JointStiffness stiffness =
        calc_channel_between_flanges(web, foot_of(part), web.E_Pa * channel.I_z_m4, held.inset_m);
    tell_if_beyond(line, meeting, stiffness);
    const Saddle saddle = follow_saddle(line, meeting);
    held.joint = add_soft_joint(line, meeting, held.inset_m, stiffness, saddle.mode);
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

JointWall ModelMaker::web_of(const Meeting& meeting) const {
  const MidlineSizes rail = midline_sizes(meeting.bay->sizes);
  return {.E_Pa = find_steel(build_.frame, meeting.rail->line->rail->value.steel.id).E_Pa,
          .depth_m = rail.depth_m,
          .flange_m = rail.width_m,
          .thickness_m = rail.wall_m};
}

void ModelMaker::tell_if_beyond(const CrossmemberLine& line, const Meeting& meeting,
                                const JointStiffness& stiffness) {
  if (stiffness.within_fit) return;
  assume(line.part->path + "/joint",
         fmt::format("The {}: how soft it is is an estimate; its proportions are not among those "
                     "that the springs were fitted to.",
                     meeting.words));
}

ModelMaker::HeldEnd ModelMaker::hold_by_box(const CrossmemberLine& line, const Meeting& meeting,
                                            const SteelNumbers& steel) {
  const build::Crossmember& part = line.part->value;
  const auto& tube = properties_of(*part.section, line.part->path + "/section");
  const JointStiffness stiffness = calc_tube_through_box(steel.E_Pa, tube.I_y_m4, meeting.gap_m());
  HeldEnd held;
  if (meeting.tube()) {
    held.inset_m = midline_sizes(meeting.bay->sizes).width_m / 2;
  } else if (meeting.plate_first()) {
    held.inset_m = meeting.gap_m();
  }
  if (part.fastening == build::Fastening::kBolted) assume_bolts_as_welds(line, meeting);
  held.joint = add_soft_joint(line, meeting, held.inset_m, stiffness, {});
  return held;
}

ModelMaker::HeldEnd ModelMaker::hold_by_wall(const CrossmemberLine& line, const Meeting& meeting,
                                             CrossmemberJoint joint) {
  const build::Crossmember& part = line.part->value;
  const MidlineSizes rail = midline_sizes(meeting.bay->sizes);
  JointWall wall = web_of(meeting);
  HeldEnd held;
  const bool on_plate = joint == CrossmemberJoint::kButted && meeting.plate_first();
  const bool closed = on_plate || meeting.tube();
  if (on_plate) {
    wall.thickness_m = meeting.bay->plate->value.thickness.si;
    held.inset_m = meeting.gap_m();
  } else if (meeting.tube()) {
    held.inset_m = rail.width_m / 2;
  }
  JointStiffness stiffness;
  if (part.fastening == build::Fastening::kBolted && !closed && faces_lengthwise(part) &&
      part.section->shape == SectionShape::kChannel) {
    const BoltedSprings bolted = bolt_to_web(line, meeting, wall, foot_of(part));
    stiffness = bolted.stiffness;
    held.inset_m = bolted.inset_m;
  } else {
    stiffness = springs_of(part, wall, rail.wall_m, closed);
    if (part.fastening == build::Fastening::kBolted) assume_bolts_as_welds(line, meeting);
  }
  tell_if_beyond(line, meeting, stiffness);
  stiffen_rail(meeting, stiffness.rail_rate_Nm3);
  const bool twists = part.section->shape == SectionShape::kChannel && !meeting.boxed() &&
                      meeting.rail->nodes[meeting.node].warp >= 0;
  Saddle saddle;
  if (twists) saddle = follow_saddle(line, meeting);
  held.joint = add_soft_joint(line, meeting, held.inset_m, stiffness, saddle.mode);
  if (part.section->shape == SectionShape::kChannel) {
    const std::string where = meeting.words + ", warping";
    held.warp = add_scalar({.place = where});
    std::vector<int> scalars{held.warp};
    Eigen::VectorXd give = Eigen::VectorXd::Ones(1);
    if (twists) {
      scalars.push_back(saddle.mode.scalar);
      give = Eigen::Vector2d(1, -saddle.warping);
    }
    add_scalar_spring(std::move(scalars), stiffness.warping_Nm3 * give * give.transpose(), where);
  }
  return held;
}

Vec3 ModelMaker::end_of(const CrossmemberLine& line, const Meeting& meeting, double inset_m) {
  Vec3 p_VoJ_V = meeting.left ? line.p_VoP_V.front() : line.p_VoP_V.back();
  p_VoJ_V.y() += (meeting.left ? -1 : 1) * inset_m;
  return p_VoJ_V;
}

ModelMaker::RailAxes ModelMaker::axes_of(const Meeting& meeting) const {
  const Beam& beam = model_.structure.beams[at(meeting.bay->beam)];
  const Vec3 along = (beam.p_VoT_V - beam.p_VoF_V).normalized();
  const Vec3 upright = along.cross(Vec3::UnitY()).normalized();
  return {.along = along, .upright = upright, .across = upright.cross(along)};
}

ModelMaker::Saddle ModelMaker::follow_saddle(const CrossmemberLine& line, const Meeting& meeting) {
  const build::Crossmember& part = line.part->value;
  const auto& channel = properties_of(*part.section, line.part->path + "/section");
  const RailAxes axes = axes_of(meeting);
  const RailNode& node = meeting.rail->nodes[meeting.node];
  // P lies as far before the channel's web as its shear centre behind.
  const Vec3 out_V = channel.p_OS.norm() * opening_V(part, axes.along, axes.upright);
  const double x_m = out_V.dot(axes.along);
  const double z_m = (end_of(line, meeting, 0) + out_V - node.p_VoP_V).dot(axes.upright);
  return {.mode = {.scalar = node.warp, .rotation_V = x_m * axes.along - z_m * axes.upright},
          .warping = faces_lengthwise(part) ? 1.0 : -1.0};
}

int ModelMaker::add_soft_joint(const CrossmemberLine& line, const Meeting& meeting, double inset_m,
                               const JointStiffness& stiffness, const Mode& saddle) {
  const RailAxes axes = axes_of(meeting);
  const Vec3 &along = axes.along, &upright = axes.upright;
  // The springs work where the crossmember begins.
  Joint soft{.p_VoJ_V = end_of(line, meeting, inset_m),
             .follows = carrying_joint(*meeting.rail, meeting.node),
             .modes = {},
             .place = meeting.words};
  if (saddle.scalar >= 0) soft.modes.push_back(saddle);
  const auto add_spring = [&](double k, const Vec3& displacement, const Vec3& rotation,
                              const char* words) {
    if (!std::isfinite(k)) return;
    const int scalar = add_scalar({.place = fmt::format("{}, {}", meeting.words, words)});
    soft.modes.push_back(
        {.scalar = scalar, .displacement_V = displacement, .rotation_V = rotation});
    add_scalar_spring({scalar}, Eigen::MatrixXd::Constant(1, 1, k), soft.place);
  };
  // Turns about the springs' centre.
  const Vec3 p_JC_V = stiffness.centre_m > 0
                          ? Vec3(stiffness.centre_m * opening_V(line.part->value, along, upright))
                          : Vec3::Zero();
  add_spring(stiffness.about_rail_Nm_per_rad, p_JC_V.cross(along), along, "tilt");
  add_spring(stiffness.about_upright_Nm_per_rad, p_JC_V.cross(upright), upright, "swing");
  add_spring(stiffness.across_N_per_m, axes.across, Vec3::Zero(), "push");
  add_spring(stiffness.about_own_axis_Nm_per_rad, Vec3::Zero(), axes.across, "roll");
  return add_joint(std::move(soft));
}

}  // namespace rig::frame
