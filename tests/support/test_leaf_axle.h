#pragma once

#include "suspension/leaf_internal.h"
#include "tests/support/test_axles.h"

namespace rig::suspension::testing {

/// An axle on the same leaf pack left and right; `left.p_VC` is the axle's centre.
inline AxleModel make_leaf_axle(const LeafPlaces& left, bool front) {
  AxleModel axle = make_axle(front ? "front" : "rear", front, left.p_VC.x(), left.p_VC.z(), {});
  for (const int side : {1, -1}) {
    LeafPlaces places = left;
    for (Vec3* p : {&places.front_eye, &places.rear_eye, &places.seat}) p->y() *= side;
    const LeafElements leaf = calc_leaf_elements(places);
    axle.bars.push_back({.name = side > 0 ? "pack.left" : "pack.right",
                         .p_VP = leaf.p_VEye,
                         .p_AQ = leaf.p_VPivot - axle.p_VC,
                         .length_m = (leaf.p_VPivot - leaf.p_VEye).norm()});
    for (const LeafHalf& half : leaf.halves) axle.leaf_halves.push_back(half);
  }
  axle.compliance_m_per_N = Eigen::MatrixXd::Zero(2, 2);
  return axle;
}

}  // namespace rig::suspension::testing
