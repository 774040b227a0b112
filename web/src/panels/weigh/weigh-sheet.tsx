import { memo } from "react";
import { at } from "../../api/pointer";
import { useAnswers } from "../../api/store";
import type { Finding, Json, Numeric, StateReport } from "../../api/types";
import { Figures, Stacked } from "../common/figures";
import { Mark } from "../common/mark";
import { NumberRow } from "../common/number-row";
import { useStateShown } from "../common/state-shown";
import { Summary } from "../common/summary";
import { TableBox } from "../common/table-box";
import { ChosenCard } from "../fields/chosen-card";
import { Collection } from "../fields/collection";
import { Fields } from "../fields/fields";
import { MissingList } from "../front/missing";
import { NextList } from "../next/next-list";

const kNothing: string[] = [];
const kTops = [
  "masses",
  "load_states",
  "ratings",
  "hitch",
  "corner_weighings",
  "lifted_weighings",
  "frame",
  "tyres",
  "",
];

function isTank(thing: Json): boolean {
  return at(thing, "/fluid") !== undefined;
}

/** What the truck weighs, where the weight sits, and what each axle and tyre carries. */
export function WeighSheet() {
  const sentences = useAnswers((a) => a.report.summary.weigh ?? kNothing);
  const states = useAnswers((a) => a.report.states);
  const state = useStateShown();
  return (
    <>
      <Summary sentences={sentences} />
      <ChosenCard />
      <MissingList tops={kTops} />
      <NextList work="weigh" />
      {state ? (
        <StateNumbers state={state} />
      ) : (
        <p className="empty">
          Type the mass and place of each heavy thing first: frame, engine, cab, axles. From these
          come the balance point and what each axle carries.
        </p>
      )}
      {states.length > 1 && <StatesBeside states={states} shown={state?.id ?? ""} />}
      <WeighInputs />
    </>
  );
}

/** What is typed for the weights: the load states, what is aboard, and what the scales read. */
const WeighInputs = memo(function WeighInputs() {
  return (
    <section className="inputs-block" aria-label="What it was answered from">
      <h3>What it was answered from</h3>
      <Collection path="/load_states" title="Load states" shows={[]} />
      <Fields path="" only={["ride_state"]} />
      <Collection
        path="/masses"
        title="Masses"
        shows={["mass", "/at/station"]}
        isOne={(thing) => !isTank(thing)}
      />
      <Collection
        path="/masses"
        title="Tanks and what is in them"
        shows={["/fluid/volume", "/at/station"]}
        isOne={isTank}
        begin={{ fluid: {} }}
      />
      <h4>Hitch</h4>
      <Fields path="/hitch" />
      <h4>Ratings</h4>
      <Fields path="/ratings" />
      <Collection path="/corner_weighings" title="Corner weighings" shows={[]} />
      <Collection path="/lifted_weighings" title="Lifted weighings" shows={["lift"]} />
    </section>
  );
});

function StateNumbers({ state }: { state: StateReport }) {
  const axles = useAnswers((a) => a.report.axles);
  const findings = useAnswers((a) => a.report.findings);
  // What the summary has said is not said again.
  const said = useAnswers((a) => a.report.summary.weigh ?? kNothing);
  const axleName = (id: string) => axles.find((a) => a.id === id)?.label ?? id;
  const told = (id: string): Finding | undefined => findings.find((f) => f.id === id);
  // A finding is about the state that is worst: its mark and working belong to that state's number.
  const judged = (id: string, value: Numeric): string | null =>
    told(id)?.value?.text === value.text ? id : null;
  const { stability } = state;
  /** What the program tells of a number, else what it is in short. */
  const about = (id: string, short: string) => {
    const explained = state.explained.find((e) => e.id === id);
    return {
      explain: explained?.explain ?? short,
      usual: explained?.usual,
      working: explained?.working,
    };
  };
  return (
    <section className="numbers" aria-label={`Numbers: ${state.label}`}>
      <h3>{state.label}</h3>
      {!said.includes(state.sentence) && (
        <p className="state-sentence">
          <Stacked text={state.sentence} />
        </p>
      )}
      <NumberRow
        label="Total"
        value={state.total}
        plusMinus={state.plus_minus}
        finding={judged("rating.gross", state.total)}
        {...about(
          "total",
          "Everything that is aboard in this load state, fluids as full as it says.",
        )}
      />
      {state.loads.map((load) => (
        <NumberRow
          key={load.axle}
          label={`On the ${lower(axleName(load.axle))}`}
          value={load.total}
          verdict={load.verdict}
          high={load.rating}
          finding={judged(`rating.axle.${load.axle}`, load.total)}
          {...about("loads", "")}
          explain={[
            `Left ${load.left.text}, right ${load.right.text}.`,
            load.measured
              ? `The scales read ${load.measured.left.text} and ${load.measured.right.text}.`
              : "",
            load.rating ? `Axle rating ${load.rating.text}.` : "No axle rating is given.",
          ]
            .filter((sentence) => sentence !== "")
            .join(" ")}
        />
      ))}
      <NumberRow
        label="Balance point behind the front axle"
        value={state.cg.station}
        {...about(
          "cg",
          "Station of the centre of gravity of everything aboard, unsprung parts included.",
        )}
      />
      <NumberRow
        label="Balance point off the centreline"
        value={state.cg.offset}
        {...about("cg", "To the left is plus.")}
      />
      <NumberRow
        label="Balance point above the floor"
        value={state.cg.height}
        {...about("cg", "As drawn, at design ride height.")}
      />
      <NumberRow
        label="On the springs"
        value={state.sprung}
        {...about(
          "sprung",
          "The total less what the axles carry by themselves. The springs hold up this much.",
        )}
      />
      <NumberRow
        label="Share on the front"
        value={state.shares.front}
        {...about("loads", "Share of the weight on the ground.")}
      />
      <NumberRow
        label="Share on the left"
        value={state.shares.left}
        {...about("loads", "Share of the weight on the ground.")}
      />
      <NumberRow
        label="Cross weight"
        value={state.shares.cross}
        finding={judged("cross_weight", state.shares.cross)}
        explain="Share on the left front and right rear together. Half is even; far from it, one spring carries what its neighbour should."
      />
      {state.unsprung.map((u) => (
        <NumberRow
          key={u.axle}
          label={`Unsprung, ${lower(axleName(u.axle))}`}
          value={u.mass}
          {...about(
            "sprung",
            "What moves with the axle: housing, brakes, wheels, and whatever is marked as on it.",
          )}
        />
      ))}
      <NumberRow
        label="Stability factor"
        value={stability.factor}
        finding={judged("stability_factor", stability.factor)}
        low={told("stability_factor")?.limit ?? null}
        {...about(
          "factor",
          "Half the track over the height of the balance point. The larger the steadier. Pickups as made have about 1.1 to 1.2, lifted ones less.",
        )}
      />
      <NumberRow
        label="Side slope"
        value={stability.side_slope}
        finding={judged("side_slope", stability.side_slope)}
        low={told("side_slope")?.limit ?? null}
        {...about(
          "side_slope",
          "The side slope on which the upper wheels come off the ground, standing still. Moving, or with a load that shifts, it is less.",
        )}
      />
      <NumberRow
        label="Tilt"
        value={stability.tilt}
        {...about(
          "factor",
          "The side slope from the stability factor alone, as if it carried no more on one side than on the other.",
        )}
      />
      <NumberRow
        label="Up grade"
        value={stability.up_grade}
        finding={judged("grade.up", stability.up_grade)}
        low={told("grade.up")?.limit ?? null}
        {...about(
          "grade",
          "The climb at which the front wheels lift, standing still. Pulling lifts them sooner.",
        )}
      />
      <NumberRow
        label="Down grade"
        value={stability.down_grade}
        finding={judged("grade.down", stability.down_grade)}
        low={told("grade.down")?.limit ?? null}
        {...about(
          "grade",
          "The descent at which the rear wheels lift, standing still. Braking lifts them sooner.",
        )}
      />
      {state.settled && <Corners state={state} axleName={axleName} />}
    </section>
  );
}

function lower(label: string): string {
  return label.charAt(0).toLowerCase() + label.slice(1);
}

function Corners({ state, axleName }: { state: StateReport; axleName: (id: string) => string }) {
  const settled = state.settled;
  if (!settled) return null;
  return (
    <TableBox caption="How it sits against how it is drawn">
      <thead>
        <tr>
          <th scope="col">Corner</th>
          <th scope="col">Height off</th>
          <th scope="col">Load</th>
        </tr>
      </thead>
      <tbody>
        {settled.corners.map((c) => (
          <tr key={c.axle + c.side}>
            <th scope="row">
              {axleName(c.axle)}, {c.side}
            </th>
            <td>
              <Figures value={c.height_error} size="small" />
            </td>
            <td>
              <Figures value={c.load} size="small" />
            </td>
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}

/** The load states side by side. */
function StatesBeside({ states, shown }: { states: StateReport[]; shown: string }) {
  const axles = useAnswers((a) => a.report.axles);
  const rows = [
    { label: "Total", of: (s: StateReport) => s.total, verdict: () => null },
    ...axles.map((a) => ({
      label: a.label,
      of: (s: StateReport) => s.loads.find((l) => l.axle === a.id)?.total,
      verdict: (s: StateReport) => s.loads.find((l) => l.axle === a.id)?.verdict ?? null,
    })),
    { label: "Balance point back", of: (s: StateReport) => s.cg.station, verdict: () => null },
    { label: "Balance point up", of: (s: StateReport) => s.cg.height, verdict: () => null },
    { label: "Side slope", of: (s: StateReport) => s.stability.side_slope, verdict: () => null },
  ];
  return (
    <TableBox caption="Load states side by side">
      <thead>
        <tr>
          <td />
          {states.map((s) => (
            <th key={s.id} scope="col" className={s.id === shown ? "shown" : ""}>
              {s.label}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.label}>
            <th scope="row">{row.label}</th>
            {states.map((s) => {
              const value = row.of(s);
              const verdict = row.verdict(s);
              return (
                <td key={s.id} className={s.id === shown ? "shown" : ""}>
                  {verdict && verdict !== "good" && <Mark kind={verdict} size={16} />}
                  {value && <Figures value={value} size="small" />}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}
