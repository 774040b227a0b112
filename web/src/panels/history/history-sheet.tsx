import { type FormEvent, useCallback, useEffect, useId, useState } from "react";
import { goBackTo, redoLast, undoLast } from "../../api/changes";
import { client } from "../../api/client";
import type { History, HistoryEntry } from "../../api/shop-types";
import { getState, setState, useAnswers } from "../../api/store";
import { wordsFor } from "../../api/words";
import { whenText } from "../../format/when";
import { Stacked } from "../common/figures";

const kKinds = { start: "Begun", edit: "", outside: "Outside the page", restore: "Went back" };

/** Everything that was done to the build: who, when and what; any of it can be gone back to. */
export function HistorySheet() {
  const etag = useAnswers((a) => a.etag);
  const canUndo = useAnswers((a) => a.canUndo);
  const canRedo = useAnswers((a) => a.canRedo);
  const [history, setHistory] = useState<History | null>(null);
  const [isAll, setIsAll] = useState(false);

  const read = useCallback(async (before: number | null) => {
    const { place } = getState();
    if (!place) return;
    try {
      const more = await client.history(place, before);
      setIsAll(more.entries.length === 0 || more.entries.some((e) => e.parent === null));
      setHistory((now) =>
        before === null || !now ? more : { ...more, entries: [...now.entries, ...more.entries] },
      );
    } catch (error) {
      setState({ trouble: wordsFor(error) });
    }
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read anew when the build is another.
  useEffect(() => void read(null), [etag, read]);

  const last = history?.entries.at(-1);
  return (
    <section className="history" aria-label="History">
      <h3>History</h3>
      <div className="key-row">
        <button type="button" disabled={!canUndo} onClick={undoLast}>
          Undo
        </button>
        <button type="button" disabled={!canRedo} onClick={redoLast}>
          Redo
        </button>
      </div>
      <ol className="entries">
        {history?.entries.map((entry) => (
          <Step
            key={entry.entry}
            entry={entry}
            isHead={entry.entry === history.head}
            onNamed={setHistory}
          />
        ))}
      </ol>
      {!isAll && last && (
        <button type="button" onClick={() => void read(last.entry)}>
          Earlier
        </button>
      )}
    </section>
  );
}

interface StepProps {
  entry: HistoryEntry;
  isHead: boolean;
  onNamed: (history: History) => void;
}

function Step({ entry, isHead, onNamed }: StepProps) {
  const [naming, setNaming] = useState(false);
  const kind = kKinds[entry.kind];
  return (
    <li className={`entry-line${entry.on_path ? "" : " aside"}${isHead ? " head" : ""}`}>
      <span className="entry-dot" aria-hidden="true" />
      <div className="entry-words">
        {entry.version !== null && <strong className="version">{entry.version}</strong>}
        <span>
          {kind !== "" && <em>{kind}. </em>}
          <Stacked text={entry.what} />
        </span>
        <span className="entry-who">
          {entry.who !== "" && `${entry.who}, `}
          {whenText(entry.when)}
          {isHead && " · as it stands now"}
          {!entry.on_path && " · left by an undo"}
        </span>
        {naming && (
          <NameVersion
            entry={entry.entry}
            onNamed={(history) => {
              setNaming(false);
              onNamed(history);
            }}
          />
        )}
      </div>
      <div className="entry-keys">
        <button
          type="button"
          className="quiet"
          aria-expanded={naming}
          aria-label={`Name it, entry ${entry.entry}`}
          onClick={() => setNaming(!naming)}
        >
          Name it
        </button>
        {!isHead && (
          <button
            type="button"
            aria-label={`Go back to it, entry ${entry.entry}`}
            onClick={() => void goBackTo(entry.entry)}
          >
            Go back to it
          </button>
        )}
      </div>
    </li>
  );
}

function NameVersion({ entry, onNamed }: { entry: number; onNamed: (history: History) => void }) {
  const id = useId();
  const keep = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const { place } = getState();
    const name = String(new FormData(event.currentTarget).get("name") ?? "").trim();
    if (!place || name === "") return;
    try {
      onNamed(await client.nameVersion(place, entry, name));
    } catch (error) {
      setState({ trouble: wordsFor(error) });
    }
  };
  return (
    <form className="name-it" onSubmit={(event) => void keep(event)}>
      <label htmlFor={id}>A name for the build as it was then</label>
      <div className="add-one">
        {/* biome-ignore lint/a11y/noAutofocus: it opens at the builder's own tap, to be typed in. */}
        <input id={id} name="name" autoComplete="off" autoFocus />
        <button type="submit">Keep the name</button>
      </div>
    </form>
  );
}
