#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>

#include "units/fold_internal.h"
#include "units/quantity.h"
#include "units/unit_table_internal.h"

namespace rig::units {
namespace {

using internal::Unit;

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// Reads forward through folded text; every `take_` leaves the place alone when it finds nothing.
class Cursor {
 public:
  explicit Cursor(std::string_view text) : rest_(text) {}

  std::string_view rest() const { return rest_; }
  char peek() const { return rest_.empty() ? '\0' : rest_.front(); }
  void skip_blanks() {
    while (peek() == ' ') rest_.remove_prefix(1);
  }
  bool take(char c) {
    if (peek() != c) return false;
    rest_.remove_prefix(1);
    return true;
  }
  std::string_view take_digits() {
    std::size_t n = 0;
    while (n < rest_.size() && is_digit(rest_[n])) ++n;
    const std::string_view digits = rest_.substr(0, n);
    rest_.remove_prefix(n);
    return digits;
  }
  void move_to(std::string_view rest) { rest_ = rest; }

 private:
  std::string_view rest_;
};

enum class NumberFault { kNone, kNotANumber, kZeroDenominator, kNotProper, kOutOfRange };

struct Number {
  double value = 0;
  bool whole = true;  ///< Written as digits only.
  NumberFault fault = NumberFault::kNone;
};

/// The decimal text's value; `out_of_range` for what a double can't hold.
Number decimal_value(std::string_view text, bool whole) {
  Number number{.value = 0, .whole = whole};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number.value);
  if (error == std::errc::result_out_of_range) {
    number.fault = NumberFault::kOutOfRange;
  } else if (error != std::errc() || end != text.data() + text.size()) {
    number.fault = NumberFault::kNotANumber;
  }
  return number;
}

struct Fraction {
  std::string_view over;
  std::string_view under;
};

/// "5/8", with blanks about the stroke if any.
std::optional<Fraction> take_fraction(Cursor& cursor) {
  Cursor ahead = cursor;
  Fraction fraction{.over = ahead.take_digits(), .under = {}};
  ahead.skip_blanks();
  if (fraction.over.empty() || !ahead.take('/')) return std::nullopt;
  ahead.skip_blanks();
  fraction.under = ahead.take_digits();
  if (fraction.under.empty()) return std::nullopt;
  cursor = ahead;
  return fraction;
}

Number add_fraction(double whole, const Fraction& fraction, bool mixed) {
  const Number over = decimal_value(fraction.over, true);
  const Number under = decimal_value(fraction.under, true);
  Number number{.value = 0, .whole = false};
  if (over.fault != NumberFault::kNone || under.fault != NumberFault::kNone) {
    number.fault = NumberFault::kOutOfRange;
  } else if (under.value == 0) {
    number.fault = NumberFault::kZeroDenominator;
  } else if (mixed && over.value >= under.value) {
    number.fault = NumberFault::kNotProper;
  } else {
    // One rounding: an eighth, sixteenth or thirty-second of an inch is then exact.
    number.value = (whole * under.value + over.value) / under.value;
  }
  return number;
}

/// A number without sign: "41", "41.625", "4.1e2", "5/8", "41 5/8" or "41-5/8".
Number take_unsigned_number(Cursor& cursor) {
  if (const auto fraction = take_fraction(cursor)) return add_fraction(0, *fraction, false);
  const std::string_view start = cursor.rest();
  const std::string_view digits = cursor.take_digits();
  if (!digits.empty() && cursor.peek() != '.') {
    Cursor ahead = cursor;
    ahead.skip_blanks();
    ahead.take('-');
    ahead.skip_blanks();
    if (ahead.rest().size() < cursor.rest().size()) {
      if (const auto fraction = take_fraction(ahead)) {
        const Number whole = decimal_value(digits, true);
        if (whole.fault != NumberFault::kNone) return whole;
        cursor = ahead;
        return add_fraction(whole.value, *fraction, true);
      }
    }
  }
  bool only_digits = true;
  std::size_t decimals = 0;
  if (cursor.take('.')) {
    only_digits = false;
    decimals = cursor.take_digits().size();
  }
  if (digits.empty() && decimals == 0) {
    return {.value = 0, .whole = false, .fault = NumberFault::kNotANumber};
  }
  Cursor ahead = cursor;
  if (ahead.take('e') || ahead.take('E')) {
    if (!ahead.take('-')) ahead.take('+');
    if (!ahead.take_digits().empty()) {
      cursor = ahead;
      only_digits = false;
    }
  }
  return decimal_value(start.substr(0, start.size() - cursor.rest().size()), only_digits);
}

/// What is wrong with one text; makes every error of this file, so that they read alike.
struct Faults {
  std::string_view text;
  Dimension dimension;

  Failure make(std::string code, const std::string& message, std::string remedy) const {
    return fail("units." + std::move(code), "", internal::quote_for_message(text) + message,
                std::move(remedy));
  }
  std::string expected() const {
    std::string out = "Write " + std::string(dimension_name(dimension)) + " in " +
                      internal::list_units(dimension);
    if (dimension == Dimension::kRatio) out += ", or as a bare number such as 0.6";
    if (dimension == Dimension::kGearRatio) out += ", or as a bare number such as 4.56";
    return out + ".";
  }
  Failure number(NumberFault fault) const {
    if (fault == NumberFault::kZeroDenominator) {
      return make("not_a_number", " has a fraction over zero.", "Correct the fraction.");
    }
    if (fault == NumberFault::kNotProper) {
      return make("not_a_number", " has a fraction of one or more after its whole number.",
                  "Write it as 42 1/8, not 41 9/8.");
    }
    if (fault == NumberFault::kOutOfRange) return out_of_range();
    return make("not_a_number", " does not start with a number.",
                "Write a number and its unit, such as 41 5/8 in, 1057 mm or 320 lbf/in.");
  }
  Failure out_of_range() const {
    return make("out_of_range", " is too large or too small a number.",
                "Check the number of digits and the exponent.");
  }
  Failure broken_number() const {
    return make("not_a_number",
                " has more than one number, or a number broken by a comma or a blank.",
                "Write thousands closed up, 1057, and decimals with a point, 12.5; fractions as "
                "41 5/8; feet and inches as 3' 5-5/8\".");
  }
  Failure no_unit() const { return make("no_unit", " has no unit.", expected()); }
};

/// The remedy for an unknown unit that has a better answer than its nearest spelling, or empty.
std::string_view special_remedy(std::string_view canonical) {
  if (canonical == "ton" || canonical == "tons" || canonical == "T") {
    return "A ton is 2000 lb, 2240 lb or 1000 kg: write lb, kg or t.";
  }
  return {};
}

Failure explain_unknown_unit(const Faults& faults, std::string_view rest) {
  // A known unit at the front, then something more.
  for (std::size_t end = rest.size(); end-- > 1;) {
    const char before = rest[end - 1];
    const bool boundary = rest[end] == ' ' || before == '"' || before == '\'';
    if (boundary && internal::find_unit(internal::canonical_unit(rest.substr(0, end)),
                                        faults.dimension) != nullptr) {
      return faults.make(
          "trailing_text",
          " goes on after its unit: " + internal::quote_for_message(rest.substr(end)) + ".",
          "Leave only the number and its unit.");
    }
  }
  const std::string canonical = internal::canonical_unit(rest);
  std::string remedy(special_remedy(canonical));
  if (remedy.empty()) {
    if (const Unit* nearest = internal::find_nearest_unit(canonical, faults.dimension)) {
      remedy = "Did you mean " + std::string(nearest->name) + "? ";
    }
    remedy += faults.expected();
  }
  return faults.make("unknown_unit",
                     ": " + internal::quote_for_message(rest) + " is not a unit known here.",
                     remedy);
}

/// The text after a foot mark when inches follow it, else nothing. A foot mark is `'`, ft, foot or
/// feet; after a word a blank or hyphen must come, so that "5 ft3" stays a volume.
std::optional<std::string_view> inches_after_feet(std::string_view rest) {
  std::size_t end = 0;
  if (!rest.empty() && rest.front() == '\'') {
    end = 1;
  } else {
    while (end < rest.size() && std::isalpha(static_cast<unsigned char>(rest[end])) != 0) ++end;
    const Unit* unit = internal::find_unit(rest.substr(0, end), Dimension::kLength);
    if (unit == nullptr || unit->name != "ft") return std::nullopt;
    if (end < rest.size() && rest[end] == '.') ++end;
    if (end < rest.size() && is_digit(rest[end])) return std::nullopt;
  }
  Cursor cursor(rest.substr(end));
  cursor.skip_blanks();
  cursor.take('-');
  cursor.skip_blanks();
  if (is_digit(cursor.peek()) || cursor.peek() == '.') return cursor.rest();
  return std::nullopt;
}

Result<Reading> make_reading(const Faults& faults, double value, const Unit& unit) {
  const double si = value * unit.si;
  if (!std::isfinite(si) || (si == 0 && value != 0)) return faults.out_of_range();
  return Reading{.si = si, .unit = std::string(unit.name)};
}

Result<Reading> parse_feet_and_inches(const Faults& faults, double sign, const Number& feet,
                                      std::string_view inches_text) {
  if (faults.dimension != Dimension::kLength) {
    return faults.make("wrong_dimension", " is a length.", faults.expected());
  }
  if (!feet.whole) {
    return faults.make("not_a_number", " has a part of a foot before its inches.",
                       "Write whole feet, then inches: 3' 5-5/8\".");
  }
  Cursor cursor(inches_text);
  const Number inches = take_unsigned_number(cursor);
  if (inches.fault != NumberFault::kNone) return faults.number(inches.fault);
  cursor.skip_blanks();
  const std::string_view rest = cursor.rest();
  if (rest.empty()) {
    return faults.make("no_unit", " has no unit after its inches.",
                       "Add an inch mark: 3' 5-5/8\" or 3 ft 5-5/8 in.");
  }
  const Unit* unit = internal::find_unit(internal::canonical_unit(rest), faults.dimension);
  if (unit == nullptr) return explain_unknown_unit(faults, rest);
  if (unit->name != "in") {
    return faults.make("trailing_text", " has something other than inches after its feet.",
                       "Write feet and inches as 3' 5-5/8\".");
  }
  auto reading = make_reading(faults, sign * (feet.value * 12 + inches.value), *unit);
  if (reading) reading->unit = "ft in";
  return reading;
}

/// The advice that mends the commonest mistakes of dimension.
std::string wrong_dimension_remedy(const Faults& faults, const Unit& unit) {
  std::string remedy = faults.expected();
  if (faults.dimension == Dimension::kForce && unit.dimension == Dimension::kMass) {
    remedy += " A pound of force is lbf, a kilogram of force kgf.";
  } else if (faults.dimension == Dimension::kMass && unit.dimension == Dimension::kForce) {
    remedy += " A pound of mass is lb, as a scale shows it.";
  }
  return remedy;
}

}  // namespace

Result<Reading> parse_quantity(std::string_view text, Dimension dimension,
                               std::string_view default_unit) {
  const Faults faults{.text = text, .dimension = dimension};
  constexpr std::size_t kLongest_bytes = 200;
  if (text.size() > kLongest_bytes) {
    return faults.make("trailing_text", " is too long for a quantity.",
                       "Leave only the number and its unit.");
  }
  const std::string folded = internal::fold_to_ascii(text);
  if (folded.empty()) return fail("units.empty", "", "There is nothing here.", faults.expected());

  Cursor cursor(folded);
  const double sign = cursor.peek() == '-' ? -1.0 : 1.0;
  if (!cursor.take('-')) cursor.take('+');
  cursor.skip_blanks();
  const Number number = take_unsigned_number(cursor);
  if (number.fault != NumberFault::kNone) return faults.number(number.fault);
  cursor.skip_blanks();

  const std::string_view rest = cursor.rest();
  if (rest.empty()) {
    if (!default_unit.empty()) {
      const Unit* unit = internal::find_unit(
          internal::canonical_unit(internal::fold_to_ascii(default_unit)), dimension);
      RIG_REQUIRE(unit != nullptr && unit->dimension == dimension);
      return make_reading(faults, sign * number.value, *unit);
    }
    if (!is_pure_number(dimension)) return faults.no_unit();
    return Reading{.si = sign * number.value, .unit = ""};
  }
  if (is_digit(rest.front()) || rest.front() == ',' || rest.front() == '.' || rest.front() == '/') {
    return faults.broken_number();
  }
  if (const auto inches = inches_after_feet(rest)) {
    return parse_feet_and_inches(faults, sign, number, *inches);
  }
  const Unit* unit = internal::find_unit(internal::canonical_unit(rest), dimension);
  if (unit == nullptr) return explain_unknown_unit(faults, rest);
  if (unit->dimension != dimension) {
    return faults.make("wrong_dimension",
                       " is " + std::string(dimension_name(unit->dimension)) +
                           ", but this should be " + std::string(dimension_name(dimension)) + ".",
                       wrong_dimension_remedy(faults, *unit));
  }
  return make_reading(faults, sign * number.value, *unit);
}

}  // namespace rig::units
