import { type FormEvent, useEffect, useId, useState } from "react";
import { goTo } from "../../api/address";
import { client, Refusal } from "../../api/client";
import type { Question } from "../../api/shop-types";
import { setState } from "../../api/store";
import type { Diagnostic } from "../../api/types";
import { wordsFor } from "../../api/words";
import { Stacked } from "../common/figures";
import { useKeypad } from "../fields/keypad";
import { Why } from "../fields/quantity-field";
import { useEcho } from "../fields/understand";
import { ShopStrip } from "./shop-strip";

/** The answer by which a build is written in millimetres. */
const kMetric = "millimetres";

/** A new build from a dozen plain questions, on one sheet. */
export function StartScreen() {
  const [questions, setQuestions] = useState<Question[]>([]);
  const [answers, setAnswers] = useState<Record<string, string>>({});
  const [faults, setFaults] = useState<Diagnostic[]>([]);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    document.title = "New build – Rigwright";
    client
      .questions()
      .then((told) => setQuestions(told.questions))
      .catch((error: unknown) => setState({ trouble: wordsFor(error) }));
  }, []);

  const said = Object.fromEntries(Object.entries(answers).filter(([, text]) => text !== ""));
  const guessed = questions.filter((q) => !(q.id in said) && q.usual !== null).length;
  const start = async (event: FormEvent) => {
    event.preventDefault();
    setBusy(true);
    try {
      const { id } = await client.start({ name: said.name ?? "", answers: said });
      goTo({ page: "bench", build: id, variant: null });
    } catch (error) {
      const told = error instanceof Refusal ? (error.body.diagnostics ?? []) : [];
      setFaults(told);
      const isAtField = told.some((d) => questions.some((q) => isAbout(d, q)));
      if (!isAtField) setState({ trouble: told[0]?.message ?? wordsFor(error) });
    } finally {
      setBusy(false);
    }
  };

  return (
    <div className="shop">
      <ShopStrip title="New build" back />
      <main className="shop-floor">
        <form className="start" onSubmit={(event) => void start(event)}>
          <p className="summary">
            Answer what you know. What you leave is taken as the usual, marked{" "}
            <span className="estimate">~</span> as an estimate until you measure it.
          </p>
          <div className="questions">
            {questions.map((q) => (
              <Asked
                key={q.id}
                question={q}
                text={answers[q.id] ?? ""}
                metric={said.units === kMetric}
                faults={faults.filter((d) => isAbout(d, q))}
                onText={(text) => {
                  setAnswers((before) => ({ ...before, [q.id]: text }));
                  setFaults((before) => before.filter((d) => !isAbout(d, q)));
                }}
              />
            ))}
          </div>
          <div className="start-foot">
            <p>{guessed === 0 ? "Nothing will be guessed." : `${guessed} will be guessed.`}</p>
            <button type="submit" className="main-key" disabled={busy}>
              Start the build
            </button>
          </div>
        </form>
      </main>
    </div>
  );
}

function isAbout(fault: Diagnostic, question: Question): boolean {
  return fault.path.replace(/^\//, "").split("/").at(-1) === question.id;
}

interface AskedProps {
  question: Question;
  text: string;
  metric: boolean;
  faults: Diagnostic[];
  onText: (text: string) => void;
}

function Asked({ question, text, metric, faults, onText }: AskedProps) {
  const { label, doc, kind, dimension, choices, usual, needed } = question;
  const id = useId();
  const keypad = useKeypad();
  const echo = useEcho(kind === "quantity" && text !== "" ? text : null, dimension, metric);
  return (
    <div className={`field question${faults.length > 0 ? " refused" : ""}`}>
      <label htmlFor={id}>
        {label} {needed && <span className="needed">needed</span>}
      </label>
      {kind === "word" ? (
        <select id={id} value={text} required={needed} onChange={(e) => onText(e.target.value)}>
          <option value="">
            {usual === null
              ? "choose"
              : `~ ${choices.find((c) => c.value === usual)?.label ?? usual}`}
          </option>
          {choices.map((c) => (
            <option key={c.value} value={c.value}>
              {c.label}
            </option>
          ))}
        </select>
      ) : (
        <input
          id={id}
          type="text"
          autoComplete="off"
          required={needed}
          inputMode={kind === "quantity" && keypad.isTouch ? "none" : "text"}
          value={text}
          placeholder={usual === null ? "" : `~ ${usual}`}
          aria-describedby={`${id}-doc`}
          onChange={(event) => onText(event.target.value)}
          onFocus={(event) => kind === "quantity" && keypad.open(event.target, dimension)}
          onBlur={(event) => keypad.close(event.target)}
        />
      )}
      {echo && (
        <p className="echo" role="status">
          <Stacked text={echo.text} /> <span className="also">{echo.also}</span>
        </p>
      )}
      <p id={`${id}-doc`} className="doc">
        <Stacked text={doc} />
      </p>
      {faults.length > 0 && <Why id={`${id}-why`} diagnostics={faults} />}
    </div>
  );
}
