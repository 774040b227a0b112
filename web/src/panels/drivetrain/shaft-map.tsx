import { useId } from "react";
import type { ShaftMap } from "../../api/types";

const kCell = { width: 12, height: 12 };
const kLeft = 122;
const kTop = 8;
const kFoot = 44;

const kRooms = { f: "free", c: "close", p: "past", "-": "out" } as const;
const kKey = [
  { look: "free", words: "room left" },
  { look: "close", words: "close to an end" },
  { look: "past", words: "binds, or the spline is past its end" },
];

/** Where in bump and roll at once a shaft has room: told apart by hatching, colour only helps. */
export function ShaftMapPicture({ map, name }: { map: ShaftMap; name: string }) {
  const id = useId();
  const columns = map.rooms[0]?.length ?? 0;
  const [width, height] = [columns * kCell.width, map.rooms.length * kCell.height];
  const middle = kTop + height / 2;
  const runs = map.rooms.flatMap((row, roll) => runsOf(row).map((run) => ({ ...run, roll })));
  const zero = kLeft + width * map.ride;
  return (
    <figure className="shaft-map">
      <figcaption>
        Room in bump and roll at once
        <span className="soft"> As drawn on its mounts.</span>
      </figcaption>
      <svg
        viewBox={`0 0 ${kLeft + width + 12} ${kTop + height + kFoot}`}
        role="img"
        aria-label={inWords(map, name)}
      >
        <defs>
          <pattern id={`${id}-past`} width="6" height="6" patternUnits="userSpaceOnUse">
            <path d="M0 6L6 0M-1 1L1 -1M5 7L7 5" />
          </pattern>
          <pattern id={`${id}-close`} width="6" height="6" patternUnits="userSpaceOnUse">
            <circle cx="3" cy="3" r="1.1" />
          </pattern>
        </defs>
        {runs.map(({ from, length, room, roll }) => (
          <Cell
            key={`${roll} ${from}`}
            room={room}
            id={id}
            x={kLeft + from * kCell.width}
            y={kTop + (map.rooms.length - 1 - roll) * kCell.height}
            width={length * kCell.width}
            height={kCell.height}
          />
        ))}
        <line className="zero" x1={kLeft} x2={kLeft + width} y1={middle} y2={middle} />
        <line className="zero" x1={zero} x2={zero} y1={kTop} y2={kTop + height} />
        <text className="side" x={kLeft - 8} y={kTop + 14}>
          left wheel up
        </text>
        <text className="side" x={kLeft - 8} y={kTop + height - 4}>
          right wheel up
        </text>
        <text x={kLeft} y={kTop + height + 18} className="start">
          {map.droop.text} droop
        </text>
        <text x={kLeft + width} y={kTop + height + 18} className="end">
          {map.bump.text} bump
        </text>
        <text x={zero} y={kTop + height + 36}>
          ride
        </text>
      </svg>
      <ul className="map-key">
        {kKey.map(({ look, words }) => (
          <li key={look}>
            <svg viewBox="0 0 26 16" aria-hidden="true">
              <Cell room={look} id={id} x={0.5} y={0.5} width={25} height={15} />
            </svg>
            {words}
          </li>
        ))}
      </ul>
    </figure>
  );
}

function Cell(props: {
  room: string;
  id: string;
  x: number;
  y: number;
  width: number;
  height: number;
}) {
  const { room, id, ...place } = props;
  return (
    <g className={room}>
      <rect {...place} />
      {room !== "free" && <rect {...place} fill={`url(#${id}-${room})`} className="hatch" />}
    </g>
  );
}

/** Neighbours of one room as one stretch. */
function runsOf(row: string): { from: number; length: number; room: string }[] {
  const runs: { from: number; length: number; room: string }[] = [];
  [...row].forEach((letter, at) => {
    const room = kRooms[letter as keyof typeof kRooms];
    const last = runs.at(-1);
    if (last?.room === room) last.length++;
    else runs.push({ from: at, length: 1, room });
  });
  return runs.filter(({ room }) => room !== "out");
}

function inWords(map: ShaftMap, name: string): string {
  const letters = map.rooms.join("").replaceAll("-", "");
  const share = (letter: string) =>
    Math.round((100 * letters.split(letter).length - 100) / (letters.length || 1));
  return `${name}: past its room in ${share("p")} % of all bump and roll, close in ${share("c")} %.`;
}
