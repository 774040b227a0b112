#pragma once

#include <map>
#include <optional>

#include "check/frame_report.h"
#include "frame/bare_frame.h"
#include "frame/box_advice.h"

namespace rig::check {

/// A frame by itself, whatever hangs on it: how stiff it is with some of its parts in, and what
/// plates do for it. Each is worked out when first asked for, and kept.
class KnownFrame {
 public:
  /// @param last  What is known of an earlier build's frame, or null: while this one's is alike,
  ///              all of it is taken over.
  KnownFrame(const build::Build& of, const KnownFrame* last);

  /// A frame with some of its parts in.
  struct State {
    std::optional<FrameState> told;  ///< Without id, label and path; absent with faults.
    Diagnostics faults;              ///< Of the parts, or of the measurement.
  };
  const State& with(const build::PartsIn& in);
  /// Works out several of them together.
  void measure_all(std::vector<build::PartsIn> wanted);

  /// Whether the stations of both axles are known: without them nothing is measured.
  bool has_axle_lines() const { return has_axle_lines_; }

  /// Of the planned parts; null where they can't be measured.
  const frame::BoxAdvice* boxing();

  /// The sections that have been solved for it.
  frame::SectionBook& sections() { return sections_; }

 private:
  State measure(const build::PartsIn& in);

  frame::BareFrame frame_;
  bool has_axle_lines_ = false;
  frame::SectionBook sections_;
  std::map<build::PartsIn, State> states_;
  std::optional<Result<frame::BoxAdvice>> boxing_;
};

}  // namespace rig::check
