#include "tests/support/test_frames.h"

#include "frame/wall_mode.h"

namespace rig::frame::testing {

namespace {

/// Builds one random frame, step by step.
class Maker {
 public:
  explicit Maker(unsigned seed) : random_(seed) {}

  Structure run() {
    for (const section::Section& section : make_pool()) s_.sections.push_back(make_steel(section));
    s_.members = {{"frame", "frame"}, {"more", "more"}};
    const int roots = 4 + pick(random_, 4);
    for (int i = 0; i < roots; ++i) add_root();
    for (int i = 1; i < roots; ++i) add_beam(i, pick(random_, i));
    for (int i = 0; i < 2; ++i) add_beam(pick(random_, roots - 1), roots - 1);
    for (int i = 0; i < 3; ++i) {
      const int a = add_follower(pick(random_, roots / 2));
      const int b = add_follower(roots / 2 + pick(random_, roots - roots / 2));
      add_beam(a, b);
    }
    add_joint_spring(0, roots - 1);
    return std::move(s_);
  }

 private:
  void add_root() {
    // On a lattice, shaken: never on top of each other.
    const auto i = static_cast<int>(s_.joints.size());
    const Vec3 corner(i % 2, (i / 2) % 2, i / 4);
    s_.joints.push_back({.p_VoJ_V = corner + random_vector(random_, 0.3)});
    shared_.push_back(-1);
  }

  int add_scalar(const Scalar& scalar) {
    s_.scalars.push_back(scalar);
    return static_cast<int>(s_.scalars.size()) - 1;
  }

  /// A scalar for the warping of a beam's end at a joint.
  int find_warp(int joint) {
    int& shared = shared_[at(joint)];
    switch (pick(random_, 6)) {
      case 0:
        return -1;
      case 1:
        return add_scalar({.held = true});
      case 2: {
        const int scalar = add_scalar({});
        s_.scalar_springs.push_back(
            {.scalars = {scalar},
             .stiffness = Eigen::MatrixXd::Constant(1, 1, uniform(random_, 0, 500))});
        return scalar;
      }
      case 3:
        if (shared >= 0) return add_scalar({.of = shared, .ratio = uniform(random_, -2, 2)});
        break;
      default:
        break;
    }
    if (shared < 0) shared = add_scalar({});
    return shared;
  }

  void add_beam(int from, int to) {
    Beam beam = make_beam(s_, from, to, pick(random_, static_cast<int>(s_.sections.size())),
                          random_vector(random_, 1));
    beam.p_VoF_V += random_vector(random_, 0.03);
    beam.p_VoT_V += random_vector(random_, 0.03);
    beam.member = pick(random_, 2);
    if (s_.sections[at(beam.section)]->warps()) {
      beam.warp_from = find_warp(from);
      beam.warp_to = find_warp(to);
    }
    s_.beams.push_back(beam);
  }

  /// Follows a root on a wall of one of its beams, or softly, or both one after the other.
  int add_follower(int root) {
    int leader = root;
    for (std::size_t b = 0; b < s_.beams.size(); ++b) {
      const Beam& beam = s_.beams[b];
      if (beam.from != root && beam.to != root) continue;
      const BeamEnd end = beam.from == root ? BeamEnd::from : BeamEnd::to;
      const auto walls = s_.sections[at(beam.section)]->section.walls.size();
      const section::WallPoint point{.wall = pick(random_, static_cast<int>(walls)),
                                     .share = uniform(random_, 0, 1)};
      const auto mode = make_wall_mode(s_, static_cast<int>(b), end, point);
      if (!mode) continue;
      leader = add_joint({.p_VoJ_V = calc_wall_point(s_, static_cast<int>(b), end, point),
                          .follows = leader,
                          .modes = {*mode}});
      break;
    }
    if (pick(random_, 2) == 0) return leader;
    const int turn = add_scalar({}), slide = add_scalar({});
    const int soft =
        add_joint({.p_VoJ_V = s_.joints[at(leader)].p_VoJ_V + random_vector(random_, 0.02),
                   .follows = leader,
                   .modes = {{.scalar = turn, .rotation_V = random_vector(random_, 1)},
                             {.scalar = slide, .displacement_V = random_vector(random_, 1)}}});
    Eigen::Matrix2d root_of;
    root_of << 200, 30, -20, 4000;
    s_.scalar_springs.push_back(
        {.scalars = {turn, slide}, .stiffness = root_of.transpose() * root_of});
    return soft;
  }

  int add_joint(const Joint& joint) {
    s_.joints.push_back(joint);
    shared_.push_back(-1);
    return static_cast<int>(s_.joints.size()) - 1;
  }

  void add_joint_spring(int from, int to) {
    const Vec3 turn = random_vector(random_, 1);
    s_.joint_springs.push_back(
        {.from = from,
         .to = to,
         .p_VoP_V = random_vector(random_, 1),
         .R_VS = Eigen::AngleAxisd(turn.norm(), turn.normalized()).toRotationMatrix(),
         .stiffness_N_per_m = random_vector(random_, 1e6).cwiseAbs(),
         .stiffness_Nm_per_rad = random_vector(random_, 1e4).cwiseAbs()});
  }

  std::mt19937 random_;
  Structure s_;
  std::vector<int> shared_;  ///< By joint: the scalar that its beams share.
};

}  // namespace

Structure make_random_frame(unsigned seed) { return Maker(seed).run(); }

Loads make_random_loads(const Structure& structure, unsigned seed, bool lines) {
  std::mt19937 random(seed);
  Loads loads;
  for (int i = 0; i < 5; ++i) {
    // Joint 0 takes what balances. Were all the others on it, or on what follows it rigidly,
    // nothing would be strained and there would be no work to compare with: one is on another root.
    const int joint = i == 0 ? 1 : pick(random, static_cast<int>(structure.joints.size()));
    loads.points.push_back(
        {.joint = joint,
         .p_VoP_V = structure.joints[at(joint)].p_VoJ_V + random_vector(random, 0.1),
         .f_P_V = random_vector(random, 5000),
         .t_V = random_vector(random, 500)});
  }
  for (int i = 0; lines && i < 4; ++i) {
    loads.lines.push_back({.beam = pick(random, static_cast<int>(structure.beams.size())),
                           .f_per_m_V = random_vector(random, 3000),
                           .p_OP = random_vector(random, 0.05).head<2>()});
  }
  const Resultant left = calc_resultant(structure, loads);
  const Vec3& p = structure.joints[0].p_VoJ_V;
  loads.points.push_back(
      {.joint = 0, .p_VoP_V = p, .f_P_V = -left.f_V, .t_V = -(left.t_Vo_V - p.cross(left.f_V))});
  return loads;
}

}  // namespace rig::frame::testing
