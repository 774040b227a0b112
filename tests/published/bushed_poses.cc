// Prints, as JSON, a bushed four-link with track bar and the poses and link forces found for it,
// for scipy_bushed.py to find again its own way.

#include <fmt/format.h>

#include "suspension/pose.h"
#include "tests/support/test_axles.h"

namespace {

std::string text(const rig::Vec3& v) {
  return fmt::format("[{:.17g}, {:.17g}, {:.17g}]", v.x(), v.y(), v.z());
}

}  // namespace

int main() {
  using namespace rig::suspension;
  const AxleModel axle = testing::make_parallel_rear();
  const Linkage linkage = Linkage::make(axle);
  fmt::print("{{\"C\": {}, \"bars\": [", text(axle.p_VC));
  for (std::size_t i = 0; i < axle.bars.size(); ++i) {
    const auto n = static_cast<Eigen::Index>(i);
    fmt::print("{}{{\"P\": {}, \"Q\": {}, \"length\": {:.17g}, \"compliance\": {:.17g}}}",
               i == 0 ? "" : ", ", text(axle.bars[i].p_VP), text(axle.bars[i].p_AQ),
               axle.bars[i].length_m, axle.compliance_m_per_N(n, n));
  }
  fmt::print("], \"poses\": [");
  bool first = true;
  for (const double heave : {-0.20, -0.08, 0.0, 0.10, 0.22}) {
    for (const double roll : {-0.25, 0.0, 0.12}) {
      LinkagePose pose = linkage.drawn();
      for (int step = 1; step <= 20; ++step) {
        if (!linkage.solve(axle.p_VC.z() + heave * step / 20, roll * step / 20, pose)) return 1;
      }
      fmt::print("{}{{\"q\": [{:.17g}], \"forces\": [{:.17g}]}}", first ? "" : ", ",
                 fmt::join(pose.q.data(), pose.q.data() + 6, ", "),
                 fmt::join(pose.bind_N.data(), pose.bind_N.data() + pose.bind_N.size(), ", "));
      first = false;
    }
  }
  fmt::print("]}}\n");
  return 0;
}
