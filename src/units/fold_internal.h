#pragma once

#include <string>
#include <string_view>

/// Private to `units`.
namespace rig::units::internal {

/// Plain ASCII for what a shop types or a tablet's keyboard "improves": vulgar fractions ("⅝"
/// becomes " 5/8 "), raised and lowered digits ("41⁵⁄₈"), primes and curly quotes, dashes and minus
/// signs, special blanks, middle dots (as '*') and the degree sign (as "deg"). Two foot marks
/// become an inch mark. Anything else that is not printable ASCII, broken UTF-8 included, becomes
/// '?', which no quantity contains. Blanks at both ends are removed.
std::string fold_to_ascii(std::string_view utf8);

/// The text in quotes for an error message: valid UTF-8 whatever came in, cut after 40 characters.
std::string quote_for_message(std::string_view utf8);

}  // namespace rig::units::internal
