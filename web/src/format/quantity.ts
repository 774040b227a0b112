import type { Units } from "../api/types";

const kMinus = "−";

/** A value in the build's unit for its dimension, for axis ticks and handles only. */
export function inUnit(si: number, dimension: string, units: Units): number {
  return si * (units.per_si[dimension]?.factor ?? 1);
}

export function unitOf(dimension: string, units: Units): string {
  return units.per_si[dimension]?.unit ?? "";
}

function signed(text: string, negative: boolean, plus: boolean): string {
  if (negative) return `${kMinus}${text}`;
  return plus ? `+${text}` : text;
}

/** Inches to the nearest fraction: 41.62 to 16ths is "41 5/8". */
export function inchFraction(inches: number, denominator: number): string {
  const parts = Math.round(Math.abs(inches) * denominator);
  const whole = Math.floor(parts / denominator);
  let over = parts - whole * denominator;
  let under = denominator;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const text =
    over === 0 ? `${whole}` : whole === 0 ? `${over}/${under}` : `${whole} ${over}/${under}`;
  return signed(text, inches < 0 && parts > 0, false);
}

/** A length as the shop reads it off a tape. */
export function lengthText(si: number, units: Units, plus = false): string {
  const value = inUnit(si, "length", units);
  if (units.metric) {
    const rounded = Math.round(value);
    return `${signed(String(Math.abs(rounded)), rounded < 0, plus && rounded > 0)} mm`;
  }
  const text = inchFraction(Math.abs(value), units.fraction_of_inch);
  return `${signed(text, value < 0 && text !== "0", plus && text !== "0")} in`;
}

/** A length along the floor in feet and inches, or metres. */
export function stationText(si: number, units: Units): string {
  const value = inUnit(si, "length", units);
  if (units.metric) return `${signed((Math.abs(value) / 1000).toFixed(1), value < -49, false)} m`;
  const whole = Math.round(Math.abs(value));
  const feet = Math.floor(whole / 12);
  const inches = whole - feet * 12;
  const text = inches === 0 ? `${feet}′` : feet === 0 ? `${inches}″` : `${feet}′ ${inches}″`;
  return signed(text, value < 0 && whole > 0, false);
}

export function degreesText(rad: number, plus = false): string {
  const tenths = Math.round((rad * 1800) / Math.PI);
  const text = (Math.abs(tenths) / 10).toFixed(1);
  return `${signed(text, tenths < 0, plus && tenths > 0)}°`;
}
