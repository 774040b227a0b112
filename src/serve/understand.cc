#include "serve/understand.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "units/dimension_keys.h"

namespace rig::serve {
using units::Dimension;

Result<Understood> understand(const std::string& dimension, const std::string& text,
                              const units::UnitChoices& choices) {
  const auto& keys = units::kDimensionKeys;
  const auto* const found =
      std::find_if(keys.begin(), keys.end(),
                   [&](const units::DimensionKey& known) { return known.key == dimension; });
  if (found == keys.end()) {
    return fail("serve.unknown_dimension", "/dimension",
                fmt::format("\"{}\" is no dimension", dimension), "such as length or mass");
  }
  const Dimension kind = found->dimension;
  const std::string_view unit = units::unit_name(kind, choices);
  const auto whole = units::parse_quantity(text, kind);
  const auto read = whole ? whole : units::parse_quantity(text, kind, unit);
  if (!read) return Failure{read.error()};

  const auto first = text.find_first_not_of(" \t\r\n");
  const auto last = text.find_last_not_of(" \t\r\n");
  std::string written = text.substr(first, last - first + 1);
  if (!whole) written += fmt::format(" {}", unit);
  const units::UnitChoices others{.metric = !choices.metric,
                                  .fraction_of_inch = choices.fraction_of_inch};
  return Understood{.si = read->si,
                    .text = units::print_quantity(read->si, kind, choices),
                    .written = std::move(written),
                    .also = units::print_quantity(read->si, kind, others)};
}

}  // namespace rig::serve
