import { type FormEvent, useId, useState } from "react";
import { change } from "../../api/changes";
import type { Change } from "../../api/shop-types";
import { useAnswers } from "../../api/store";
import { useKeypad } from "../fields/keypad";
import { useEcho } from "../fields/understand";

type Ways = Omit<Extract<Change, { kind: "move_cases" }>, "kind">;

const kWays: { key: keyof Ways; label: string; dimension: string; doc: string }[] = [
  { key: "up", label: "Up", dimension: "length", doc: "Minus is down." },
  { key: "rearward", label: "To the rear", dimension: "length", doc: "Minus is forward." },
  { key: "left", label: "To the left", dimension: "length", doc: "Minus is to the right." },
  { key: "tilt", label: "Rear end down", dimension: "angle", doc: "About the first front face." },
];

/** Moves engine, cases, outputs and mounts as one piece. */
export function MoveCases() {
  const [typed, setTyped] = useState<Ways>({});
  const isEmpty = Object.values(typed).every((text) => (text ?? "").trim() === "");
  const move = async (event: FormEvent) => {
    event.preventDefault();
    if (isEmpty) return;
    if ((await change({ kind: "move_cases", ...typed })) !== null) setTyped({});
  };
  return (
    <form className="move-cases" aria-label="Move all of it" onSubmit={(e) => void move(e)}>
      <h3>Move all of it</h3>
      <p>
        Engine and cases go as one piece, with their outputs, their mounts and their weights. What
        is on the frame and on the axles stays.
      </p>
      <div className="ways">
        {kWays.map(({ key, ...way }) => (
          <Way
            key={key}
            {...way}
            text={typed[key] ?? ""}
            onText={(text) => setTyped({ ...typed, [key]: text })}
          />
        ))}
      </div>
      <button type="submit" disabled={isEmpty}>
        Move it
      </button>
    </form>
  );
}

function Way(props: {
  label: string;
  doc: string;
  dimension: string;
  text: string;
  onText: (text: string) => void;
}) {
  const { label, doc, dimension, text, onText } = props;
  const units = useAnswers((a) => a.units);
  const echo = useEcho(text === "" ? null : text, dimension, units.metric);
  const keypad = useKeypad();
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        inputMode={keypad.isTouch ? "none" : "text"}
        value={text}
        aria-describedby={`${id}-doc`}
        onChange={(event) => onText(event.target.value)}
        onFocus={(event) => keypad.open(event.target, dimension)}
        onBlur={(event) => keypad.close(event.target)}
      />
      <p id={`${id}-doc`} className="doc">
        {echo ? `= ${echo.text}` : doc}
      </p>
    </div>
  );
}
