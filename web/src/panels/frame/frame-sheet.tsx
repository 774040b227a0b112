import { memo } from "react";
import { choose } from "../../api/choose";
import { useAnswers } from "../../api/store";
import type { FrameReport, FrameState, Verdict } from "../../api/types";
import { capital } from "../../format/text";
import { FigureCell } from "../common/figure-cell";
import { Stacked } from "../common/figures";
import { Mark } from "../common/mark";
import { NumberRow } from "../common/number-row";
import { Summary } from "../common/summary";
import { TableBox } from "../common/table-box";
import { ChosenCard } from "../fields/chosen-card";
import { MissingList } from "../front/missing";
import { FrameInputs } from "./frame-inputs";
import { Sections } from "./sections";
import { Stages } from "./stages";
import { FixedPoints, WorstPlaces } from "./stress-tables";

const kNothing: string[] = [];
const kTops = ["frame"];

const kGives = [
  {
    key: "twist",
    label: "Twist",
    share: "twist_share",
    explain:
      "How hard the bare frame is to twist: the couple at one axle line against the other that turns them by a degree.",
  },
  {
    key: "bending",
    label: "Bending",
    share: "bending_share",
    explain:
      "How hard the bare frame is to bend: the weight halfway between the axle lines over how far it sinks there.",
  },
  {
    key: "lozenging",
    label: "Out of square",
    share: "lozenging_share",
    explain:
      "How hard the bare frame is to push out of square: the force along one rail against the other over how far it shifts.",
  },
] as const;

/** What the frame gives, what each part does for it, and where it is stressed most. */
export function FrameSheet() {
  const sentences = useAnswers((a) => a.report.summary.frame ?? kNothing);
  const frame = useAnswers((a) => a.report.frame);
  const planned = frame?.states.find((s) => s.id === "planned");
  return (
    <>
      <Summary sentences={sentences} />
      <ChosenCard />
      <MissingList tops={kTops} />
      {frame && planned ? (
        <FrameNumbers frame={frame} planned={planned} />
      ) : (
        <p className="empty">
          Type the rails first: their section, and the points where they bend. From these, the
          crossmembers and the plates comes how stiff the frame is and where it is stressed.
        </p>
      )}
      {frame && <Sections />}
      <section className="inputs-block" aria-label="What it was answered from">
        <h3>What it was answered from</h3>
        <FrameInputs />
      </section>
    </>
  );
}

function FrameNumbers({ frame, planned }: { frame: FrameReport; planned: FrameState }) {
  const before = frame.states.find((s) => s.id === "donor");
  return (
    <section className="numbers" aria-label="Numbers: frame">
      <h3>As planned, between the axle lines</h3>
      {kGives.map(({ key, label, explain }) => (
        <NumberRow
          key={key}
          label={label}
          value={planned[key]}
          low={before && before[key].si !== null ? before[key] : null}
          finding={`frame.${key}`}
          explain={explain}
          usual="No less than the frame had as it came: the mark on the scale."
        />
      ))}
      <NumberRow label="Weighs" value={planned.mass} explain="Rails, plates and crossmembers." />
      <StatesBeside states={frame.states} />
      <Members state={planned} />
      <Stages stages={frame.stages} />
      <InUse frame={frame} />
      <Taken state={planned} />
    </section>
  );
}

/** The heads of a table of what gives how much, and weighs. */
function GivesHead({ of }: { of: string }) {
  return (
    <thead>
      <tr>
        <th scope="col">{of}</th>
        {kGives.map(({ key, label }) => (
          <th key={key} scope="col">
            {label}
          </th>
        ))}
        <th scope="col">Weighs</th>
      </tr>
    </thead>
  );
}

/** As it came, as planned and after each stage. */
const StatesBeside = memo(function StatesBeside({ states }: { states: FrameState[] }) {
  return (
    <TableBox caption="From as it came to as planned">
      <GivesHead of="Frame" />
      <tbody>
        {states.map((state) => (
          <tr key={state.id}>
            <th scope="row">{state.label}</th>
            {kGives.map(({ key }) => (
              <FigureCell key={key} value={state[key]} />
            ))}
            <FigureCell value={state.mass} />
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
});

const Members = memo(function Members({ state }: { state: FrameState }) {
  return (
    <TableBox caption="What each part does, of all; the rest is in the joints">
      <GivesHead of="Part" />
      <tbody>
        {state.members.map((member, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: both rails of a pair have one id.
          <tr key={`${member.id} ${at}`}>
            <th scope="row">{capital(member.label)}</th>
            {kGives.map(({ key, share }) => (
              <FigureCell key={key} value={member[share]} />
            ))}
            <FigureCell value={member.mass} />
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
});

function InUse({ frame }: { frame: FrameReport }) {
  const findings = useAnswers((a) => a.report.findings);
  if (frame.cases.length === 0) return null;
  const verdictOf = (id: string): Verdict | null =>
    findings.find((f) => f.id === `frame.stress.${id}`)?.verdict ?? null;
  const labelOf = (id: string): string => frame.cases.find((c) => c.id === id)?.label ?? id;
  return (
    <>
      <h3>In use, as planned</h3>
      {frame.cases.map(
        (one) =>
          one.worst && (
            <NumberRow
              key={one.id}
              label={one.label}
              value={one.worst.von_mises}
              verdict={verdictOf(one.id)}
              finding={`frame.stress.${one.id}`}
              explain="The greatest stress anywhere in rails, plates and crossmembers."
            />
          ),
      )}
      {frame.left_out.map((one) => (
        <p key={one.label} className="soft">
          Not told: {one.label}. {capital(one.why)}.
        </p>
      ))}
      <WorstPlaces places={frame.worst} labelOf={labelOf} />
      <FixedPoints points={frame.points} labelOf={labelOf} />
    </>
  );
}

/** What was taken as so. */
const Taken = memo(function Taken({ state }: { state: FrameState }) {
  if (state.assumptions.length === 0) return null;
  return (
    <>
      <h3>Taken as so</h3>
      <ul className="taken">
        {state.assumptions.map((one) => (
          <li key={`${one.path} ${one.words}`}>
            <button type="button" className="line-link" onClick={() => choose(one.path)}>
              <Mark kind="look" /> <Stacked text={one.words} />
            </button>
          </li>
        ))}
      </ul>
    </>
  );
});
