import { useEffect, useMemo, useRef } from "react";
import { openFinding, pointAt } from "../../api/choose";
import { at, isWithin, join, keysOf, parentOf, thingOf } from "../../api/pointer";
import { type Chosen, setState, useAnswers, useDerived, useStore } from "../../api/store";
import type { Path } from "../../api/types";
import { capital, wordsOf } from "../../format/text";
import { Stacked } from "../common/figures";
import { Mark } from "../common/mark";
import { scrollToTop } from "../common/scroll";
import { Fields } from "./fields";
import { kindAt, membersOf } from "./schema";
import { ThingKeys } from "./thing-keys";

const kWithLines = /^\/(axles\/|drivetrain$)/;

/** What the shop calls a thing: its label, else its id. */
export function useNameOf(path: Path): string {
  const label = useAnswers((a) => at(a.document, join(path, "label")));
  return typeof label === "string" && label !== ""
    ? capital(label)
    : wordsOf(keysOf(path).at(-1) ?? "Build");
}

/** The thing that was tapped, its findings and its fields, on top of the sheet. */
export function ChosenCard() {
  const chosen = useStore((s) => s.chosen);
  return chosen ? <Card key={thingOf(chosen.path)} {...chosen} /> : null;
}

function Card({ path, end, asked }: Chosen) {
  const thing = thingOf(path);
  const name = useNameOf(thing);
  const ofAxle = useAnswers(
    (a) =>
      a.report.axles.find(
        (x) => isWithin(thing, join("/axles", x.id)) && thing !== `/axles/${x.id}`,
      )?.label,
  );
  const about = useDerived((a) =>
    a.report.findings.flatMap(({ id, path, verdict, work, sentence }) =>
      isWithin(path, thing) && verdict !== "good" ? [{ id, verdict, work, sentence }] : [],
    ),
  );
  const schema = useAnswers((a) => a.schema);
  const card = useRef<HTMLElement>(null);
  // The links, coils and so on of an axle, and what the drivetrain holds, have lines of their own.
  const collections = useMemo(
    () =>
      membersOf(schema, thing)
        .filter((m) => m.kind.kind === "map" && kWithLines.test(thing))
        .map((m) => m.key),
    [schema, thing],
  );
  const isEntry = useMemo(() => kindAt(schema, parentOf(thing))?.kind === "map", [schema, thing]);

  // The card comes to the top of the sheet; the field that was pointed at takes the keyboard.
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each time it is asked for.
  useEffect(() => {
    if (!card.current) return;
    const field = [...card.current.querySelectorAll<HTMLElement>("[data-path]")].find(
      (f) => f.dataset.path === (end ?? path),
    );
    scrollToTop(card.current);
    field?.focus({ preventScroll: true });
  }, [asked]);

  return (
    <section
      className="chosen-card"
      aria-label={name}
      ref={card}
      onFocus={(event) => {
        const field = event.target.dataset.path;
        if (field) pointAt(parentOf(field));
      }}
    >
      <header>
        <h3>{name}</h3>
        {ofAxle !== undefined && <span className="of">{ofAxle}</span>}
        <button type="button" className="quiet" onClick={() => setState({ chosen: null })}>
          Close
        </button>
      </header>
      {about.length > 0 && (
        <ul className="about">
          {about.map((f) => (
            <li key={f.id} data-work={f.work}>
              <button type="button" onClick={() => openFinding(f.id)}>
                <Mark kind={f.verdict} size={18} /> <Stacked text={f.sentence} />
              </button>
            </li>
          ))}
        </ul>
      )}
      <div className="thing-fields">
        <Fields path={thing} without={collections} />
      </div>
      {isEntry && <ThingKeys path={thing} name={name} />}
    </section>
  );
}
