import { type KeyboardEvent, useId, useState } from "react";
import { useAnswers } from "../../api/store";
import type { Json, Path } from "../../api/types";
import { enter } from "./entered";
import { useKeypad } from "./keypad";
import { kFrom, knownAs, knownOf } from "./known";
import { writtenFor } from "./understand";

/** How a quantity is known: from what, how well, and a note. Opens under its field. */
export function Provenance(props: { path: Path; value: Json | undefined; dimension: string }) {
  const { path, value, dimension } = props;
  const units = useAnswers((a) => a.units);
  const known = knownOf(value);
  const id = useId();
  const keep = (change: Parameters<typeof knownAs>[1]) => enter(path, knownAs(value, change));
  const keepPlusMinus = async (text: string) =>
    keep({ plus_minus: text === "" ? null : await writtenFor(text, dimension, units) });
  return (
    <div className="provenance">
      <label htmlFor={`${id}-from`}>Known from</label>
      <select
        id={`${id}-from`}
        value={known.from ?? ""}
        onChange={(event) => keep({ from: event.target.value || null })}
      >
        <option value="">not said</option>
        {kFrom.map(([word, text]) => (
          <option key={word} value={word}>
            {text}
          </option>
        ))}
      </select>
      <ShortText
        label="Give or take"
        value={known.plus_minus ?? ""}
        placeholder={dimension === "length" ? "as 1/16 in" : "with its unit"}
        dimension={dimension}
        onKeep={(text) => void keepPlusMinus(text)}
      />
      <ShortText
        label="Note"
        value={known.note ?? ""}
        placeholder="where, when, with what"
        onKeep={(text) => keep({ note: text === "" ? null : text })}
      />
    </div>
  );
}

/** A text that is kept when the hand leaves it. */
export function ShortText(props: {
  label: string;
  value: string;
  placeholder?: string;
  path?: Path;
  /** Of a quantity: by touch it is entered with the page's own keys. */
  dimension?: string;
  onKeep: (text: string) => void;
}) {
  const { label, value, placeholder, path, dimension, onKeep } = props;
  const keypad = useKeypad();
  const [draft, setDraft] = useState<string | null>(null);
  const id = useId();
  const commit = () => {
    if (draft !== null && draft.trim() !== value) onKeep(draft.trim());
    setDraft(null);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Enter") commit();
    if (event.key === "Escape") setDraft(null);
  };
  return (
    <>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        value={draft ?? value}
        placeholder={placeholder}
        data-path={path}
        inputMode={dimension !== undefined && keypad.isTouch ? "none" : "text"}
        onChange={(event) => setDraft(event.target.value)}
        onFocus={(event) => dimension !== undefined && keypad.open(event.target, dimension)}
        onBlur={(event) => {
          keypad.close(event.target);
          commit();
        }}
        onKeyDown={onKeyDown}
      />
    </>
  );
}
