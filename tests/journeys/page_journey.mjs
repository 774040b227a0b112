// One builder's way through the page on one file, in a real browser.
//   node page_journey.mjs BINARY BUILD_FILE
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { atBench, makeShooter, show, step, unexpected, untilAllIsAnswered } from "./bench.mjs";
import { openBrowser } from "./browser.mjs";
import { openProgram } from "./program.mjs";

const [binary, file] = process.argv.slice(2);
if (!file) throw new Error("Usage: page_journey.mjs BINARY BUILD_FILE");
const program = await openProgram(binary, file);
const shoot = await makeShooter();
const browser = await openBrowser({ width: 1280, height: 800 });
const { page, complaints } = browser;
await page.addInitScript(() => localStorage.setItem("rigwright.initials", "TC"));

/** The side view's shapes, to tell whether the picture has moved. */
const picture = () =>
  page.$$eval(".face.side path", (paths) => paths.map((p) => p.getAttribute("d")).join("|"));
const untilPicture = (isIt, old) =>
  page.waitForFunction(
    ([same, before]) => {
      const paths = [...document.querySelectorAll(".face.side path")];
      return (paths.map((p) => p.getAttribute("d")).join("|") === before) === same;
    },
    [isIt, old],
  );

/** A link to edit: one that a finding is about, else any. */
async function chooseLink() {
  const ask = async (route) => (await fetch(new URL(route, program.url))).json();
  const { builds } = await ask("api/shop");
  const base = `api/builds/${builds[0].id}`;
  const { scene } = await ask(`${base}/scene`);
  const { report } = await ask(`${base}/report`);
  const bars = scene.parts.filter((p) => p.kind === "bar" && p.path.includes("/links/"));
  assert.ok(bars.length > 0, "the example has a link");
  const judged = bars.find((b) => report.findings.some((f) => f.path === b.path));
  return judged ?? bars.find((b) => b.path.endsWith("upper")) ?? bars[0];
}

const link = await chooseLink();
const height = `${link.b.path}/height`;

try {
  await step("one build opens at once, and the address names it", async () => {
    await page.goto(program.url);
    await atBench(page);
    assert.notEqual(await page.locator("h1").textContent(), "");
    assert.match(page.url(), /#[a-z0-9_-]+$/);
    await shoot(page, "weigh-landscape-light");
  });

  await step("dragging the bump slider moves the picture", async () => {
    const before = await picture();
    const slider = page.locator("[data-slider=bump]");
    const box = await slider.boundingBox();
    const y = box.y + box.height / 2;
    await page.mouse.move(box.x + box.width / 2, y);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.75, y, { steps: 8 });
    await page.mouse.up();
    await untilPicture(false, before);
    const told = await page.locator(".slider output").first().textContent();
    assert.match(told, /^\+/, `bump is told as a rise: ${told}`);
    await page.getByRole("button", { name: "Back to drawn" }).click();
    await untilPicture(true, before);
  });

  await step("dragging a wheel moves its axle", async () => {
    const before = await picture();
    const box = await page.locator(".face.side .part.tyre").first().boundingBox();
    await page.mouse.move(box.x + box.width / 2, box.y + 6);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, box.y - 4, { steps: 6 });
    await page.mouse.up();
    await page.waitForTimeout(200);
    assert.ok((await picture()) !== before, "the picture has moved");
    await page.keyboard.press("0");
    await untilPicture(true, before);
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

  await step("what is typed is told as it is understood", async () => {
    const field = page.locator(`input[data-path="${height}"]`);
    const before = await field.inputValue();
    await field.fill("22 5/8");
    const echo = page.locator(".chosen-card .echo");
    await echo.waitFor();
    assert.match(await echo.textContent(), /mm/);
    await field.press("Escape");
    await echo.waitFor({ state: "detached" });
    await page.waitForTimeout(200);
    assert.equal(await field.inputValue(), before, "Escape leaves what was typed");
    assert.equal(await page.locator(".revision").textContent(), "Entry 1");
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
  });

  await step("a number opens to its working, and leads to its inputs", async () => {
    await show(page, "Axles");
    const rows = page.locator(".number-row:has(button.row-head)");
    for (let i = 0; i < (await rows.count()); i++) {
      const row = rows.nth(i);
      await row.locator("button.row-head").click();
      const inputs = row.locator(".inputs button");
      if ((await inputs.count()) > 0) {
        await shoot(page, "working-landscape-light");
        await inputs.first().click();
        await page.waitForSelector(".chosen-card");
        return;
      }
      await row.locator("button.row-head").click();
    }
    assert.fail("no number has a working with inputs");
  });

  await step("moving a link's end changes the findings", async () => {
    await page.locator(`.face.side [data-path="${link.path}"]`).first().focus();
    await page.keyboard.press("Enter");
    await page.locator(".tray-handle").click();
    const tray = page.locator(".tray");
    const before = await tray.textContent();
    const field = page.locator(`input[data-path="${height}"]`);
    const found = await field.inputValue();
    for (let i = 0; i < 24; i++) await field.press("ArrowDown");
    await page.waitForFunction(
      ([old]) => document.querySelector(".tray")?.textContent !== old,
      [before],
    );
    await page.locator(".finding-head").first().click();
    await page.waitForTimeout(300);
    await shoot(page, "tray-landscape-light");
    const undo = page.getByRole("button", { name: "Undo" });
    await untilAllIsAnswered(page);
    for (let i = 0; i < 24 && (await undo.isEnabled()); i++) {
      const entry = await page.locator(".revision").textContent();
      await undo.click();
      await page.waitForFunction(
        (old) => document.querySelector(".revision").textContent !== old,
        entry,
      );
    }
    await page.waitForFunction(
      ([path, value]) => document.querySelector(`input[data-path="${path}"]`)?.value === value,
      [height, found],
    );
    await page.locator(".tray-handle").click();
  });

  await step("engine and cases move as one piece", async () => {
    await show(page, "Drivetrain");
    const form = page.locator(".move-cases");
    await form.getByLabel("Up").fill("1/2");
    await page.waitForFunction(() =>
      document.querySelector(".move-cases .doc")?.textContent?.includes("1/2 in"),
    );
    await form.scrollIntoViewIfNeeded();
    await shoot(page, "move-cases-landscape-light");
    const heightInFile = async () => {
      const { drivetrain } = JSON.parse(await readFile(program.copy, "utf8"));
      return drivetrain.segments.engine.starts_at.height;
    };
    assert.equal(await heightInFile(), "31 in");
    await form.getByRole("button", { name: "Move it" }).click();
    await page.waitForFunction(() => document.querySelector(".move-cases input")?.value === "");
    assert.equal(await heightInFile(), "31.500 in");
    const entry = await page.locator(".revision").textContent();
    await page.getByRole("button", { name: "Undo" }).click();
    await page.waitForFunction(
      (old) => document.querySelector(".revision").textContent !== old,
      entry,
    );
    assert.equal(await heightInFile(), "31 in");
  });

  await step("the truck is drawn in space", async () => {
    await page.getByRole("button", { name: "3D, in space" }).click();
    await page.waitForSelector(".space canvas");
    await page.waitForTimeout(500);
    const colours = await coloursIn(await page.locator(".space canvas").screenshot());
    assert.ok(colours > 50, `the space view shows more than its ground: ${colours} colours`);
    await shoot(page, "space-landscape-light");
  });

  assert.deepEqual(unexpected(complaints, ["422"]), [], "the browser had nothing to complain of");
  assert.ok(JSON.parse(await readFile(program.copy, "utf8")).axles, "the file is still a build");
} finally {
  await browser.close();
  await program.close();
}

function coloursIn(png) {
  return page.evaluate(async (data) => {
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
}
