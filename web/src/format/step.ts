/**
 * The same quantity one step up or down, written the way it was: inches by a sixteenth, millimetres by
 * one, anything else by one in its last digit. Null: the text is not one this can step.
 */
export function stepText(text: string, direction: 1 | -1): string | null {
  const clean = text.trim();
  const feet = /^(-?)(\d+)\s*(?:'|′|ft)\s*-?\s*(.*?)\s*("|″|in|inches)$/.exec(clean);
  if (feet) return stepFeet(feet, direction);
  const found = /^([-−+]?)(\d+(?:\.\d+)?)?(?:(?:^|[ -])?(\d+)\s*\/\s*(\d+))?\s*(.*)$/.exec(clean);
  if (!found) return null;
  const [, sign, whole, over, under, unit = ""] = found;
  if (whole === undefined && over === undefined) return null;
  const negative = sign === "-" || sign === "−";
  const isInch = /^("|″|in|inch|inches)$/.test(unit);
  if (isInch && !(whole ?? "").includes(".")) {
    const denominator = Math.max(16, Number(under ?? 16));
    const value = Number(whole ?? 0) + (over ? Number(over) / Number(under) : 0);
    const parts = Math.round((negative ? -value : value) * denominator);
    const next = parts + direction * (denominator / 16);
    const joiner = /\d-\d+\s*\//.test(clean) ? "-" : " ";
    const gap = /\d\s+\D*$/.test(clean) ? " " : "";
    return `${fractionText(next, denominator, joiner)}${gap}${unit}`;
  }
  if (over !== undefined) return null;
  const decimals = (whole ?? "").split(".")[1]?.length ?? 0;
  const step = 10 ** -decimals;
  const value = (negative ? -1 : 1) * Number(whole) + direction * step;
  const gap = /\d\s+\D*$/.test(clean) ? " " : "";
  return `${value.toFixed(decimals)}${gap}${unit}`;
}

function stepFeet(found: RegExpExecArray, direction: 1 | -1): string | null {
  const inches = /^(\d+)?(?:[ -]?(\d+)\/(\d+))?$/.exec(found[3] ?? "");
  if (!inches) return null;
  const whole = Number(found[2]) * 12 + Number(inches[1] ?? 0);
  const denominator = Math.max(16, Number(inches[3] ?? 16));
  const over = inches[2] ? Number(inches[2]) / Number(inches[3]) : 0;
  const parts = Math.round((whole + over) * denominator) * (found[1] === "-" ? -1 : 1);
  const next = parts + direction * (denominator / 16);
  const size = Math.abs(next);
  const newFeet = Math.floor(size / (12 * denominator));
  const rest = fractionText(size - newFeet * 12 * denominator, denominator, "-");
  return `${next < 0 ? "-" : ""}${newFeet}' ${rest}"`;
}

function fractionText(parts: number, denominator: number, joiner: string): string {
  const size = Math.abs(parts);
  const whole = Math.floor(size / denominator);
  let over = size - whole * denominator;
  let under = denominator;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const text =
    over === 0 ? `${whole}` : whole === 0 ? `${over}/${under}` : `${whole}${joiner}${over}/${under}`;
  return parts < 0 ? `-${text}` : text;
}
