#pragma once

#include <optional>

#include "base/nan.h"
#include "base/result.h"
#include "section/section.h"

/// The sections a shop buys, bends or welds up, by the sizes that a tape or caliper gives.
///
/// Outside sizes throughout; walls run along the middle of the plate. A bend is eight straight
/// walls on its midline; left without a radius, corners are sharp (rolled or welded). Errors of all
/// makers, each with the field's path: section.size_not_positive, section.wall_too_thick (no room
/// is left inside), section.radius_too_large, section.radius_too_small.
namespace rig::section {

inline constexpr double kNotGiven = kNaN;

/// A channel lying open to the left (+y); `mirror_section` for the other rail. O is in the middle
/// of the web, on its midline. Parts: "web", "upper flange", "lower flange".
struct Channel {
  double depth_m = kNotGiven;   ///< Over the flanges.
  double flange_m = kNotGiven;  ///< Width from the back of the web.
  double thickness_m = kNotGiven;
  std::optional<double> flange_thickness_m = {};  ///< When it is not that of the web.
  std::optional<double> inside_radius_m = {};     ///< >= 0; of a pressed channel.
};

/// @errors  Those of all makers; section.radius_needs_one_thickness (a plate is bent from one
/// sheet).
Result<Section> make_channel(const Channel& channel);

/// How the boxing plate meets the flanges.
enum class PlateFit {
  over_tips,  ///< Laid against the edges of both flanges.
  between     ///< Between the flanges; flush when `inset_m` is zero.
};

struct BoxingPlate {
  PlateFit fit = PlateFit::between;
  double thickness_m = kNotGiven;
  double inset_m = 0;  ///< Outer face of a plate between the flanges behind their edges.
};

/// A channel closed by a plate, "plate". The plate's midline runs from the midline of one flange to
/// that of the other; full welds along both edges.
/// @errors  As `make_channel`; section.plate_does_not_fit (into the bend or the web).
Result<Section> make_boxed_channel(const Channel& channel, const BoxingPlate& plate);

/// A hat, crown up, sides upright. O is half-way up in the middle. Parts: "crown", "left side",
/// "right side", "left brim", "right brim".
struct Hat {
  double depth_m = kNotGiven;
  double crown_m = kNotGiven;  ///< Width over the sides.
  double brim_m = kNotGiven;   ///< Each, from the outside of its side to its edge.
  double thickness_m = kNotGiven;
  std::optional<double> inside_radius_m = {};
};

Result<Section> make_hat(const Hat& hat);

/// O in the middle. Parts: "top", "bottom", "left side", "right side".
struct RectangularTube {
  double width_m = kNotGiven;  ///< Along y.
  double depth_m = kNotGiven;  ///< Along z.
  double thickness_m = kNotGiven;
  std::optional<double> outside_radius_m = {};  ///< >= the thickness.
};

Result<Section> make_rectangular_tube(const RectangularTube& tube);

/// O in the middle; 96 straight walls "tube" around the area that the midline encloses.
struct RoundTube {
  double outside_diameter_m = kNotGiven;
  double thickness_m = kNotGiven;
};

Result<Section> make_round_tube(const RoundTube& tube);

/// A plate on edge, its width along z; O in the middle. Part: "plate".
struct Plate {
  double width_m = kNotGiven;
  double thickness_m = kNotGiven;
};

Result<Section> make_plate(const Plate& plate);

/// One leg along +y, one along +z; O where their midlines meet. Parts: "level leg", "upright leg".
struct Angle {
  double level_leg_m = kNotGiven;
  double upright_leg_m = kNotGiven;
  double thickness_m = kNotGiven;
  std::optional<double> inside_radius_m = {};
};

Result<Section> make_angle(const Angle& angle);

}  // namespace rig::section
