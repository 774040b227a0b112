#include <algorithm>
#include <cmath>

#include "frame/index_internal.h"
#include "frame/model_maker_internal.h"

namespace rig::frame {

void ModelMaker::add_attachments() {
  for (const Carried& carried : plan_.carried) {
    Attachment attachment = carried.attachment;
    if (carried.rail >= 0) {
      MadeRail& rail = rails_[at(carried.rail)];
      const std::size_t i = rail.node_at(carried.at_m);
      const RailBay *ahead = rail.bay_ahead(i), *behind = rail.bay_behind(i);
      attachment.in_box = (ahead != nullptr && ahead->plate != nullptr) ||
                          (behind != nullptr && behind->plate != nullptr);
      attachment.joint = carrying_joint(rail, i);
      attachment.carrier = rail.member;
    } else {
      const auto index = at(carried.crossmember);
      const auto& joints = crossmember_joints_[index];
      const auto nearest = std::min_element(
          joints.begin(), joints.end(), [&](const JointAlong& a, const JointAlong& b) {
            return std::abs(a.along_m - carried.at_m) < std::abs(b.along_m - carried.at_m);
          });
      attachment.joint = nearest->joint;
      attachment.carrier = crossmember_members_[index];
    }
    model_.attachments.push_back(std::move(attachment));
  }
}

}  // namespace rig::frame
