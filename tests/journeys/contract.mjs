// The page's types against what the program answers: each answer is written as an annotated literal,
// so that the compiler finds a property that is missing, one too many, or of another kind.
//   node contract.mjs BINARY FOLDER BUILD_FILE...      FOLDER is emptied and filled anew
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdir, readFile, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { basename, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { openProgram } from "./program.mjs";

const kWeb = fileURLToPath(new URL("../../web", import.meta.url));
const kHeave_m = 0.03;
const kRoll_rad = 0.05;

const [binary, folderGiven, ...files] = process.argv.slice(2);
if (files.length === 0) throw new Error("Usage: contract.mjs BINARY FOLDER BUILD_FILE...");
const folder = resolve(folderGiven);
const compiler = findCompiler();

/** Ends with the code that ctest knows as skipped when the page's packages are not installed. */
function findCompiler() {
  try {
    const require = createRequire(join(kWeb, "package.json"));
    return join(require.resolve("typescript/package.json"), "..", "bin", "tsc");
  } catch {
    console.error("The page's packages are not installed: run npm ci in web/.");
    process.exit(77);
  }
}

/** The program's answer, after a look at its status. */
async function ask(program, route, status, body) {
  const question =
    body === undefined
      ? {}
      : {
          method: "POST",
          headers: { "Content-Type": "application/json" },
          body: typeof body === "string" ? body : JSON.stringify(body),
        };
  const answer = await fetch(new URL(route, program.url), question);
  assert.equal(answer.status, status, `${route} answers ${status}`);
  return answer.json();
}

/** What the page can ask, and what comes back: the type's name and the answer. */
async function answersOf(program) {
  const build = await ask(program, "api/build", 200);
  const { revision, document } = build;
  const { scene } = await ask(program, "api/scene", 200);
  const ends = Object.keys(document.axles);
  const each = (value) => Object.fromEntries(ends.map((end) => [end, value]));
  const pose = (question) => ask(program, "api/pose", 200, question);
  const edit = (at, edits, status = 200) =>
    ask(program, "api/edit", status, { revision: at, edits });

  const given = [
    ["BuildAnswer", build],
    ["ReportAnswer", await ask(program, "api/report", 200)],
    ["SceneAnswer", await ask(program, "api/scene", 200)],
    ["Json", await ask(program, "api/schema", 200)],
    ["PoseAnswer", await pose({ state: null, heave: each(0), roll: each(0) })],
    ["PoseAnswer", await pose({ state: null, heave: each(kHeave_m), roll: each(kRoll_rad) })],
    ["PoseAnswer", await pose({ state: null, heave: each(1), roll: each(0) })],
  ];
  for (const state of Object.keys(document.load_states)) {
    given.push(["PoseAnswer", await pose({ state, settled: true })]);
  }

  // One after the other: nothing amiss, more travel than the links reach, one of them taken out, a
  // mass and a tyre not known.
  const bar = scene.parts.find((p) => p.kind === "bar" && p.path.includes("/links/"));
  const name = { path: "/name", value: "Another name" };
  const edits = [
    [name],
    ends.flatMap((end) => [
      { path: `/axles/${end}/bump_travel`, value: "1.2 m" },
      { path: `/axles/${end}/droop_travel`, value: "1.2 m" },
    ]),
    [{ path: bar.path, remove: true }],
    [{ path: `/masses/${Object.keys(document.masses)[0]}/mass`, remove: true }],
    [{ path: `/axles/${ends[0]}/tyre`, remove: true }],
  ];
  for (const [i, entries] of edits.entries()) {
    given.push(["EditAnswer", await edit(revision + i, entries)]);
  }

  const unread = [{ path: "/axles/front/track", value: "a good bit" }];
  given.push(["ErrorBody", await edit(revision + edits.length, unread, 422)]);
  given.push(["ErrorBody", await edit(revision, [name], 409)]);
  given.push(["ErrorBody", await ask(program, "api/edit", 400, "{")]);
  given.push(["ErrorBody", await ask(program, "api/nothing", 404)]);
  return given;
}

/** The lists that no answer had anything in: of these the compiler has seen nothing. */
function neverFilled(answers) {
  const lists = new Map();
  const walk = (value, place) => {
    if (Array.isArray(value)) {
      lists.set(place, (lists.get(place) ?? false) || value.length > 0);
      for (const item of value) walk(item, `${place}[]`);
    } else if (value !== null && typeof value === "object") {
      for (const [key, item] of Object.entries(value)) walk(item, `${place}.${key}`);
    }
  };
  for (const [, { report, scene }] of answers) {
    walk(report, "report");
    walk(scene, "scene");
  }
  return [...lists].filter(([, isFilled]) => !isFilled).map(([place]) => place);
}

await rm(folder, { recursive: true, force: true });
await mkdir(folder, { recursive: true });
const types = relative(folder, join(kWeb, "src/api/types"));
const all = [];
for (const file of files) {
  const program = await openProgram(binary, file);
  try {
    const answers = await answersOf(program);
    all.push(...answers);
    const used = [...new Set(answers.map(([type]) => type))].sort();
    const literals = answers.map(
      ([type, answer], i) => `export const answer_${i}: ${type} = ${JSON.stringify(answer, null, 1)};`,
    );
    const text = `import type { ${used.join(", ")} } from "${types}";\n\n${literals.join("\n")}\n`;
    await writeFile(join(folder, `${basename(file, ".rig.json")}.ts`), text);
  } finally {
    await program.close();
  }
}

const strict = JSON.parse(await readFile(join(kWeb, "tsconfig.json"), "utf8"));
const config = {
  compilerOptions: { ...strict.compilerOptions, types: [], allowJs: false },
  include: ["*.ts"],
};
await writeFile(join(folder, "tsconfig.json"), JSON.stringify(config, null, 2));
const found = spawnSync(process.execPath, [compiler, "--noEmit", "-p", folder], {
  encoding: "utf8",
});
process.stdout.write(found.stdout);
process.stderr.write(found.stderr);
assert.equal(found.status, 0, "the answers are of the types the page has for them");
assert.deepEqual(neverFilled(all), [], "each list had something in at least once");
console.log(`${all.length} answers of ${files.length} builds are of the page's types.`);
