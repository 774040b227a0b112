#include <Eigen/Cholesky>
#include <algorithm>
#include <numeric>

#include "frame/assembly_internal.h"
#include "frame/index_internal.h"

namespace rig::frame {

namespace {

using Eigen::Index;

/// All lines on one beam together.
struct EvenBeam {
  int beam = -1;
  EvenLoad even;
};

std::vector<EvenBeam> sum_lines(const std::vector<Element>& elements, const Loads& loads) {
  std::vector<EvenBeam> out;
  std::vector<int> place(loads.lines.empty() ? 0 : elements.size(), -1);
  for (const LineLoad& line : loads.lines) {
    int& there = place[at(line.beam)];
    if (there < 0) {
      there = static_cast<int>(out.size());
      out.push_back({.beam = line.beam});
    }
    add_line_load(elements[at(line.beam)], line, out[at(there)].even);
  }
  return out;
}

/// By freedom: the first one that something elastic ties it to, itself where nothing does.
class FirstTied {
 public:
  explicit FirstTied(const Freedoms& freedoms) : freedoms_(freedoms), first_(at(freedoms.count)) {
    std::iota(first_.begin(), first_.end(), 0);
  }

  void add_joint(int joint) {
    if (joint < 0) return;
    const JointMotion& motion = freedoms_.joints[at(joint)];
    for (int i = 0; i < 6; ++i) tied_.push_back(motion.freedom + i);
    for (const ModeMotion& mode : motion.modes) tied_.push_back(mode.freedom);
  }
  void add_scalar(int scalar) {
    if (scalar < 0) return;
    const int freedom = freedoms_.scalars[at(scalar)].freedom;
    if (freedom >= 0) tied_.push_back(freedom);
  }
  /// All that were added since the last time are tied to each other.
  void tie() {
    const auto least = std::min_element(tied_.begin(), tied_.end());
    for (const int freedom : tied_) first_[at(freedom)] = std::min(first_[at(freedom)], *least);
    tied_.clear();
  }

  const std::vector<int>& first() const { return first_; }

 private:
  const Freedoms& freedoms_;
  std::vector<int> tied_;
  std::vector<int> first_;
};

std::vector<int> find_first_tied(const Structure& structure, const Freedoms& freedoms) {
  FirstTied out(freedoms);
  for (const Beam& beam : structure.beams) {
    for (const int joint : {beam.from, beam.to}) out.add_joint(joint);
    for (const int scalar : {beam.warp_from, beam.warp_to}) out.add_scalar(scalar);
    out.tie();
  }
  for (const JointSpring& spring : structure.joint_springs) {
    for (const int joint : {spring.from, spring.to}) out.add_joint(joint);
    out.tie();
  }
  for (const ScalarSpring& spring : structure.scalar_springs) {
    for (const int scalar : spring.scalars) out.add_scalar(scalar);
    out.tie();
  }
  return out.first();
}

}  // namespace

void make_beam_part(const Structure& structure, const Freedoms& freedoms, const Beam& beam,
                    const Element& element, Part& part) {
  const Eigen::Matrix<double, 8, 14> by = calc_deformation_matrix(element);
  const Mat3 R_BV = element.R_VB.transpose();
  part.start();
  part.stiffness = calc_stiffness(element);
  part.add_point(structure, freedoms, beam.from, beam.p_VoF_V, by.middleCols<3>(kFromEnd) * R_BV,
                 by.middleCols<3>(kFromEnd + 3) * R_BV);
  part.add_point(structure, freedoms, beam.to, beam.p_VoT_V, by.middleCols<3>(kToEnd) * R_BV,
                 by.middleCols<3>(kToEnd + 3) * R_BV);
  if (element.ends == WarpEnds::tied || element.ends == WarpEnds::from_tied) {
    part.add_scalar(freedoms, beam.warp_from, by.col(kFromRate));
  }
  if (element.ends == WarpEnds::tied || element.ends == WarpEnds::to_tied) {
    part.add_scalar(freedoms, beam.warp_to, by.col(kToRate));
  }
}

void make_spring_part(const Structure& structure, const Freedoms& freedoms,
                      const JointSpring& spring, Part& part) {
  part.start();
  part.stiffness.diagonal().head<6>() << spring.stiffness_N_per_m, spring.stiffness_Nm_per_rad;
  Part::By displacement = Part::By::Zero(), rotation = Part::By::Zero();
  displacement.topRows<3>() = spring.R_VS.transpose();
  rotation.middleRows<3>(3) = spring.R_VS.transpose();
  part.add_point(structure, freedoms, spring.to, spring.p_VoP_V, displacement, rotation);
  if (spring.from >= 0) {
    part.add_point(structure, freedoms, spring.from, spring.p_VoP_V, -displacement, -rotation);
  }
}

Skyline assemble_stiffness(const Structure& structure, const Freedoms& freedoms,
                           const std::vector<Element>& elements) {
  Skyline out(find_first_tied(structure, freedoms));
  for_each_part(structure, freedoms, elements, [&](const Part& part) {
    const std::vector<int>& of = part.freedoms();
    for (std::size_t j = 0; j < of.size(); ++j) {
      const Part::Column force =
          part.stiffness.lazyProduct(part.columns().col(static_cast<Index>(j)));
      for (std::size_t i = 0; i < of.size(); ++i) {
        if (of[i] > of[j]) continue;
        out.entry(of[j], of[i]) += force.dot(part.columns().col(static_cast<Index>(i)));
      }
    }
  });
  for (const ScalarSpring& spring : structure.scalar_springs) {
    for (std::size_t j = 0; j < spring.scalars.size(); ++j) {
      for (std::size_t i = 0; i < spring.scalars.size(); ++i) {
        const ScalarMotion& a = freedoms.scalars[at(spring.scalars[i])];
        const ScalarMotion& b = freedoms.scalars[at(spring.scalars[j])];
        if (b.freedom < 0 || a.freedom < b.freedom) continue;
        out.entry(a.freedom, b.freedom) +=
            a.ratio * b.ratio * spring.stiffness(static_cast<Index>(i), static_cast<Index>(j));
      }
    }
  }
  return out;
}

double calc_energy_J(const Structure& structure, const Freedoms& freedoms,
                     const std::vector<Element>& elements, const Eigen::VectorXd& x) {
  double twice_J = 0;
  for_each_part(structure, freedoms, elements, [&](const Part& part) {
    Part::Column strain = Part::Column::Zero();
    for (std::size_t i = 0; i < part.freedoms().size(); ++i) {
      strain += part.columns().col(static_cast<Index>(i)) * x[part.freedoms()[i]];
    }
    twice_J += strain.dot(part.stiffness * strain);
  });
  for (const ScalarSpring& spring : structure.scalar_springs) {
    Eigen::VectorXd value(static_cast<Index>(spring.scalars.size()));
    for (Index i = 0; i < value.size(); ++i) {
      const ScalarMotion& motion =
          freedoms.scalars[at(spring.scalars[static_cast<std::size_t>(i)])];
      value[i] = motion.freedom < 0 ? 0 : motion.ratio * x[motion.freedom];
    }
    // By its axes, so that a motion along a soft one does not drown in the stiff ones.
    const Eigen::LDLT<Eigen::MatrixXd> axes(spring.stiffness);
    const Eigen::VectorXd along = axes.matrixU() * Eigen::VectorXd(axes.transpositionsP() * value);
    twice_J += along.cwiseAbs2().dot(axes.vectorD());
  }
  return twice_J / 2;
}

void add_loads(const Structure& structure, const Freedoms& freedoms,
               const std::vector<Element>& elements, const Loads& loads,
               Eigen::Ref<Eigen::VectorXd> forces) {
  for (const PointLoad& load : loads.points) {
    add_force(structure, freedoms, load.joint, load.p_VoP_V, load.f_P_V, load.t_V, forces);
  }
  const auto add_scalar = [&](int scalar, double force) {
    if (scalar < 0) return;
    const ScalarMotion& motion = freedoms.scalars[at(scalar)];
    if (motion.freedom >= 0) forces[motion.freedom] += motion.ratio * force;
  };
  for (const ScalarLoad& load : loads.scalars) add_scalar(load.scalar, load.force);
  for (const EvenBeam& loaded : sum_lines(elements, loads)) {
    const Beam& beam = structure.beams[at(loaded.beam)];
    const Element& element = elements[at(loaded.beam)];
    const EndMotion ends = calc_end_loads(element, loaded.even);
    const auto turned = [&](Index i) { return Vec3(element.R_VB * ends.segment<3>(i)); };
    add_force(structure, freedoms, beam.from, beam.p_VoF_V, turned(kFromEnd), turned(kFromEnd + 3),
              forces);
    add_force(structure, freedoms, beam.to, beam.p_VoT_V, turned(kToEnd), turned(kToEnd + 3),
              forces);
    add_scalar(beam.warp_from, ends[kFromRate]);
    add_scalar(beam.warp_to, ends[kToRate]);
  }
}

}  // namespace rig::frame
