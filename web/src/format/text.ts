/** A number text cut where a stacked fraction stands: "41 5/8 in" is 41 and 5 over 8, then in. */
export type Piece =
  | { kind: "words"; text: string }
  | { kind: "fraction"; whole: string; over: string; under: string };

const kFraction = /(?:(\d+)[ -])?(\d+)\s*\/\s*(\d+)/g;

export function piecesOf(text: string): Piece[] {
  const pieces: Piece[] = [];
  let from = 0;
  for (const found of text.matchAll(kFraction)) {
    const before = text.slice(from, found.index);
    if (before !== "") pieces.push(words(before));
    const [, whole = "", over = "", under = ""] = found;
    pieces.push({ kind: "fraction", whole, over, under });
    from = found.index + found[0].length;
  }
  const rest = text.slice(from);
  if (rest !== "") pieces.push(words(rest));
  return pieces;
}

const kBeforeUnit = /(^|\d) (?=(?:in|ft|mm|cm|m|lbf?|lb-ft|kg|k?N|deg|Hz|rpm|mph)\b|[%°])/g;

/** With a true minus sign, which stands as high as the figures, and no line end before a unit. */
function words(text: string): Piece {
  return {
    kind: "words",
    text: text.replace(/(^|[\s(~])-(?=\d|$)/g, "$1−").replace(kBeforeUnit, "$1\u00a0"),
  };
}

/** A quantity text in parts: "at least 41 5/8 in" is "at least", "41 5/8" and "in". */
export function splitUnit(text: string): { lead: string; figures: string; unit: string } {
  const found =
    /^(at least |at most |)([~+\-−±]*\s*[\d.,]+(?:[ -]\d+\s*\/\s*\d+|\s*\/\s*\d+)?)\s*(.*)$/.exec(
      text,
    );
  if (!found) return { lead: "", figures: text, unit: "" };
  return { lead: (found[1] ?? "").trim(), figures: found[2] ?? "", unit: found[3] ?? "" };
}

/** An estimate is marked by a tilde in its text. */
export function isEstimate(text: string): boolean {
  return text.trimStart().startsWith("~");
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A key of the build file in words: "free_length" is "Free length". */
export function wordsOf(key: string): string {
  return capital(key.replaceAll("_", " "));
}
