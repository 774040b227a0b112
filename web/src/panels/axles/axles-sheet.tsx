import { memo } from "react";
import { choose } from "../../api/choose";
import { join } from "../../api/pointer";
import { setState, useAnswers, useStore } from "../../api/store";
import type { ArticulationCase, AxleReport, Numeric, Seat, WorkingStep } from "../../api/types";
import { capital } from "../../format/text";
import { Figures, Stacked } from "../common/figures";
import { ReportRow } from "../common/report-row";
import { Summary } from "../common/summary";
import { TableBox } from "../common/table-box";
import { ChosenCard } from "../fields/chosen-card";
import { Collection } from "../fields/collection";
import { Fields } from "../fields/fields";
import { Steps } from "../findings/working";
import { MissingList } from "../front/missing";
import { NextList } from "../next/next-list";
import { TravelCurves } from "./travel-curves";

const kNothing: string[] = [];
const kNoSteps: WorkingStep[] = [];
const kTops = ["axles", "tyres", "limits"];
const kCollections: { key: string; title: string; shows: string[] }[] = [
  { key: "links", title: "Links", shows: [] },
  { key: "arms", title: "Arms", shows: [] },
  { key: "coils", title: "Coils", shows: ["rate", "free_length"] },
  { key: "leaf_packs", title: "Leaf packs", shows: ["rate"] },
  { key: "dampers", title: "Shocks", shows: ["closed_length", "open_length"] },
  { key: "bump_stops", title: "Bump stops", shows: ["free_height"] },
  { key: "anti_roll_bars", title: "Anti-roll bars", shows: ["rate"] },
];

/** Where the spring seats go and what each axle does through its travel. */
export function AxlesSheet() {
  const sentences = useAnswers((a) => a.report.summary.axles ?? kNothing);
  const axles = useAnswers((a) => a.report.axles);
  const shown = useStore((s) => s.axle);
  const axle = axles.find((a) => a.id === shown) ?? axles[0];
  return (
    <>
      <Summary sentences={sentences} />
      {axles.length > 1 && (
        <fieldset className="choose-one" aria-label="Which axle">
          {axles.map((a) => (
            <button
              key={a.id}
              type="button"
              aria-pressed={a.id === axle?.id}
              onClick={() => setState({ axle: a.id, chosen: null })}
            >
              {a.label}
            </button>
          ))}
        </fieldset>
      )}
      <ChosenCard />
      <MissingList tops={kTops} />
      <NextList work="axles" />
      {axle ? (
        <AxleNumbers axle={axle} />
      ) : (
        <p className="empty">
          Type the ends of the front axle's links first: station, offset and height of each. From
          these comes everything the axle does through its travel.
        </p>
      )}
      <AxleInputs id={axle?.id} label={axle?.label} />
    </>
  );
}

interface AxleInputsProps {
  id: string | undefined;
  label: string | undefined;
}

/** What is typed for the axles, in the order of the job: the axle, what carries it, what limits it. */
const AxleInputs = memo(function AxleInputs({ id, label }: AxleInputsProps) {
  return (
    <section className="inputs-block" aria-label="What it was answered from">
      <h3>What it was answered from</h3>
      <Collection path="/axles" title="Axles" shows={["station", "track"]} />
      <Collection path="/tyres" title="Tyres" shows={["free_radius", "rate"]} />
      {id !== undefined && (
        <>
          <h4>{label}</h4>
          <Fields path={join("/axles", id)} depth={0} />
          {kCollections.map(({ key, title, shows }) => (
            <Collection key={key} path={join("/axles", id, key)} title={title} shows={shows} />
          ))}
        </>
      )}
      <h4>What is accepted</h4>
      <Fields path="/limits" />
    </section>
  );
});

function AxleNumbers({ axle }: { axle: AxleReport }) {
  const numbers = useStore((s) => s.pose?.numbers[axle.id]);
  const heave = useStore((s) => s.question.heave?.[axle.id] ?? 0);
  const roll = useStore((s) => s.question.roll?.[axle.id] ?? 0);
  const moved = useStore((s) => s.question.settled === true) || heave !== 0 || roll !== 0;
  const nowOf = (id: string): Numeric | undefined => numbers?.find((n) => n.id === id)?.value;
  return (
    <>
      {axle.locks.map((lock) => (
        <p key={lock.message} className="lock">
          {lock.message}
        </p>
      ))}
      {axle.seats.length > 0 && <Seats seats={axle.seats} />}
      <section className="numbers" aria-label={axle.label}>
        <h3>What it does</h3>
        {axle.rows.map((row) => (
          <ReportRow key={row.id} row={row} now={moved ? nowOf(row.id) : undefined} />
        ))}
      </section>
      {axle.curves.length > 0 && (
        <section className="curves" aria-label="Over its travel">
          <h3>Over its travel</h3>
          <TravelCurves axle={axle.id} curves={axle.curves} nowOf={nowOf} />
        </section>
      )}
      {axle.links.length > 0 && <Links axle={axle} />}
      <Articulation />
    </>
  );
}

function Seats({ seats }: { seats: Seat[] }) {
  // What the summary has said is not said again.
  const told = useAnswers((a) => a.report.summary.axles ?? kNothing);
  return (
    <section className="seats" aria-label="Spring seats">
      <h3>Spring seats</h3>
      {seats.map((seat) => (
        <article key={seat.name} className="seat">
          <h4>{capital(seat.name)}</h4>
          {!told.includes(seat.sentence) && (
            <p className="seat-sentence">
              <Stacked text={seat.sentence} />
            </p>
          )}
          <dl>
            <Fact name="Tack, seat to seat" value={seat.tack} large />
            <Fact name="Loaded" value={seat.loaded} />
            <Fact name="As drawn" value={seat.drawn} />
            <Fact name="Move the upper seat" value={seat.move} />
            <Fact name="Below free position" value={seat.below_free} />
            <Fact name="Bump left to solid" value={seat.bump_left} />
            <Fact name="Load" value={seat.load} force />
            <Fact name="Frequency" value={seat.frequency} />
          </dl>
          <How steps={seat.working} />
          <button type="button" className="quiet" onClick={() => choose(seat.path)}>
            Change this spring
          </button>
        </article>
      ))}
    </section>
  );
}

interface FactProps {
  name: string;
  value: Numeric;
  large?: boolean;
  force?: boolean;
}

const Fact = memo(function Fact(props: FactProps) {
  return (
    <div className={`fact${props.large ? " large" : ""}${props.force ? " force" : ""}`}>
      <dt>{props.name}</dt>
      <dd>
        <Figures value={props.value} size={props.large ? "row" : "small"} />
      </dd>
    </div>
  );
});

/** How the numbers above it came about, behind its name. */
function How({ steps }: { steps: WorkingStep[] }) {
  if (steps.length === 0) return null;
  return (
    <details className="how">
      <summary>How it came about</summary>
      <div className="working">
        <Steps steps={steps} />
      </div>
    </details>
  );
}

function Links({ axle }: { axle: AxleReport }) {
  return (
    <>
      <TableBox caption="Links: load at ride, and how far their joints swing over the travel">
        <thead>
          <tr>
            <th scope="col">Link</th>
            <th scope="col">Load</th>
            <th scope="col">Swing at the frame</th>
            <th scope="col">Swing at the axle</th>
            <th scope="col">Limit</th>
          </tr>
        </thead>
        <tbody>
          {axle.links.map((link) => (
            <tr key={link.name}>
              <th scope="row">
                <button type="button" className="line-link" onClick={() => choose(link.path)}>
                  {link.name}
                </button>
              </th>
              <td className="force">
                <Figures value={link.force} size="small" />
              </td>
              <td>
                <Figures value={link.swing_frame} size="small" />
              </td>
              <td>
                <Figures value={link.swing_axle} size="small" />
              </td>
              <td>{link.limit ? <Figures value={link.limit} size="small" /> : "not given"}</td>
            </tr>
          ))}
        </tbody>
      </TableBox>
      <How steps={axle.links_working} />
    </>
  );
}

function Articulation() {
  const { ramp, cross } = useAnswers((a) => a.report.articulation);
  if (!ramp && !cross) return null;
  return (
    <section className="seats" aria-label="Articulation">
      <h3>Articulation</h3>
      {ramp && <Case title="One wheel up a 20° ramp" of={ramp} finding="articulation.ramp" />}
      {cross && <Case title="Crossed axles" of={cross} finding="articulation.cross" />}
    </section>
  );
}

function Case({ title, of, finding }: { title: string; of: ArticulationCase; finding: string }) {
  const working = useAnswers((a) => a.report.findings.find((f) => f.id === finding)?.working);
  const axles = useAnswers((a) => a.report.axles);
  return (
    <article className="seat">
      <h4>{title}</h4>
      <p className="seat-sentence">First to lift: {of.first_lifted}.</p>
      <dl>
        <Fact name="Up the ramp" value={of.distance} />
        <Fact name="Wheel height" value={of.height} />
        <Fact name="Ramp index" value={of.index} />
        {of.loads.flatMap((load) => {
          const name = axles.find((a) => a.id === load.axle)?.label ?? load.axle;
          return [
            <Fact key={`${load.axle} left`} name={`${name}, left`} value={load.left} force />,
            <Fact key={`${load.axle} right`} name={`${name}, right`} value={load.right} force />,
          ];
        })}
      </dl>
      <How steps={working ?? kNoSteps} />
    </article>
  );
}
