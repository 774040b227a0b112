// One builder's way through the page, in a real browser.
//   node page_journey.mjs BINARY BUILD_FILE SCREENSHOT_FOLDER
//   node page_journey.mjs --url URL SCREENSHOT_FOLDER      against something that is already running
import assert from "node:assert/strict";
import { mkdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { openBrowser, seriousFaults } from "./browser.mjs";
import { openProgram } from "./program.mjs";

const kSizes = { landscape: { width: 1280, height: 800 }, portrait: { width: 800, height: 1280 } };
const kTimings = 20;
const kLeastTarget_px = 48;

const [first, second, third] = process.argv.slice(2);
if (!third) throw new Error("Usage: page_journey.mjs BINARY BUILD_FILE SCREENSHOT_FOLDER");
const program =
  first === "--url" ? { url: second, close: async () => {} } : await openProgram(first, second);
await mkdir(third, { recursive: true });

async function step(name, run) {
  const start = performance.now();
  await run();
  console.log(`ok  ${name} (${Math.round(performance.now() - start)} ms)`);
}

const shoot = (page, name) => page.screenshot({ path: join(third, `${name}.png`) });

async function openPage(browser) {
  await browser.page.goto(program.url);
  await browser.page.waitForSelector(".bench");
  await browser.page.waitForFunction(() => document.querySelectorAll(".part path").length > 0);
}

const show = (page, work) =>
  page.getByRole("navigation", { name: "Works" }).getByRole("button", { name: work }).click();

/** The side view's shapes, to tell whether the picture has moved. */
const picture = (page) =>
  page.$$eval(".face.side path", (paths) => paths.map((p) => p.getAttribute("d")).join("|"));

/** A link to edit: one that a finding is about, else any. */
async function chooseLink() {
  const answer = async (route) => (await fetch(new URL(route, program.url))).json();
  const { scene } = await answer("api/scene");
  const { report } = await answer("api/report");
  const bars = scene.parts.filter((p) => p.kind === "bar" && p.path.includes("/links/"));
  assert.ok(bars.length > 0, "the example has a link");
  const judged = bars.find((b) => report.findings.some((f) => f.path === b.path));
  return judged ?? bars.find((b) => b.path.endsWith("upper")) ?? bars[0];
}

/** Milliseconds from pressing a step key to the frame that shows the new revision's answer. */
function timeOneEdit(page, path, direction) {
  return page.evaluate(
    ([at, way]) =>
      new Promise((resolve) => {
        const field = document.querySelector(`input[data-path="${at}"]`);
        const key = field.parentElement.querySelector(`[aria-label$="${way}"]`);
        const revision = document.querySelector(".revision");
        let start = 0;
        const watcher = new MutationObserver(() => {
          watcher.disconnect();
          // The callback of a frame runs before it is painted; the one after it, when it has been.
          requestAnimationFrame(() => {
            const channel = new MessageChannel();
            channel.port1.onmessage = () => resolve(performance.now() - start);
            channel.port2.postMessage(null);
          });
        });
        watcher.observe(revision, { characterData: true, childList: true, subtree: true });
        start = performance.now();
        key.click();
      }),
    [path, direction],
  );
}

async function journey() {
  const browser = await openBrowser(kSizes.landscape);
  const { page, complaints } = browser;
  const link = await chooseLink();
  const height = `${link.b.path}/height`;
  try {
    await step("opens the build", async () => {
      await openPage(browser);
      assert.notEqual(await page.locator("h1").textContent(), "");
      await shoot(page, "weigh-landscape-light");
    });

    await step("dragging the bump slider moves the picture", async () => {
      const before = await picture(page);
      const slider = page.locator("[data-slider=bump]");
      const box = await slider.boundingBox();
      const y = box.y + box.height / 2;
      await page.mouse.move(box.x + box.width / 2, y);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width * 0.75, y, { steps: 8 });
      await page.mouse.up();
      await page.waitForFunction(
        (old) =>
          [...document.querySelectorAll(".face.side path")]
            .map((p) => p.getAttribute("d"))
            .join("|") !== old,
        before,
      );
      const told = await page.locator(".slider output").first().textContent();
      assert.match(told, /^\+/, `bump is told as a rise: ${told}`);
      await page.getByRole("button", { name: "Back to drawn" }).click();
      await page.waitForFunction(
        (old) =>
          [...document.querySelectorAll(".face.side path")]
            .map((p) => p.getAttribute("d"))
            .join("|") === old,
        before,
      );
    });

    await step("dragging a wheel moves its axle", async () => {
      const before = await picture(page);
      const box = await page.locator(".face.side .part.tyre").first().boundingBox();
      await page.mouse.move(box.x + box.width / 2, box.y + 6);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width / 2, box.y - 4, { steps: 6 });
      await page.mouse.up();
      await page.waitForTimeout(200);
      assert.ok((await picture(page)) !== before, "the picture has moved");
      await page.keyboard.press("0");
    });

    await step("a tap on a link opens its ends", async () => {
      const shape = page.locator(`.face.side [data-path="${link.path}"]`).first();
      const eye = await shape.locator("circle.eye").first().boundingBox();
      await page.mouse.click(eye.x + eye.width / 2, eye.y + eye.height / 2);
      await page.waitForSelector(".chosen-card");
      if ((await page.locator(`input[data-path="${height}"]`).count()) === 0) {
        // Another part lies nearer to the finger there: the keyboard reaches each one.
        await shape.focus();
        await page.keyboard.press("Enter");
      }
      await page.waitForSelector(`input[data-path="${height}"]`);
      await shoot(page, "link-landscape-light");
    });

    await step("an entry that does not read is explained at its field", async () => {
      const field = page.locator(`input[data-path="${height}"]`);
      const before = await field.inputValue();
      await field.fill("a good bit");
      await field.press("Enter");
      await page.waitForSelector(".chosen-card .why");
      assert.equal(await field.inputValue(), "a good bit", "what was typed is kept");
      await field.press("Escape");
      assert.equal(await field.inputValue(), before);
      // The program answered 422, which the browser reports as a failed resource: no fault of the page.
      const refused = complaints.findIndex((c) => c.includes("422"));
      if (refused >= 0) complaints.splice(refused, 1);
    });

    await step("moving a link's end changes the findings", async () => {
      await page.keyboard.press("Escape");
      await page.locator(".tray-handle").click();
      const tray = page.locator(".tray");
      const before = await tray.innerText();
      const field = page.locator(`input[data-path="${height}"]`);
      const found = await field.inputValue();
      for (let i = 0; i < 24; i++) await field.press("ArrowDown");
      await page.waitForFunction(
        ([old]) => document.querySelector(".tray")?.innerText !== old,
        [before],
      );
      await page.locator(".finding-head").first().click();
      await page.waitForTimeout(300);
      await shoot(page, "tray-landscape-light");
      const undo = page.getByRole("button", { name: "Undo" });
      while (await undo.isEnabled()) await undo.click();
      await page.waitForFunction(
        ([path, value]) => document.querySelector(`input[data-path="${path}"]`)?.value === value,
        [height, found],
      );
      await page.locator(".tray-handle").click();
    });

    await step("an edit is answered and drawn at once", async () => {
      const times = [];
      for (let i = 0; i < kTimings; i++) {
        times.push(await timeOneEdit(page, height, i % 2 === 0 ? "more" : "less"));
      }
      times.sort((a, b) => a - b);
      const median = (times[kTimings / 2 - 1] + times[kTimings / 2]) / 2;
      console.log(
        `    edit to redrawn: median ${median.toFixed(1)} ms of ${kTimings},` +
          ` ${times[0].toFixed(1)} to ${times.at(-1).toFixed(1)} ms`,
      );
    });

    await step("the truck is drawn in space", async () => {
      await page.getByRole("button", { name: "3D, in space" }).click();
      await page.waitForSelector(".space canvas");
      await page.waitForTimeout(500);
      const png = await page.locator(".space canvas").screenshot();
      const colours = await page.evaluate(async (data) => {
        const bytes = Uint8Array.from(atob(data), (c) => c.charCodeAt(0));
        const bitmap = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
        const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
        const context = canvas.getContext("2d");
        context.drawImage(bitmap, 0, 0);
        const { data: pixels } = context.getImageData(0, 0, bitmap.width, bitmap.height);
        const seen = new Set();
        for (let i = 0; i < pixels.length; i += 4) {
          seen.add((pixels[i] << 16) | (pixels[i + 1] << 8) | pixels[i + 2]);
        }
        return seen.size;
      }, png.toString("base64"));
      assert.ok(colours > 50, `the space view shows more than its ground: ${colours} colours`);
      await shoot(page, "space-landscape-light");
      await page.getByRole("button", { name: "Side view", exact: true }).click();
    });

    assert.deepEqual(complaints, [], "the browser had nothing to complain of");
    if (program.copy) {
      const kept = JSON.parse(await readFile(program.copy, "utf8"));
      assert.ok(kept.axles, "the file is still a build");
    }
  } finally {
    await browser.close();
  }
}

/** Each sheet, in both orientations and schemes: no serious accessibility fault, and a picture of it. */
async function lookAtAll() {
  for (const [orientation, size] of Object.entries(kSizes)) {
    for (const scheme of ["light", "dark"]) {
      const browser = await openBrowser({ ...size, scheme, touch: orientation === "portrait" });
      const { page, complaints } = browser;
      try {
        await step(`${orientation}, ${scheme}: no serious accessibility fault`, async () => {
          await openPage(browser);
          assert.deepEqual(await seriousFaults(page), []);
          await shoot(page, `weigh-${orientation}-${scheme}`);
          await show(page, "Axles");
          await page.waitForTimeout(200);
          assert.deepEqual(await seriousFaults(page), []);
          await shoot(page, `axles-${orientation}-${scheme}`);
          await page.locator(".tray-handle").click();
          await page.locator(".finding-head").first().click();
          assert.deepEqual(await seriousFaults(page), []);
          await shoot(page, `tray-${orientation}-${scheme}`);
          await page.locator(".tray-handle").click();
          const link = await chooseLink();
          await page.locator(`.face.side [data-path="${link.path}"]`).first().focus();
          await page.keyboard.press("Enter");
          await page.waitForSelector(".chosen-card");
          assert.deepEqual(await seriousFaults(page), []);
          await shoot(page, `link-${orientation}-${scheme}`);
          await page.getByRole("button", { name: "Keys" }).click();
          await page.getByRole("button", { name: "Top and side view" }).click();
          await page.waitForTimeout(200);
          assert.deepEqual(await seriousFaults(page), []);
          await shoot(page, `keys-${orientation}-${scheme}`);
          assert.deepEqual(complaints, []);
        });
      } finally {
        await browser.close();
      }
    }
  }
}

/** What can be touched and is smaller than a gloved finger. */
function smallTargets(page) {
  return page.evaluate((least) => {
    const touched = "button, select, input:not([type=checkbox]), summary, .check, .flag label";
    return [...document.querySelectorAll(touched)].flatMap((element) => {
      const { width, height } = element.getBoundingClientRect();
      const isSmall = width > 0 && Math.min(width, height) < least - 0.5;
      return isSmall ? [`${element.className} ${element.textContent} ${width} x ${height}`] : [];
    });
  }, kLeastTarget_px);
}

async function gloves() {
  const browser = await openBrowser({ ...kSizes.portrait, touch: true });
  const { page, complaints } = browser;
  try {
    await step("the keypad writes a quantity; nothing to touch is small", async () => {
      await openPage(browser);
      assert.deepEqual(await smallTargets(page), []);
      const link = await chooseLink();
      await page.locator(`.face.side [data-path="${link.path}"]`).first().focus();
      await page.keyboard.press("Enter");
      const field = page.locator(`input[data-path="${link.b.path}/height"]`);
      await field.tap();
      const keypad = page.locator(".keypad");
      await keypad.waitFor();
      await page.waitForTimeout(100);
      assert.deepEqual(await smallTargets(page), []);
      await shoot(page, "keypad-portrait-light");
      for (const key of ["2", "2", "5/8", "in"]) {
        await keypad.getByRole("button", { name: key, exact: true }).tap();
      }
      await keypad.getByRole("button", { name: "Enter", exact: true }).tap();
      await keypad.waitFor({ state: "detached" });
      assert.equal(await field.inputValue(), "22 5/8 in");
      await page.locator(".tray-handle").tap();
      await page.locator(".finding-head").first().tap();
      assert.deepEqual(await smallTargets(page), []);
      assert.deepEqual(complaints, []);
    });
  } finally {
    await browser.close();
  }
}

try {
  await journey();
  await gloves();
  await lookAtAll();
} finally {
  await program.close();
}
