import { useId } from "react";
import { caseShown, look, useAskedDrawing, useFrameDrawing } from "../../api/frame-look";
import { useAnswers, useStore } from "../../api/store";
import type { FrameDrawing } from "../../api/types";
import { nearerEnd } from "../../scene/frame-shape";
import { Stacked } from "../common/figures";

const kStep = 0.05;

/** What the frame is loaded with, from as it came to as planned, and what the colours mean. */
export function LoadBar() {
  useAskedDrawing();
  const frame = useAnswers((a) => a.report.frame);
  const asked = useStore((s) => s.frameLook);
  const drawing = useFrameDrawing();
  const id = caseShown(frame, asked.case);
  return (
    <section className="motion load" aria-label="Under load">
      <label className="pick-one">
        <span>Loaded by</span>
        <select value={id ?? ""} onChange={(event) => look({ case: event.target.value })}>
          {frame?.cases.map((one) => (
            <option key={one.id} value={one.id}>
              {one.label}
            </option>
          ))}
        </select>
      </label>
      {drawing && (
        <>
          <StateSlider blend={asked.blend} drawing={drawing} />
          <Legend drawing={drawing} blend={asked.blend} />
        </>
      )}
    </section>
  );
}

function StateSlider({ blend, drawing }: { blend: number; drawing: FrameDrawing }) {
  const id = useId();
  if (!drawing.before) {
    return <p className="soft">Only as planned. As it came: {drawing.left_out}</p>;
  }
  const text =
    blend === 0
      ? "as it came"
      : blend === 1
        ? "as planned"
        : `${Math.round(blend * 100)} % of the way`;
  return (
    <div className="slider">
      <label className="sr-only" htmlFor={id}>
        From as it came to as planned
      </label>
      <div className="slider-head between">
        <span>As it came</span>
        <output htmlFor={id}>{text}</output>
        <span>As planned</span>
      </div>
      <div className="slider-row">
        <div className="track bare">
          <input
            id={id}
            type="range"
            min={0}
            max={1}
            step={kStep}
            value={blend}
            aria-valuetext={text}
            onChange={(event) => look({ blend: Number(event.target.value) })}
          />
        </div>
      </div>
    </div>
  );
}

/** The steps of stress with their numbers, the worst place, and how much the shape is exaggerated. */
function Legend({ drawing, blend }: { drawing: FrameDrawing; blend: number }) {
  const end = nearerEnd(drawing, blend);
  const state = drawing[end] ?? drawing.after;
  const { exaggeration, levels } = drawing;
  return (
    <div className="load-words">
      <ol className="stress-scale" aria-label="Stress by colour, in steps from">
        {levels.map((level, i) => (
          <li key={level.text}>
            <span className={`swatch stress-${i}`} aria-hidden="true" />
            <Stacked text={i === levels.length - 1 ? `${level.text} and over` : level.text} />
          </li>
        ))}
      </ol>
      <p>
        <svg className="worst-key" viewBox="-19 -19 38 38" aria-hidden="true">
          <g className="worst-mark">
            <circle r="8" />
            <path d="M-17 0H-8M8 0H17M0 -17V-8M0 8V17" />
          </g>
        </svg>
        Greatest stress, {end === "before" ? "as it came" : "as planned"}:{" "}
        <strong>
          <Stacked text={state.worst.von_mises.text} />
        </strong>
        , <Stacked text={state.worst.where} />.
      </p>
      <p>
        {exaggeration > 1 ? `Shape shown ${exaggeration} times. ` : "Shape to scale. "}
        It moves up to <Stacked text={state.most.text} /> from the axle lines.
      </p>
    </div>
  );
}
