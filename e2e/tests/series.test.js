// The series explorer: from the year to the hour by every way there is, and what it says of a place.

import assert from "node:assert/strict";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, afterEach, before, beforeEach, describe, test } from "node:test";
import { browse, visit } from "../browser.js";
import { json, serve } from "../server.js";

const YEAR = [0, 525600];

describe("the series of a build", () => {
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
    ({ page, context, faults } = await visit(browser, server, { at: "/builds/first-panel/series" }));
    await drawn(...YEAR);
  });
  afterEach(async () => {
    await context.close();
    assert.deepEqual(faults, []);
  });

  const drawn = (from, to) => page.locator(`#graphs[data-drawn="${from}-${to}"]`).waitFor();
  const asked = () => {
    const query = new URL(page.url()).searchParams;
    return [Number(query.get("from")), Number(query.get("to"))];
  };
  const length = () => asked()[1] - asked()[0];
  const slider = () => page.getByRole("slider", { name: "Time under the cursor" });
  const line = () => page.locator("#under").textContent();
  const graph = () => page.locator("figure", { hasText: "Temperature" }).locator(".u-over");
  const settled = async (was) => {
    await page.waitForFunction((url) => location.href !== url, was);
    await drawn(...asked());
  };

  test("the buttons lead from the year to the hour, and the table follows", async () => {
    for (const [name, minutes, rows] of [
      ["A month", [40320, 44640], /^\d+ \w+$/],
      ["A week", [10080, 10080], /^\d+ \w+$/],
      ["A day", [1440, 1440], /^\d+ \w+, \d\d:00$/],
      ["An hour", [60, 60], /^\d+ \w+, \d\d:\d[05]$/],
    ]) {
      const was = page.url();
      await page.getByRole("link", { name, exact: true }).click();
      await settled(was);
      assert.ok(length() >= minutes[0] && length() <= minutes[1], `${name}: ${length()}`);
      const heads = await page.getByRole("rowheader").allTextContents();
      assert.ok(heads.length > 5, `${name}: ${heads.length} rows`);
      for (const head of heads) assert.match(head, rows);
    }
    for (const name of ["Earlier", "Later", "Wider"]) {
      const [was, long] = [page.url(), length()];
      await page.getByRole("link", { name, exact: true }).click();
      await settled(was);
      assert.equal(length(), name === "Wider" ? 2 * long : long);
    }
  });

  test("keys alone do it too, and say where they are", async () => {
    await slider().focus();
    const first = await slider().getAttribute("aria-valuetext");
    await page.keyboard.press("ArrowRight");
    assert.notEqual(await slider().getAttribute("aria-valuetext"), first);
    for (const [key, factor] of [["+", 0.5], ["+", 0.5], ["-", 2]]) {
      const [was, long] = [page.url(), length() || 525600];
      await page.keyboard.press(key);
      await settled(was);
      assert.equal(length(), long * factor);
    }
    const [was, from, long] = [page.url(), asked()[0], length()];
    await page.keyboard.press(">");
    await settled(was);
    assert.ok(asked()[0] > from && length() === long);
    assert.equal(await slider().evaluate((one) => document.activeElement === one), true);
  });

  test("drawing over a graph shows what was drawn over", async () => {
    const box = await graph().boundingBox();
    const was = page.url();
    await page.mouse.move(box.x + box.width * 0.5, box.y + 40);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.75, box.y + 60, { steps: 8 });
    await page.mouse.up();
    await settled(was);
    // A pixel of the year's graph is some ten hours.
    assert.ok(Math.abs(asked()[0] - 262800) < 1500 && Math.abs(asked()[1] - 394200) < 1500, `${asked()}`);
  });

  test("the wheel comes closer once a graph is in hand, and scrolls the page before", async () => {
    const box = await graph().boundingBox();
    await page.mouse.move(box.x + box.width / 2, box.y + 40);
    await page.mouse.wheel(0, -120);
    await page.waitForTimeout(400);
    assert.equal(new URL(page.url()).search, "");
    await page.mouse.click(box.x + box.width / 2, box.y + 40);
    const was = page.url();
    const at = await graph().boundingBox();
    await page.mouse.move(at.x + at.width / 2, at.y + 40);
    await page.mouse.wheel(0, -120);
    await settled(was);
    assert.ok(length() < 525600 && length() > 300000, `${length()}`);
  });

  test("the line under the cursor is what the command line writes of that minute", async () => {
    const folder = await mkdtemp(join(tmpdir(), "warmfeed-e2e-out-"));
    const file = join(server.book, "first-panel.toml");
    await json("year", "--json", "--no-band", "--out", folder, "--minutes", "store-top,sheet", file);
    const rows = (await readFile(join(folder, "minutes.csv"), "utf8")).split("\n");
    await rm(folder, { recursive: true });
    const minute = 233_280 + 13 * 60 + 40;
    const [stamp, top, sheet] = rows[1 + minute].split(",");
    assert.equal(stamp, "06-12 13:40");
    await page.goto(`${server.origin}/builds/first-panel/series?from=${minute - 30}&to=${minute + 30}&show=store-top&show=sheet`);
    await drawn(minute - 30, minute + 30);
    await slider().fill(String(minute));
    const figure = (text) => Number(text).toFixed(1);
    const said = (await line()).replaceAll("\u00a0", " ").replaceAll("\u2212", "-");
    assert.equal(said, `12 June, 13:40: sheet, hottest part ${figure(sheet)} °C; store, top ${figure(top)} °C.`);
  });

  test("what is chosen is drawn, in the reader's units", async () => {
    await page.getByRole("checkbox", { name: "pump running" }).check();
    await page.locator("figure", { hasText: "Pump" }).locator("canvas").waitFor();
    await page.getByRole("checkbox", { name: "light taken up by the sheet" }).uncheck();
    await page.locator("figure", { hasText: "Light on the sheet" }).waitFor({ state: "hidden" });
    await page.waitForFunction(() => location.search.includes("show=pump"));
    await page.getByRole("button", { name: "in, °F" }).click();
    await drawn(...YEAR);
    await page.locator("figcaption", { hasText: "Temperature, °F" }).waitFor();
    assert.match(await line(), /°F/);
    assert.equal(await page.getByRole("checkbox", { name: "pump running" }).isChecked(), true);
    await page.getByRole("button", { name: "mm, °C" }).click();
  });

  test("without a script the table and the buttons are there", async () => {
    const plain = await visit(browser, server, { at: "/builds/first-panel/series", javaScriptEnabled: false });
    await plain.page.getByRole("link", { name: "A day", exact: true }).click();
    assert.equal(await plain.page.getByRole("rowheader").count(), 24);
    await plain.page.getByRole("checkbox", { name: "pump running" }).check();
    await plain.page.getByRole("button", { name: "Show these" }).click();
    await plain.page.getByRole("columnheader", { name: /pump running/ }).waitFor();
    assert.equal(await plain.page.getByRole("rowheader").count(), 24);
    assert.deepEqual(plain.faults, []);
    await plain.context.close();
  });

  // How long it takes hangs on what else the computer does, so it is told and not judged.
  test("a computed year is drawn at once, whole", async (t) => {
    const fresh = await context.newPage();
    await fresh.addInitScript(() => {
      new MutationObserver(() => {
        if (!globalThis.drawnAt && document.querySelector("#graphs[data-drawn]")) globalThis.drawnAt = performance.now();
      }).observe(document, { subtree: true, childList: true, attributes: true });
    });
    await fresh.goto(`${server.origin}/builds/first-panel/series`);
    await fresh.waitForFunction(() => globalThis.drawnAt);
    t.diagnostic(`first drawn after ${await fresh.evaluate(() => Math.round(globalThis.drawnAt))} ms`);
    assert.ok((await fresh.locator("#graphs canvas").count()) > 0);
    await fresh.close();
  });
});
