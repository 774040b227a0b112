import { useId } from "react";
import { askPose, move, settleIn } from "../../api/pose";
import { kDrawn, setState, useAnswers, useDerived, useStore } from "../../api/store";
import type { Units } from "../../api/types";
import { degreesText, lengthText } from "../../format/quantity";
import { Stacked } from "../common/figures";
import { clampTo, commonTravel, movedAxles } from "./travel";

const kDegree = Math.PI / 180;
const kRollStep = kDegree / 4;
const kSteerEnd = 35 * kDegree;

export function bumpStep(units: Units): number {
  return (units.metric ? 1 : 1 / 16) / (units.per_si.length?.factor ?? 1000);
}

/** Moves the truck: every picture, number and curve follows. */
export function MotionBar() {
  const units = useAnswers((a) => a.units);
  const states = useDerived((a) =>
    a.report.states.flatMap(({ id, label, settled }) => (settled ? [{ id, label }] : [])),
  );
  const all = useDerived((a) => a.report.axles.map(({ id, label }) => ({ id, label })));
  const question = useStore((s) => s.question);
  const moves = useStore((s) => s.moves);
  const steer_rad = useStore((s) => s.steer_rad);
  const isSteered = useAnswers((a) => a.scene.parts.some((p) => p.kind === "tyre" && p.steered));

  const axles = useDerived((a) => movedAxles(a.report, moves));
  const travel = commonTravel(axles);
  const lead = axles[0]?.id ?? "";
  const heave = question.heave?.[lead] ?? 0;
  const roll = question.roll?.[lead] ?? 0;
  const each = (value: number) => Object.fromEntries(axles.map((a) => [a.id, value]));
  const still = heave === 0 && roll === 0 && steer_rad === 0 && !question.settled;

  return (
    <section className="motion" aria-label="Motion">
      <label className="pick-one">
        <span>Stands</span>
        <select
          value={question.settled ? (question.state ?? "") : ""}
          onChange={(event) => settleIn(event.target.value === "" ? null : event.target.value)}
        >
          <option value="">as drawn</option>
          {states.map((s) => (
            <option key={s.id} value={s.id}>
              {s.label}
            </option>
          ))}
        </select>
      </label>
      <label className="pick-one">
        <span>Moves</span>
        <select
          value={moves ?? ""}
          onChange={(event) =>
            setState({ moves: event.target.value === "" ? null : event.target.value })
          }
        >
          <option value="">both</option>
          {all.map((a) => (
            <option key={a.id} value={a.id}>
              {a.label}
            </option>
          ))}
        </select>
      </label>
      {travel && (
        <>
          <Slider
            name="Bump"
            ends={["droop", "bump"]}
            low={travel.droop_m}
            high={travel.bump_m}
            step={bumpStep(units)}
            value={heave}
            text={question.settled ? "as it sits" : lengthText(heave, units, true)}
            stepName={units.metric ? "1 mm" : "1/16 in"}
            onChange={(value) => move(each(value), {})}
          />
          {travel.roll_rad > 0 && (
            <Slider
              name="Roll"
              ends={["left down", "up"]}
              low={-travel.roll_rad}
              high={travel.roll_rad}
              step={kRollStep}
              value={roll}
              text={question.settled ? "as it sits" : degreesText(roll, true)}
              stepName="a quarter of a degree"
              onChange={(value) => move({}, each(value))}
            />
          )}
        </>
      )}
      {isSteered && (
        <Slider
          name="Steer"
          ends={["right", "left"]}
          low={-kSteerEnd}
          high={kSteerEnd}
          step={kDegree}
          value={steer_rad}
          text={degreesText(steer_rad, true)}
          stepName="one degree"
          onChange={(value) => setState({ steer_rad: value })}
        />
      )}
      <button
        type="button"
        className="back"
        aria-label="Back to drawn"
        disabled={still}
        onClick={() => {
          setState({ steer_rad: 0 });
          askPose(kDrawn);
        }}
      >
        Drawn
      </button>
    </section>
  );
}

interface SliderProps {
  name: string;
  ends: [string, string];
  low: number;
  high: number;
  step: number;
  value: number;
  text: string;
  stepName: string;
  onChange: (value: number) => void;
}

function Slider(props: SliderProps) {
  const { name, ends, low, high, step, value, text, stepName, onChange } = props;
  const id = useId();
  const set = (next: number) => {
    // Whole steps from where it is drawn, so that zero is always among them.
    const whole = Math.round(next / step) * step;
    onChange(clampTo(low, high, Math.abs(whole) < step / 2 ? 0 : whole));
  };
  const zero = (0 - low) / (high - low || 1);
  return (
    <div className="slider">
      <div className="slider-head">
        <label htmlFor={id}>{name}</label>
        <output htmlFor={id}>
          <Stacked text={text} />
        </output>
      </div>
      <div className="slider-row">
        <button
          type="button"
          className="step"
          onClick={() => set(value - step)}
          aria-label={`${name}: ${stepName} less`}
        >
          −
        </button>
        <div className="track" style={{ "--zero": zero } as React.CSSProperties}>
          <input
            id={id}
            type="range"
            min={low}
            max={high}
            step="any"
            value={value}
            aria-valuetext={text}
            data-slider={name.toLowerCase()}
            onChange={(event) => set(Number(event.target.value))}
            onKeyDown={(event) => {
              const by = {
                ArrowLeft: -1,
                ArrowDown: -1,
                ArrowRight: 1,
                ArrowUp: 1,
                PageDown: -16,
                PageUp: 16,
              }[event.key];
              if (by === undefined) return;
              event.preventDefault();
              set(value + by * step);
            }}
          />
          <span className="end low" aria-hidden="true">
            {ends[0]}
          </span>
          <span className="end high" aria-hidden="true">
            {ends[1]}
          </span>
        </div>
        <button
          type="button"
          className="step"
          onClick={() => set(value + step)}
          aria-label={`${name}: ${stepName} more`}
        >
          +
        </button>
      </div>
    </div>
  );
}
