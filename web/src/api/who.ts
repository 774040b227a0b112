const kKept = "rigwright.initials";

/** This page among the shop's screens, so that it knows its own edits among the events. */
export const screen = Array.from(crypto.getRandomValues(new Uint8Array(6)), (byte) =>
  byte.toString(16).padStart(2, "0"),
).join("");

/** Initials of who works at this screen; empty: would not say; null: not asked yet. */
export function whoIsHere(): string | null {
  try {
    return localStorage.getItem(kKept);
  } catch {
    return null;
  }
}

export function keepInitials(text: string): void {
  localStorage.setItem(kKept, initialsFrom(text));
}

/** Two or three capitals, as they are chalked beside a step: "j.  d." is "JD". */
export function initialsFrom(text: string): string {
  return text
    .toUpperCase()
    .replaceAll(/[^A-Z]/g, "")
    .slice(0, 3);
}
