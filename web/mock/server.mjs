// Serves the page's contract (docs/api.md) with an invented truck. For developing only:
//   npm run mock      then      npm run dev      or open the mock itself, which serves dist/.
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { document as first } from "./document.mjs";
import { reportOf } from "./report.mjs";
import { sceneOf } from "./scene.mjs";

const kSchema = new URL("../../docs/schema/build-1.schema.json", import.meta.url);
const kTypes = { html: "text/html; charset=utf-8", js: "text/javascript", css: "text/css" };
const units = {
  metric: false,
  fraction_of_inch: 16,
  per_si: {
    length: { unit: "in", factor: 39.37007874 },
    angle: { unit: "deg", factor: 180 / Math.PI },
    ratio: { unit: "%", factor: 100 },
    mass: { unit: "lb", factor: 2.2046226 },
    force: { unit: "lbf", factor: 0.22480894 },
  },
};

export function makeState() {
  return { revision: 1, document: structuredClone(first) };
}

/** Answers one request: status and body. */
export function answer(state, method, route, body) {
  const { revision, document } = state;
  switch (`${method} ${route}`) {
    case "GET /api/build":
      return [200, { revision, file: "hollow-creek-2.rig.json", document, units }];
    case "GET /api/report":
      return [200, { revision, report: reportOf(document) }];
    case "GET /api/scene":
      return [200, { revision, scene: sceneOf(document) }];
    case "POST /api/pose":
      return [200, { revision, pose: poseOf(document, body) }];
    case "POST /api/edit":
      return edit(state, body);
    default:
      return [404, { error: "There is nothing here." }];
  }
}

function edit(state, { revision, edits }) {
  if (revision !== state.revision) {
    return [409, { error: "Another screen has changed this build.", revision: state.revision }];
  }
  const next = structuredClone(state.document);
  for (const one of edits) {
    const before = one.path
      .split("/")
      .slice(1)
      .reduce((here, key) => here?.[key], next);
    if (/\d/.test(before) && typeof one.value === "string" && !/\d/.test(one.value)) {
      const diagnostics = [
        {
          code: "units.not_a_number",
          path: one.path,
          message: `"${one.value}" has no number in it.`,
          remedy: "Write a number and its unit, such as 41 5/8 in.",
        },
      ];
      return [422, { error: "The entry does not read.", diagnostics }];
    }
    const keys = one.path.split("/").slice(1);
    const last = keys.pop();
    let here = next;
    for (const key of keys) here = here[key] ??= {};
    if (one.remove) delete here[last];
    else here[last] = one.value;
  }
  state.document = next;
  state.revision++;
  return [
    200,
    { revision: state.revision, report: reportOf(next), scene: sceneOf(next), document: next },
  ];
}

function poseOf(document, question) {
  const bodies = { frame: { R: rolled(0), p: [0, 0, 0] } };
  const numbers = {};
  if (question.settled) {
    const drop = { bare: 0.008, road: -0.004, towing: -0.02 }[question.state] ?? 0;
    bodies.frame = { R: pitched(drop * -0.6), p: [0, 0, drop] };
  }
  for (const id of Object.keys(document.axles)) {
    const heave = question.heave?.[id] ?? 0;
    const roll = question.roll?.[id] ?? 0;
    const height = 0.4;
    bodies[id] = {
      R: rolled(roll),
      p: [0, height * Math.sin(roll), heave + height * (1 - Math.cos(roll))],
    };
    const caster = -heave * 30;
    numbers[id] = [
      {
        id: id === "front" ? "caster_change" : "nose_up",
        label: "Caster change",
        value: { si: (caster * Math.PI) / 180, text: `${caster.toFixed(1)}°`.replace("-", "−") },
      },
    ];
  }
  const limit = (question.heave?.front ?? 0) > 0.1;
  return { bodies, numbers, locked: limit ? "The front shocks are solid." : null };
}

function rolled(angle) {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [1, 0, 0],
    [0, c, -s],
    [0, s, c],
  ];
}

function pitched(angle) {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [c, 0, s],
    [0, 1, 0],
    [-s, 0, c],
  ];
}

async function readBody(request) {
  let text = "";
  for await (const piece of request) text += piece;
  return text === "" ? null : JSON.parse(text);
}

const state = makeState();
const port = Number(process.argv[2] ?? 8731);
if (process.argv[1] === new URL(import.meta.url).pathname) {
  createServer(async (request, response) => {
    const route = new URL(request.url, "http://localhost").pathname;
    const reply = (status, type, body) => {
      response.writeHead(status, { "Content-Type": type });
      response.end(body);
    };
    if (route === "/api/schema") {
      reply(200, "application/json", await readFile(kSchema));
    } else if (route.startsWith("/api/")) {
      const [status, body] = answer(state, request.method, route, await readBody(request));
      reply(status, "application/json", JSON.stringify(body));
    } else {
      const name = route === "/" ? "index.html" : route.slice(1);
      try {
        const file = await readFile(
          new URL(`../dist/${name.replaceAll("..", "")}`, import.meta.url),
        );
        reply(200, kTypes[name.split(".").at(-1)] ?? "application/octet-stream", file);
      } catch {
        reply(404, "text/plain", "There is nothing here.");
      }
    }
  }).listen(port, "127.0.0.1", () => console.log(`Mock on http://127.0.0.1:${port}`));
}
