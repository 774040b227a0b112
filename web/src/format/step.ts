interface Written {
  negative: boolean;
  whole: string;
  over: string;
  under: string;
  /** Between a whole number and its fraction. */
  joiner: string;
  /** Between the figures and the unit. */
  gap: string;
  unit: string;
}

const kWritten =
  /^([-−+]?)(?:(\d+)([ -])(\d+)\s*\/\s*(\d+)|(\d+)\s*\/\s*(\d+)|(\d+(?:\.\d+)?))(\s*)(.*)$/;
const kInch = /^("|″|in|inch|inches)$/;
const kFeet = /^([-−]?)(\d+)\s*(?:'|′|ft)\s*-?\s*(.*)$/;

function written(text: string): Written | null {
  const found = kWritten.exec(text);
  if (!found) return null;
  return {
    negative: found[1] === "-" || found[1] === "−",
    whole: found[2] ?? found[8] ?? "",
    over: found[4] ?? found[6] ?? "",
    under: found[5] ?? found[7] ?? "",
    joiner: found[3] ?? " ",
    gap: found[9] ?? "",
    unit: found[10] ?? "",
  };
}

/**
 * The same quantity one step up or down, written the way it was: inches by a sixteenth, anything else
 * by one in its last digit. Null: the text is not one this can step.
 */
export function stepText(text: string, direction: 1 | -1): string | null {
  const clean = text.trim();
  const feet = kFeet.exec(clean);
  if (feet) return stepFeet(feet, direction);
  const w = written(clean);
  if (!w) return null;
  if (kInch.test(w.unit) && !w.whole.includes(".")) {
    const { parts, denominator } = partsOf(w);
    const next = (w.negative ? -parts : parts) + (direction * denominator) / 16;
    return `${fractionText(next, denominator, w.joiner)}${w.gap}${w.unit}`;
  }
  if (w.over !== "") return null;
  const decimals = w.whole.split(".")[1]?.length ?? 0;
  const value = (w.negative ? -1 : 1) * Number(w.whole) + direction * 10 ** -decimals;
  return `${value.toFixed(decimals)}${w.gap}${w.unit}`;
}

function stepFeet(found: RegExpExecArray, direction: 1 | -1): string | null {
  const w = written(found[3] ?? "");
  if (!w || w.negative || !kInch.test(w.unit) || w.whole.includes(".")) return null;
  const { parts, denominator } = partsOf(w);
  const foot = 12 * denominator;
  const size = Number(found[2]) * foot + parts;
  const next = (found[1] ? -size : size) + (direction * denominator) / 16;
  const feet = Math.floor(Math.abs(next) / foot);
  const rest = fractionText(Math.abs(next) - feet * foot, denominator, "-");
  return `${next < 0 ? "-" : ""}${feet}' ${rest}"`;
}

/** In sixteenths, or in the finer parts it is written in. */
function partsOf(w: Written): { parts: number; denominator: number } {
  const denominator = Math.max(16, Number(w.under || 16));
  const share = w.over === "" ? 0 : Number(w.over) / Number(w.under);
  return { parts: Math.round((Number(w.whole || 0) + share) * denominator), denominator };
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
    over === 0
      ? `${whole}`
      : whole === 0
        ? `${over}/${under}`
        : `${whole}${joiner}${over}/${under}`;
  return parts < 0 ? `-${text}` : text;
}
