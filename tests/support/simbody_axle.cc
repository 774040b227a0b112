#include "tests/support/simbody_axle.h"

#include <Simbody.h>

namespace rig::suspension::testing {
namespace {

SimTK::Vec3 sim(const Vec3& v) { return {v.x(), v.y(), v.z()}; }

}  // namespace

struct SimbodyAxle::Parts {
  SimTK::MultibodySystem system;
  SimTK::SimbodyMatterSubsystem matter{system};
  SimTK::MobilizedBody::Slider x, y, z;
  SimTK::MobilizedBody::Pin yaw, pitch, roll, arm;
  SimTK::State state;
};

SimbodyAxle::SimbodyAxle(const AxleModel& axle, bool last_two_are_an_arm)
    : parts_(std::make_unique<Parts>()) {
  Parts& p = *parts_;
  const SimTK::Body::Rigid body(SimTK::MassProperties(1, SimTK::Vec3(0), SimTK::Inertia(1)));
  // A slider moves along the x of its frame, a pin turns about the z of its frame.
  const SimTK::Rotation along_x;
  const SimTK::Rotation along_y(SimTK::Pi / 2, SimTK::ZAxis);
  const SimTK::Rotation along_z(-SimTK::Pi / 2, SimTK::YAxis);
  const SimTK::Rotation about_z;
  const SimTK::Rotation about_y(-SimTK::Pi / 2, SimTK::XAxis);
  const SimTK::Rotation about_x(SimTK::Pi / 2, SimTK::YAxis);
  const auto slide = [&](SimTK::MobilizedBody& on, const SimTK::Rotation& R) {
    return SimTK::MobilizedBody::Slider(on, SimTK::Transform(R), body, SimTK::Transform(R));
  };
  const auto turn = [&](SimTK::MobilizedBody& on, const SimTK::Rotation& R) {
    return SimTK::MobilizedBody::Pin(on, SimTK::Transform(R), body, SimTK::Transform(R));
  };
  p.x = slide(p.matter.updGround(), along_x);
  p.y = slide(p.x, along_y);
  p.z = slide(p.y, along_z);
  p.yaw = turn(p.z, about_z);
  p.pitch = turn(p.yaw, about_y);
  p.roll = turn(p.pitch, about_x);
  const std::size_t rods = axle.bars.size() - (last_two_are_an_arm ? 2 : 0);
  for (std::size_t i = 0; i < rods; ++i) {
    const Bar& bar = axle.bars[i];
    SimTK::Constraint::Rod(p.matter.updGround(), sim(bar.p_VP), p.roll, sim(bar.p_AQ),
                           bar.length_m);
  }
  if (last_two_are_an_arm) {
    const Bar& first = axle.bars[rods];
    const Bar& second = axle.bars[rods + 1];
    const Vec3 middle = (first.p_VP + second.p_VP) / 2;
    const SimTK::Rotation R(SimTK::UnitVec3(sim(second.p_VP - first.p_VP)), SimTK::ZAxis);
    p.arm = SimTK::MobilizedBody::Pin(p.matter.updGround(), SimTK::Transform(R, sim(middle)), body,
                                      SimTK::Transform(R));
    SimTK::Constraint::Ball(p.arm, sim(axle.p_VC + first.p_AQ - middle), p.roll, sim(first.p_AQ));
  }
  p.system.realizeTopology();
  p.state = p.system.getDefaultState();
  p.x.setOneQ(p.state, 0, axle.p_VC.x());
  p.y.setOneQ(p.state, 0, axle.p_VC.y());
}

SimbodyAxle::~SimbodyAxle() = default;

Pose SimbodyAxle::solve(double z_m, double roll_rad, double accuracy) {
  Parts& p = *parts_;
  p.z.lockAt(p.state, z_m);
  p.roll.lockAt(p.state, roll_rad);
  p.system.realize(p.state, SimTK::Stage::Time);
  p.system.prescribeQ(p.state);
  SimTK::ProjectOptions options;
  options.setRequiredAccuracy(accuracy);
  options.setOption(SimTK::ProjectOptions::ForceProjection);
  SimTK::ProjectResults results;
  SimTK::Vector no_errors;
  p.system.realize(p.state, SimTK::Stage::Position);
  p.system.projectQ(p.state, no_errors, options, results);
  p.system.realize(p.state, SimTK::Stage::Position);
  const SimTK::Transform& X = p.roll.getBodyTransform(p.state);
  Pose pose;
  for (int a = 0; a < 3; ++a) {
    pose.p_AB[a] = X.p()[a];
    for (int b = 0; b < 3; ++b) pose.R_AB(a, b) = X.R()[a][b];
  }
  return pose;
}

}  // namespace rig::suspension::testing
