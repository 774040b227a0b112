#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include "frame/model.h"

/// How what the truck carries comes to lie on its frame.
namespace rig::frame {

/// A mass on the frame.
struct Burden {
  std::string id;  ///< Of the mass in the file: the mounts that carry it name it.
  double mass_kg = 0;
  Vec3 p_VoCm_V = Vec3::Zero();
  double length_m = 0;  ///< Along the truck: what has no mount lies on the rails along this.
};

/// How what is at a place is accelerated: a + alpha x (p - O). Gravity counts as 9.81 along z.
struct AccelerationField {
  Vec3 a_V = Vec3::Zero();
  Vec3 alpha_V = Vec3::Zero();  ///< rad/s2
  Vec3 p_VoO_V = Vec3::Zero();

  Vec3 at(const Vec3& p_VoP_V) const { return a_V + alpha_V.cross(p_VoP_V - p_VoO_V); }
};

/// How a mass was put on the frame.
enum class Bearing {
  mounts,      ///< On the mounts that carry it.
  along_rails  ///< On both rails along its length, for want of mounts.
};

struct Burdened {
  Loads loads;
  std::vector<Bearing> bearings;  ///< By burden.
};

/// Force of each burden, -mass times acceleration, where it meets the frame.
///
/// On its mounts as a stiff body on springs: of one stiffness in all directions, or of their own
/// rates where it is a case of the drivetrain on mounts of its own, which go before the frame's.
/// What forces at the mounts cannot hold (two
/// mounts, all in one line) is shared out over them as an even couple. Without a mount it lies on
/// both rails, evenly along its length (as far as the rails go; a point at the nearest rail ends),
/// left and right by the lever; where only one side has a rail, on that with its moment.
/// The resultant is exactly that of the burdens, by either way.
///
/// @param model  With at least one rail.
Burdened lay_burdens(const Model& model, const build::Build& build, std::span<const Burden> burdens,
                     const AccelerationField& field);

/// The same under any number of fields: where things sit is found once.
class Seating {
 public:
  /// Of a model and a build that live on.
  Seating(const Model& model, const build::Build& build);
  ~Seating();

  const Model& model() const;
  const build::Build& build() const;

  /// Finds where burdens sit. What has been found stays known.
  void find(std::span<const Burden> burdens);
  /// @param burdens  Of those that have been found.
  Burdened lay(std::span<const Burden> burdens, const AccelerationField& field) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

/// Ids of the cases among the burdens that would tip or drop: the mounts of theirs that the model
/// has leave them a way to go. A case that the file tells no mounts of a known rate for is none.
std::vector<std::string> find_unheld(const Model& model, const build::Build& build,
                                     std::span<const Burden> burdens);

/// A couple on the mounts that carry a mass, as `lay_burdens` lays its force.
/// @return  False where no mount carries it: nothing is laid then.
bool lay_couple_on_mounts(const Model& model, const build::Build& build, const std::string& mass_id,
                          const Vec3& t_V, Loads& loads);

/// A force on both rails at the station of its point, left and right by the lever, as through a
/// bumper or a receiver that is fixed to both; past the rails' ends on their ends.
void lay_on_rails(const Model& model, const Vec3& p_VoF_V, const Vec3& f_V, Loads& loads);

/// Inertia relief: the acceleration under which the burdens' forces and a resultant are in balance,
/// the burdens being points. Turns that they have no inertia against stay zero.
/// @param burdens  With some mass.
AccelerationField find_relief(std::span<const Burden> burdens, const Resultant& resultant);

}  // namespace rig::frame
