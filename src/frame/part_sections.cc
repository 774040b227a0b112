#include "frame/part_sections.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numbers>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "build/words.h"
#include "section/shapes.h"

namespace rig::frame {
namespace {

using build::SectionShape;
using build::SectionSizes;

struct Size {
  std::string_view key;
  build::Length SectionSizes::*member;
};

/// The sizes that a shape can't be without.
std::vector<Size> needed_sizes(SectionShape shape) {
  const Size depth{"depth", &SectionSizes::depth}, wall{"thickness", &SectionSizes::thickness};
  switch (shape) {
    case SectionShape::kChannel:
      return {depth, {"flange", &SectionSizes::flange}, wall};
    case SectionShape::kHat:
      return {depth, {"crown", &SectionSizes::crown}, {"brim", &SectionSizes::brim}, wall};
    case SectionShape::kRectangularTube:
      return {depth, {"width", &SectionSizes::width}, wall};
    case SectionShape::kRoundTube:
      return {{"outside_diameter", &SectionSizes::outside_diameter}, wall};
    case SectionShape::kPlate:
      return {{"width", &SectionSizes::width}, wall};
    case SectionShape::kAngle:
      return {{"level_leg", &SectionSizes::level_leg},
              {"upright_leg", &SectionSizes::upright_leg},
              wall};
  }
  return {};
}

std::optional<double> given(const build::Length& size) {
  if (!size.known()) return std::nullopt;
  return size.si;
}

/// "/plate/inset_m" of a maker as the place in the build file.
Diagnostics at_file_places(Diagnostics faults, const std::string& section_path,
                           const std::string& plate_path) {
  for (Diagnostic& fault : faults) {
    std::string_view rest = fault.path;
    const bool of_plate = rest.starts_with("/plate");
    if (of_plate) rest.remove_prefix(std::string_view("/plate").size());
    if (rest.ends_with("_m")) rest.remove_suffix(2);
    fault.path = (of_plate ? plate_path : section_path) + std::string(rest);
  }
  return faults;
}

section::Channel channel_of(const SectionSizes& s) {
  return {.depth_m = s.depth.si,
          .flange_m = s.flange.si,
          .thickness_m = s.thickness.si,
          .flange_thickness_m = given(s.flange_thickness),
          .inside_radius_m = given(s.inside_radius)};
}

Result<section::Section> make_shape(const SectionSizes& s) {
  switch (s.shape) {
    case SectionShape::kChannel:
      return section::make_channel(channel_of(s));
    case SectionShape::kHat:
      return section::make_hat({.depth_m = s.depth.si,
                                .crown_m = s.crown.si,
                                .brim_m = s.brim.si,
                                .thickness_m = s.thickness.si,
                                .inside_radius_m = given(s.inside_radius)});
    case SectionShape::kRectangularTube:
      return section::make_rectangular_tube({.width_m = s.width.si,
                                             .depth_m = s.depth.si,
                                             .thickness_m = s.thickness.si,
                                             .outside_radius_m = given(s.outside_radius)});
    case SectionShape::kRoundTube:
      return section::make_round_tube(
          {.outside_diameter_m = s.outside_diameter.si, .thickness_m = s.thickness.si});
    case SectionShape::kPlate:
      return section::make_plate({.width_m = s.width.si, .thickness_m = s.thickness.si});
    case SectionShape::kAngle:
      return section::make_angle({.level_leg_m = s.level_leg.si,
                                  .upright_leg_m = s.upright_leg.si,
                                  .thickness_m = s.thickness.si,
                                  .inside_radius_m = given(s.inside_radius)});
  }
  return section::Section{};
}

using Renamed = std::pair<std::string_view, std::string_view>;

/// Every old word of a part's name by its new one, in one pass.
std::string renamed(const std::string& part, std::span<const Renamed> words) {
  std::string out;
  for (std::size_t i = 0; i < part.size();) {
    const auto found = std::find_if(words.begin(), words.end(), [&](const Renamed& pair) {
      return part.compare(i, pair.first.size(), pair.first) == 0;
    });
    if (found == words.end()) {
      out += part[i++];
    } else {
      out += found->second;
      i += found->first.size();
    }
  }
  return out;
}

section::Section rename_parts(section::Section section, std::initializer_list<Renamed> words) {
  for (auto& wall : section.walls) wall.part = renamed(wall.part, {words.begin(), words.size()});
  return section;
}

constexpr double kQuarter_rad = std::numbers::pi / 2;

section::Section face_channel(const section::Section& made, build::Facing opens) {
  switch (opens) {
    case build::Facing::kForward:
      return made;
    case build::Facing::kRearward:
      return section::mirror_section(made);
    case build::Facing::kUp:
      return rename_parts(section::rotate_section(made, kQuarter_rad),
                          {{"upper flange", "rear flange"}, {"lower flange", "front flange"}});
    case build::Facing::kDown:
      return rename_parts(section::rotate_section(made, -kQuarter_rad),
                          {{"upper flange", "front flange"}, {"lower flange", "rear flange"}});
  }
  return made;
}

/// Made open downwards, its left towards +y: forward.
section::Section face_hat(const section::Section& made, build::Facing opens) {
  switch (opens) {
    case build::Facing::kDown:
      return rename_parts(made, {{"left", "front"}, {"right", "rear"}});
    case build::Facing::kUp:
      return rename_parts(section::rotate_section(made, 2 * kQuarter_rad),
                          {{"left", "rear"}, {"right", "front"}});
    case build::Facing::kForward:
      return rename_parts(section::rotate_section(made, kQuarter_rad),
                          {{"left", "upper"}, {"right", "lower"}});
    case build::Facing::kRearward:
      return rename_parts(section::rotate_section(made, -kQuarter_rad),
                          {{"left", "lower"}, {"right", "upper"}});
  }
  return made;
}

}  // namespace

Diagnostics list_unknown_sizes(const SectionSizes& sizes, const std::string& path,
                               const std::string& words) {
  Diagnostics unknown;
  for (const Size& size : needed_sizes(sizes.shape)) {
    if ((sizes.*size.member).known()) continue;
    unknown.push_back(
        {.code = "frame.unknown_size",
         .path = fmt::format("{}/{}", path, size.key),
         .message = fmt::format("The {} of the {} is not known.", build::spaced(size.key), words),
         .remedy = "Measure it with a caliper or tape.",
         .at = {}});
  }
  return unknown;
}

Result<section::Section> make_section(const SectionSizes& sizes, const std::string& path) {
  auto made = make_shape(sizes);
  if (!made) return Failure{at_file_places(made.error(), path, "")};
  return made;
}

Result<section::Section> make_boxed_section(const SectionSizes& channel,
                                            const std::string& channel_path,
                                            const build::BoxingPlate& plate,
                                            const std::string& plate_path) {
  const bool over = plate.fit == build::PlateFit::kOverTips;
  auto made = section::make_boxed_channel(
      channel_of(channel), {.fit = over ? section::PlateFit::over_tips : section::PlateFit::between,
                            .thickness_m = plate.thickness.si,
                            .inset_m = plate.inset.known() ? plate.inset.si : 0});
  if (!made) return Failure{at_file_places(made.error(), channel_path, plate_path)};
  return made;
}

std::vector<double> list_sizes(const SectionSizes& sizes) {
  std::vector<double> out;
  out.reserve(20);  // With what else goes into a section's key.
  out.push_back(static_cast<double>(sizes.shape));
  for (const build::Length* size :
       {&sizes.depth, &sizes.width, &sizes.flange, &sizes.crown, &sizes.brim, &sizes.level_leg,
        &sizes.upright_leg, &sizes.outside_diameter, &sizes.thickness, &sizes.flange_thickness,
        &sizes.inside_radius, &sizes.outside_radius}) {
    out.push_back(size->known() ? size->si : -1);
  }
  return out;
}

SectionSizes mix_sizes(const SectionSizes& from, const SectionSizes& to, double share) {
  SectionSizes mixed = from;
  for (const auto member :
       {&SectionSizes::depth, &SectionSizes::width, &SectionSizes::flange, &SectionSizes::crown,
        &SectionSizes::brim, &SectionSizes::level_leg, &SectionSizes::upright_leg,
        &SectionSizes::outside_diameter, &SectionSizes::thickness, &SectionSizes::flange_thickness,
        &SectionSizes::inside_radius, &SectionSizes::outside_radius}) {
    const double a = (from.*member).si, b = (to.*member).si;
    (mixed.*member).si = a + share * (b - a);
  }
  return mixed;
}

section::Section face_section(const section::Section& section, SectionShape shape,
                              build::Facing opens) {
  switch (shape) {
    case SectionShape::kChannel:
      return face_channel(section, opens);
    case SectionShape::kHat:
      return face_hat(section, opens);
    case SectionShape::kAngle:
      return opens == build::Facing::kRearward ? section::mirror_section(section) : section;
    case SectionShape::kRectangularTube:
      return rename_parts(section, {{"left side", "front side"}, {"right side", "rear side"}});
    case SectionShape::kRoundTube:
    case SectionShape::kPlate:
      return section;
  }
  return section;
}

bool needs_opening(SectionShape shape) {
  return shape == SectionShape::kChannel || shape == SectionShape::kHat ||
         shape == SectionShape::kAngle;
}

MidlineSizes midline_sizes(const SectionSizes& s) {
  const double t = s.thickness.si;
  switch (s.shape) {
    case SectionShape::kChannel: {
      const double flange_t = s.flange_thickness.known() ? s.flange_thickness.si : t;
      return {s.depth.si - flange_t, s.flange.si - t / 2, t};
    }
    case SectionShape::kHat:
      return {s.depth.si - t, s.crown.si - t, t};
    case SectionShape::kRectangularTube:
      return {s.depth.si - t, s.width.si - t, t};
    case SectionShape::kRoundTube:
      return {s.outside_diameter.si - t, s.outside_diameter.si - t, t};
    case SectionShape::kPlate:
      return {s.width.si, 0, t};
    case SectionShape::kAngle:
      return {s.upright_leg.si - t / 2, s.level_leg.si - t / 2, t};
  }
  return {};
}

}  // namespace rig::frame
