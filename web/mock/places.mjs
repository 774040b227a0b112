// Places and names of the mock's document as the scene tells them.
const kInch = 0.0254;

/** Inches of what the mock's document writes: "41 5/8 in", "-5 1/2 in". Null: not such a text. */
export function inches(value) {
  const text = typeof value === "object" && value !== null ? value.value : value;
  const found = /^(-)?(\d+(?:\.\d+)?)?(?:[ -]?(\d+)\/(\d+))?\s*(?:in|")$/.exec(
    String(text ?? "").trim(),
  );
  if (!found || (found[2] === undefined && found[3] === undefined)) return null;
  const size = Number(found[2] ?? 0) + (found[3] ? Number(found[3]) / Number(found[4]) : 0);
  return found[1] ? -size : size;
}

export const metres = (value) => (inches(value) ?? 0) * kInch;
export const vector = (p) => [-metres(p.station), metres(p.offset), metres(p.height)];
export const mirrored = (p) => [p[0], -p[1], p[2]];
export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/** What a thing is called, with its side where it is given once for both. */
export const named = (thing, side) =>
  thing.both_sides ? `${side > 0 ? "Left" : "Right"} ${thing.label}` : capital(thing.label);
