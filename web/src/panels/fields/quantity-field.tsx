import { type KeyboardEvent, memo, useId, useRef, useState } from "react";
import { forgive } from "../../api/entries";
import { join } from "../../api/pointer";
import { useAnswers, useStore } from "../../api/store";
import type { Diagnostic, Json, Path } from "../../api/types";
import { stepText } from "../../format/step";
import { Stacked } from "../common/figures";
import { ClashBox } from "./clash-box";
import { enter } from "./entered";
import { useKeypad } from "./keypad";
import { knownOf } from "./known";
import { Provenance } from "./provenance";
import { useEcho, writtenFor } from "./understand";

interface QuantityFieldProps {
  path: Path;
  label: string;
  doc: string;
  dimension: string;
  value: Json | undefined;
  /** As it was when the page opened the build, if that was another. */
  was: string | null;
}

/** A quantity, typed as the shop writes it; what is known about it is one tap away. */
export const QuantityField = memo(function QuantityField(props: QuantityFieldProps) {
  const { path, label, doc, dimension, value, was } = props;
  const pendingWhole = useStore((s) => s.pending[path]);
  const known = knownOf(pendingWhole === undefined ? value : pendingWhole);
  const at = known.long ? join(path, "value") : path;
  const pendingText = useStore((s) => s.pending[at]);
  const refused = useStore((s) => s.refused[at]);
  const units = useAnswers((a) => a.units);
  const [draft, setDraft] = useState<string | null>(null);
  const [asksHow, setAsksHow] = useState(false);
  const echo = useEcho(draft, dimension, units.metric);
  const input = useRef<HTMLInputElement>(null);
  /** Escape leaves the field and what was typed in it. */
  const givenUp = useRef(false);
  const id = useId();
  const keypad = useKeypad();

  const pending = typeof pendingText === "string" ? pendingText : undefined;
  const stands = pending ?? known.text;
  const shown = draft ?? refused?.text ?? stands;
  const isChanged = was !== null;

  const commit = async (text: string) => {
    const clean = text.trim();
    if (clean === stands) {
      forgive(at);
      setDraft(null);
      return;
    }
    const written = clean === "" ? undefined : await writtenFor(clean, dimension, units);
    enter(written === undefined ? path : at, written);
    setDraft(null);
  };
  const step = (direction: 1 | -1) => {
    const next = stepText(shown, direction);
    if (next === null) return false;
    setDraft(null);
    enter(at, next);
    return true;
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Enter") void commit(input.current?.value ?? "");
    if (event.key === "Escape") {
      givenUp.current = true;
      setDraft(null);
      forgive(at);
      input.current?.blur();
      givenUp.current = false;
    }
    const direction = { ArrowUp: 1, ArrowDown: -1 }[event.key] as 1 | -1 | undefined;
    if (direction !== undefined && step(direction)) event.preventDefault();
  };
  const canStep = stepText(shown, 1) !== null;
  const stepSize = /(in|"|″)\s*$/.test(shown) ? "1/16 in" : "one step";
  const stepKey = (direction: 1 | -1) => (
    <button
      type="button"
      className="step"
      disabled={!canStep}
      onClick={() => step(direction)}
      aria-label={`${label}: ${stepSize} ${direction > 0 ? "more" : "less"}`}
    >
      {direction > 0 ? "+" : "−"}
    </button>
  );
  const isHeld = stands !== "";
  return (
    <div className={`field quantity${refused ? " refused" : ""}${isChanged ? " changed" : ""}`}>
      <label htmlFor={id} title={doc}>
        {label}
        {known.plus_minus && (
          <span className="pm">
            {" "}
            ± <Stacked text={known.plus_minus} />
          </span>
        )}
        {known.from && known.from !== "design" && <span className="from"> {known.from}</span>}
        {isChanged && <span className="was"> was {was === "" ? "not given" : was}</span>}
      </label>
      <div className="entry">
        {stepKey(-1)}
        <input
          id={id}
          ref={input}
          type="text"
          autoComplete="off"
          spellCheck={false}
          inputMode={keypad.isTouch ? "none" : "text"}
          className={known.from === "estimate" ? "estimate" : ""}
          value={shown}
          placeholder="not known"
          aria-invalid={refused !== undefined}
          aria-describedby={refused ? `${id}-why` : echo ? `${id}-echo` : undefined}
          data-path={path}
          onChange={(event) => setDraft(event.target.value)}
          onFocus={() => keypad.open(input.current, dimension)}
          onBlur={(event) => {
            keypad.close(input.current);
            if (draft !== null && !givenUp.current) void commit(event.target.value);
          }}
          onKeyDown={onKeyDown}
        />
        {stepKey(1)}
        <button
          type="button"
          className={`how${known.from || known.plus_minus || known.note ? " told" : ""}`}
          disabled={!isHeld}
          aria-expanded={asksHow}
          aria-label={`${label}: how it is known`}
          onClick={() => setAsksHow(!asksHow)}
        >
          ±
        </button>
      </div>
      {echo && (
        <p id={`${id}-echo`} className="echo" role="status">
          <Stacked text={echo.text} /> <span className="also">{echo.also}</span>
        </p>
      )}
      {refused && <Why id={`${id}-why`} diagnostics={refused.diagnostics} />}
      <ClashBox path={at} />
      {at !== path && <ClashBox path={path} />}
      {asksHow && isHeld && <Provenance path={path} value={value} dimension={dimension} />}
    </div>
  );
});

/** Why an entry was not taken, and what would be right. */
export function Why({ id, diagnostics }: { id: string; diagnostics: Diagnostic[] }) {
  return (
    <div id={id} className="why" role="alert">
      {diagnostics.length === 0 && <p>Not taken.</p>}
      {diagnostics.map((d) => (
        <p key={d.code + d.path}>
          {d.message} <em>{d.remedy}</em>
        </p>
      ))}
    </div>
  );
}
