#pragma once

#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "frame/joint_stiffness.h"
#include "frame/model.h"
#include "frame/part_sections.h"
#include "frame/plan_internal.h"
#include "frame/steel.h"

namespace rig::frame {

/// What lies between two nodes of a rail.
struct RailBay {
  build::SectionSizes sizes;
  std::string section_path;
  const build::Entry<build::BoxingPlate>* plate = nullptr;
  int beam = -1;
  bool warps = false;
};

/// A place along a rail where something changes or is carried.
struct RailNode {
  double station_m = 0;
  Vec3 p_VoP_V = Vec3::Zero();
  int joint_ahead = -1;  ///< Of the bay in front of it; the same as behind but where a box ends.
  int joint_behind = -1;
  int warp = -1;      ///< Twist rate of what warps there, or -1.
  int web = -1;       ///< Joint on the open rail's web, once asked for.
  std::string place;  ///< "left frame rail at 41 5/8 in"
};

/// A rail as it stands in the structure. Bay i lies between nodes i and i + 1.
struct MadeRail {
  const RailLine* line = nullptr;
  int member = -1;
  std::vector<RailNode> nodes;
  std::vector<RailBay> bays;

  std::size_t node_at(double station_m) const;  ///< The nearest.
  const RailBay* bay_ahead(std::size_t node) const;
  const RailBay* bay_behind(std::size_t node) const;
};

struct MarkedModel {
  Model model;
  std::vector<int> mark_joints;  ///< By mark: the joint that carries what is welded to the rail.
};

/// Makes the structure, part by part, once. Faults are gathered, so that all are told at once.
class ModelMaker {
 public:
  ModelMaker(const build::Build& build, const Selection& in, SectionBook& book);
  /// Where the rails have joints without any marks; nothing is solved.
  Result<std::vector<RailMark>> list_places();
  Result<MarkedModel> make(std::span<const RailMark> marks);

 private:
  // model.cc
  /// Plans and checks sizes, once; false with faults.
  bool prepare();
  int add_joint(Joint joint);
  int add_scalar(Scalar scalar);
  int add_member(const std::string& id, const std::string& words);
  /// A section of the book, solved when it is not in it yet; null with a fault.
  std::shared_ptr<const BeamSection> solve(const SectionKey& key, const SteelNumbers& steel,
                                           const std::string& path,
                                           const std::function<Result<section::Section>()>& make);
  /// The section once for all beams that share it; -1 with a fault.
  /// @param key  Without the steel.
  int add_section(SectionKey key, const SteelNumbers& steel, const std::string& path,
                  const std::function<Result<section::Section>()>& make);
  /// Of a part's section as its maker lays it.
  const section::SectionProperties& properties_of(const build::SectionSizes& sizes,
                                                  const std::string& path);
  /// Gathers what keeps a section from being made of sizes that are all known.
  void check_shape(const build::SectionSizes& sizes, const std::string& path);
  void add_scalar_spring(std::vector<int> scalars, Eigen::MatrixXd stiffness, std::string place);
  void assume(const std::string& path, std::string words);
  void fault(std::string code, std::string path, std::string message, std::string remedy);
  void take_faults(const Diagnostics& faults);
  std::string place(const std::string& words, double station_m) const;
  SteelNumbers steel_of(const build::Reference& steel, const std::string& path,
                        const std::string& words);

  // model_rails.cc
  void check_rail_sizes(const build::Entry<build::Rail>& rail);
  /// Where channels lie between an open rail's flanges, welded to them: these keep their shape.
  struct Stretch {
    double from_m = 0;
    double to_m = 0;
  };
  std::vector<Stretch> stiff_flanges(const RailLine& line, int index) const;
  std::vector<double> stations_of(const RailLine& line, int index) const;
  RailBay bay_at(const RailLine& line, double station_m) const;
  void add_rail(int index);
  int section_of(const RailLine& line, const RailBay& bay, const SteelNumbers& steel);

  // model_rail_joints.cc
  void add_rail_joints(MadeRail& rail, const std::vector<Stretch>& stiff);
  /// A bay along a channel between the flanges: it does not swing.
  void keep_straight(const MadeRail& rail, std::size_t bay, const std::string& where);
  /// Where an open and a boxed bay meet.
  void add_box_end(MadeRail& rail, std::size_t node);
  void join_rail_ends(MadeRail& rail);
  /// What is welded to the rail's web moves with this joint.
  int web_joint(MadeRail& rail, std::size_t node);
  /// Of a boxed node the joint of the box, of any other that of the web.
  int carrying_joint(MadeRail& rail, std::size_t node);

  // model_crossmembers.cc
  void check_crossmember_sizes(const build::Entry<build::Crossmember>& part);
  void add_crossmember(int index);

  // model_joints.cc
  /// How an end of a crossmember is held.
  struct HeldEnd {
    int joint = -1;
    int warp = -1;
    double inset_m = 0;  ///< From the rail's line to where the crossmember begins to bend.
  };
  /// Where an end meets its rail, and what of the rail it meets.
  struct Meeting {
    MadeRail* rail = nullptr;
    std::size_t node = 0;
    const RailBay* bay = nullptr;
    bool left = true;
    std::string words;  ///< "gearbox tube at the left frame rail"

    bool boxed() const { return bay->plate != nullptr; }
    bool tube() const { return build::is_tube(bay->sizes.shape); }
    /// From the rail's line to the second wall's middle, coming from the first.
    double gap_m() const;
    /// What is met first, coming from the middle of the truck, is the plate.
    bool plate_first() const;
  };
  Meeting meet(const CrossmemberLine& line, bool left);
  HeldEnd hold_end(const CrossmemberLine& line, bool left, const SteelNumbers& steel);
  HeldEnd hold_by_flanges(const CrossmemberLine& line, const Meeting& meeting);
  HeldEnd hold_by_box(const CrossmemberLine& line, const Meeting& meeting,
                      const SteelNumbers& steel);
  HeldEnd hold_by_wall(const CrossmemberLine& line, const Meeting& meeting,
                       build::CrossmemberJoint joint);
  JointWall web_of(const Meeting& meeting) const;
  /// Assumes when a joint's proportions lie outside of what its springs were fitted to.
  void tell_if_beyond(const CrossmemberLine& line, const Meeting& meeting,
                      const JointStiffness& stiffness);
  /// Where a crossmember begins, `inset_m` from the rail's line.
  static Vec3 end_of(const CrossmemberLine& line, const Meeting& meeting, double inset_m);
  struct RailAxes {
    Vec3 along;    ///< Forward.
    Vec3 upright;  ///< Up.
    Vec3 across;   ///< To the left.
  };
  RailAxes axes_of(const Meeting& meeting) const;
  /// What the end of a channel does with the web of an open rail that twists. The web becomes a
  /// saddle, y = -x z (twist rate): for the channel a turn, that of the web at the place P where
  /// its own sectorial coordinate is zero, and its own warping.
  struct Saddle {
    Mode mode;           ///< By the rail's twist rate; scalar -1: the wall keeps plane.
    double warping = 0;  ///< Twist rate of the channel over that of the rail.
  };
  Saddle follow_saddle(const CrossmemberLine& line, const Meeting& meeting);
  /// A joint that hangs on the rail's by springs, and follows the saddle.
  int add_soft_joint(const CrossmemberLine& line, const Meeting& meeting, double inset_m,
                     const JointStiffness& stiffness, const Mode& saddle);

  // model_bolted_joints.cc
  void assume_bolts_as_welds(const CrossmemberLine& line, const Meeting& meeting);
  struct BoltedSprings {
    JointStiffness stiffness;
    double inset_m = 0;  ///< From the rail's line to the plate's middle.
  };
  /// A channel on a plate that is bolted to an open rail's web.
  BoltedSprings bolt_to_web(const CrossmemberLine& line, const Meeting& meeting,
                            const JointWall& web, const JointFoot& foot);
  /// A spring of the joint that is being made on the twist rate of an open rail.
  void stiffen_rail(const Meeting& meeting, double k_Nm3);
  /// A channel whose flanges are bolted to those of an open rail, by bolts that are known.
  static bool laps_flanges(const CrossmemberLine& line, const Meeting& meeting);
  HeldEnd hold_by_bolted_flanges(const CrossmemberLine& line, const Meeting& meeting);

  // model_attachments.cc
  void add_attachments();

  const build::Build& build_;
  const Selection& in_;
  SectionBook& book_;
  bool is_prepared_ = false;
  FramePlan plan_;
  std::span<const RailMark> marks_;
  Model model_;
  Diagnostics faults_;
  std::map<SectionKey, int> sections_;
  std::vector<MadeRail> rails_;  ///< By rail line.
  /// By crossmember line: joints along it.
  struct JointAlong {
    double along_m = 0;
    int joint = -1;
  };
  std::vector<std::vector<JointAlong>> crossmember_joints_;
  std::vector<int> crossmember_members_;
};

}  // namespace rig::frame
