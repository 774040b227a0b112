import { useDeferredValue, useEffect, useRef } from "react";
import { useSides } from "./api/compare";
import { useIsFrameShown } from "./api/frame-look";
import { followAddress, refresh } from "./api/session";
import { getState, setState, useStore, type Work } from "./api/store";
import { wordsFor } from "./api/words";
import { TitleStrip } from "./bench-strip";
import { AxlesSheet } from "./panels/axles/axles-sheet";
import { BuildSheet } from "./panels/build/build-sheet";
import { useSchemeOnPage } from "./panels/common/scheme";
import { CompareSheet } from "./panels/compare/compare-sheet";
import { StillPictures } from "./panels/compare/still-picture";
import { DrivetrainSheet } from "./panels/drivetrain/drivetrain-sheet";
import { ChosenCard } from "./panels/fields/chosen-card";
import { KeypadProvider } from "./panels/fields/keypad";
import { Tray, TrayHandle } from "./panels/findings/tray";
import { FrameSheet } from "./panels/frame/frame-sheet";
import { LoadBar } from "./panels/frame/load-bar";
import { Caution } from "./panels/front/caution";
import { AskInitials } from "./panels/front/initials";
import { Standing } from "./panels/front/standing";
import { HelpSheet } from "./panels/help/help-sheet";
import { useShortcuts } from "./panels/help/shortcuts";
import { HistorySheet } from "./panels/history/history-sheet";
import { MotionBar } from "./panels/motion/motion-bar";
import { DoorScreen } from "./panels/shop/door-screen";
import { ShopScreen } from "./panels/shop/shop-screen";
import { StartScreen } from "./panels/shop/start-screen";
import { WeighSheet } from "./panels/weigh/weigh-sheet";
import { Picture } from "./scene/picture";

const kWorks: { work: Work; label: string }[] = [
  { work: "weigh", label: "Weigh" },
  { work: "frame", label: "Frame" },
  { work: "drivetrain", label: "Drivetrain" },
  { work: "axles", label: "Axles" },
  { work: "compare", label: "Compare" },
  { work: "build", label: "Build" },
];

/** The works whose numbers follow the motion bar. */
const kMoving: Work[] = ["weigh", "frame", "drivetrain", "axles"];

export function App() {
  const trouble = useStore((s) => s.trouble);
  const said = useStore((s) => s.said);
  useSchemeOnPage();
  useShortcuts();
  useEffect(() => {
    const onAddress = () => {
      followAddress().catch((error: unknown) => setState({ trouble: wordsFor(error) }));
    };
    const onShown = () => {
      if (document.visibilityState === "visible" && getState().page === "bench") void refresh();
    };
    window.addEventListener("hashchange", onAddress);
    document.addEventListener("visibilitychange", onShown);
    return () => {
      window.removeEventListener("hashchange", onAddress);
      document.removeEventListener("visibilitychange", onShown);
    };
  }, []);
  return (
    <KeypadProvider>
      <Screen />
      {trouble && (
        <div className="trouble" role="alert">
          <p>{trouble}</p>
          <button type="button" className="quiet" onClick={() => setState({ trouble: null })}>
            Close
          </button>
        </div>
      )}
      <div className="sr-only" aria-live="polite">
        {said}
      </div>
    </KeypadProvider>
  );
}

function Screen() {
  const page = useStore((s) => s.page);
  const ready = useStore((s) => s.answers !== null);
  switch (page) {
    case "door":
      return <DoorScreen />;
    case "shop":
      return <ShopScreen />;
    case "start":
      return <StartScreen />;
    case "bench":
      return ready ? <Bench /> : <main className="opening" aria-busy="true" />;
    case "opening":
      return <main className="opening" aria-busy="true" />;
  }
}

function Bench() {
  const trayOpen = useStore((s) => s.trayOpen);
  const moves = useStore((s) => kMoving.includes(s.work));
  const loaded = useIsFrameShown();
  const trying = useStore((s) => s.trying);
  const hasSides = useSides() !== null;
  const isComparing = useStore((s) => s.work === "compare") && hasSides;
  return (
    <div className={`bench${trayOpen ? " tray-open" : ""}`} data-trying={trying ?? undefined}>
      <TitleStrip />
      <nav className="works" aria-label="Works">
        <p className="wordmark">Rigwright</p>
        <WorkKeys />
      </nav>
      <TrayHandle />
      <main>
        <Standing />
        {isComparing ? <StillPictures /> : <Picture />}
        {loaded ? <LoadBar /> : moves && <MotionBar />}
        <WorkSheet />
      </main>
      {trayOpen && <Tray />}
    </div>
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

function sheetOf(work: Work) {
  switch (work) {
    case "weigh":
      return <WeighSheet />;
    case "frame":
      return <FrameSheet />;
    case "drivetrain":
      return <DrivetrainSheet />;
    case "axles":
      return <AxlesSheet />;
    case "compare":
      return <CompareSheet />;
    case "build":
      return <BuildSheet />;
    case "history":
      return <HistorySheet />;
  }
}

function WorkSheet() {
  const work = useStore((s) => s.work);
  const helpOpen = useStore((s) => s.helpOpen);
  const sheet = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another work starts at its top.
  useEffect(() => {
    // A thing that was tapped comes to the top by itself.
    if (sheet.current && !getState().chosen) sheet.current.scrollTop = 0;
  }, [work, helpOpen]);
  // The truck is painted first; what is told of it follows.
  const isTold = useDeferredValue(true, false);
  const label = kWorks.find((w) => w.work === work)?.label ?? "History";
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard.
    <section className="work-sheet" ref={sheet} tabIndex={0} aria-label={label}>
      {helpOpen && <HelpSheet />}
      <AskInitials />
      <Caution />
      <h2 className="sr-only">{label}</h2>
      {!kMoving.includes(work) && <ChosenCard />}
      {isTold && sheetOf(work)}
    </section>
  );
}
