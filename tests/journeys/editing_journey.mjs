// From nothing to a build, and every kind of thing in it added, edited, copied, renamed, mirrored, taken
// out and put back.
//   node editing_journey.mjs BINARY
import assert from "node:assert/strict";
import {
  addTo,
  at,
  atBench,
  documentOf,
  kSizes,
  makeShooter,
  show,
  step,
  textOf,
  type,
  unexpected,
  untilCurrent,
  untilHas,
} from "./bench.mjs";
import { openBrowser, seriousFaults } from "./browser.mjs";
import { openShop } from "./program.mjs";

const [binary] = process.argv.slice(2);
if (!binary) throw new Error("Usage: editing_journey.mjs BINARY");

/** One of each kind: where it stands, a value of its own, and whether it has a left and a right. */
const kKinds = [
  { work: "Weigh", title: "Load states", map: "/load_states", key: "label", value: "Hauling" },
  { work: "Weigh", title: "Masses", map: "/masses", key: "mass", value: "92 lb", sides: true },
  {
    work: "Weigh",
    title: "Tanks and what is in them",
    map: "/masses",
    key: "fluid/volume",
    value: "18 gal",
    sides: true,
  },
  {
    work: "Weigh",
    title: "Corner weighings",
    map: "/corner_weighings",
    key: "front_left",
    value: "1210 lb",
  },
  {
    work: "Weigh",
    title: "Lifted weighings",
    map: "/lifted_weighings",
    key: "lift",
    value: "24 in",
  },
  { work: "Axles", title: "Tyres", map: "/tyres", key: "width", value: "12 1/2 in" },
  ...[
    ["Links", "links", "tube/wall", "1/4 in"],
    ["Arms", "arms", "apex/at/height", "20 in"],
    ["Coils", "coils", "rate", "240 lbf/in"],
    ["Leaf packs", "leaf_packs", "rate", "310 lbf/in"],
    ["Shocks", "dampers", "open_length", "25 in"],
    ["Bump stops", "bump_stops", "free_height", "3 in"],
    ["Anti-roll bars", "anti_roll_bars", "rate", "60 lbf/in"],
  ].map(([title, map, key, value]) => ({
    work: "Axles",
    title,
    map: `/axles/front/${map}`,
    key,
    value,
    sides: true,
  })),
  { work: "Frame", title: "Steels", map: "/frame/steels", key: "yield", value: "50 ksi" },
  ...[
    ["Holes", "holes", "diameter", "1/2 in"],
    ["Mounts", "mounts", "station", "30 in"],
    ["Winch and recovery points", "pulls", "pull", "9000 lbf"],
    ["Torque of the shafts", "drive_torques", "torque", "2400 lb-ft"],
  ].map(([title, map, key, value]) => ({
    work: "Frame",
    title,
    map: `/frame/${map}`,
    key,
    value,
  })),
  ...[
    ["Cases, from the engine back", "segments", "length", "24 1/2 in"],
    ["Mounts", "mounts", "compression", "1700 lbf/in"],
    ["Outputs", "outputs", "slope", "4 deg"],
    ["Shafts", "shafts", "tube/wall", "0.083 in"],
    ["Gears", "gears", "ratio", "5.61:1"],
    ["Ranges", "ranges", "ratio", "2.72:1"],
    ["Gaps beside the cases", "gaps", "least", "1/2 in"],
    ["Lifts", "lifts", "hook", "19 in"],
  ].map(([title, map, key, value]) => ({
    work: "Drivetrain",
    title,
    map: `/drivetrain/${map}`,
    key,
    value,
  })),
];

const shoot = await makeShooter();
const shop = await openShop(binary, []);
const browser = await openBrowser(kSizes.landscape);
const { page, complaints } = browser;
await page.addInitScript(() => localStorage.setItem("rigwright.initials", "TC"));

const press = (name) =>
  page.locator(".thing-keys").getByRole("button", { name, exact: true }).click();
const strip = (name) => page.locator(".strip-keys").getByRole("button", { name, exact: true });

try {
  let id = "";
  await step("a shop without builds says what to do", async () => {
    await page.goto(shop.url);
    await page.waitForSelector(".shop .empty");
    assert.deepEqual(await seriousFaults(page), []);
    await shoot(page, "shop-empty");
  });

  await step("a new build, from questions to findings", async () => {
    await page.getByRole("button", { name: "New build" }).click();
    await page.waitForSelector(".question");
    assert.deepEqual(await seriousFaults(page), []);
    await shoot(page, "start");
    const answers = await (await fetch(`${shop.url}api/shop/questions`)).json();
    for (const question of answers.questions.filter((q) => q.needed && q.kind === "text")) {
      await page.getByLabel(question.label).fill("Gravel Goat");
    }
    const wheelbase = answers.questions.find((q) => q.id === "wheelbase");
    await page.getByLabel(wheelbase.label).fill("116 1/2");
    await page.waitForSelector(".question .echo");
    await page.getByRole("button", { name: "Start the build" }).click();
    await atBench(page);
    id = new URL(page.url()).hash.slice(1);
    const findings = await page.locator(".tray-count").allTextContents();
    assert.ok(
      findings.some((text) => Number(text) > 0),
      `findings: ${findings}`,
    );
    const document = await documentOf(shop.url, id);
    assert.match(JSON.stringify(document), /"estimate"/, "guesses are marked");
    assert.match(JSON.stringify(document), /116 1\/2 in/, "what was typed stands as typed");
    await page.waitForSelector(".next li");
    await shoot(page, "new-build");
  });

  for (const [i, { work, title, map, key, value, sides }] of kKinds.entries()) {
    await step(`${title.toLowerCase()}: all that can be done with one`, async () => {
      await show(page, work);
      if (map.startsWith("/axles/")) {
        await page.locator(".choose-one button").first().click();
      }
      const has = (path, isIt) => untilHas(shop.url, id, path, isIt);
      // Names of its own for each kind: masses and tanks stand in one map.
      const [first, second, third] = ["shop_piece", "second_piece", "spare"].map(
        (n) => `${n}_${i}`,
      );
      await addTo(page, title, `Shop piece ${i}`);
      const here = `${map}/${first}`;
      await has(here, (v) => v !== undefined);

      await untilCurrent(page, shop.url, id);
      const summary = page.locator(`details:has([data-path="${here}/${key}"]) > summary`);
      const isShown = () => page.locator(`[data-path="${here}/${key}"]`).first().isVisible();
      if (!(await isShown())) await summary.first().click();
      await type(page, `${here}/${key}`, value);
      await has(`${here}/${key}`, (v) => textOf(v) === value);

      await press("Copy");
      await page.locator(".name-it input").fill(`Second piece ${i}`);
      await page.getByRole("button", { name: "Make the copy" }).click();
      await has(`${map}/${second}/${key}`, (v) => key === "label" || textOf(v) === value);
      await has(`${map}/${second}/label`, (v) => v === `Second piece ${i}`);

      await page.waitForFunction(
        (name) => document.querySelector(".chosen-card h3")?.textContent === name,
        `Second piece ${i}`,
      );
      await press("Rename");
      await page.locator(".name-it input").fill(third);
      await page.locator(".name-it").getByRole("button", { name: "Rename" }).click();
      await has(`${map}/${third}`, (v) => v !== undefined);
      await has(`${map}/${second}`, (v) => v === undefined);

      if (sides) {
        const before = Object.keys(at(await documentOf(shop.url, id), map)).length;
        await press("Mirror");
        await has(map, (v) => Object.keys(v).length === before + 1);
        await strip("Undo").click();
        await has(map, (v) => Object.keys(v).length === before);
        await untilCurrent(page, shop.url, id);
        await page.locator(`.collection[aria-label="${title}"] .line`).last().click();
      }

      await press("Take out");
      await has(`${map}/${third}`, (v) => v === undefined);
      await untilCurrent(page, shop.url, id);
      await strip("Undo").click();
      await has(`${map}/${third}`, (v) => v !== undefined);
      await untilCurrent(page, shop.url, id);
      await strip("Redo").click();
      await has(`${map}/${third}`, (v) => v === undefined);
    });
  }

  await step("an axle goes with all that hangs on it, and another takes its place", async () => {
    await show(page, "Axles");
    await page.locator('.collection[aria-label="Axles"] .line').last().click();
    await press("Take out");
    const depends = page.locator(".depends");
    await depends.or(page.locator(".chosen-card:not(*)")).first().waitFor();
    await shoot(page, "depends");
    assert.deepEqual(await seriousFaults(page), []);
    await depends.getByRole("button", { name: "Take these out too" }).click();
    await untilHas(shop.url, id, "/axles/rear", (v) => v === undefined);
    await addTo(page, "Axles", "Back axle");
    await untilHas(shop.url, id, "/axles/back_axle", (v) => v?.end === "rear");
    await strip("Undo").click();
    await untilHas(shop.url, id, "/axles/back_axle", (v) => v === undefined);
    await strip("Undo").click();
    await untilHas(shop.url, id, "/axles/rear", (v) => v !== undefined);
  });

  await step("settings: name and units", async () => {
    await show(page, "Build");
    await type(page, "/name", "Gravel Goat II");
    await page.waitForFunction(() => document.querySelector("h1").textContent === "Gravel Goat II");
    await page.locator('input[data-path="/units/metric"]').check();
    await show(page, "Weigh");
    await page.waitForFunction(() =>
      document.querySelector(".numbers")?.textContent.includes("kg"),
    );
    await strip("Undo").click();
    await page.waitForFunction(() =>
      document.querySelector(".numbers")?.textContent.includes("lb"),
    );
    await shoot(page, "weigh-new-build");
  });

  await step("copy, export and archive in the shop", async () => {
    await page.getByRole("link", { name: "Shop" }).click();
    await page.waitForSelector(".card");
    await page.getByRole("button", { name: "Copy Gravel Goat II" }).click();
    await page.locator(".card .name-it input").fill("Gravel Goat, twin");
    await page.locator(".card .name-it").getByRole("button", { name: "Copy" }).click();
    await atBench(page);
    await page.getByRole("link", { name: "Shop" }).click();
    await page.waitForFunction(() => document.querySelectorAll(".card").length === 2);
    assert.deepEqual(await seriousFaults(page), []);
    await shoot(page, "shop");
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("link", { name: "Export Gravel Goat II" }).click(),
    ]);
    assert.match(download.suggestedFilename(), /\.rig\.json$/);
    await page.getByRole("button", { name: "Archive Gravel Goat, twin" }).click();
    await page.waitForSelector(".archive summary");
    assert.equal(await page.locator(".cards").first().locator(".card").count(), 1);
    await page.locator("input[type=file]").setInputFiles(await download.path());
    await atBench(page);
  });

  assert.deepEqual(unexpected(complaints, ["409"]), [], "the browser had nothing to complain of");
} finally {
  await browser.close();
  await shop.close();
}
