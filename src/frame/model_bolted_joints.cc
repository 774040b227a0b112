#include <fmt/format.h>

#include <Eigen/Dense>
#include <array>

#include "frame/bolted_joints.h"
#include "frame/index_internal.h"
#include "frame/model_maker_internal.h"

namespace rig::frame {
namespace {

/// Where in a lap the middle of its bolts is taken to be: of the rail's flange from its web, of the
/// crossmember's from its own. As in the models (tests/shells, lapped.py).
constexpr double kBoltsInFlange = 0.6, kBoltsInChannel = 0.5;

/// How a point of a channel's flange moves with the channel's twist rate, besides its plane section
/// (w = z (e - out), frame/wall_mode.h).
/// @param out_V     From the web's middle to the flanges' edges, of length 1.
/// @param height_m  Of the flange over the middle of the web.
Mode calc_flange_mode(const section::SectionProperties& channel, const Vec3& out_V,
                      const Vec3& upright_V, double out_m, double height_m, int scalar) {
  const double w_m2 = height_m * (channel.p_OS.norm() - out_m);
  return {.scalar = scalar,
          .displacement_V = -w_m2 * out_V.cross(upright_V),
          .rotation_V = -height_m * upright_V};
}

std::optional<BoltedPlate> find_plate(const build::Crossmember& part) {
  if (!part.end_plate || !part.bolts) return std::nullopt;
  const build::EndPlate& plate = *part.end_plate;
  if (!plate.thickness.known() || !plate.bolt_rise.known() || !plate.bolt_reach.known() ||
      !part.bolts->diameter.known()) {
    return std::nullopt;
  }
  return BoltedPlate{.thickness_m = plate.thickness.si,
                     .rise_m = plate.bolt_rise.si,
                     .reach_m = plate.bolt_reach.si,
                     .washer_m = washer_of_bolt_m(part.bolts->diameter.si)};
}

}  // namespace

void ModelMaker::assume_bolts_as_welds(const CrossmemberLine& line, const Meeting& meeting) {
  assume(line.part->path + "/fastening",
         fmt::format("The {}: bolted, taken as stiff as welded.", meeting.words));
}

ModelMaker::BoltedSprings ModelMaker::bolt_to_web(const CrossmemberLine& line,
                                                  const Meeting& meeting, const JointWall& web,
                                                  const JointFoot& foot) {
  const build::Crossmember& part = line.part->value;
  const auto plate = find_plate(part);
  if (!plate) {
    assume(line.part->path + "/fastening",
           fmt::format("The {}: bolted by a plate at its end as thick as its wall, with bolts "
                       "that don't slip. A thicker plate makes it up to 2.7 times as stiff.",
                       meeting.words));
    return {.stiffness = bolt_channel_on_web(calc_channel_on_web(web, foot))};
  }
  BoltedSprings out{.stiffness = calc_channel_on_bolted_plate(web, foot, *plate),
                    .inset_m = (web.thickness_m + plate->thickness_m) / 2};
  assume(line.part->path + "/end_plate",
         fmt::format("The {}: bolted by its plate. Against shells a frame so bolted is within 5 % "
                     "in stiffness, and within 14 % in stress along its rails when it twists.",
                     meeting.words));
  if (part.bolts->count != 4) {
    out.stiffness.within_fit = false;  // Known of four at the corners alone.
  }
  return out;
}

void ModelMaker::stiffen_rail(const Meeting& meeting, double k_Nm3) {
  const int warp = meeting.rail->nodes[meeting.node].warp;
  if (!(k_Nm3 > 0) || meeting.boxed() || warp < 0) return;
  add_scalar_spring({warp}, Eigen::MatrixXd::Constant(1, 1, k_Nm3), meeting.words);
  model_.structure.scalar_springs.back().member = crossmember_members_.back();
}

bool ModelMaker::laps_flanges(const CrossmemberLine& line, const Meeting& meeting) {
  const build::Crossmember& part = line.part->value;
  const bool rail_fits = !meeting.boxed() && !meeting.tube() &&
                         meeting.rail->line->rail->value.opens == build::RailOpening::kIn &&
                         meeting.rail->nodes[meeting.node].warp >= 0;
  return rail_fits && part.fastening == build::Fastening::kBolted && part.bolts &&
         part.bolts->diameter.known() && part.section->shape == build::SectionShape::kChannel &&
         (part.opens == build::Facing::kForward || part.opens == build::Facing::kRearward);
}

ModelMaker::HeldEnd ModelMaker::hold_by_bolted_flanges(const CrossmemberLine& line,
                                                       const Meeting& meeting) {
  const build::Crossmember& part = line.part->value;
  const MidlineSizes rail = midline_sizes(meeting.bay->sizes), own = midline_sizes(*part.section);
  FlangeLap lap = calc_flange_lap(web_of(meeting), own.wall_m, part.bolts->count / 2.0,
                                  washer_of_bolt_m(part.bolts->diameter.si));
  // Its flanges lie inside the rail's.
  const double room_m = rail.depth_m - rail.wall_m - own.wall_m;
  constexpr double kLies_m = 0.003;
  lap.within_fit = lap.within_fit && std::abs(own.depth_m - room_m) < kLies_m;
  tell_if_beyond(line, meeting, {.within_fit = lap.within_fit});

  assume(line.part->path + "/bolts",
         fmt::format("The {}: bolted flange to flange. Against shells a frame so bolted is within "
                     "5 % in stiffness, but a quarter off in stress along its rails when it twists "
                     "or goes out of square.",
                     meeting.words));

  HeldEnd held{.joint = -1, .warp = -1, .inset_m = kBoltsInFlange * rail.width_m};
  const int rail_warp = meeting.rail->nodes[meeting.node].warp;
  const RailAxes axes = axes_of(meeting);
  const int web = web_joint(*meeting.rail, meeting.node);
  Joint end{.p_VoJ_V = end_of(line, meeting, held.inset_m),
            .follows = web,
            .modes = {},
            .place = meeting.words};
  // What moves in the joint: the crossmember's twist rate, the rail's, and all six of the end.
  held.warp = add_scalar({.place = meeting.words + ", warping"});
  std::vector<int> scalars{held.warp, rail_warp};
  const std::array<Vec3, 3> ways{axes.along, axes.across, axes.upright};
  static constexpr std::array kWords{"slides along", "slides across", "rises",
                                     "tilts",        "rolls",         "swings"};
  for (std::size_t i = 0; i < 6; ++i) {
    scalars.push_back(add_scalar({.place = fmt::format("{}, {}", meeting.words, kWords[i])}));
    end.modes.push_back({.scalar = scalars.back(),
                         .displacement_V = i < 3 ? ways[i] : Vec3::Zero(),
                         .rotation_V = i < 3 ? Vec3::Zero() : ways[i - 3]});
  }
  // The flanges' movement against the rail's, above and below.
  const Joint& web_now = model_.structure.joints[at(web)];
  const Vec3 rail_out_V = (meeting.left ? -1 : 1) * axes.across;
  const Vec3 own_out_V = part.opens == build::Facing::kForward ? axes.along : Vec3(-axes.along);
  const auto& rail_section =
      model_.structure.sections[at(model_.structure.beams[at(meeting.bay->beam)].section)]
          ->properties;
  const auto& own_section = properties_of(*part.section, line.part->path + "/section");
  const Eigen::Vector4d springs(lap.along_N_per_m, lap.across_N_per_m, lap.up_N_per_m,
                                lap.turn_Nm_per_rad);
  Eigen::MatrixXd stiffness = Eigen::MatrixXd::Zero(8, 8);
  for (const double sign : {0.5, -0.5}) {
    const double height_m = sign * (rail.depth_m + own.depth_m) / 2;
    const double out_m = kBoltsInChannel * own.width_m;
    const Vec3 p_VoP_V = end.p_VoJ_V + out_m * own_out_V + height_m * axes.upright;
    Eigen::MatrixXd moves = Eigen::MatrixXd::Zero(4, 8);
    const auto add = [&](Eigen::Index column, const Mode& mode, const Vec3& p_VoM_V, double share) {
      const Vec3 d_V = mode.displacement_V + mode.rotation_V.cross(p_VoP_V - p_VoM_V);
      for (Eigen::Index i = 0; i < 3; ++i)
        moves(i, column) += share * ways[static_cast<std::size_t>(i)].dot(d_V);
      moves(3, column) += share * axes.upright.dot(mode.rotation_V);
    };
    add(0, calc_flange_mode(own_section, own_out_V, axes.upright, out_m, height_m, held.warp),
        p_VoP_V, 1);
    add(1,
        calc_flange_mode(rail_section, rail_out_V, axes.upright, held.inset_m, height_m, rail_warp),
        p_VoP_V, -1);
    for (const Mode& mode : web_now.modes) add(1, mode, web_now.p_VoJ_V, 1);
    for (Eigen::Index i = 0; i < 6; ++i) {
      add(2 + i, end.modes[static_cast<std::size_t>(i)], end.p_VoJ_V, 1);
    }
    stiffness += moves.transpose() * springs.asDiagonal() * moves;
  }
  add_scalar_spring(std::move(scalars), (stiffness + stiffness.transpose()) / 2, meeting.words);
  stiffen_rail(meeting, lap.rail_rate_Nm3);
  held.joint = add_joint(std::move(end));
  return held;
}

}  // namespace rig::frame
