#include "frame/assembly_internal.h"

namespace rig::frame {

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

void make_beam_part(const Structure& structure, const Freedoms& freedoms, const Beam& beam,
                    const Element& element, Part& part) {
  const Eigen::Matrix<double, 8, 14> by = calc_deformation_matrix(element);
  const Mat3 R_BV = element.R_VB.transpose();
  part.start(8);
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
  part.start(6);
  part.stiffness = Eigen::MatrixXd::Zero(6, 6);
  part.stiffness.diagonal() << spring.stiffness_N_per_m, spring.stiffness_Nm_per_rad;
  Eigen::Matrix<double, 6, 3> displacement, rotation;
  displacement << spring.R_VS.transpose(), Mat3::Zero();
  rotation << Mat3::Zero(), spring.R_VS.transpose();
  part.add_point(structure, freedoms, spring.to, spring.p_VoP_V, displacement, rotation);
  if (spring.from >= 0) {
    part.add_point(structure, freedoms, spring.from, spring.p_VoP_V, -displacement, -rotation);
  }
}

Eigen::SparseMatrix<double> assemble_stiffness(const Structure& structure, const Freedoms& freedoms,
                                               const std::vector<Element>& elements) {
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(110 * elements.size());
  Eigen::MatrixXd K;
  for_each_part(structure, freedoms, elements, [&](const Part& part) {
    K.noalias() = part.rows().transpose() * (part.stiffness * part.rows());
    const std::vector<int>& of = part.freedoms();
    for (std::size_t j = 0; j < of.size(); ++j) {
      for (std::size_t i = 0; i < of.size(); ++i) {
        if (of[i] < of[j]) continue;
        entries.emplace_back(of[i], of[j],
                             K(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)));
      }
    }
  });
  Eigen::SparseMatrix<double> out(freedoms.count, freedoms.count);
  out.setFromTriplets(entries.begin(), entries.end());
  return out;
}

void add_loads(const Structure& structure, const Freedoms& freedoms,
               const std::vector<Element>& elements, const Loads& loads,
               Eigen::Ref<Eigen::VectorXd> forces) {
  for (const PointLoad& load : loads.points) {
    add_force(structure, freedoms, load.joint, load.p_VoP_V, load.f_P_V, load.t_V, forces);
  }
  const auto add_rate = [&](int scalar, double force) {
    if (scalar < 0) return;
    const ScalarMotion& motion = freedoms.scalars[at(scalar)];
    if (motion.freedom >= 0) forces[motion.freedom] += motion.ratio * force;
  };
  for (const LineLoad& line : loads.lines) {
    const Beam& beam = structure.beams[at(line.beam)];
    const Element& element = elements[at(line.beam)];
    EvenLoad even;
    add_line_load(element, line, even);
    const EndMotion ends = calc_end_loads(element, even);
    const auto turned = [&](Eigen::Index i) { return Vec3(element.R_VB * ends.segment<3>(i)); };
    add_force(structure, freedoms, beam.from, beam.p_VoF_V, turned(kFromEnd), turned(kFromEnd + 3),
              forces);
    add_force(structure, freedoms, beam.to, beam.p_VoT_V, turned(kToEnd), turned(kToEnd + 3),
              forces);
    add_rate(beam.warp_from, ends[kFromRate]);
    add_rate(beam.warp_to, ends[kToRate]);
  }
}

}  // namespace rig::frame
