import type { Json } from "../../api/types";

/** A quantity as it stands in the build file, with what is known about it. */
export interface Known {
  /** As the shop wrote it; empty: not known. */
  text: string;
  /** Whether the file has the long form, whose number stands under "value". */
  long: boolean;
  from: string | null;
  plus_minus: string | null;
  note: string | null;
}

export function knownOf(value: Json | undefined): Known {
  const none: Known = { text: "", long: false, from: null, plus_minus: null, note: null };
  if (value === undefined || value === null) return none;
  if (typeof value === "object" && !Array.isArray(value)) {
    const word = (key: string) => {
      const told = value[key];
      return told === undefined || told === null ? null : String(told);
    };
    return {
      text: word("value") ?? "",
      long: true,
      from: word("from"),
      plus_minus: word("plus_minus"),
      note: word("note"),
    };
  }
  return { ...none, text: String(value) };
}

/** What a quantity is known from, and how the page says it. */
export const kFrom: [string, string][] = [
  ["design", "chosen, by design"],
  ["tape", "measured, by tape"],
  ["scale", "weighed, on a scale"],
  ["catalogue", "looked up, in a catalogue"],
  ["estimate", "estimated"],
];

/** The quantity with something else known about it: in the short form where nothing is. */
export function knownAs(
  value: Json | undefined,
  change: Partial<Pick<Known, "from" | "plus_minus" | "note">>,
): Json {
  const { text, long: _, ...about } = knownOf(value);
  const told = Object.entries({ ...about, ...change }).filter(([, v]) => v !== null && v !== "");
  return told.length === 0 ? text : { value: text, ...Object.fromEntries(told) };
}

/** An id for a thing of this name: "Spare wheel" is "spare_wheel". Null: the name has no letter. */
export function idFrom(name: string, taken: readonly string[]): string | null {
  const plain = name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, "_")
    .replaceAll(/^[^a-z]+|_+$/g, "")
    .slice(0, 36);
  if (plain === "") return null;
  for (let n = 1; ; n++) {
    const id = n === 1 ? plain : `${plain}_${n}`;
    if (!taken.includes(id)) return id;
  }
}
