#include <fmt/format.h>

#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/rail_line.h"
#include "frame/stage_state_internal.h"

namespace rig::frame {

namespace {

/// Gauss's points on 0 to 1 and their weights: exact for polynomials of degree nine.
struct Gauss {
  double share, weight;
};
constexpr std::array<Gauss, 5> kGauss{{{0.046910077030668, 0.118463442528095},
                                       {0.230765344947158, 0.239314335249683},
                                       {0.5, 0.284444444444444},
                                       {0.769234655052842, 0.239314335249683},
                                       {0.953089922969332, 0.118463442528095}}};

/// The most that beams of a frame carry at one time.
struct MostCarried {
  double force_N = 0;
  double moment_Nm = 0;

  explicit MostCarried(const FrameState& state) {
    for (const BeamForces& f : state.forces.forces) {
      force_N = std::max({force_N, std::abs(f.axial_N), f.shear_N.norm()});
      moment_Nm = std::max({moment_Nm, std::abs(f.torque_Nm), f.moment_Nm.norm()});
    }
  }
};

/// What is left of nothing by rounding, as a share of the most that is carried.
constexpr double kLeftByRounding = 1e-9;

void drop_rounding(const MostCarried& most, EndForces& f) {
  for (double* N : {&f.axial_N, &f.shear_upright_N, &f.shear_lengthwise_N}) {
    if (std::abs(*N) < kLeftByRounding * most.force_N) *N = 0;
  }
  for (double* Nm : {&f.moment_upright_Nm, &f.moment_lengthwise_Nm, &f.torque_Nm}) {
    if (std::abs(*Nm) < kLeftByRounding * most.moment_Nm) *Nm = 0;
  }
}

/// Of what there is, and of no more.
std::string describe_forces(const EndForces& f, bool plate, const units::UnitChoices& units) {
  std::string out;
  std::string_view last;
  const auto tell = [&](std::string_view verb, double size, units::Dimension dimension,
                        const char* way) {
    if (size == 0) return;
    const char* between = out.empty() ? "" : verb == last ? " and " : ", ";
    const std::string done = verb == last ? "" : fmt::format("{} by ", verb);
    out += fmt::format("{}{}{}{}", between, done,
                       units::print_quantity(std::abs(size), dimension, units), way);
    last = verb;
  };
  const auto force = units::Dimension::kForce, moment = units::Dimension::kTorque;
  tell(f.axial_N < 0 ? "pushed" : "pulled", f.axial_N, force, "");
  if (plate) {
    tell("sheared", f.shear_upright_N, force, " along its height");
    tell("bent", f.moment_upright_Nm, moment, " in its own plane");
  } else {
    tell("sheared", f.shear_upright_N, force, " up and down");
    tell("sheared", f.shear_lengthwise_N, force, " fore and aft");
    tell("bent", f.moment_upright_Nm, moment, " up and down");
    tell("bent", f.moment_lengthwise_Nm, moment, " fore and aft");
    tell("twisted", f.torque_Nm, moment, "");
  }
  return out.empty() ? "carrying nothing" : out;
}

EndForces crossmember_end(const FrameState& state, const MostCarried& most, int beam, double share,
                          const units::UnitChoices& units) {
  const section::SectionForces f = total_forces(state, beam, share);
  EndForces out{.axial_N = f.axial_N,
                .shear_upright_N = f.shear_z_N,
                .shear_lengthwise_N = f.shear_y_N,
                .moment_upright_Nm = f.moment_y_Nm,
                .moment_lengthwise_Nm = f.moment_z_Nm,
                .torque_Nm = f.torque_St_Venant_Nm + f.torque_warping_Nm};
  drop_rounding(most, out);
  out.words = describe_forces(out, false, units);
  return out;
}

/// Energy per metre of what a section carries.
double energy_per_m(const BeamSection& s, const section::SectionForces& f) {
  const section::SectionProperties& p = s.properties;
  Eigen::Matrix2d I;
  I << p.I_y_m4, -p.I_yz_m4, -p.I_yz_m4, p.I_z_m4;
  const Vec2 M(f.moment_y_Nm, f.moment_z_Nm);
  double twice = f.axial_N * f.axial_N / (s.E_Pa * p.area_m2) + M.dot(I.inverse() * M) / s.E_Pa +
                 f.torque_St_Venant_Nm * f.torque_St_Venant_Nm / (s.G_Pa * p.torsion_constant_m4);
  if (p.shear_area_y_m2 > 0) twice += f.shear_y_N * f.shear_y_N / (s.G_Pa * p.shear_area_y_m2);
  if (p.shear_area_z_m2 > 0) twice += f.shear_z_N * f.shear_z_N / (s.G_Pa * p.shear_area_z_m2);
  twice += 2 * f.shear_y_N * f.shear_z_N * s.shear_cross_per_m2 / s.G_Pa;
  if (s.warps() && f.bimoment_Nm2 != 0) {
    twice +=
        f.bimoment_Nm2 * f.bimoment_Nm2 / (s.E_Pa * (p.warping_constant_m6 + p.warping_across_m6));
  }
  return twice / 2;
}

double beam_length_m(const Beam& beam) { return (beam.p_VoT_V - beam.p_VoF_V).norm(); }

CutPart cut_crossmember(const StageModels& models, const FrameState& before,
                        const MostCarried& most, const FrameState& after, int member,
                        const units::UnitChoices& units) {
  const Model& model = before.on->model;
  std::vector<int> beams;
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    if (model.structure.beams[b].member == member) beams.push_back(static_cast<int>(b));
  }
  RIG_REQUIRE(!beams.empty());
  CutPart part{.path = model.beams[at(beams.front())].path,
               .words = model.structure.members[at(member)].words,
               .first = crossmember_end(before, most, beams.front(), 0, units),
               .second = crossmember_end(before, most, beams.back(), 1, units)};
  for (const int b : beams) {
    const Beam& beam = model.structure.beams[at(b)];
    for (const Gauss& point : kGauss) {
      part.energy_J += point.weight * beam_length_m(beam) *
                       energy_per_m(model.structure.sections[at(beam.section)],
                                    total_forces(before, b, point.share));
    }
  }
  const std::array<int, 2> marks = models.ends_of(*before.on, member);
  const auto sprung = [&](int mark) {
    return Vec3(mark_moved(models, after, mark) - mark_moved(models, before, mark));
  };
  const Vec3 apart = sprung(marks[0]) - sprung(marks[1]);
  part.spring = EndSpring{.station_m = models.marks()[at(marks[0])].station_m,
                          .apart_m = apart.y(),
                          .height_m = apart.z(),
                          .ahead_m = apart.x()};
  return part;
}

/// What a boxing plate carries at a place of its box, by the box's stresses in it.
struct PlateForces {
  EndForces forces;
  double energy_per_m = 0;
};

PlateForces plate_forces(const FrameState& state, int beam, double share) {
  const Structure& s = state.on->model->structure;
  const BeamSection& section = s.sections[at(s.beams[at(beam)].section)];
  const int w = section::find_wall(section.section, "plate");
  RIG_REQUIRE(w >= 0);
  const section::Wall& wall = section.section.walls[at(w)];
  const double height_m = section::wall_length_m(section.section, wall), t = wall.thickness_m;
  const double up =
      section.section.p_ON[at(wall.to)].y() > section.section.p_ON[at(wall.from)].y() ? 1 : -1;
  const section::SectionForces f = state.forces.forces[at(beam)].at(share);
  PlateForces out;
  for (const Gauss& point : kGauss) {
    const auto stress = section::calc_wall_stress(section.section, section.properties, f,
                                                  {.wall = w, .share = point.share});
    RIG_REQUIRE(stress.has_value());
    const double along_m = point.weight * height_m;
    const double above_m = up * (point.share - 0.5) * height_m;
    out.forces.axial_N += along_m * t * stress->axial_Pa;
    out.forces.moment_upright_Nm += along_m * t * stress->axial_Pa * above_m;
    out.forces.shear_upright_N += up * along_m * stress->shear_flow_N_per_m;
    out.energy_per_m += along_m * t *
                        (stress->axial_Pa * stress->axial_Pa / section.E_Pa +
                         stress->shear_Pa * stress->shear_Pa / section.G_Pa) /
                        2;
  }
  return out;
}

std::vector<CutPart> cut_plate(const build::Entry<build::BoxingPlate>& plate,
                               const FrameState& before, const MostCarried& most,
                               const units::UnitChoices& units) {
  const Model& model = before.on->model;
  std::vector<CutPart> out;
  for (const int sign : {1, -1}) {
    std::vector<int> beams;  // From front to rear.
    for (std::size_t b = 0; b < model.beams.size(); ++b) {
      const auto& plates = model.beams[b].plates;
      if (model.beams[b].sign == sign &&
          std::find(plates.begin(), plates.end(), plate.path) != plates.end()) {
        beams.push_back(static_cast<int>(b));
      }
    }
    if (beams.empty()) continue;
    CutPart part{.path = plate.path,
                 .words = side_words(plate.value.side == build::Side::kBoth, sign,
                                     shop_words(plate.value.label, plate.id)),
                 .plate = true};
    part.first = plate_forces(before, beams.front(), 1).forces;
    part.second = plate_forces(before, beams.back(), 0).forces;
    for (EndForces* end : {&part.first, &part.second}) {
      drop_rounding(most, *end);
      end->words = describe_forces(*end, true, units);
    }
    for (const int b : beams) {
      for (const Gauss& point : kGauss) {
        part.energy_J += point.weight * beam_length_m(model.structure.beams[at(b)]) *
                         plate_forces(before, b, point.share).energy_per_m;
      }
    }
    out.push_back(std::move(part));
  }
  return out;
}

}  // namespace

std::vector<CutPart> list_cut_parts(const build::Build& build, std::size_t stage,
                                    const StageModels& models, const FrameState& before,
                                    const FrameState& after, const units::UnitChoices& units) {
  std::vector<CutPart> out;
  const Structure& s = before.on->model->structure;
  const MostCarried most(before);
  for (const build::Reference& part : build.frame.stages[stage].value.take_out) {
    if (!before.on->in.contains(part.id) || after.on->in.contains(part.id)) continue;
    for (std::size_t m = 0; m < s.members.size(); ++m) {
      if (build::find(build.frame.crossmembers, part.id) == nullptr) break;
      if (s.members[m].id == part.id) {
        out.push_back(cut_crossmember(models, before, most, after, static_cast<int>(m), units));
      }
    }
    if (const auto* plate = build::find(build.frame.plates, part.id)) {
      for (CutPart& one : cut_plate(*plate, before, most, units)) out.push_back(std::move(one));
    }
  }
  return out;
}

}  // namespace rig::frame
