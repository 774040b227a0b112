#include <Eigen/Cholesky>
#include <algorithm>
#include <limits>
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

/// The first and the last freedom of something elastic.
struct Span {
  int first = std::numeric_limits<int>::max();
  int last = -1;

  void add(int freedom) {
    if (freedom < 0) return;
    first = std::min(first, freedom);
    last = std::max(last, freedom);
  }
  void add(const JointMotion& motion) {
    add(motion.freedom);
    add(motion.freedom + 5);
    for (const ModeMotion& mode : motion.modes) add(mode.freedom);
  }
};

/// By freedom: the last one of all that it is the first of; itself where it is the first of
/// nothing.
std::vector<int> find_last_tied(const Structure& structure, const Freedoms& freedoms) {
  std::vector<int> last(at(freedoms.count));
  std::iota(last.begin(), last.end(), 0);
  const auto tie = [&](const Span& span) {
    if (span.last < 0) return;
    int& from_first = last[at(span.first)];
    from_first = std::max(from_first, span.last);
  };
  for (const Beam& beam : structure.beams) {
    Span span;
    for (const int joint : {beam.from, beam.to}) span.add(freedoms.joints[at(joint)]);
    for (const int scalar : {beam.warp_from, beam.warp_to}) {
      if (scalar >= 0) span.add(freedoms.scalars[at(scalar)].freedom);
    }
    tie(span);
  }
  for (const JointSpring& spring : structure.joint_springs) {
    Span span;
    for (const int joint : {spring.from, spring.to}) {
      if (joint >= 0) span.add(freedoms.joints[at(joint)]);
    }
    tie(span);
  }
  for (const ScalarSpring& spring : structure.scalar_springs) {
    Span span;
    for (const int scalar : spring.scalars) span.add(freedoms.scalars[at(scalar)].freedom);
    tie(span);
  }
  return last;
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

BlockBand assemble_stiffness(const Structure& structure, const Freedoms& freedoms,
                             const std::vector<Element>& elements) {
  BlockBand out(find_last_tied(structure, freedoms));
  for_each_part(structure, freedoms, elements, [&](const Part& part) {
    const std::vector<int>& of = part.freedoms();
    for (std::size_t j = 0; j < of.size(); ++j) {
      const Part::Column force =
          part.stiffness.lazyProduct(part.columns().col(static_cast<Index>(j)));
      const auto column = out.column(of[j]);
      for (std::size_t i = 0; i < of.size(); ++i) {
        if (of[i] < of[j]) continue;
        column[of[i]] += force.dot(part.columns().col(static_cast<Index>(i)));
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
