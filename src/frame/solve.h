#pragma once

#include <Eigen/Core>
#include <memory>
#include <span>
#include <vector>

#include "base/result.h"
#include "frame/beam_forces.h"
#include "frame/structure.h"

namespace rig::frame {

/// Displacements under one set of loads. Of a frame that nothing ties to the ground they are those
/// with six motions held at joints far apart; strains and stresses don't depend on which.
struct Response {
  std::vector<Vec3> displacement_V;  ///< By joint, m.
  std::vector<Vec3> rotation_V;      ///< By joint, rad.
  std::vector<double> scalar;        ///< By scalar.
};

/// A structure made ready: assembled and factorised once, for any number of loads.
class Solver {
 public:
  /// @errors Those of `check_structure`; frame.mechanism (names the place that moves freely).
  static Result<Solver> make(Shared<Structure> structure);

  const Structure& structure() const;

  /// Answers of loads that leave no resultant (six rigid motions held at statically determinate
  /// points, whose reactions are zero), or of any loads if joint springs to the ground hold it.
  /// Where springs hold some of the six motions, the loads may leave none along the others.
  /// @errors frame.load_not_balanced (by how much: more than 1e-6 of the loads),
  /// frame.unknown_joint,
  ///         frame.unknown_beam, frame.unknown_scalar, frame.not_finite; paths `/2/points/0/joint`
  ///         into `loads`.
  Result<std::vector<Response>> solve(std::span<const Loads> loads) const;

  /// The same with the six rigid motions held, whatever resultant there is: what is left over goes
  /// into the holds. For superposition by callers that bring it to balance (stands under a frame).
  Result<std::vector<Response>> solve_held(std::span<const Loads> loads) const;

 private:
  struct Impl;
  explicit Solver(std::shared_ptr<const Impl> impl);
  std::shared_ptr<const Impl> impl_;
};

/// How one point of a joint moves: displacement of a point fixed to it.
Vec3 calc_displacement(const Structure& structure, const Response& response, int joint,
                       const Vec3& p_VoP_V);

/// What every beam carries, by beam: the quick way to many of `calc_beam_forces`.
/// @param loads  Those of the response; lines on the beams enter.
std::vector<BeamForces> calc_all_beam_forces(const Structure& structure, const Loads& loads,
                                             const Response& response);

/// The same of one beam.
BeamForces calc_beam_forces(const Structure& structure, const Loads& loads,
                            const Response& response, int beam);

/// What a beam carries on its +x face, exactly between its ends.
/// @param loads  Those of the response; lines on the beam enter.
/// @param share  Of its length from `from`, 0 to 1.
section::SectionForces calc_beam_forces(const Structure& structure, const Loads& loads,
                                        const Response& response, int beam, double share);

/// Forces of a beam on its end joints at the ends of its reference line, in V. For the equilibrium
/// of any part.
struct BeamEnds {
  Vec3 f_F_V = Vec3::Zero(), t_F_V = Vec3::Zero();  ///< On the joint at `from`, at F.
  Vec3 f_T_V = Vec3::Zero(), t_T_V = Vec3::Zero();
  /// On the warping scalars: what does work on their twist rates. The bimoment of `SectionForces`
  /// at `to`, its negative at `from`.
  double bimoment_from_Nm2 = 0;
  double bimoment_to_Nm2 = 0;
};
BeamEnds calc_beam_ends(const Structure& structure, const Loads& loads, const Response& response,
                        int beam);

/// Elastic energy held by each member (its beams), J; springs not counted.
std::vector<double> calc_member_energy_J(const Structure& structure, const Loads& loads,
                                         const Response& response);

}  // namespace rig::frame
