import { memo } from "react";
import type { Numeric } from "../../api/types";
import { isEstimate, piecesOf, splitUnit } from "../../format/text";
import { Mark } from "./mark";

/** A text with its fractions stacked; read aloud as it is written. */
export const Stacked = memo(function Stacked({ text }: { text: string }) {
  const pieces = piecesOf(text);
  if (pieces.length === 1 && pieces[0]?.kind === "words") return <>{pieces[0].text}</>;
  return (
    <>
      <span className="sr-only">{text}</span>
      <span aria-hidden="true" className="stacked">
        {pieces.map((piece, i) => {
          const key = `${i}`;
          return piece.kind === "words" ? (
            <span key={key}>{piece.text}</span>
          ) : (
            <span key={key} className="mixed">
              {piece.whole}
              <span className={piece.whole === "" ? "fraction alone" : "fraction"}>
                <span>{piece.over}</span>
                <span>{piece.under}</span>
              </span>
            </span>
          );
        })}
      </span>
    </>
  );
});

interface FiguresProps {
  value: Numeric;
  size?: "row" | "small";
}

/** Most edits move a number by less than its text tells. */
function readsAlike(before: FiguresProps, now: FiguresProps): boolean {
  return (
    before.size === now.size &&
    before.value.text === now.value.text &&
    (before.value.si === null) === (now.value.si === null)
  );
}

/** A number as it is read from across the bench: large figures, small unit. */
export const Figures = memo(function Figures({ value, size = "row" }: FiguresProps) {
  if (value.si === null) {
    // A row has the ring where its mark stands.
    return (
      <span className={`figures ${size} unknown`}>
        {size === "small" && <Mark kind="unknown" size={16} />} {value.text}
      </span>
    );
  }
  const { lead, figures, unit } = splitUnit(value.text);
  return (
    <span className={`figures ${size}${isEstimate(value.text) ? " estimate" : ""}`}>
      {lead !== "" && <span className="unit">{lead} </span>}
      <span className="value">
        <Stacked text={figures} />
      </span>
      {unit !== "" && (
        <span className="unit">
          {/^[°:]/.test(unit) ? "" : "\u00a0"}
          {unit}
        </span>
      )}
    </span>
  );
}, readsAlike);
