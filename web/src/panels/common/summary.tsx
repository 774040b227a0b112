import { memo } from "react";
import { Stacked } from "./figures";

/** The two or three sentences a builder wants, at the top of a sheet. */
export const Summary = memo(function Summary({ sentences }: { sentences: string[] }) {
  if (sentences.length === 0) return null;
  return (
    <div className="summary">
      {sentences.map((sentence) => (
        <p key={sentence}>
          <Stacked text={sentence} />
        </p>
      ))}
    </div>
  );
});
