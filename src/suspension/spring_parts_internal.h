#pragma once

#include <optional>

#include "suspension/from_build.h"

/// What a spring's own parts tell where its file entry does not.
namespace rig::suspension {

/// Where missing values, worked-out values and faults are noted.
struct Notes {
  std::vector<Missing>& missing;
  std::vector<WorkedOut>& worked_out;
  Diagnostics& faults;
};

struct CoilNumbers {
  std::optional<double> rate_N_per_m;
  std::optional<double> solid_length_m;
};

/// Rate and solid length of a coil: as given, else from its wire.
CoilNumbers find_coil_numbers(const build::Entry<build::Coil>& coil, Notes notes);

/// Rate of a leaf pack: as given, else from its leaves; needs the eyes and the seat for that.
std::optional<double> find_leaf_rate_N_per_m(const build::Entry<build::LeafPack>& pack,
                                             Notes notes);

}  // namespace rig::suspension
