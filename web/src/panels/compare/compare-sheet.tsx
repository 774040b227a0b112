import { type FormEvent, useId } from "react";
import { goTo } from "../../api/address";
import { choose } from "../../api/choose";
import {
  type Sides,
  useAskedComparison,
  useSides,
  type Variant,
  variantsOf,
} from "../../api/compare";
import { editBase, entriesTaken } from "../../api/entries";
import { join } from "../../api/pointer";
import { getState, setState, useAnswers, useStore } from "../../api/store";
import { VariantName } from "../build/build-sheet";
import { Stacked } from "../common/figures";
import { Summary } from "../common/summary";
import { TableBox } from "../common/table-box";
import { idFrom } from "../fields/known";
import { Curves } from "./curves-beside";
import { FindingsBeside, NumbersBeside } from "./findings-beside";

const kNothing: string[] = [];

/** The build's variants: made, opened, and two of them side by side. */
export function CompareSheet() {
  const base = useAnswers((a) => a.base);
  const variants = variantsOf(base);
  const shown = useSides();
  return (
    <section aria-label="Compare">
      {shown && <Beside sides={shown} variants={variants} />}
      <h3>Variants</h3>
      {variants.length === 0 && (
        <p className="empty">
          A variant is this build with some values changed, such as “3 in lift”. Name one, change
          what differs, and look at the two side by side. The build itself stays as it is.
        </p>
      )}
      <Variants variants={variants} />
      <AddVariant taken={variants.map((v) => v.id)} />
      <Differences />
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

/** Which two they are, and what differs in a few sentences. */
function Beside({ sides, variants }: { sides: Sides; variants: Variant[] }) {
  const comparison = useAskedComparison(sides);
  return (
    <>
      <div className="sides">
        <SidePicker
          name="This"
          side={sides.a}
          {...{ variants }}
          onSide={(a) => setState({ sides: { ...sides, a } })}
        />
        <SidePicker
          name="Against"
          side={sides.b}
          {...{ variants }}
          onSide={(b) => setState({ sides: { ...sides, b } })}
        />
      </div>
      {comparison?.inputs.length === 0 ? (
        <p className="empty">The two are the same.</p>
      ) : (
        <Summary sentences={comparison?.words ?? kNothing} />
      )}
    </>
  );
}

/** All that differs between the two. */
function Differences() {
  const comparison = useStore((s) => s.comparison);
  if (!comparison) return null;
  const { inputs } = comparison;
  return (
    <>
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
