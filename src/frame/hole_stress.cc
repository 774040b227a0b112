#include "frame/hole_stress.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/require.h"
#include "frame/index_internal.h"
#include "section/stress.h"

namespace rig::frame {
namespace {

const char* wall_part(build::HoleWall wall) {
  switch (wall) {
    case build::HoleWall::kWeb:
      return "web";
    case build::HoleWall::kPlate:
      return "plate";
    case build::HoleWall::kUpperFlange:
      return "upper flange";
    case build::HoleWall::kLowerFlange:
      return "lower flange";
  }
  return "";
}

bool goes_through_side(build::HoleWall wall) {
  return wall == build::HoleWall::kWeb || wall == build::HoleWall::kPlate;
}

const build::Length& place_across(const build::Hole& hole) {
  return goes_through_side(hole.wall) ? hole.above_lower_edge : hole.from_web;
}

/// The wall of a part that a place across it lies on, by its share; of a part in several pieces
/// (a flange that a plate meets) the nearest.
section::WallPoint find_wall_point(const section::Section& section, const std::string& part,
                                   bool upright, double across_m) {
  section::WallPoint best{.wall = -1};
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t w = 0; w < section.walls.size(); ++w) {
    const section::Wall& wall = section.walls[w];
    if (wall.part != part) continue;
    const auto along = [&](int node) {
      const Vec2& p = section.p_ON[at(node)];
      return upright ? p.y() : std::abs(p.x());
    };
    const double from_m = along(wall.from), to_m = along(wall.to);
    const double share = std::clamp((across_m - from_m) / (to_m - from_m), 0.0, 1.0);
    const double off_m = std::abs(from_m + share * (to_m - from_m) - across_m);
    if (!(off_m < least)) continue;
    least = off_m;
    best = {.wall = static_cast<int>(w), .share = share};
  }
  return best;
}

class HoleLook {
 public:
  HoleLook(const Model& model, const build::Frame& frame, std::span<const FrameForces> cases)
      : model_(model), frame_(frame), cases_(cases) {}

  std::optional<HoleStress> look(const build::Entry<build::Hole>& entry, int sign) const {
    const build::Hole& hole = entry.value;
    const auto* rail = build::find(frame_.rails, hole.rail.id);
    const auto sizes =
        rail == nullptr ? std::nullopt : build::sizes_at(rail->value, hole.station.si);
    const double width_m = 2 * calc_hole_fit(frame_, hole).to_edge_m;
    if (!sizes || !(width_m > hole.diameter.si)) return std::nullopt;
    const int beam = beam_at(rail->path, sign, hole);
    if (beam < 0) return std::nullopt;
    const BeamPlace& place = model_.beams[at(beam)];
    const BeamSection& of = model_.structure.sections[at(model_.structure.beams[at(beam)].section)];
    const bool upright = goes_through_side(hole.wall);
    const double middle_m =
        place_across(hole).si - (upright ? sizes->depth : sizes->thickness).si / 2;
    HoleStress out{.path = entry.path, .sign = sign, .width_m = width_m};
    out.yield_Pa = hole.wall == build::HoleWall::kPlate ? place.plate_yield_Pa : place.yield_Pa;
    const auto factor = section::calc_hole_factor(hole.diameter.si, width_m);
    RIG_REQUIRE(factor.has_value());
    out.factor = *factor;
    const double share = (place.end_m - hole.station.si) / (place.end_m - place.begin_m);
    const auto point = [&](double off_m) {
      return find_wall_point(of.section, wall_part(hole.wall), upright, middle_m + off_m);
    };
    if (point(0).wall < 0) return std::nullopt;
    for (std::size_t c = 0; c < cases_.size(); ++c) {
      const section::SectionForces forces =
          cases_[c].forces[at(beam)].at(std::clamp(share, 0.0, 1.0));
      const auto stress_at = [&](double off_m) {
        const auto stress =
            section::calc_wall_stress(of.section, of.properties, forces, point(off_m));
        RIG_REQUIRE(stress.has_value());
        return *stress;
      };
      double axial_Pa = 0;
      for (const double off : {-0.5, 0.0, 0.5}) {
        const double here_Pa = stress_at(off * hole.diameter.si).axial_Pa;
        if (std::abs(here_Pa) > std::abs(axial_Pa)) axial_Pa = here_Pa;
      }
      const double shear_Pa = stress_at(0).shear_Pa;
      const auto edge_Pa =
          section::calc_hole_edge_stress_Pa(axial_Pa, shear_Pa, hole.diameter.si, width_m);
      RIG_REQUIRE(edge_Pa.has_value());
      if (c > 0 && !(*edge_Pa > out.edge_Pa)) continue;
      out.load_case = c;
      out.axial_Pa = axial_Pa;
      out.shear_Pa = shear_Pa;
      out.edge_Pa = *edge_Pa;
    }
    tell_net_section(of, point(0), hole.diameter.si, out);
    return out;
  }

 private:
  int beam_at(const std::string& rail_path, int sign, const build::Hole& hole) const {
    for (std::size_t b = 0; b < model_.beams.size(); ++b) {
      const BeamPlace& place = model_.beams[b];
      const bool there = place.path == rail_path && place.sign == sign &&
                         build::StationRange{place.begin_m, place.end_m}.holds(hole.station.si);
      if (there && (hole.wall != build::HoleWall::kPlate || !place.plates.empty())) {
        return static_cast<int>(b);
      }
    }
    return -1;
  }

  /// What is left of the section; of a hole that reaches into a bend it stays as whole.
  static void tell_net_section(const BeamSection& of, const section::WallPoint& middle,
                               double diameter_m, HoleStress& out) {
    const double length_m = section::wall_length_m(of.section, of.section.walls[at(middle.wall)]);
    const auto net = section::calc_net_section(
        of.section,
        {{.wall = middle.wall, .centre_m = middle.share * length_m, .diameter_m = diameter_m}});
    if (!net) return;
    out.area_left = net->area_m2 / of.properties.area_m2;
    out.bending_left = net->I_y_m4 / of.properties.I_y_m4;
  }

  const Model& model_;
  const build::Frame& frame_;
  std::span<const FrameForces> cases_;
};

}  // namespace

std::vector<HoleStress> find_hole_stresses(const Model& model, const build::Frame& frame,
                                           std::span<const FrameForces> cases) {
  std::vector<HoleStress> out;
  if (frame.holes.empty() || cases.empty()) return out;
  const HoleLook look(model, frame, cases);
  for (const auto& hole : frame.holes) {
    const auto* rail = build::find(frame.rails, hole.value.rail.id);
    if (rail == nullptr || !build::is_planned(hole.value.fate)) continue;
    for (const int sign : build::signs_of(rail->value)) {
      if (!build::is_on(hole.value.side, sign)) continue;
      if (const auto stress = look.look(hole, sign)) out.push_back(*stress);
    }
  }
  return out;
}

HoleFit calc_hole_fit(const build::Frame& frame, const build::Hole& hole) {
  HoleFit fit;
  const auto* rail = build::find(frame.rails, hole.rail.id);
  const auto sizes = rail == nullptr ? std::nullopt : build::sizes_at(rail->value, hole.station.si);
  if (!sizes || sizes->shape != build::SectionShape::kChannel) return fit;
  const double across_m = place_across(hole).si, radius_m = hole.diameter.si / 2;
  const double bend_m = sizes->inside_radius.known() ? sizes->inside_radius.si : 0;
  const double web_m = sizes->thickness.si;
  const double flange_m = sizes->flange_thickness.known() ? sizes->flange_thickness.si : web_m;
  if (goes_through_side(hole.wall)) {
    fit.to_edge_m = std::min(across_m, sizes->depth.si - across_m);
    // A plate has no bend, but the weld in its corner.
    const double corner_m = hole.wall == build::HoleWall::kWeb ? bend_m : web_m;
    fit.clear_m = fit.to_edge_m - flange_m - corner_m - radius_m;
  } else {
    fit.to_edge_m = std::min(across_m, sizes->flange.si - across_m);
    fit.clear_m = across_m - web_m - bend_m - radius_m;
  }
  return fit;
}

}  // namespace rig::frame
