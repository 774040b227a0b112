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
