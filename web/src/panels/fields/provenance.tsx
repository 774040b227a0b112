import { type KeyboardEvent, useId, useState } from "react";
import { useAnswers } from "../../api/store";
import type { Json, Path } from "../../api/types";
import { enter } from "./entered";
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
        placeholder="as 1/16 in"
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
  onKeep: (text: string) => void;
}) {
  const { label, value, placeholder, path, onKeep } = props;
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
        onChange={(event) => setDraft(event.target.value)}
        onBlur={commit}
        onKeyDown={onKeyDown}
      />
    </>
  );
}
