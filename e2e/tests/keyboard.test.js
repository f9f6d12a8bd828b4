// The page without a mouse.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { after, afterEach, before, beforeEach, describe, test } from "node:test";
import { browse, visit } from "../browser.js";
import { serve } from "../server.js";

describe("keys alone", () => {
  let browser, server, page, context, faults;

  before(async () => {
    server = await serve();
    browser = await browse();
  });
  after(async () => {
    await browser?.close();
    await server?.stop();
  });
  beforeEach(async () => {
    ({ page, context, faults } = await visit(browser, server, { at: "/builds/first-panel" }));
    await page.getByRole("heading", { level: 1, name: /heater/ }).waitFor();
  });
  afterEach(async () => {
    await context.close();
    assert.deepEqual(faults, []);
  });

  /** What has the focus: its name, where it is, whether one sees it. */
  const focused = () =>
    page.evaluate(() => {
      const one = document.activeElement;
      const box = one.getBoundingClientRect();
      const style = getComputedStyle(one);
      const [x, y] = [box.left + Math.min(box.width, 40) / 2, box.top + Math.min(box.height, 24) / 2];
      const above = document.elementFromPoint(x, y);
      return {
        under: above && !one.contains(above) ? `${above.tagName} ${above.closest("[id]")?.id}` : "",
        name: `${one.tagName} ${one.id || one.textContent.trim().slice(0, 40) || one.getAttribute("aria-label")}`,
        isBody: one === document.body,
        ring: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
        inView: box.bottom > 0 && box.top < innerHeight,
        covered: !(above && (one.contains(above) || above.contains(one) || above.closest("label")?.control === one)),
      };
    });

  test("the first key press leads past the masthead", async () => {
    await page.keyboard.press("Tab");
    assert.match((await focused()).name, /To the sheet/);
    await page.keyboard.press("Enter");
    assert.equal(await page.evaluate(() => document.activeElement.id), "main");
  });

  test("Tab reaches everything once, always in sight, with a ring, and comes out at the end", async () => {
    const seen = [];
    const wrong = [];
    for (let presses = 0; presses < 600; presses += 1) {
      await page.keyboard.press("Tab");
      const now = await focused();
      if (now.isBody) break;
      seen.push(now.name);
      if (!now.ring) wrong.push(`${now.name}: no ring`);
      if (!now.inView) wrong.push(`${now.name}: out of sight`);
      else if (now.covered) wrong.push(`${now.name}: covered by ${now.under}`);
    }
    assert.deepEqual(wrong, []);
    assert.ok(seen.length > 30 && seen.length < 600, `${seen.length} stops`);
  });

  test("figures lead to the stations, and a question mark lists the keys", async () => {
    for (const [key, name] of [["1", "Sun"], ["2", "Panel"], ["3", "Circuit"], ["4", "Store"], ["5", "Tap"]]) {
      await page.keyboard.press(key);
      // The station may be drawn anew at this very moment, and gets the focus back.
      await page.waitForFunction((name) => {
        const station = document.activeElement.closest("[data-station]");
        return station && document.getElementById(station.getAttribute("aria-labelledby")).textContent === name;
      }, name);
    }
    await page.keyboard.press("?");
    await page.getByRole("dialog", { name: "Keys" }).waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("dialog", { name: "Keys" }).waitFor({ state: "hidden" });
  });

  test("a letter typed into a field is a letter", async () => {
    const field = page.getByRole("textbox", { name: /^Sun: Slope/ });
    await field.focus();
    await field.press("End");
    await page.keyboard.type("5?u");
    assert.equal(await field.inputValue(), "35 deg5?u");
    await page.keyboard.press("Escape");
    assert.equal(await field.inputValue(), "35 deg");
    assert.equal(await page.getByRole("dialog").count(), 0);
  });

  test("keys of one letter can be switched off", async () => {
    await page.goto(`${server.origin}/about`);
    await page.getByRole("button", { name: "Switch them off" }).press("Enter");
    await page.getByRole("button", { name: "Switch them on" }).waitFor();
    await page.goto(`${server.origin}/builds/first-panel`);
    await page.keyboard.press("?");
    assert.equal(await page.getByRole("dialog").count(), 0);
  });

  test("a number is stepped, kept and undone by keys", async () => {
    const file = join(server.book, "first-panel.toml");
    const original = await readFile(file, "utf8");
    const field = page.getByRole("textbox", { name: /^Sun: Slope/ });
    await field.focus();
    await page.keyboard.press("ArrowUp");
    assert.notEqual(await field.inputValue(), "35 deg");
    assert.equal(await readFile(file, "utf8"), original, "an arrow key alone keeps nothing");
    await page.keyboard.press("Enter");
    await page.getByRole("complementary", { name: "What you changed" }).waitFor({ timeout: 15_000 });
    assert.notEqual(await readFile(file, "utf8"), original);
    // The focus stays where the hand is.
    assert.match((await focused()).name, /INPUT/);
    await page.getByRole("button", { name: /^Undo/ }).focus();
    await page.keyboard.press("Enter");
    await page.getByRole("complementary", { name: "What you changed" }).waitFor({ state: "detached", timeout: 15_000 });
    assert.equal(await readFile(file, "utf8"), original);
  });
});
