#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "units/quantity.h"

/// Any bytes, read as every dimension, give a finite value or an explained error; what is printed
/// of a value can be read again.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using rig::units::Dimension;
  const std::string text(data, data + size);
  for (int i = 0; i <= static_cast<int>(Dimension::kRatio); ++i) {
    const auto dimension = static_cast<Dimension>(i);
    const auto reading = rig::units::parse_quantity(text, dimension);
    if (!reading) {
      RIG_REQUIRE(!reading.error().front().code.empty());
      RIG_REQUIRE(!reading.error().front().remedy.empty());
      continue;
    }
    RIG_REQUIRE(std::isfinite(reading->si));
    for (const bool metric : {false, true}) {
      const std::string printed =
          rig::units::print_quantity(reading->si, dimension, {.metric = metric});
      if (printed.find("infinite") != std::string::npos) continue;
      const auto again = rig::units::parse_quantity(printed, dimension);
      RIG_REQUIRE(again.has_value() || again.error().front().code == "units.out_of_range");
    }
  }
  return 0;
}
