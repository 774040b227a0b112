import { useEffect } from "react";
import { redoLast, undoLast } from "./api/changes";
import { at, join } from "./api/pointer";
import { setState, useAnswers, useStore } from "./api/store";
import { DarkKey } from "./panels/common/dark-key";

/** Over the bench: which build this is, and what goes back and forth. */
export function TitleStrip() {
  const name = useAnswers((a) => a.report.name);
  const notice = useAnswers((a) => a.report.notice);
  const file = useAnswers((a) => a.file);
  const entry = useAnswers((a) => a.entry);
  const canUndo = useAnswers((a) => a.canUndo);
  const canRedo = useAnswers((a) => a.canRedo);
  const helpOpen = useStore((s) => s.helpOpen);
  const inHistory = useStore((s) => s.work === "history");
  useEffect(() => {
    document.title = `${name || file} – Rigwright`;
  }, [name, file]);
  return (
    <header className="title-strip">
      <a className="key quiet" href="#shop">
        Shop
      </a>
      <h1>{name || file}</h1>
      <VariantOpen />
      <p className="notice" title={notice}>
        {notice}
      </p>
      <div className="strip-keys">
        <button
          type="button"
          className="revision"
          title={file}
          aria-label={`History, entry ${entry}`}
          aria-pressed={inHistory}
          onClick={() => setState({ work: inHistory ? "build" : "history", chosen: null })}
        >
          {`Entry ${entry}`}
        </button>
        <button type="button" disabled={!canUndo} onClick={undoLast}>
          Undo
        </button>
        <button type="button" disabled={!canRedo} onClick={redoLast}>
          Redo
        </button>
        <DarkKey />
        <button
          type="button"
          aria-pressed={helpOpen}
          onClick={() => setState({ helpOpen: !helpOpen })}
        >
          Keys
        </button>
      </div>
    </header>
  );
}

/** Says that a variant is open, in its colour. */
function VariantOpen() {
  const variant = useStore((s) => s.place?.variant ?? null);
  const label = useAnswers((a) => at(a.base, join("/variants", variant ?? "", "label")));
  if (variant === null) return null;
  return (
    <button
      type="button"
      className="variant-open"
      onClick={() => setState({ work: "compare", chosen: null })}
    >
      {typeof label === "string" && label !== "" ? label : variant}
    </button>
  );
}
