#include <fmt/format.h>

#include <Eigen/LU>
#include <algorithm>

#include "frame/index_internal.h"
#include "frame/model_maker_internal.h"
#include "frame/wall_mode.h"
#include "geometry/matrix.h"

namespace rig::frame {
namespace {

/// Rails whose ends are nearer than this are welded to each other, m.
constexpr double kSameEnd_m = 0.005;

/// Of what keeps a rail straight over what the rail itself does against bending there.
constexpr double kStraight = 100;

}  // namespace

void ModelMaker::add_rail_joints(MadeRail& rail, const std::vector<Stretch>& stiff) {
  for (std::size_t i = 0; i < rail.nodes.size(); ++i) {
    RailNode& node = rail.nodes[i];
    node.place = place(rail.line->words, node.station_m);
    const std::string& where = node.place;
    const RailBay *ahead = rail.bay_ahead(i), *behind = rail.bay_behind(i);
    const bool warps = (ahead != nullptr && ahead->warps) || (behind != nullptr && behind->warps);
    const bool goes_on =
        i > 0 && ahead != nullptr && ahead->warps &&
        std::any_of(stiff.begin(), stiff.end(), [&](const Stretch& stretch) {
          return stretch.from_m < rail.nodes[i - 1].station_m + build::kStationRounding_m &&
                 node.station_m < stretch.to_m + build::kStationRounding_m;
        });
    if (warps) {
      Scalar warp{.place = where + ", warping"};
      if (goes_on) {
        warp.of = rail.nodes[i - 1].warp;
        warp.ratio = 1;
      }
      node.warp = add_scalar(std::move(warp));
    }
    node.joint_ahead = node.joint_behind = add_joint({.p_VoJ_V = node.p_VoP_V, .place = where});
    if (goes_on) keep_straight(rail, i - 1, where);
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

void ModelMaker::keep_straight(const MadeRail& rail, std::size_t bay, const std::string& where) {
  const RailNode &front = rail.nodes[bay], &rear = rail.nodes[bay + 1];
  const Vec3 back = rear.p_VoP_V - front.p_VoP_V;
  const Vec3 along = -back.normalized(), upright = along.cross(Vec3::UnitY()).normalized();
  const double bend_Nm =
      kStraight * find_steel(build_.frame, rail.line->rail->value.steel.id).E_Pa *
      properties_of(rail.bays[bay].sizes, rail.bays[bay].section_path).I_z_m4 / back.norm();
  JointSpring spring{.from = front.joint_behind,
                     .to = rear.joint_ahead,
                     .p_VoP_V = front.p_VoP_V + back / 2,
                     .stiffness_N_per_m = {0, 12 * bend_Nm / back.squaredNorm(), 0},
                     .stiffness_Nm_per_rad = {0, 0, bend_Nm},
                     .place = where};
  spring.R_VS << along, upright.cross(along), upright;
  model_.structure.joint_springs.push_back(std::move(spring));
}

void ModelMaker::add_box_end(MadeRail& rail, std::size_t i) {
  RailNode& node = rail.nodes[i];
  const RailBay &ahead = *rail.bay_ahead(i), &behind = *rail.bay_behind(i);
  const bool box_ahead = ahead.plate != nullptr;
  const RailBay &box = box_ahead ? ahead : behind, &open = box_ahead ? behind : ahead;
  const SteelNumbers steel = find_steel(build_.frame, rail.line->rail->value.steel.id);
  const MidlineSizes sizes = midline_sizes(open.sizes);
  const BoxEnd end =
      calc_box_end({.E_Pa = steel.E_Pa,
                    .depth_m = sizes.depth_m,
                    .flange_m = sizes.width_m,
                    .thickness_m = sizes.wall_m},
                   box.plate->value.thickness.si, box_ahead, rail.line->opens_to_the_right());
  const std::string& where = node.place;
  // The rail's own axis, forward.
  const Vec3 along =
      (rail.nodes[i > 0 ? i - 1 : i].p_VoP_V - rail.nodes[i > 0 ? i : i + 1].p_VoP_V).normalized();
  const Vec3 upright = along.cross(Vec3::UnitY()).normalized(), across = upright.cross(along);
  const int twist = add_scalar({.place = where + ", twist of the box's end"});
  const int swing = add_scalar({.place = where + ", swing of the box's end"});
  const int soft = add_joint({.p_VoJ_V = node.p_VoP_V,
                              .follows = node.joint_ahead,
                              .modes = {{.scalar = twist,
                                         .displacement_V = end.rise[0] * upright,
                                         .rotation_V = along + end.bend[0] * across},
                                        {.scalar = node.warp,
                                         .displacement_V = end.rise[1] * upright,
                                         .rotation_V = end.bend[1] * across},
                                        {.scalar = swing, .rotation_V = upright}},
                              .place = where + ", open end"});
  (box_ahead ? node.joint_behind : node.joint_ahead) = soft;
  Eigen::MatrixXd stiffness = invert(end.compliance);
  const bool sound = end.compliance.determinant() > 0;
  // Beyond the walls that the fit is for its two parts need not belong together.
  if (!sound) stiffness = end.compliance.diagonal().cwiseInverse().asDiagonal();
  if (!sound || !end.within_fit) {
    assume(box.plate->path,
           fmt::format("The end of the {} at the {} is outside of what its softness was fitted to.",
                       shop_words(box.plate->value.label, box.plate->id), where));
  }
  stiffness(0, 1) = stiffness(1, 0) = (stiffness(0, 1) + stiffness(1, 0)) / 2;
  add_scalar_spring({twist, node.warp}, stiffness, where + ", end of the box");
  add_scalar_spring({swing}, Eigen::MatrixXd::Constant(1, 1, 1 / end.swing_rad_per_Nm),
                    where + ", end of the box");
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
  const section::Section& section = structure.sections[at(beam.section)]->section;
  const int wall = section::find_wall(section, "web");
  if (wall < 0) return node.web;
  const auto mode = make_wall_mode(structure, bay->beam, use_behind ? BeamEnd::to : BeamEnd::from,
                                   {.wall = wall, .share = 0.5}, node.p_VoP_V);
  if (!mode) return node.web;
  node.web = add_joint({.p_VoJ_V = node.p_VoP_V,
                        .follows = node.web,
                        .modes = {*mode},
                        .place = node.place + ", web"});
  return node.web;
}

int ModelMaker::carrying_joint(MadeRail& rail, std::size_t i) {
  const RailBay *ahead = rail.bay_ahead(i), *behind = rail.bay_behind(i);
  if (ahead != nullptr && ahead->plate != nullptr) return rail.nodes[i].joint_ahead;
  if (behind != nullptr && behind->plate != nullptr) return rail.nodes[i].joint_behind;
  return web_joint(rail, i);
}

}  // namespace rig::frame
