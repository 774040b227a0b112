#include "check/sweep_csv.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <functional>
#include <vector>

#include "base/nan.h"

namespace rig::check {
namespace {

using suspension::AxleModel;
using suspension::PoseNumbers;
using suspension::Sweep;
using suspension::SweptPose;

/// What a solver leaves of an exact zero, SI.
constexpr double kRounding = 1e-15;

struct Column {
  std::string name;
  std::vector<double> values;
};

class Table {
 public:
  explicit Table(const Sweep& sweep) : sweep_(sweep) {}

  template <typename Get>
  void add(std::string name, Get get) {
    Column column{std::move(name), {}};
    bool known = false;
    for (const auto& pose : sweep_.poses) {
      column.values.push_back(get(pose));
      known = known || std::isfinite(column.values.back());
    }
    if (known) columns_.push_back(std::move(column));
  }

  template <typename Get>
  void add_vector(const std::string& name, Get get, const char* unit = "m") {
    static constexpr const char* kAxes[] = {"x", "y", "z"};
    for (Eigen::Index i = 0; i < 3; ++i) {
      add(fmt::format("{}_{}_{}", name, kAxes[i], unit),
          [&](const SweptPose& pose) { return get(pose)[i]; });
    }
  }

  std::string write() const {
    std::string out;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      out += (c > 0 ? "," : "") + columns_[c].name;
    }
    out += "\n";
    for (std::size_t row = 0; row < sweep_.poses.size(); ++row) {
      for (std::size_t c = 0; c < columns_.size(); ++c) {
        if (c > 0) out += ",";
        const double value = columns_[c].values[row];
        if (!std::isfinite(value)) continue;
        out += fmt::format("{:.15g}", std::abs(value) < kRounding ? 0.0 : value);
      }
      out += "\n";
    }
    return out;
  }

 private:
  const Sweep& sweep_;
  std::vector<Column> columns_;
};

void add_pose(const AxleModel& axle, Table& table) {
  table.add("heave_m", [](const SweptPose& p) { return p.numbers.heave_m; });
  table.add("roll_rad", [](const SweptPose& p) { return p.numbers.roll_rad; });
  table.add_vector("p_VC", [](const SweptPose& p) -> Vec3 { return p.q.head<3>(); });
  for (Eigen::Index i = 0; i < 3; ++i) {
    for (Eigen::Index j = 0; j < 3; ++j) {
      table.add(fmt::format("R_{}{}", i + 1, j + 1),
                [=](const SweptPose& p) { return p.R_VA(i, j); });
    }
  }
  table.add("pitch_rad", [](const SweptPose& p) { return p.q[suspension::kPitch]; });
  table.add("yaw_rad", [](const SweptPose& p) { return p.q[suspension::kYaw]; });
  table.add("wheel_line_heading_rad", [](const SweptPose& p) { return p.numbers.heading_rad; });
  table.add("wheel_line_tilt_rad", [](const SweptPose& p) { return p.numbers.tilt_rad; });
  for (const auto& bar : axle.bars) {
    table.add_vector(bar.name + ".frame_end", [&](const SweptPose&) { return bar.p_VP; });
    table.add_vector(bar.name + ".axle_end",
                     [&](const SweptPose& p) -> Vec3 { return p.q.head<3>() + p.R_VA * bar.p_AQ; });
  }
}

/// What each arm does to the body that holds its apex: the sum of its two legs.
void add_arm_forces(const AxleModel& axle, Table& table) {
  for (const auto& [first, second] : axle.arms) {
    const std::array<std::size_t, 2> legs{static_cast<std::size_t>(first),
                                          static_cast<std::size_t>(second)};
    const std::string& leg = axle.bars[legs[0]].name;
    const bool apex_on_frame = axle.bars[legs[0]].p_VP == axle.bars[legs[1]].p_VP;
    table.add_vector(
        leg.substr(0, leg.rfind('.')) + ".apex_force",
        [&, legs, apex_on_frame](const SweptPose& p) -> Vec3 {
          Vec3 force = Vec3::Zero();
          for (const std::size_t i : legs) {
            const suspension::Bar& bar = axle.bars[i];
            const Vec3 along = (p.q.head<3>() + p.R_VA * bar.p_AQ - bar.p_VP).normalized();
            force += (apex_on_frame ? 1 : -1) * p.bar_forces_N[i] * along;
          }
          return force;
        },
        "N");
  }
}

void add_forces(const AxleModel& axle, Table& table) {
  for (std::size_t i = 0; i < axle.bars.size(); ++i) {
    const std::string& name = axle.bars[i].name;
    table.add(name + ".force_N", [=](const SweptPose& p) { return p.bar_forces_N[i]; });
    table.add(name + ".swing_frame_rad",
              [=](const SweptPose& p) { return p.bar_swing_frame_rad[i]; });
    table.add(name + ".swing_axle_rad",
              [=](const SweptPose& p) { return p.bar_swing_axle_rad[i]; });
  }
  add_arm_forces(axle, table);
  for (std::size_t i = 0; i < axle.coils.size(); ++i) {
    const std::string& name = axle.coils[i].name;
    table.add(name + ".length_m", [=](const SweptPose& p) { return p.coil_lengths_m[i]; });
    table.add(name + ".motion_ratio", [=](const SweptPose& p) { return p.coil_motion_ratios[i]; });
  }
  for (std::size_t i = 0; i < axle.shocks.size(); ++i) {
    const std::string& name = axle.shocks[i].name;
    table.add(name + ".length_m", [=](const SweptPose& p) { return p.shock_lengths_m[i]; });
    table.add(name + ".motion_ratio", [=](const SweptPose& p) { return p.shock_motion_ratios[i]; });
  }
  for (std::size_t i = 0; i < axle.stops.size(); ++i) {
    table.add(axle.stops[i].name + ".compression_m",
              [=](const SweptPose& p) { return p.stop_compressions_m[i]; });
  }
}

void add_numbers(Table& table) {
  const auto add = [&](const char* name, double PoseNumbers::*member) {
    table.add(name, [=](const SweptPose& p) { return p.numbers.*member; });
  };
  add("lateral_shift_m", &PoseNumbers::lateral_shift_m);
  add("forward_shift_m", &PoseNumbers::forward_shift_m);
  add("nose_up_rad", &PoseNumbers::nose_up_rad);
  add("roll_centre_height_m", &PoseNumbers::roll_centre_height_m);
  add("roll_axis_slope", &PoseNumbers::roll_axis_slope);
  add("roll_steer", &PoseNumbers::roll_steer);
  add("contact_slope", &PoseNumbers::contact_slope);
  add("pitch_per_heave_rad_per_m", &PoseNumbers::pitch_per_heave_rad_per_m);
  table.add("instant_centre_ahead_m",
            [=](const SweptPose& p) { return p.numbers.instant_centre_ahead_m.value_or(kNaN); });
  table.add("instant_centre_height_m",
            [=](const SweptPose& p) { return p.numbers.instant_centre_height_m.value_or(kNaN); });
  add("anti_drive", &PoseNumbers::anti_drive);
  add("anti_brake", &PoseNumbers::anti_brake);
  add("wheel_rate_N_per_m", &PoseNumbers::wheel_rate_N_per_m);
  add("roll_rate_Nm_per_rad", &PoseNumbers::roll_rate_Nm_per_rad);
  // Without the unsprung mass, which the tyre carries besides.
  add("spring_load_per_wheel_N", &PoseNumbers::wheel_load_N);
  add("bind_N", &PoseNumbers::bind_N);
  add("bind_roll_Nm", &PoseNumbers::bind_roll_Nm);
  add("bind_heave_N", &PoseNumbers::bind_heave_N);
}

}  // namespace

std::string sweep_csv(const AxleModel& axle, const Sweep& sweep) {
  Table table(sweep);
  add_pose(axle, table);
  add_forces(axle, table);
  add_numbers(table);
  return table.write();
}

}  // namespace rig::check
