import { memo, useEffect, useState } from "react";
import { choose, workOf } from "../../api/choose";
import { client, type Where } from "../../api/client";
import type { Reading } from "../../api/shop-types";
import { getState, useAnswers, useStore, type Work } from "../../api/store";
import { Stacked } from "../common/figures";

const kStill_ms = 700;
const kFew = 4;

/** What to measure next: the readings that move the findings most, for this sheet. */
export const NextList = memo(function NextList({ work }: { work: Work }) {
  const readings = useReadings().filter((r) => workOf(r.path) === work);
  const [all, setAll] = useState(false);
  if (readings.length === 0) return null;
  const shown = all ? readings : readings.slice(0, kFew);
  return (
    <section className="next" aria-label="What to measure next">
      <h3>What to measure next</h3>
      <ol>
        {shown.map((r) => (
          <li key={r.path}>
            <button type="button" onClick={() => choose(r.path)}>
              <span className="next-what">
                <strong>{r.label}</strong>
                <span className="next-now">
                  <span className="estimate">
                    <Stacked text={r.now} />
                  </span>
                  {r.plus_minus !== "" && (
                    <>
                      {" "}
                      ± <Stacked text={r.plus_minus} />
                    </>
                  )}
                </span>
              </span>
              {r.moves[0] && (
                <span className="next-why">
                  <Stacked text={`${r.moves[0].sentence} It may be ${r.moves[0].by}.`} />
                </span>
              )}
            </button>
          </li>
        ))}
      </ol>
      {readings.length > kFew && (
        <button type="button" className="quiet" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? "The first few" : `All ${readings.length}`}
        </button>
      )}
    </section>
  );
});

interface Kept {
  build: string;
  variant: string | null;
  etag: string;
  readings: Reading[];
}

let kept: Kept | null = null;

/** What was last answered for this build and variant, of whatever state; another's is none. */
function keptOf(place: Where | null): Reading[] {
  return kept?.build === place?.build && kept?.variant === place?.variant
    ? (kept?.readings ?? kNone)
    : kNone;
}

const kNone: Reading[] = [];

/** Asked for when the hand has been still a while: it takes many answers to make. */
function useReadings(): Reading[] {
  const etag = useAnswers((a) => a.etag);
  const place = useStore((s) => s.place);
  const [, setAnswered] = useState(0);
  useEffect(() => {
    if (!place || (keptOf(place) === kept?.readings && kept.etag === etag)) return;
    const timer = setTimeout(async () => {
      try {
        const { readings } = await client.next(place);
        // Answered too late: another build or variant is open.
        if (getState().place !== place) return;
        kept = { ...place, etag, readings };
        setAnswered((n) => n + 1);
      } catch {
        // The list is a help, not an answer: it stays as it was.
      }
    }, kStill_ms);
    return () => clearTimeout(timer);
  }, [etag, place]);
  return keptOf(place);
}
