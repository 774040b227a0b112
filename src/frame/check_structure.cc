#include <fmt/format.h>

#include <Eigen/Cholesky>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>

#include "frame/faults_internal.h"
#include "frame/index_internal.h"
#include "frame/structure.h"

namespace rig::frame {

namespace {

constexpr double kShortest_m = 1e-6;  ///< A beam no longer than that is a mistake.
constexpr double kAlong = 1e-6;       ///< Sine between a beam and its y below which y says nothing.
constexpr double kNotSquare = 1e-9;   ///< Of axes, each of unit length.
constexpr double kNotSymmetric =
    1e-9;  ///< Of a spring's stiffness, as a share of its largest entry.

/// What is told of a thing, or of one in a list of its own: "/from", "/modes/2/scalar".
struct Field {
  const char* name = "";
  std::optional<std::size_t> index = {};  ///< In that list,
  const char* of_it = "";                 ///< of which this is told.

  std::string path() const {
    return index ? fmt::format("{}/{}{}", name, *index, of_it) : std::string(name);
  }
};

/// Something of the structure: its place and words are made only where it is at fault.
struct Thing {
  const char* list;  ///< "joints", of the structure.
  std::size_t index;
  const char* kind;  ///< "joint", where it has no words.
  const std::string& own_words;
  std::size_t number = index;

  std::string path(const Field& field = {}) const {
    return fmt::format("/{}/{}{}", list, index, field.path());
  }
  std::string words() const { return named(own_words, kind, number); }
};

class Checker {
 public:
  explicit Checker(const Structure& structure) : s_(structure) {}

  Diagnostics run() {
    if (s_.joints.empty()) fault("frame.no_joints", "/joints", "the frame has no joints", "");
    check_joints();
    check_scalars();
    check_sections();
    check_beams();
    check_scalar_springs();
    check_joint_springs();
    if (out_.empty()) check_connected();
    return std::move(out_);
  }

 private:
  void fault(std::string code, std::string path, std::string message, std::string remedy) {
    add_fault(out_, std::move(code), std::move(path), std::move(message), std::move(remedy));
  }

  /// Tells of an index that points at nothing.
  void refers(const char* code, const Thing& who, const Field& field, int index, std::size_t count,
              const char* kind) {
    if (index >= 0 && at(index) < count) return;
    fault(code, who.path(field),
          fmt::format("{} names {} {}, of which there are {}", who.words(), kind, index, count),
          "an index from 0");
  }

  void finite(const Thing& who, const Field& field, bool all) {
    if (!all) {
      fault("frame.not_finite", who.path(field),
            fmt::format("{} has a number that is none", who.words()), "a finite number");
    }
  }

  void check_joints() {
    for (std::size_t j = 0; j < s_.joints.size(); ++j) {
      const Joint& joint = s_.joints[j];
      const Thing who{"joints", j, "joint", joint.place};
      finite(who, {"/p_VoJ_V"}, joint.p_VoJ_V.allFinite());
      if (joint.follows >= 0 && at(joint.follows) >= j) {
        fault(
            "frame.follows_later", who.path({"/follows"}),
            fmt::format("{} follows joint {}, which is not before it", who.words(), joint.follows),
            "an earlier joint, or -1");
      }
      if (joint.follows < 0 && !joint.modes.empty()) {
        fault("frame.modes_without_follow", who.path({"/modes"}),
              fmt::format("{} has modes but follows no joint", who.words()),
              "name the joint it follows");
      }
      for (std::size_t m = 0; m < joint.modes.size(); ++m) {
        const Mode& mode = joint.modes[m];
        refers("frame.unknown_scalar", who, {"/modes", m, "/scalar"}, mode.scalar,
               s_.scalars.size(), "scalar");
        finite(who, {"/modes", m}, mode.displacement_V.allFinite() && mode.rotation_V.allFinite());
      }
    }
  }

  void check_scalars() {
    for (std::size_t i = 0; i < s_.scalars.size(); ++i) {
      const Scalar& scalar = s_.scalars[i];
      const Thing who{"scalars", i, "scalar", scalar.place};
      finite(who, {"/ratio"}, std::isfinite(scalar.ratio));
      if (scalar.of >= 0 && at(scalar.of) >= i) {
        fault("frame.follows_later", who.path({"/of"}),
              fmt::format("{} is a multiple of scalar {}, which is not before it", who.words(),
                          scalar.of),
              "an earlier scalar, or -1");
      }
    }
  }

  void check_sections() {
    for (std::size_t i = 0; i < s_.sections.size(); ++i) {
      const BeamSection& made = s_.sections[i];
      const section::SectionProperties& p = made.properties;
      const auto path = [i](const char* field) { return fmt::format("/sections/{}/{}", i, field); };
      const auto positive = [&](const char* field, double value, const char* what) {
        if (value > 0 && std::isfinite(value)) return;
        fault("frame.material_not_positive", path(field),
              fmt::format("section {} has {} of {}", i + 1, what, value), "a positive number");
      };
      positive("E_Pa", made.E_Pa, "a modulus E");
      positive("G_Pa", made.G_Pa, "a shear modulus G");
      positive("density_kg_per_m3", made.density_kg_per_m3, "a density");
      const double warping = p.warping_constant_m6 + p.warping_across_m6;
      const std::array values{p.area_m2,
                              p.I_y_m4,
                              p.I_z_m4,
                              p.I_yz_m4,
                              p.torsion_constant_m4,
                              warping,
                              p.p_OC.x(),
                              p.p_OC.y(),
                              p.p_OS.x(),
                              p.p_OS.y(),
                              p.shear_area_y_m2,
                              p.shear_area_z_m2,
                              made.shear_cross_per_m2};
      bool good = p.area_m2 > 0 && p.I_y_m4 > 0 && p.I_y_m4 * p.I_z_m4 > p.I_yz_m4 * p.I_yz_m4 &&
                  p.torsion_constant_m4 > 0 && warping >= 0;
      for (const double value : values) good = good && std::isfinite(value);
      if (!good) {
        fault("frame.section_not_positive", path("properties"),
              fmt::format("section {} has properties that no section has", i + 1),
              "those of solve_section");
      }
    }
  }

  void check_beams() {
    for (std::size_t b = 0; b < s_.beams.size(); ++b) {
      const Beam& beam = s_.beams[b];
      const bool of_member = beam.member >= 0 && at(beam.member) < s_.members.size();
      const Thing who{"beams", b, of_member ? "member" : "beam",
                      of_member ? s_.members[at(beam.member)].words : no_words_,
                      of_member ? at(beam.member) : b};
      refers("frame.unknown_member", who, {"/member"}, beam.member, s_.members.size(), "member");
      refers("frame.unknown_joint", who, {"/from"}, beam.from, s_.joints.size(), "joint");
      refers("frame.unknown_joint", who, {"/to"}, beam.to, s_.joints.size(), "joint");
      refers("frame.unknown_section", who, {"/section"}, beam.section, s_.sections.size(),
             "section");
      check_warp(who, {"/warp_from"}, beam.warp_from);
      check_warp(who, {"/warp_to"}, beam.warp_to);
      const bool all = beam.p_VoF_V.allFinite() && beam.p_VoT_V.allFinite() && beam.y_V.allFinite();
      finite(who, {}, all);
      if (!all) continue;
      const Vec3 x = beam.p_VoT_V - beam.p_VoF_V;
      if (!(x.norm() > kShortest_m)) {
        fault("frame.beam_without_length", who.path(),
              fmt::format("a piece of {} is {} m long", who.words(), x.norm()),
              "ends at least a micron apart");
      } else if (!(x.cross(beam.y_V).norm() > kAlong * x.norm() * beam.y_V.norm())) {
        fault("frame.y_along_beam", who.path({"/y_V"}),
              fmt::format("the y axis of a piece of {} lies along it", who.words()),
              "an axis across the beam");
      }
    }
  }

  void check_warp(const Thing& who, const Field& field, int scalar) {
    if (scalar != -1) {
      refers("frame.unknown_scalar", who, field, scalar, s_.scalars.size(), "scalar");
    }
  }

  void check_scalar_springs() {
    for (std::size_t i = 0; i < s_.scalar_springs.size(); ++i) {
      const ScalarSpring& spring = s_.scalar_springs[i];
      const Thing who{"scalar_springs", i, "scalar spring", spring.place};
      for (std::size_t k = 0; k < spring.scalars.size(); ++k) {
        refers("frame.unknown_scalar", who, {"/scalars", k}, spring.scalars[k], s_.scalars.size(),
               "scalar");
      }
      const auto n = static_cast<Eigen::Index>(spring.scalars.size());
      const Eigen::MatrixXd& K = spring.stiffness;
      if (n == 0 || K.rows() != n || K.cols() != n) {
        fault("frame.spring_wrong_size", who.path({"/stiffness"}),
              fmt::format("{} ties {} scalars with {} by {} numbers", who.words(), n, K.rows(),
                          K.cols()),
              "as many rows and columns as scalars");
        continue;
      }
      finite(who, {"/stiffness"}, K.allFinite());
      if (K.allFinite()) check_semidefinite(who, K);
    }
  }

  /// Scalars have units of their own, so that the matrix is judged with ones on its diagonal.
  void check_semidefinite(const Thing& who, const Eigen::MatrixXd& K) {
    const Eigen::VectorXd size =
        K.diagonal().cwiseAbs().cwiseSqrt().unaryExpr([](double v) { return v > 0 ? 1 / v : 1; });
    Eigen::MatrixXd scaled = size.asDiagonal() * K * size.asDiagonal();
    if ((scaled - scaled.transpose()).cwiseAbs().maxCoeff() > kNotSymmetric) {
      fault("frame.spring_not_symmetric", who.path({"/stiffness"}),
            fmt::format("the stiffness of {} is not symmetric", who.words()), "a symmetric matrix");
      return;
    }
    // It has factors while no axis is below -kNotSymmetric.
    scaled.diagonal().array() += kNotSymmetric;
    if (scaled.llt().info() != Eigen::Success) {
      fault("frame.spring_negative", who.path({"/stiffness"}),
            fmt::format("{} pushes the wrong way", who.words()),
            "a stiffness that is nowhere negative");
    }
  }

  void check_joint_springs() {
    for (std::size_t i = 0; i < s_.joint_springs.size(); ++i) {
      const JointSpring& spring = s_.joint_springs[i];
      const Thing who{"joint_springs", i, "joint spring", spring.place};
      if (spring.from != -1) {
        refers("frame.unknown_joint", who, {"/from"}, spring.from, s_.joints.size(), "joint");
      }
      refers("frame.unknown_joint", who, {"/to"}, spring.to, s_.joints.size(), "joint");
      finite(who, {},
             spring.p_VoP_V.allFinite() && spring.R_VS.allFinite() &&
                 spring.stiffness_N_per_m.allFinite() && spring.stiffness_Nm_per_rad.allFinite());
      if (!((spring.R_VS * spring.R_VS.transpose() - Mat3::Identity()).cwiseAbs().maxCoeff() <
            kNotSquare)) {
        fault("frame.axes_not_square", who.path({"/R_VS"}),
              fmt::format("the axes of {} are not square to each other", who.words()),
              "a rotation");
      }
      if (spring.stiffness_N_per_m.minCoeff() < 0 || spring.stiffness_Nm_per_rad.minCoeff() < 0) {
        fault("frame.spring_negative", who.path(),
              fmt::format("{} pushes the wrong way", who.words()), "stiffness of zero or more");
      }
    }
  }

  /// Every joint hangs together with the first one, through beams, springs, those it follows, or
  /// the ground.
  void check_connected() {
    std::vector<std::size_t> group(s_.joints.size() + 1);  // The last is the ground.
    std::iota(group.begin(), group.end(), std::size_t{0});
    const auto root = [&](std::size_t i) {
      while (group[i] != i) i = group[i] = group[group[i]];
      return i;
    };
    const auto tie = [&](int a, int b) {
      group[root(a < 0 ? s_.joints.size() : at(a))] = root(b < 0 ? s_.joints.size() : at(b));
    };
    for (std::size_t j = 0; j < s_.joints.size(); ++j) {
      if (s_.joints[j].follows >= 0) tie(static_cast<int>(j), s_.joints[j].follows);
    }
    for (const Beam& beam : s_.beams) tie(beam.from, beam.to);
    for (const JointSpring& spring : s_.joint_springs) {
      if (spring.stiffness_N_per_m.maxCoeff() > 0 || spring.stiffness_Nm_per_rad.maxCoeff() > 0) {
        tie(spring.from, spring.to);
      }
    }
    tell_apart([&](std::size_t j) { return root(j); });
  }

  /// Tells of each group but the largest.
  template <typename Root>
  void tell_apart(const Root& root) {
    std::vector<std::size_t> size(s_.joints.size() + 1, 0);
    for (std::size_t j = 0; j < s_.joints.size(); ++j) ++size[root(j)];
    std::size_t largest = root(0);
    for (std::size_t g = 0; g < size.size(); ++g) {
      if (size[g] > size[largest]) largest = g;
    }
    std::vector<bool> told(size.size(), false);
    for (std::size_t j = 0; j < s_.joints.size(); ++j) {
      const std::size_t g = root(j);
      if (g == largest || told[g]) continue;
      told[g] = true;
      fault("frame.disconnected", fmt::format("/joints/{}", j),
            fmt::format("{}{} not joined to the rest of the frame",
                        member_at(j, root) + named(s_.joints[j].place, "joint", j),
                        size[g] > 1 ? " and what hangs on it are" : " is"),
            "join it, or take it out");
    }
  }

  /// "tank crossmember, at " of a joint in a group of its own, from the first beam in it.
  template <typename Root>
  std::string member_at(std::size_t joint, const Root& root) const {
    for (const Beam& beam : s_.beams) {
      if (root(at(beam.from)) != root(joint)) continue;
      return fmt::format("{}, at ",
                         named(s_.members[at(beam.member)].words, "member", at(beam.member)));
    }
    return {};
  }

  const Structure& s_;
  const std::string no_words_;
  Diagnostics out_;
};

}  // namespace

Diagnostics check_structure(const Structure& structure) { return Checker(structure).run(); }

}  // namespace rig::frame
