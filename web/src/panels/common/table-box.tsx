import type { ReactNode } from "react";

/** A table that scrolls sideways where it is wider than the sheet. */
export function TableBox({ caption, children }: { caption: string; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard.
    <section className="table-box" aria-label={caption} tabIndex={0}>
      <table>
        <caption>{caption}</caption>
        {children}
      </table>
    </section>
  );
}
