import {
  AmbientLight,
  Color,
  DirectionalLight,
  type Object3D,
  PerspectiveCamera,
  Plane,
  Raycaster,
  Scene as Space3,
  Vector2,
  Vector3,
  WebGLRenderer,
} from "three";
import type { Work } from "../api/store";
import type { Part, Path, Scene, Vector } from "../api/types";
import { isAside } from "./aside";
import type { Dot, Size } from "./frame";
import type { FrameShape } from "./frame-shape";
import { middleInSpace } from "./outline";
import type { Bodies } from "./project";
import { type Colours, floorLines } from "./space-floor";
import { makePart, type SpacePart } from "./space-parts";
import { makeShape, type SpaceShape } from "./space-shape";

/** How the parts stand out from each other. */
export interface Tones {
  chosen: Path | null;
  isChanged: (path: Path) => boolean;
  work: Work;
}

/** The truck in space. Everything it makes it also disposes of. */
export interface Space {
  setScene: (scene: Scene, parts: Part[], step_m: number) => void;
  setPose: (bodies: Bodies | undefined, steer_rad: number) => void;
  setTones: (tones: Tones) => void;
  setColours: (colours: Colours) => void;
  /** Draws the frame under load in the place of its parts; null: the parts again. */
  setShape: (shape: FrameShape | null, unbent: [Vector, Vector][]) => void;
  setSize: (size: Size) => void;
  orbit: (dx: number, dy: number) => void;
  zoom: (factor: number, dx: number, dy: number) => void;
  home: () => void;
  /** Closer to one axle. */
  lookAt: (axle: string) => void;
  pick: (dot: Dot) => Part | null;
  /** Where on the screen a part is; null while behind the eye. */
  whereIs: (path: Path) => Dot | null;
  /** Where on the screen a point is; null while behind the eye. */
  whereIsPoint: (p: Vector) => Dot | null;
  /** How far a point goes with a movement on the screen, in the datum plane most square to the eye. */
  moveOf: (p: Vector, dx: number, dy: number) => Vector;
  dispose: () => void;
}

const kReach_px = 18;
const kTurn_rad_per_px = 0.008;
/** What gives way to the frame under load: its own parts, and what would stand before it. */
const kGiveWay: Part["kind"][] = [
  "rail",
  "plate",
  "crossmember",
  "case",
  "box",
  "cylinder",
  "ball",
];

export function makeSpace(canvas: HTMLCanvasElement, first: Colours): Space {
  const renderer = new WebGLRenderer({ canvas, antialias: true });
  const space = new Space3();
  const camera = new PerspectiveCamera(28, 1, 0.2, 60);
  camera.up.set(0, 0, 1);
  const sun = new DirectionalLight(0xffffff, 2.2);
  sun.position.set(2, 4, 6);
  space.add(new AmbientLight(0xffffff, 1.2), sun);

  let colours = first;
  let size: Size = { width: 1, height: 1 };
  let parts: SpacePart[] = [];
  let floor: ReturnType<typeof floorLines> | null = null;
  let bodies: Bodies | undefined;
  let steer = 0;
  let shown: { scene: Scene; parts: Part[]; step_m: number } | null = null;
  let tones: Tones = { chosen: null, isChanged: () => false, work: "build" };
  let loaded: { shape: FrameShape; unbent: [Vector, Vector][] } | null = null;
  let drawnShape: SpaceShape | null = null;
  const eye = { target: new Vector3(), turn: 0, lift: 0, far: 6 };
  let waiting = 0;

  const aim = () => {
    camera.position.set(
      eye.target.x + eye.far * Math.cos(eye.lift) * Math.cos(eye.turn),
      eye.target.y + eye.far * Math.cos(eye.lift) * Math.sin(eye.turn),
      eye.target.z + eye.far * Math.sin(eye.lift),
    );
    camera.lookAt(eye.target);
    camera.updateMatrixWorld();
  };
  const draw = () => {
    waiting = 0;
    aim();
    renderer.render(space, camera);
  };
  const drawSoon = () => {
    if (waiting === 0) waiting = requestAnimationFrame(draw);
  };

  const drop = (list: { object: Object3D; dispose: () => void }[]) => {
    for (const one of list) {
      space.remove(one.object);
      one.dispose();
    }
  };
  const clear = () => {
    drop(parts);
    parts = [];
    if (floor) drop([floor]);
    floor = null;
  };
  const paint = () => {
    for (const p of parts) {
      const { path, kind } = p.part;
      const isChosen = path === tones.chosen;
      const isChanged = tones.isChanged(path);
      const own = isChanged ? colours.changed : colourOf(p.part, colours);
      const aside = !isChanged && isAside(kind, tones.work) ? "aside" : "";
      p.paint(isChosen ? colours.chosen : own, isChosen ? "out" : aside);
    }
  };
  const follow = () => {
    for (const p of parts) p.follow(bodies, steer);
    space.updateMatrixWorld();
  };
  /** Some parts give way to it; they can still be picked. */
  const bend = () => {
    if (drawnShape) drop([drawnShape]);
    drawnShape = loaded && makeShape(loaded.shape, loaded.unbent, colours);
    if (drawnShape) space.add(drawnShape.object);
    for (const { part, object } of parts) {
      object.visible = drawnShape === null || !kGiveWay.includes(part.kind);
    }
  };
  /** Draws what is shown; parts that are the very same objects stay as they are. */
  const build = () => {
    if (!shown) return;
    const before = new Map(parts.map((p) => [p.part, p]));
    parts = shown.parts.flatMap((part) => {
      const made = before.get(part) ?? makePart(part, colours);
      before.delete(part);
      return made ? [made] : [];
    });
    drop([...before.values()]);
    for (const p of parts) if (p.object.parent !== space) space.add(p.object);
    const { extent } = shown.scene;
    if (floor) drop([floor]);
    floor = floorLines(extent.front_x + 0.6, extent.rear_x - 0.6, 1.6, shown.step_m, colours);
    space.add(floor.object);
    space.background = new Color(colours.ground);
    paint();
    bend();
    follow();
    drawSoon();
  };
  const home = () => {
    if (!shown) return;
    const { front_x, rear_x, top_z } = shown.scene.extent;
    eye.target.set((front_x + rear_x) / 2, 0, top_z * 0.42);
    eye.turn = 0.95;
    eye.lift = 0.32;
    const length = front_x - rear_x;
    const tall = 2 * Math.tan((camera.fov * Math.PI) / 360);
    eye.far = Math.max((length * 1.02) / (tall * camera.aspect), (top_z * 1.75) / tall) + 1.2;
    drawSoon();
  };
  const partOf = (object: Object3D): Part | null =>
    parts.find((p) => {
      for (let o: Object3D | null = object; o; o = o.parent) if (o === p.object) return true;
      return false;
    })?.part ?? null;

  const onCanvas = (seen: Vector3): Dot => ({
    x: ((seen.x + 1) / 2) * size.width,
    y: ((1 - seen.y) / 2) * size.height,
  });

  return {
    setScene: (scene, list, step_m) => {
      const isFirst = shown === null;
      shown = { scene, parts: list, step_m };
      build();
      if (isFirst) home();
    },
    setPose: (next, steer_rad) => {
      bodies = next;
      steer = steer_rad;
      follow();
      drawSoon();
    },
    setTones: (next) => {
      tones = next;
      paint();
      drawSoon();
    },
    setColours: (next) => {
      colours = next;
      clear();
      build();
    },
    setShape: (shape, unbent) => {
      loaded = shape && { shape, unbent };
      bend();
      drawSoon();
    },
    setSize: (next) => {
      const wasUnsized = size.width <= 1;
      size = next;
      renderer.setPixelRatio(Math.min(2, window.devicePixelRatio));
      renderer.setSize(size.width, size.height, false);
      camera.aspect = size.width / Math.max(1, size.height);
      camera.updateProjectionMatrix();
      if (wasUnsized) home();
      drawSoon();
    },
    orbit: (dx, dy) => {
      eye.turn -= dx * kTurn_rad_per_px;
      eye.lift = Math.min(1.5, Math.max(-0.1, eye.lift + dy * kTurn_rad_per_px));
      drawSoon();
    },
    zoom: (factor, dx, dy) => {
      eye.far = Math.min(40, Math.max(0.5, eye.far / factor));
      const per_px =
        (2 * eye.far * Math.tan((camera.fov * Math.PI) / 360)) / Math.max(1, size.height);
      eye.target.addScaledVector(new Vector3().setFromMatrixColumn(camera.matrix, 0), -dx * per_px);
      eye.target.addScaledVector(new Vector3().setFromMatrixColumn(camera.matrix, 1), dy * per_px);
      drawSoon();
    },
    home,
    lookAt: (axle) => {
      const housing = parts.find((p) => p.part.kind === "axle" && p.part.body === axle);
      if (!housing) return;
      home();
      eye.target.set(...middleInSpace(housing.part, bodies));
      eye.target.z += 0.15;
      eye.far *= 0.5;
      drawSoon();
    },
    pick: (dot) => {
      const caster = new Raycaster();
      // The lines on the edges are no target: the faces are.
      caster.params.Line = { threshold: 0 };
      const around = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => (i * Math.PI) / 4);
      const tries = [
        { x: 0, y: 0 },
        ...[kReach_px / 2, kReach_px].flatMap((r) =>
          around.map((angle) => ({ x: r * Math.cos(angle), y: r * Math.sin(angle) })),
        ),
      ];
      let through: Part | null = null;
      for (const t of tries) {
        const ndc = new Vector2(
          (2 * (dot.x + t.x)) / size.width - 1,
          1 - (2 * (dot.y + t.y)) / size.height,
        );
        caster.setFromCamera(ndc, camera);
        for (const hit of caster.intersectObjects(
          parts.map((p) => p.object),
          true,
        )) {
          const part = partOf(hit.object);
          if (!part) continue;
          // What is drawn see-through is also picked through.
          if (part.kind !== "tyre" && part.kind !== "box" && part.kind !== "cylinder") return part;
          through ??= part;
        }
      }
      return through;
    },
    whereIs: (path) => {
      const found = parts.find((p) => p.part.path === path);
      if (!found) return null;
      aim();
      const seen = new Vector3(...middleInSpace(found.part, bodies)).project(camera);
      if (!(seen.z < 1)) return null;
      return onCanvas(seen);
    },
    whereIsPoint: (p) => {
      aim();
      const seen = new Vector3(...p).project(camera);
      return seen.z < 1 ? onCanvas(seen) : null;
    },
    moveOf: (p, dx, dy) => {
      aim();
      const at = new Vector3(...p);
      const looks = camera.getWorldDirection(new Vector3());
      const size3 = [Math.abs(looks.x), Math.abs(looks.y), Math.abs(looks.z)];
      const normal = new Vector3();
      normal.setComponent(size3.indexOf(Math.max(...size3)), 1);
      const plane = new Plane().setFromNormalAndCoplanarPoint(normal, at);
      const from = onCanvas(at.clone().project(camera));
      const caster = new Raycaster();
      caster.setFromCamera(
        new Vector2((2 * (from.x + dx)) / size.width - 1, 1 - (2 * (from.y + dy)) / size.height),
        camera,
      );
      const hit = caster.ray.intersectPlane(plane, new Vector3());
      return hit ? [hit.x - at.x, hit.y - at.y, hit.z - at.z] : [0, 0, 0];
    },
    dispose: () => {
      if (waiting !== 0) cancelAnimationFrame(waiting);
      clear();
      if (drawnShape) drop([drawnShape]);
      renderer.dispose();
    },
  };
}

function colourOf(part: Part, colours: Colours): string {
  switch (part.kind) {
    case "tyre":
    case "mount":
      return colours.rubber;
    case "box":
    case "cylinder":
    case "ball":
      return colours.mass;
    case "cg":
      return colours.ink;
    case "hole":
      return part.fate === "comes_out" ? colours.steel : colours.ink;
    default:
      return colours.steel;
  }
}
