import { useEffect, useRef } from "react";
import { open, refresh, undoLast } from "./api/actions";
import { setState, useAnswers, useStore, type Work } from "./api/store";
import { AxlesSheet } from "./panels/axles/axles-sheet";
import { keepScheme, useDark, useSchemeOnPage } from "./panels/common/scheme";
import { KeypadProvider } from "./panels/fields/keypad";
import { Tray, TrayHandle } from "./panels/findings/tray";
import { Caution } from "./panels/front/caution";
import { HelpSheet } from "./panels/help/help-sheet";
import { useShortcuts } from "./panels/help/shortcuts";
import { MotionBar } from "./panels/motion/motion-bar";
import { WeighSheet } from "./panels/weigh/weigh-sheet";
import { Picture } from "./scene/picture";

const kWorks: { work: Work; label: string }[] = [
  { work: "weigh", label: "Weigh" },
  { work: "axles", label: "Axles" },
];

export function App() {
  const ready = useStore((s) => s.answers !== null);
  const trouble = useStore((s) => s.trouble);
  const said = useStore((s) => s.said);
  useSchemeOnPage();
  useShortcuts();
  useEffect(() => {
    void open();
    const onShown = () => {
      if (document.visibilityState === "visible") void refresh();
    };
    document.addEventListener("visibilitychange", onShown);
    return () => document.removeEventListener("visibilitychange", onShown);
  }, []);
  return (
    <KeypadProvider>
      {ready ? <Bench /> : !trouble && <main className="opening" aria-busy="true" />}
      {trouble && (
        <div className="trouble" role="alert">
          <p>{trouble}</p>
          {ready && (
            <button type="button" className="quiet" onClick={() => setState({ trouble: null })}>
              Close
            </button>
          )}
        </div>
      )}
      <div className="sr-only" aria-live="polite">
        {said}
      </div>
    </KeypadProvider>
  );
}

function Bench() {
  const trayOpen = useStore((s) => s.trayOpen);
  return (
    <div className={`bench${trayOpen ? " tray-open" : ""}`}>
      <TitleStrip />
      <nav className="works" aria-label="Works">
        <p className="wordmark">Rigwright</p>
        <WorkKeys />
      </nav>
      <TrayHandle />
      <main>
        <Picture />
        <MotionBar />
        <WorkSheet />
      </main>
      {trayOpen && <Tray />}
    </div>
  );
}

function TitleStrip() {
  const name = useAnswers((a) => a.report.name);
  const notice = useAnswers((a) => a.report.notice);
  const file = useAnswers((a) => a.file);
  const revision = useAnswers((a) => a.revision);
  const canUndo = useStore((s) => s.undo.length > 0);
  const helpOpen = useStore((s) => s.helpOpen);
  const dark = useDark();
  useEffect(() => {
    document.title = `${name} – Rigwright`;
  }, [name]);
  return (
    <header className="title-strip">
      <h1>{name || file}</h1>
      <p className="notice" title={notice}>
        {notice}
      </p>
      <p className="revision" title={file}>
        Revision {revision}
      </p>
      <div className="strip-keys">
        <button type="button" disabled={!canUndo} onClick={undoLast}>
          Undo
        </button>
        <button
          type="button"
          aria-pressed={dark}
          onClick={() => keepScheme(dark ? "light" : "dark")}
        >
          Dark
        </button>
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

function WorkKeys() {
  const work = useStore((s) => s.work);
  return (
    <>
      {kWorks.map(({ work: one, label }) => (
        <button
          key={one}
          type="button"
          aria-current={work === one ? "page" : undefined}
          onClick={() => setState({ work: one, chosen: null, helpOpen: false })}
        >
          {label}
        </button>
      ))}
    </>
  );
}

function WorkSheet() {
  const work = useStore((s) => s.work);
  const helpOpen = useStore((s) => s.helpOpen);
  const sheet = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another work starts at its top.
  useEffect(() => {
    if (sheet.current) sheet.current.scrollTop = 0;
  }, [work, helpOpen]);
  const label = kWorks.find((w) => w.work === work)?.label ?? "";
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard.
    <section className="work-sheet" ref={sheet} tabIndex={0} aria-label={label}>
      {helpOpen && <HelpSheet />}
      <Caution />
      <h2 className="sr-only">{label}</h2>
      {work === "weigh" ? <WeighSheet /> : <AxlesSheet />}
    </section>
  );
}
