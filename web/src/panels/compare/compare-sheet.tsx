import { type FormEvent, useEffect, useId, useState } from "react";
import { goTo } from "../../api/address";
import { choose } from "../../api/choose";
import { client } from "../../api/client";
import { editBase, entriesTaken } from "../../api/entries";
import { at, join } from "../../api/pointer";
import type { Comparison } from "../../api/shop-types";
import { getState, setState, useAnswers, useStore } from "../../api/store";
import type { Json } from "../../api/types";
import { wordsFor } from "../../api/words";
import { VariantName } from "../build/build-sheet";
import { Stacked } from "../common/figures";
import { Summary } from "../common/summary";
import { TableBox } from "../common/table-box";
import { idFrom } from "../fields/known";
import { Curves } from "./curves-beside";
import { FindingsBeside, NumbersBeside } from "./findings-beside";
import { StillPictures } from "./still-picture";

interface Variant {
  id: string;
  label: string;
  count: number;
}

function variantsOf(base: Json): Variant[] {
  const all = at(base, "/variants");
  if (typeof all !== "object" || all === null) return [];
  return Object.entries(all).map(([id, one]) => {
    const label = at(one, "/label");
    const changes = at(one, "/changes");
    const count = typeof changes === "object" && changes !== null ? Object.keys(changes).length : 0;
    return { id, label: typeof label === "string" && label !== "" ? label : id, count };
  });
}

/** The build's variants: made, opened, and two of them side by side. */
export function CompareSheet() {
  const base = useAnswers((a) => a.base);
  const variants = variantsOf(base);
  const [sides, setSides] = useState<{ a: string | null; b: string | null } | null>(null);
  const first = variants[0]?.id ?? null;
  const open = useStore((s) => s.place?.variant ?? null);
  const shown = sides ?? (first === null ? null : { a: null, b: open ?? first });
  return (
    <section aria-label="Compare">
      <h3>Variants</h3>
      {variants.length === 0 && (
        <p className="empty">
          A variant is this build with some values changed, such as “3 in lift”. Name one, change
          what differs, and look at the two side by side. The build itself stays as it is.
        </p>
      )}
      <Variants variants={variants} />
      <AddVariant taken={variants.map((v) => v.id)} />
      {shown && (
        <>
          <h3>Side by side</h3>
          <div className="sides">
            <SidePicker
              name="This"
              side={shown.a}
              {...{ variants }}
              onSide={(a) => setSides({ ...shown, a })}
            />
            <SidePicker
              name="Against"
              side={shown.b}
              {...{ variants }}
              onSide={(b) => setSides({ ...shown, b })}
            />
          </div>
          <Beside a={shown.a} b={shown.b} />
        </>
      )}
    </section>
  );
}

function openVariant(variant: string | null): void {
  const { place } = getState();
  if (place) goTo({ page: "bench", build: place.build, variant });
}

function Variants({ variants }: { variants: Variant[] }) {
  const open = useStore((s) => s.place?.variant ?? null);
  if (variants.length === 0) return null;
  const told = (count: number) =>
    count === 0 ? "nothing changed yet" : count === 1 ? "one change" : `${count} changes`;
  return (
    <ul className="variants">
      <li>
        <span className="variant-name">The build itself</span>
        <button type="button" disabled={open === null} onClick={() => openVariant(null)}>
          {open === null ? "Open now" : "Open"}
        </button>
      </li>
      {variants.map((v) => (
        <li key={v.id}>
          <VariantName path={join("/variants", v.id, "label")} label={v.label} />
          <span className="variant-count">{told(v.count)}</span>
          <button type="button" disabled={open === v.id} onClick={() => openVariant(v.id)}>
            {open === v.id ? "Open now" : "Open"}
          </button>
          <button
            type="button"
            className="quiet"
            aria-label={`Take out ${v.label}`}
            onClick={() => void takeOutVariant(v.id, open === v.id)}
          >
            Take out
          </button>
        </li>
      ))}
    </ul>
  );
}

async function takeOutVariant(id: string, isOpen: boolean): Promise<void> {
  editBase([{ path: join("/variants", id), remove: true }]);
  if (!isOpen) return;
  await entriesTaken();
  openVariant(null);
}

function AddVariant({ taken }: { taken: string[] }) {
  const id = useId();
  const add = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = event.currentTarget;
    const label = String(new FormData(form).get("name") ?? "").trim();
    const key = idFrom(label, taken);
    if (key === null) return;
    editBase([{ path: join("/variants", key), value: { label, changes: {} } }]);
    form.reset();
    if (await entriesTaken()) openVariant(key);
  };
  return (
    <form className="add-one" onSubmit={(event) => void add(event)}>
      <label htmlFor={id} className="sr-only">
        Name of a new variant
      </label>
      <input id={id} name="name" autoComplete="off" placeholder="A new variant: its name" />
      <button type="submit">Make it</button>
    </form>
  );
}

function SidePicker(props: {
  name: string;
  side: string | null;
  variants: Variant[];
  onSide: (side: string | null) => void;
}) {
  const { name, side, variants, onSide } = props;
  return (
    <label className="pick-one">
      <span>{name}</span>
      <select value={side ?? ""} onChange={(event) => onSide(event.target.value || null)}>
        <option value="">The build itself</option>
        {variants.map((v) => (
          <option key={v.id} value={v.id}>
            {v.label}
          </option>
        ))}
      </select>
    </label>
  );
}

function Beside({ a, b }: { a: string | null; b: string | null }) {
  const etag = useAnswers((s) => s.etag);
  const [comparison, setComparison] = useState<Comparison | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read anew when the build is another.
  useEffect(() => {
    const { place } = getState();
    if (!place) return;
    let isOld = false;
    client.compare(place.build, a, b).then(
      (told) => {
        if (!isOld) setComparison(told);
      },
      (error: unknown) => setState({ trouble: wordsFor(error) }),
    );
    return () => {
      isOld = true;
    };
  }, [a, b, etag]);
  if (!comparison) return null;
  const { inputs, words } = comparison;
  return (
    <>
      {inputs.length === 0 ? (
        <p className="empty">The two are the same.</p>
      ) : (
        <Summary sentences={words} />
      )}
      <StillPictures comparison={comparison} />
      {inputs.length > 0 && (
        <TableBox caption="What was changed">
          <thead>
            <tr>
              <td />
              <th scope="col">{comparison.a.label}</th>
              <th scope="col">{comparison.b.label}</th>
            </tr>
          </thead>
          <tbody>
            {inputs.map((input) => (
              <tr key={input.path}>
                <th scope="row">
                  <button type="button" className="line-link" onClick={() => choose(input.path)}>
                    {input.label}
                  </button>
                </th>
                <td>
                  <Stacked text={input.a} />
                </td>
                <td className="varied">
                  <Stacked text={input.b} />
                </td>
              </tr>
            ))}
          </tbody>
        </TableBox>
      )}
      <FindingsBeside comparison={comparison} />
      <NumbersBeside comparison={comparison} />
      <Curves comparison={comparison} />
    </>
  );
}
