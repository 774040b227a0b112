// A shop of one invented build behind the contract.
import { answerBuild, makeBuild } from "./build.mjs";
import { document as first } from "./document.mjs";

export function makeState() {
  return { builds: [makeBuild("hollow_creek", structuredClone(first))], archived: new Set() };
}

const kQuestions = [
  { id: "name", label: "What do you call it?", kind: "text", needed: true },
  { id: "wheelbase", label: "Wheelbase", kind: "quantity", dimension: "length", usual: "118 in" },
  {
    id: "front",
    label: "Front axle hangs on",
    kind: "word",
    choices: [
      { value: "three_link", label: "three links and a track bar" },
      { value: "leaf", label: "leaf springs" },
    ],
    usual: "three_link",
  },
].map((q) => ({
  doc: "Between the wheel centres, along the floor.",
  dimension: "",
  choices: [],
  usual: null,
  needed: false,
  ...q,
}));

/** Answers one request: status and body. */
export function answer(state, method, url, body, headers = {}) {
  const { pathname, searchParams } = new URL(url, "http://localhost");
  const [, , top, id, ...rest] = pathname.split("/");
  if (top === "builds" && id) {
    const build = state.builds.find((b) => b.id === id);
    if (!build) return [404, { error: "There is no build of that name here." }];
    const where = rest.length > 0 ? `/${rest.join("/")}` : "";
    return answerBuild(build, method, where, searchParams, body, headers);
  }
  switch (`${method} ${pathname}`) {
    case "GET /api/door":
      return [200, { paired: true, needed: false, code_minutes: 10 }];
    case "GET /api/shop":
      return [200, shopOf(state)];
    case "GET /api/shop/questions":
      return [200, { questions: kQuestions }];
    case "POST /api/shop/builds": {
      const name = body.name ?? "New";
      const made = name.toLowerCase().replaceAll(/[^a-z0-9]+/g, "_");
      const from = body.text ? JSON.parse(body.text) : structuredClone(first);
      state.builds.push(makeBuild(made, { ...from, name }));
      return [201, { id: made }];
    }
    case "POST /api/shop/archive":
      if (body.archived) state.archived.add(body.id);
      else state.archived.delete(body.id);
      return [200, shopOf(state)];
    case "GET /api/understand":
      return understood(searchParams.get("text"));
    default:
      return [404, { error: "There is nothing here." }];
  }
}

function shopOf({ builds, archived }) {
  const of = ({ id, head, entries }) => {
    const { document, when } = entries.find((e) => e.entry === head);
    return {
      id,
      name: document.name,
      file: `${id}.rig.json`,
      notice: document.notice ?? "",
      etag: `tag-${head}`,
      changed: when,
      verdicts: { good: 12, look: 3, stop: 1 },
      faults: 0,
      archived: archived.has(id),
    };
  };
  return { folder: "trucks", single: false, lan: false, builds: builds.map(of) };
}

function understood(text) {
  const value = Number.parseFloat(text);
  if (Number.isNaN(value)) return [422, { error: "That is no length.", diagnostics: [] }];
  const written = /[a-z%"'″′]/.test(text) ? text : `${text} in`;
  return [
    200,
    { si: value * 0.0254, text: written, written, also: `${(value * 25.4).toFixed(1)} mm` },
  ];
}
