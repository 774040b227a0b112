import type { Numeric } from "../../api/types";
import { isEstimate, piecesOf, splitUnit } from "../../format/text";
import { Mark } from "./mark";

/** A text with its fractions stacked; read aloud as it is written. */
export function Stacked({ text }: { text: string }) {
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
}

/** A number as it is read from across the bench: large figures, small unit. */
export function Figures({ value, size = "row" }: { value: Numeric; size?: "row" | "small" }) {
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
          {unit.startsWith("°") ? "" : "\u00a0"}
          {unit}
        </span>
      )}
    </span>
  );
}
