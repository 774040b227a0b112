// The page by touch events on a tablet held upright, and by the keyboard alone.
//   node hands_journey.mjs BINARY BUILD_FILE
import assert from "node:assert/strict";
import {
  at,
  chooseOnTruck,
  documentOf,
  kSizes,
  makeShooter,
  openOn,
  smallTargets,
  step,
  textOf,
  untilHas,
} from "./bench.mjs";
import { openShop } from "./program.mjs";

const [binary, file] = process.argv.slice(2);
if (!file) throw new Error("Usage: hands_journey.mjs BINARY BUILD_FILE");
const shoot = await makeShooter();
const shop = await openShop(binary, [file]);
const [id] = shop.ids;
const { scene } = await (await fetch(`${shop.url}api/builds/${id}/scene`)).json();
const link = scene.parts.find((p) => p.kind === "bar" && p.path.includes("/links/"));
const height = `${link.b.path}/height`;
/** The case that is dragged: a bolted one, which is where those ahead of it put it. */
const gearbox = scene.parts.find((p) => p.kind === "case" && p.a.path === "");
/** What must go with it: where the line starts, a mount on it, an output of another case. */
const kWithIt = [
  "/drivetrain/segments/engine/starts_at/height",
  "/drivetrain/mounts/gearbox/at/height",
  "/drivetrain/outputs/rear/joint/height",
];

/** A finger takes hold of a handle in the side view and moves it a little up and to the rear. */
async function dragByFinger(page, handle, picture) {
  const ring = page.locator(`[data-face=side][data-handle="${handle}"]`);
  const box = await ring.boundingBox();
  const from = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  const touches = await page.context().newCDPSession(page);
  const send = (type, points) =>
    touches.send("Input.dispatchTouchEvent", { type, touchPoints: points });
  await send("touchStart", [from]);
  for (let i = 1; i <= 12; i++) {
    await send("touchMove", [{ x: from.x + i * 2, y: from.y - i }]);
  }
  await shoot(page, picture);
  await send("touchEnd", []);
}

async function touch() {
  const browser = await openOn(shop.url, id, { ...kSizes.portrait, touch: true });
  const { page, complaints } = browser;
  const works = page.getByRole("navigation", { name: "Works" });
  const strip = page.locator(".strip-keys");
  try {
    await step("touch: nothing to touch is small on any sheet", async () => {
      for (const work of ["Weigh", "Frame", "Axles", "Compare", "Build"]) {
        await works.getByRole("button", { name: work }).tap();
        assert.deepEqual(await smallTargets(page), [], work);
      }
      await page.locator(".revision").tap();
      await page.waitForSelector(".entry-line");
      assert.deepEqual(await smallTargets(page), []);
    });

    await step("touch: the keypad writes a quantity", async () => {
      await chooseOnTruck(page, link.path);
      const field = page.locator(`input[data-path="${height}"]`);
      await field.tap();
      const keypad = page.locator(".keypad");
      await keypad.waitFor();
      await page.waitForTimeout(100);
      assert.deepEqual(await smallTargets(page), []);
      for (const key of ["2", "2", "5/8"]) {
        await keypad.getByRole("button", { name: key, exact: true }).tap();
      }
      await page.waitForSelector(".echo");
      await shoot(page, "keypad-portrait-light");
      await keypad.getByRole("button", { name: "Enter", exact: true }).tap();
      await keypad.waitFor({ state: "detached" });
      await untilHas(shop.url, id, height, (v) => textOf(v) === "22 5/8 in");
      await page.waitForFunction(
        (path) => document.querySelector(`input[data-path="${path}"]`)?.value === "22 5/8 in",
        height,
      );
    });

    await step("touch: how it is known, one tap away", async () => {
      const how = page.locator(`.entry:has([data-path="${height}"]) .how`);
      await how.tap();
      assert.deepEqual(await smallTargets(page), []);
      await page.locator(".provenance select").selectOption("tape");
      await untilHas(shop.url, id, height, (v) => v?.from === "tape");
      await how.tap();
    });

    await step("touch: a finger drags a point", async () => {
      await dragByFinger(page, link.b.path, "finger-portrait-light");
      await untilHas(shop.url, id, height, (v) => textOf(v) !== "22 5/8 in");
      await strip.getByRole("button", { name: "Undo" }).tap();
      await untilHas(shop.url, id, height, (v) => textOf(v) === "22 5/8 in");
    });

    await step("touch: a case takes along what is bolted to it and on it", async () => {
      await works.getByRole("button", { name: "Drivetrain" }).tap();
      await chooseOnTruck(page, gearbox.path);
      const textsOf = (document) => kWithIt.map((path) => textOf(at(document, path)));
      const before = textsOf(await documentOf(shop.url, id));
      await dragByFinger(page, gearbox.path, "case-portrait-light");
      await untilHas(shop.url, id, kWithIt[0], (v) => textOf(v) !== before[0]);
      const after = textsOf(await documentOf(shop.url, id));
      for (const [i, path] of kWithIt.entries()) assert.notEqual(after[i], before[i], path);
      await strip.getByRole("button", { name: "Undo" }).tap();
      await untilHas(shop.url, id, kWithIt[0], (v) => textOf(v) === before[0]);
      assert.deepEqual(textsOf(await documentOf(shop.url, id)), before);
    });

    await step("touch: the findings", async () => {
      await page.locator(".tray-handle").tap();
      await page.locator(".finding-head").first().tap();
      await page.waitForSelector(".finding-body");
      assert.deepEqual(await smallTargets(page), []);
      assert.deepEqual(complaints, []);
    });
  } finally {
    await browser.close();
  }
}

/** Goes with Tab to what `isIt` is true of, as a hand on the bench laptop would. */
async function tabTo(page, isIt, what) {
  for (let i = 0; i < 400; i++) {
    await page.keyboard.press("Tab");
    const here = await page.evaluate(() => {
      const at = document.activeElement;
      return {
        text: at?.textContent?.trim() ?? "",
        label: at?.getAttribute("aria-label") ?? "",
        path: at?.dataset?.path ?? at?.dataset?.handle ?? "",
      };
    });
    if (isIt(here)) return;
  }
  assert.fail(`the Tab key never comes to ${what}`);
}

async function keyboard() {
  const bench = await openOn(shop.url, id);
  const { page, complaints } = bench;
  try {
    await step("keyboard: from the shop into the build", async () => {
      await tabTo(page, (at) => at.text === "Shop", "the shop");
      await page.keyboard.press("Enter");
      await page.waitForSelector(".card");
      await tabTo(page, (at) => at.text.includes("Changed"), "the card");
      await page.keyboard.press("Enter");
      await page.waitForSelector(".part path");
    });

    await step("keyboard: a part, its value, back again", async () => {
      await tabTo(page, (at) => at.label !== "" && at.path.startsWith("/"), "the truck");
      for (let i = 0; i < 80; i++) {
        const path = await page.evaluate(() => document.activeElement?.dataset?.path);
        if (path === link.path) break;
        await page.keyboard.press("ArrowRight");
      }
      await page.keyboard.press("Enter");
      await page.waitForSelector(".chosen-card");
      await tabTo(page, (at) => at.path === height || at.path === `${height}/value`, "the height");
      await page.keyboard.press("Control+A");
      await page.keyboard.type("22 3/8");
      await page.keyboard.press("Enter");
      await untilHas(shop.url, id, height, (v) => textOf(v) === "22 3/8 in");
      await page.keyboard.press("Escape");
      await page.keyboard.press("Control+z");
      await untilHas(shop.url, id, height, (v) => textOf(v) === "22 5/8 in");
      await page.keyboard.press("Control+y");
      await untilHas(shop.url, id, height, (v) => textOf(v) === "22 3/8 in");
    });

    await step("keyboard: a point of the truck by the arrows", async () => {
      await page.locator("body").press("Escape");
      await tabTo(page, (at) => at.path === link.b.path, "the point");
      await page.keyboard.press("ArrowUp");
      await untilHas(shop.url, id, height, (v) => textOf(v) === "22 7/16 in");
    });

    await step("keyboard: every work and the findings", async () => {
      for (const [key, label] of [
        ["1", "Weigh"],
        ["2", "Frame"],
        ["3", "Drivetrain"],
        ["4", "Axles"],
        ["5", "Compare"],
        ["6", "Build"],
        ["h", "History"],
      ]) {
        await page.keyboard.press(key);
        await page.waitForSelector(`.work-sheet[aria-label="${label}"]`);
      }
      await page.keyboard.press("f");
      await page.waitForSelector(".tray");
      assert.deepEqual(complaints, []);
    });
  } finally {
    await bench.close();
  }
}

try {
  await touch();
  await keyboard();
} finally {
  await shop.close();
}
