import type { ReactNode } from "react";
import { choose } from "../../api/choose";
import { thingOf } from "../../api/pointer";
import type { FixedPoint, StressPlace } from "../../api/types";
import { capital } from "../../format/text";
import { FigureCell } from "../common/figure-cell";
import { Stacked } from "../common/figures";
import { TableBox } from "../common/table-box";

/** What a case is called. */
type LabelOf = (id: string) => string;

/** The places that are stressed most. */
export function WorstPlaces({ places, labelOf }: { places: StressPlace[]; labelOf: LabelOf }) {
  return (
    <StressTable caption="Stressed most" first="Where">
      {places.map((place) => (
        <PlaceRow key={`${place.where} ${place.case}`} place={place} when={labelOf(place.case)} />
      ))}
    </StressTable>
  );
}

function StressTable(props: { caption: string; first: string; children: ReactNode }) {
  return (
    <TableBox caption={props.caption}>
      <thead>
        <tr>
          <th scope="col">{props.first}</th>
          <th scope="col">When</th>
          <th scope="col">Stress</th>
          <th scope="col">Of yield</th>
        </tr>
      </thead>
      <tbody>{props.children}</tbody>
    </TableBox>
  );
}

/** What comes on top of a stress, that beams do not have. */
const moreOf = (place: { near_joint: boolean; distorts: boolean }): string =>
  place.near_joint
    ? "by a joint: its own stress comes on top"
    : place.distorts
      ? "the box distorts: more comes on top"
      : "";

function PlaceRow({ place, when }: { place: StressPlace; when: string }) {
  const more = moreOf(place);
  return (
    <tr>
      <th scope="row">
        <button type="button" className="line-link" onClick={() => choose(place.path)}>
          <Stacked text={capital(place.where)} />
        </button>
        {more !== "" && <span className="soft"> ({more})</span>}
      </th>
      <td>{when}</td>
      <FigureCell value={place.von_mises} />
      <FigureCell value={place.share_of_yield} />
    </tr>
  );
}

/** How the part that carries each thing is stressed where it carries it. */
export function FixedPoints({ points, labelOf }: { points: FixedPoint[]; labelOf: LabelOf }) {
  if (points.length === 0) return null;
  return (
    <StressTable caption="At what is fixed to it" first="What">
      {points.map((point) => (
        <PointRow key={`${point.path} ${point.side}`} point={point} when={labelOf(point.case)} />
      ))}
    </StressTable>
  );
}

function PointRow({ point, when }: { point: FixedPoint; when: string }) {
  const more = moreOf(point);
  return (
    <tr>
      <th scope="row">
        <button
          type="button"
          className="line-link"
          onClick={() => choose(thingOf(point.path), point.path)}
        >
          {capital(point.label)}
        </button>{" "}
        <span className="soft">
          <Stacked text={more === "" ? `(${point.where})` : `(${point.where}; ${more})`} />
        </span>
      </th>
      <td>{when}</td>
      <FigureCell value={point.von_mises} />
      <FigureCell value={point.share_of_yield} />
    </tr>
  );
}
