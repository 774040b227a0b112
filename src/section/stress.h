#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "section/properties.h"

namespace rig::section {

/// What the section carries, on its +x face. M about axes through the centroid, V through the shear
/// centre, torques about +x.
struct SectionForces {
  double axial_N = 0;  ///< Positive in tension, at the centroid.
  double shear_y_N = 0;
  double shear_z_N = 0;
  double moment_y_Nm = 0;          ///< Positive pulls at +z.
  double moment_z_Nm = 0;          ///< Positive pulls at -y.
  double torque_St_Venant_Nm = 0;  ///< G J times twist rate.
  double torque_warping_Nm = 0;    ///< Rate of the bimoment along x. Torque is the sum of both.
  double bimoment_Nm2 = 0;         ///< Integral of axial stress times sectorial coordinate.
};

/// Left and right of one who walks from `from` to `to`, looked at from ahead (along -x, y to the
/// right).
enum class WallFace { middle, left, right };

/// A point of a wall.
struct WallPoint {
  int wall = 0;
  double share = 0;  ///< Of its length from its `from` end, 0 to 1.
  WallFace face = WallFace::middle;
};

struct WallStress {
  WallPoint at;
  double axial_Pa = 0;            ///< Positive in tension.
  double shear_flow_N_per_m = 0;  ///< Over the thickness; positive from `from` to `to`.
  double shear_Pa = 0;            ///< Along the wall at the face, St Venant's twist with it.
  double von_mises_Pa = 0;
};

/// Stresses of one section under one set of forces: `calc_wall_stress` at many points.
class StressField {
 public:
  /// Needs forces that `calc_wall_stress` takes; nothing of what is given need live on.
  StressField(const Section& section, const SectionProperties& properties,
              const SectionForces& forces);

  /// @param at  As of `calc_wall_stress`.
  WallStress at(const WallPoint& at) const;
  /// On the middle and on both faces.
  std::array<WallStress, 3> across(int wall, double share) const;

  /// Von Mises' stress is nowhere on a wall above this.
  double bound_Pa(std::size_t wall) const;

  std::size_t walls() const { return walls_.size(); }
  /// Where along a wall the total flow peaks; its middle when it does so at an end.
  double peak_share(std::size_t wall) const;

 private:
  /// One wall: stresses along its middle as polynomials of the share of its length, and what half
  /// of its thickness adds at the left face.
  struct OnWall {
    double thickness_m = 0;
    std::array<double, 2> axial_Pa{};      ///< At `from`, and more at `to`.
    std::array<double, 2> across_Pa{};     ///< The same of what the left face adds.
    std::array<double, 3> flow_N_per_m{};  ///< Factors of 1, share and its square.
    double flow_of_cells_N_per_m = 0;      ///< Bredt's.
    double twist_Pa = 0;                   ///< Shear that the left face loses by St Venant's twist.

    double flow_at(double share) const {
      return flow_of_cells_N_per_m + flow_N_per_m[0] +
             share * (flow_N_per_m[1] + share * flow_N_per_m[2]);
    }
  };
  std::vector<OnWall> walls_;
};

/// Stress at one point of a wall from all actions together.
///
/// sigma = N/A + bending about both axes + B w / Cw, with w and Cw of midline and thickness
/// together; tau = q/t, at the faces with -+ T t / J of St Venant's twist (in the bends of a cell
/// less, by curvature times Bredt's stress; half in a round tube). Elastic, one material. Not
/// covered: distortion of a box, local joint stress, and corners with a small inside radius, where
/// St Venant's shear rises (docs/design/section.md).
///
/// @param properties  Those of `section`, from `solve_section`.
/// @param at          A wall that there is, share from 0 to 1.
/// @errors            section.force_not_finite; section.shear_across_flat (a plate or strip with
/// shear
///                    square to it, which no flow along the wall carries).
/// @source            [Vlasov]; [Pilkey] (from memory).
Result<WallStress> calc_wall_stress(const Section& section, const SectionProperties& properties,
                                    const SectionForces& forces, const WallPoint& at);

/// Where von Mises' stress is greatest: over all walls, both faces, ends and quarter points, and
/// where the shear flow peaks.
/// @errors  As `calc_wall_stress`.
Result<WallStress> find_worst_stress(const Section& section, const SectionProperties& properties,
                                     const SectionForces& forces);

}  // namespace rig::section
