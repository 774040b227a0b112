import { memo, useId, useState } from "react";
import { useAnswers } from "../../api/store";
import type { Finding, Numeric, Verdict, WorkingStep } from "../../api/types";
import { Steps, Working } from "../findings/working";
import { Figures, Stacked } from "./figures";
import { Mark } from "./mark";

export interface NumberRowProps {
  label: string;
  value: Numeric;
  verdict?: Verdict | null;
  low?: Numeric | null;
  high?: Numeric | null;
  plusMinus?: Numeric | null;
  /** Id of the finding that judges it. */
  finding?: string | null;
  /** What it is. */
  explain?: string;
  /** What is normal. */
  usual?: string | undefined;
  /** How it was worked out, where no finding tells it. */
  working?: WorkingStep[] | undefined;
  /** Where it stands at the moment, if the truck has been moved. */
  now?: Numeric | undefined;
}

/** One number: name, value, scale with its limits, mark; tapping it opens the working in place. */
export const NumberRow = memo(function NumberRow(props: NumberRowProps) {
  const { label, value, low = null, high = null, plusMinus = null, explain = "", now } = props;
  const working = props.working ?? [];
  const usual = props.usual ?? "";
  const finding = useAnswers((a) => a.report.findings.find((f) => f.id === props.finding) ?? null);
  const verdict = props.verdict ?? finding?.verdict ?? null;
  const [open, setOpen] = useState(false);
  const id = useId();
  const canOpen = explain !== "" || finding !== null || working.length > 0;
  const body = (
    <>
      <span className="row-label">{label}</span>
      <span className="row-value">
        <Figures value={value} />
        {plusMinus?.si != null && plusMinus.si > 0 && (
          <span className="pm">
            ± <Stacked text={plusMinus.text} />
          </span>
        )}
        {now && now.text !== value.text && (
          <span className="now">
            now <Stacked text={now.text} />
          </span>
        )}
      </span>
      <Scale value={value} low={low} high={high} now={now} />
      <span className="row-mark">
        {value.si === null ? <Mark kind="unknown" /> : verdict && <Mark kind={verdict} />}
      </span>
    </>
  );
  return (
    <div className={`number-row${verdict ? ` ${verdict}` : ""}${open ? " open" : ""}`}>
      {canOpen ? (
        <button
          type="button"
          className="row-head"
          aria-expanded={open}
          aria-controls={id}
          onClick={() => setOpen(!open)}
        >
          {body}
        </button>
      ) : (
        <div className="row-head">{body}</div>
      )}
      {open && (
        <div id={id} className="row-working">
          {explain !== "" && (
            <p className="explain">
              <Stacked text={explain} />
            </p>
          )}
          {usual !== "" && (
            <p className="usual">
              <span>Usual:</span> <Stacked text={usual} />
            </p>
          )}
          {finding && <FindingShort finding={finding} />}
          {!finding?.working.length && working.length > 0 && (
            <div className="working">
              <Steps steps={working} />
            </div>
          )}
        </div>
      )}
    </div>
  );
});

function FindingShort({ finding }: { finding: Finding }) {
  return (
    <>
      <p>
        <Stacked text={finding.sentence} />
      </p>
      {finding.verdict !== "good" && finding.advice !== "" && (
        <p className="advice">
          <Stacked text={finding.advice} />
        </p>
      )}
      <Working finding={finding} />
    </>
  );
}

/** A thin scale with the limits marked and the value on it. */
export function Scale(props: {
  value: Numeric;
  low: Numeric | null;
  high: Numeric | null;
  now?: Numeric | undefined;
}) {
  const value = props.value.si;
  const low = props.low?.si ?? null;
  const high = props.high?.si ?? null;
  if (value === null || (low === null && high === null))
    return <span className="scale no-limits" />;
  const now = props.now?.si ?? null;
  const spots = [value, low, high, now].filter((s) => s !== null);
  // With one limit the scale starts at nothing, so that the share of it can be seen.
  if (low === null || high === null) spots.push(0);
  const [least, most] = [Math.min(...spots), Math.max(...spots)];
  const room = (most - least || Math.abs(most) || 1) * 0.12;
  const share = (s: number) =>
    `${(((s - least + room) / (most - least + 2 * room)) * 100).toFixed(2)}%`;
  const from = low === null ? "0%" : share(low);
  const to = high === null ? "100%" : share(high);
  return (
    <span className="scale" aria-hidden="true">
      <span className="scale-line" />
      <span className="scale-good" style={{ left: from, right: `calc(100% - ${to})` }} />
      {low !== null && props.low && <Limit at={share(low)} text={props.low.text} />}
      {high !== null && props.high && <Limit at={share(high)} text={props.high.text} />}
      {now !== null && <span className="scale-now" style={{ left: share(now) }} />}
      <span className="scale-value" style={{ left: share(value) }} />
    </span>
  );
}

function Limit({ at, text }: { at: string; text: string }) {
  return (
    <span className="scale-limit" style={{ left: at }}>
      {/* The nearer to the scale's end, the more of the text stands before the limit: none is cut. */}
      <span style={{ transform: `translateX(-${at})` }}>
        <Stacked text={text} />
      </span>
    </span>
  );
}
