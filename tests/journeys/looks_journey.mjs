// Every screen in both orientations and schemes: no serious accessibility fault, nothing wider than the
// screen, and, if asked for, a picture for a person to look at.
//   node looks_journey.mjs BINARY BUILD_FILE
import assert from "node:assert/strict";
import { atBench, chooseOnTruck, kSizes, makeShooter, openOn, show, step } from "./bench.mjs";
import { seriousFaults } from "./browser.mjs";
import { openShop } from "./program.mjs";

const [binary, file] = process.argv.slice(2);
if (!file) throw new Error("Usage: looks_journey.mjs BINARY BUILD_FILE");
const shoot = await makeShooter();
const shop = await openShop(binary, [file]);
const [id] = shop.ids;
const { scene } = await (await fetch(`${shop.url}api/builds/${id}/scene`)).json();
const link = scene.parts.find((p) => p.kind === "bar" && p.path.includes("/links/"));

async function lookAt(page, name) {
  await page.waitForTimeout(200);
  assert.deepEqual(await seriousFaults(page), [], name);
  const wide = await page.evaluate(
    () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
  );
  assert.ok(!wide, `${name} is wider than the screen`);
  await shoot(page, name);
}

async function makeVariant(page) {
  await show(page, "Compare");
  await page.locator('input[placeholder^="A new variant"]').fill("3 in lift");
  await page.getByRole("button", { name: "Make it" }).click();
  await page.waitForSelector(".variant-open");
  await chooseOnTruck(page, link.path);
  const field = page.locator(`input[data-path="${link.b.path}/height"]`);
  for (let i = 0; i < 6; i++) await field.press("ArrowUp");
  await page.waitForSelector(".field.changed");
}

async function lookAtAll(orientation, scheme) {
  const size = kSizes[orientation];
  const browser = await openOn(shop.url, id, {
    ...size,
    scheme,
    touch: orientation === "portrait",
  });
  const { page, complaints } = browser;
  const name = (screen) => `${screen}-${orientation}-${scheme}`;
  try {
    await page.goto(`${shop.url}#shop`);
    await page.waitForSelector(".card img");
    await lookAt(page, name("shop"));
    await page.goto(`${shop.url}#shop/new`);
    await page.waitForSelector(".question");
    await lookAt(page, name("start"));
    await page.goto(`${shop.url}#${id}`);
    await atBench(page);
    await page.waitForSelector(".next li", { timeout: 5000 }).catch(() => undefined);
    await lookAt(page, name("weigh"));
    await show(page, "Frame");
    await page.waitForSelector(".load select");
    await lookAt(page, name("frame-load"));
    await page.getByRole("button", { name: "Under load" }).click();
    await page.waitForSelector(".load", { state: "detached" });
    await lookAt(page, name("frame"));
    await page.getByRole("button", { name: "Under load" }).click();
    await show(page, "Drivetrain");
    await lookAt(page, name("drivetrain"));
    await show(page, "Axles");
    await lookAt(page, name("axles"));
    await page.locator(".tray-handle").click();
    await page.locator(".finding-head").first().click();
    await lookAt(page, name("tray"));
    await page.locator(".tray-handle").click();
    await chooseOnTruck(page, link.path);
    await page.locator(".how:not([disabled])").first().click();
    await lookAt(page, name("link"));
    await page.getByRole("button", { name: "Top and side view" }).click();
    await lookAt(page, name("top"));
    await page.getByRole("button", { name: "Side view", exact: true }).click();
    await show(page, "Compare");
    await page.waitForSelector(".stills .part path");
    await lookAt(page, name("compare"));
    await page.locator(".sides").evaluate((e) => {
      e.closest(".work-sheet").scrollTop = e.offsetTop - 60;
    });
    await lookAt(page, name("compare-below"));
    await show(page, "Build");
    await lookAt(page, name("build"));
    await page.locator(".revision").click();
    await page.waitForSelector(".entry-line");
    await lookAt(page, name("history"));
    await page.getByRole("button", { name: "Keys" }).click();
    await lookAt(page, name("keys"));
    assert.deepEqual(complaints, []);
  } finally {
    await browser.close();
  }
}

async function lookInBothSchemes(orientation) {
  for (const scheme of ["light", "dark"]) {
    await step(`${orientation}, ${scheme}`, () => lookAtAll(orientation, scheme));
  }
}

try {
  const maker = await openOn(shop.url, id, kSizes.landscape);
  await makeVariant(maker.page).finally(maker.close);
  // Both at once: looking for faults keeps one processor busy.
  const looks = await Promise.allSettled(Object.keys(kSizes).map(lookInBothSchemes));
  for (const look of looks) if (look.status === "rejected") throw look.reason;
} finally {
  await shop.close();
}
