import { type KeyboardEvent, memo, useId, useRef, useState } from "react";
import { edit, forgive } from "../../api/actions";
import { join } from "../../api/pointer";
import { useStore } from "../../api/store";
import type { Diagnostic, Json, Path } from "../../api/types";
import { stepText } from "../../format/step";
import { Stacked } from "../common/figures";
import { useKeypad } from "./keypad";
import { knownOf } from "./known";

interface QuantityFieldProps {
  path: Path;
  label: string;
  doc: string;
  dimension: string;
  value: Json | undefined;
  /** As it was when the page opened the build, if that was another. */
  was: string | null;
  compact?: boolean;
}

/** A quantity, typed as the shop writes it. */
export const QuantityField = memo(function QuantityField(props: QuantityFieldProps) {
  const { path, label, doc, dimension, value, was, compact = false } = props;
  const known = knownOf(value);
  const at = known.long ? join(path, "value") : path;
  const refused = useStore((s) => s.refused[at]);
  const [draft, setDraft] = useState<string | null>(null);
  const pending = useStore(
    (s) => s.pending[at] ?? (known.text !== "" ? s.pending[path] : undefined),
  );
  const input = useRef<HTMLInputElement>(null);
  const id = useId();
  const keypad = useKeypad();

  const shown = draft ?? pending ?? refused?.text ?? known.text;
  const isChanged = was !== null;
  const isEstimate = known.from === "estimate";

  const commit = (text: string) => {
    setDraft(null);
    const clean = text.trim();
    if (clean === (pending ?? known.text)) {
      forgive(at);
      return;
    }
    edit([clean === "" ? { path, remove: true } : { path: at, value: clean }]);
  };
  const step = (direction: 1 | -1) => {
    const next = stepText(shown, direction);
    if (next === null) return;
    edit([{ path: at, value: next }]);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Enter") commit(input.current?.value ?? "");
    if (event.key === "Escape") {
      setDraft(null);
      forgive(at);
      input.current?.blur();
    }
    if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      const next = stepText(shown, event.key === "ArrowUp" ? 1 : -1);
      if (next === null) return;
      event.preventDefault();
      setDraft(null);
      step(event.key === "ArrowUp" ? 1 : -1);
    }
  };
  const canStep = stepText(shown, 1) !== null;
  const stepSize = /(in|"|″)\s*$/.test(shown) ? "1/16 in" : "one step";
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
        {!compact || canStep ? (
          <button
            type="button"
            className="step"
            disabled={!canStep}
            onClick={() => step(-1)}
            aria-label={`${label}: ${stepSize} less`}
          >
            −
          </button>
        ) : null}
        <input
          id={id}
          ref={input}
          type="text"
          autoComplete="off"
          spellCheck={false}
          inputMode={keypad.isTouch ? "none" : "text"}
          className={isEstimate ? "estimate" : ""}
          value={shown}
          placeholder="not known"
          aria-invalid={refused !== undefined}
          aria-describedby={refused ? `${id}-why` : undefined}
          data-path={path}
          onChange={(event) => setDraft(event.target.value)}
          onFocus={() => keypad.open(input.current, dimension)}
          onBlur={(event) => {
            keypad.close(input.current);
            if (draft !== null) commit(event.target.value);
          }}
          onKeyDown={onKeyDown}
        />
        {!compact || canStep ? (
          <button
            type="button"
            className="step"
            disabled={!canStep}
            onClick={() => step(1)}
            aria-label={`${label}: ${stepSize} more`}
          >
            +
          </button>
        ) : null}
      </div>
      {refused && <Why id={`${id}-why`} diagnostics={refused.diagnostics} />}
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
