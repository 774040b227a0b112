#pragma once

#include <string>
#include <vector>

#include "suspension/from_build.h"
#include "suspension/spring_parts_internal.h"

namespace rig::suspension {

/// One side of a thing that may be given for both.
struct Side {
  int sign = 0;        ///< +1 left, -1 right, 0 as given.
  std::string suffix;  ///< ".left", ".right" or nothing.

  Vec3 place(const build::Point& point) const {
    Vec3 p = point.p_VP();
    if (sign < 0) p.y() = -p.y();
    return p;
  }
};

/// Both sides when it is given for both, else one as given.
std::vector<Side> sides(bool both_sides);

/// +1 left, -1 right, 0 on the centreline.
int side_of(const Vec3& p_V);

/// An axle's model in the making: what the parts of the file add to, one after the other.
struct AxleDraft {
  /// Two bars that stand for one arm, and how they give together.
  struct ArmBars {
    std::size_t first = 0;
    std::size_t second = 0;
    Eigen::Matrix2d compliance;
  };

  const build::Entry<build::Axle>& axle;
  AxleFromBuild out;
  Diagnostics faults;
  std::vector<double> own_compliance;  ///< Per bar, m/N.
  std::vector<ArmBars> arms;
  bool placed = false;  ///< Where the wheel centres are is known.
  bool linkage_complete = true;
  bool springs_complete = true;

  AxleModel& model() { return out.model; }
  Notes notes() { return {out.missing, out.worked_out, faults}; }

  void lack(const std::string& path, std::string what, std::string needed);

  /// True when the quantity is known; else it is listed.
  template <typename Quantity>
  bool have(const Quantity& quantity, const std::string& path, const char* what,
            const char* needed) {
    if (quantity.known()) return true;
    lack(path, what, needed);
    return false;
  }
  bool have_point(const build::Point& point, const std::string& path, const char* what,
                  const char* needed);

  // link_parts.cc
  bool add_bar(std::string name, const std::string& path, const Vec3& p_VP, const Vec3& p_VQ);
  Vec3 direction(std::size_t bar);
  bool bushed(const build::JointEnd& end, const std::string& path);
  void add_bush_moment(const build::JointEnd& end, std::size_t bar, bool on_axle, int mirror);
  void add_link(const build::Entry<build::Link>& link);
  void add_tube_stretch(const build::Tube& tube, std::size_t bar);
  void add_arm(const build::Entry<build::Arm>& arm);
  void assemble_compliance();

  // carrying_parts.cc
  void add_leaf(const build::Entry<build::LeafPack>& leaf);
  void add_coil(const build::Entry<build::Coil>& coil);
  void add_stop(const build::Entry<build::BumpStop>& stop);
  void add_shock(const build::Entry<build::Damper>& shock);
  void add_roll_bar(const build::Entry<build::AntiRollBar>& bar);

  /// Are there enough restraints, and not more ideal ones than can move? restraint.cc
  void judge_restraint();
};

}  // namespace rig::suspension
