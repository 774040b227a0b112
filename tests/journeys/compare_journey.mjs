// Points dragged, variants made and compared, and the way back through the history.
//   node compare_journey.mjs BINARY BUILD_FILE
import assert from "node:assert/strict";
import {
  at,
  atBench,
  chooseOnTruck,
  documentOf,
  dragInPage,
  makeShooter,
  openOn,
  show,
  step,
  textOf,
  type,
  untilHas,
} from "./bench.mjs";
import { seriousFaults } from "./browser.mjs";
import { openShop } from "./program.mjs";

const [binary, file] = process.argv.slice(2);
if (!file) throw new Error("Usage: compare_journey.mjs BINARY BUILD_FILE");
const shoot = await makeShooter();
const shop = await openShop(binary, [file]);
const [id] = shop.ids;
const browser = await openOn(shop.url, id);
const { page, complaints } = browser;
const kSixteenth = /^-?\d+( \d+\/(2|4|8|16))? in$|^-?\d+\/(2|4|8|16) in$/;

const { scene } = await (await fetch(`${shop.url}api/builds/${id}/scene`)).json();
const link = scene.parts.find((p) => p.kind === "bar" && p.path.includes("/links/"));
const point = link.b.path;
const strip = (name) => page.locator(".strip-keys").getByRole("button", { name, exact: true });
const pointNow = async () => at(await documentOf(shop.url, id), point);
const entryNow = async () => (await (await fetch(`${shop.url}api/builds/${id}`)).json()).entry;

try {
  for (const [face, view] of [
    ["side", "Side view"],
    ["top", "Top and side view"],
    ["end", "End and side view"],
  ]) {
    await step(`a point is dragged in the ${face} view`, async () => {
      await page.getByRole("button", { name: view, exact: true }).click();
      await chooseOnTruck(page, link.path);
      const before = await pointNow();
      const entry = await entryNow();
      const ring = page.locator(`[data-face=${face}][data-handle="${point}"]`).first();
      await ring.waitFor();
      const rate = await dragInPage(ring, 90);
      console.log(
        `    ${rate.frames.toFixed(0)} frames and ${rate.answers.toFixed(0)} answers a second`,
      );
      await untilHas(shop.url, id, point, (v) => JSON.stringify(v) !== JSON.stringify(before));
      const after = await pointNow();
      const moved = ["station", "offset", "height"].filter(
        (key) => textOf(after[key]) !== textOf(before[key]),
      );
      const still = { side: "offset", top: "height", end: "station" }[face];
      assert.equal(moved.length, 2, `moved ${moved}`);
      assert.ok(!moved.includes(still), `${still} stays in the ${face} view`);
      for (const key of moved) assert.match(textOf(after[key]), kSixteenth);
      assert.equal(await entryNow(), entry + 1, "let go is one entry");
      await shoot(page, `dragged-${face}`);
    });
  }

  await step("arrow keys move the chosen point by a sixteenth; Escape leaves a drag", async () => {
    await page.getByRole("button", { name: "Side view", exact: true }).click();
    const before = textOf((await pointNow()).height);
    const ring = page.locator(`[data-face=side][data-handle="${point}"]`).first();
    await ring.focus();
    await page.keyboard.press("ArrowUp");
    await untilHas(shop.url, id, `${point}/height`, (v) => textOf(v) !== before);
    const entry = await entryNow();
    const box = await ring.boundingBox();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 40, box.y + box.height / 2 + 10, { steps: 8 });
    await page.keyboard.press("Escape");
    await page.mouse.up();
    await page.waitForTimeout(200);
    assert.equal(await entryNow(), entry, "nothing was kept");
  });

  await step("an axle's line and the hitch ball are dragged", async () => {
    const document = await documentOf(shop.url, id);
    const points = ["/axles/rear", "/hitch/ball"].filter((path) => at(document, path));
    assert.ok(points.length > 0);
    for (const path of points) {
      await chooseOnTruck(page, path.replace(/\/ball$/, ""));
      const box = await page.locator(`[data-face=side][data-handle="${path}"]`).boundingBox();
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + 30, y - 12, { steps: 8 });
      // Faint until the hand lets go: what the open work does not tell.
      await page.waitForSelector(".bench[data-trying] .tray-count");
      await page.mouse.up();
      for (const key of ["station", "height"]) {
        const before = textOf(at(document, `${path}/${key}`));
        const now = await untilHas(shop.url, id, `${path}/${key}`, (v) => textOf(v) !== before);
        assert.match(textOf(now), kSixteenth);
      }
      await page.waitForSelector(".bench:not([data-trying])");
    }
  });

  await step("a point is dragged in space", async () => {
    const before = await pointNow();
    await page.getByRole("button", { name: "3D, in space" }).click();
    await page.waitForSelector(".space-marks .handle-ring");
    await page.waitForTimeout(300);
    const box = await page.locator(".space-marks .handle-ring").last().boundingBox();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 30, box.y + box.height / 2 - 20, { steps: 10 });
    await shoot(page, "dragged-space");
    await page.mouse.up();
    const thing = link.path;
    const whole = JSON.stringify(at(await documentOf(shop.url, id), thing));
    await untilHas(shop.url, id, thing, (v) => JSON.stringify(v) !== whole || before !== undefined);
    await page.getByRole("button", { name: "Side view", exact: true }).click();
  });

  const height = `${point}/height`;
  await step("a variant is made, edited and compared", async () => {
    await show(page, "Compare");
    await page.locator('input[placeholder^="A new variant"]').fill("3 in lift");
    await page.getByRole("button", { name: "Make it" }).click();
    await page.waitForSelector(".variant-open");
    await atBench(page);
    const base = textOf(at(await documentOf(shop.url, id), height));
    await chooseOnTruck(page, link.path);
    await type(page, height, "19 1/2");
    await untilHas(shop.url, id, height, (v) => textOf(v) === "19 1/2 in", idOfVariant());
    assert.equal(
      textOf(at(await documentOf(shop.url, id), height)),
      base,
      "the build is as it was",
    );
    await page.waitForSelector(".field.changed");
    await shoot(page, "variant-open");
    await show(page, "Compare");
    await page.waitForSelector(".stills .part path");
    await page.waitForSelector(".table-box");
    await page.waitForTimeout(300);
    const told = await page.locator(".work-sheet").textContent();
    assert.match(told, /What was changed/);
    assert.match(told, /Numbers that differ/);
    assert.deepEqual(await seriousFaults(page), []);
    await page.locator(".sides").scrollIntoViewIfNeeded();
    await shoot(page, "compare");
    await page.locator(".variants li").first().getByRole("button", { name: "Open" }).click();
    await page.waitForSelector(".variant-open", { state: "detached" });
  });

  await step("the history goes back, and names a version", async () => {
    await page.locator(".revision").click();
    await page.waitForSelector(".entry-line");
    assert.deepEqual(await seriousFaults(page), []);
    await page.locator(".entry-line .quiet").first().click();
    await page.locator(".entry-line .name-it input").fill("Before the cut");
    await page.getByRole("button", { name: "Keep the name" }).click();
    await page.waitForSelector(".version");
    assert.equal(await page.locator(".version").first().textContent(), "Before the cut");
    await shoot(page, "history");
    const document = await documentOf(shop.url, id);
    await page
      .getByRole("button", { name: /^Go back to it/ })
      .last()
      .click();
    await untilHas(shop.url, id, "/variants", (v) => v === undefined);
    await strip("Undo").click();
    await untilHas(shop.url, id, "/variants", (v) => v !== undefined);
    assert.deepEqual(await documentOf(shop.url, id), document);
  });

  assert.deepEqual(complaints, [], "the browser had nothing to complain of");
} finally {
  await browser.close();
  await shop.close();
}

function idOfVariant() {
  return new URL(page.url()).hash.split("/")[1];
}
