import {
  BufferGeometry,
  Float32BufferAttribute,
  Group,
  LineBasicMaterial,
  LineSegments,
  type Material,
} from "three";

export interface Colours {
  ground: string;
  ink: string;
  faint: string;
  steel: string;
  rubber: string;
  chosen: string;
  changed: string;
  mass: string;
  /** Edges of masses. */
  massEdge: string;
  /** By level of stress. */
  stress: string[];
}

/** Lines on the floor: the centreline, the front-axle line, and a net of stations. */
export function floorLines(
  from_x: number,
  to_x: number,
  half: number,
  step: number,
  colours: Colours,
): { object: Group; dispose: () => void } {
  const object = new Group();
  const lines = (spots: number[], colour: string) => {
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new Float32BufferAttribute(spots, 3));
    object.add(new LineSegments(geometry, new LineBasicMaterial({ color: colour })));
  };
  const net: number[] = [];
  for (let x = Math.ceil(to_x / step) * step; x <= from_x; x += step) {
    net.push(x, -half, 0, x, half, 0);
  }
  for (let y = -Math.floor(half / step) * step; y <= half; y += step) {
    net.push(from_x, y, 0, to_x, y, 0);
  }
  lines(net, colours.faint);
  lines([from_x, 0, 0.001, to_x, 0, 0.001, 0, -half, 0.001, 0, half, 0.001], colours.chosen);
  return {
    object,
    dispose: () =>
      object.traverse((o) => {
        if (!(o instanceof LineSegments)) return;
        o.geometry.dispose();
        (o.material as Material).dispose();
      }),
  };
}
