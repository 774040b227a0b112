#pragma once

#include "build/types.h"

namespace rig::frame {

/// A build's rails, plates and crossmembers with the axle lines between which they are measured:
/// all that their stiffness rests on, whatever hangs on them.
class BareFrame {
 public:
  explicit BareFrame(const build::Build& of);

  /// Nothing else is in it, and no stage.
  const build::Build& build() const { return build_; }

  /// True when nothing that a model of it is made of is different.
  bool operator==(const BareFrame& other) const;

 private:
  build::Build build_;
};

}  // namespace rig::frame
