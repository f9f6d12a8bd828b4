// Every sheet that the masthead leads to, and what hangs below it: nothing sideways, nothing that keeps
// people out, no fault in the console, no word to another host. Pictures of each lie in shots/.

import assert from "node:assert/strict";
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { axe, browse, sideways, visit } from "../browser.js";
import { serve } from "../server.js";

const WIDTHS = [320, 360, 390, 480, 720, 768, 1024, 1100, 1280, 1440, 1920, 2560];
const shots = join(import.meta.dirname, "..", "shots");

describe("every sheet", () => {
  let browser, server;
  const sheets = new Map();

  before(async () => {
    server = await serve();
    browser = await browse();
    await mkdir(shots, { recursive: true });
    const { page, context } = await visit(browser, server, { at: "/builds/first-panel" });
    for (const link of await page.getByRole("navigation", { name: "Sheets" }).getByRole("link").all()) {
      sheets.set(await link.textContent(), await link.getAttribute("href"));
    }
    sheets.set("About", "/about");
    // One below each list.
    for (const [name, at, deeper] of [
      ["A build in trouble", "/builds/gravity-lean-to", ""],
      ["A sum", "/sums", "main a[href^='/sums/']"],
    ]) {
      if (!deeper) sheets.set(name, at);
      else {
        await page.goto(server.origin + at);
        const href = await page.locator(deeper).first().getAttribute("href", { timeout: 2000 }).catch(() => null);
        if (href) sheets.set(name, href);
      }
    }
    // What takes long to find out is there when the pictures are taken.
    await page.goto(`${server.origin}/builds/first-panel`);
    await page.getByText(/Still being worked out/).waitFor({ state: "detached", timeout: 240_000 });
    await context.close();
  });
  after(async () => {
    await browser?.close();
    await server?.stop();
  });

  /** Does something on each sheet in one context and gathers what is wrong. */
  const onEach = async (options, look) => {
    const wrong = [];
    const { page, context, faults } = await visit(browser, server, { at: "/about", ...options });
    for (const [name, href] of sheets) {
      const answer = await page.goto(server.origin + href);
      if (answer.status() !== 200) wrong.push(`${name}: ${href} answers ${answer.status()}`);
      await page.evaluate(() => document.fonts.ready);
      wrong.push(...(await look(page, name)).map((one) => `${name}: ${one}`));
      wrong.push(...faults.splice(0).map((one) => `${name}: ${one}`));
    }
    await context.close();
    return wrong;
  };
  const shot = (page, name, kind) =>
    page.screenshot({ path: join(shots, `${name.toLowerCase().replaceAll(" ", "-")}-${kind}.png`), fullPage: true });

  for (const width of WIDTHS) {
    test(`nothing hangs out sideways at ${width} px`, async () => {
      const wrong = await onEach({ viewport: { width, height: 900 } }, async (page, name) => {
        if ([390, 1440, 2560].includes(width)) await shot(page, name, `day-${width}`);
        const over = await sideways(page);
        return over > 0 ? [`${over} px`] : [];
      });
      assert.deepEqual(wrong, []);
    });
  }

  for (const width of [390, 1440, 2560]) {
    test(`by night at ${width} px`, async () => {
      const wrong = await onEach({ viewport: { width, height: 900 }, colorScheme: "dark" }, async (page, name) => {
        await shot(page, name, `night-${width}`);
        const ground = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
        return ground === "rgb(14, 23, 28)" ? [] : [`its ground is ${ground}`];
      });
      assert.deepEqual(wrong, []);
    });
  }

  test("zoomed to 200 % nothing hangs out sideways and the type is twice as large", async () => {
    const options = { viewport: { width: 720, height: 450 }, deviceScaleFactor: 2 };
    const wrong = await onEach(options, async (page, name) => {
      await shot(page, name, "zoomed");
      const over = await sideways(page);
      return over > 0 ? [`${over} px`] : [];
    });
    assert.deepEqual(wrong, []);
  });

  test("with larger type nothing hangs out sideways", async () => {
    const { page, context } = await visit(browser, server, { at: "/about", viewport: { width: 390, height: 800 } });
    await page.getByRole("button", { name: "Larger type" }).click();
    assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize), "20px");
    const wrong = [];
    for (const width of [320, 390, 1440]) {
      await page.setViewportSize({ width, height: 800 });
      for (const [name, href] of sheets) {
        await page.goto(server.origin + href);
        const over = await sideways(page);
        if (over > 0) wrong.push(`${name} at ${width}: ${over} px`);
      }
    }
    await context.close();
    assert.deepEqual(wrong, []);
  });

  for (const [kind, options] of [
    ["by day", {}],
    ["by night", { colorScheme: "dark" }],
    ["on a phone", { viewport: { width: 390, height: 800 } }],
  ]) {
    test(`axe finds nothing serious ${kind}`, async () => {
      assert.deepEqual(await onEach({ ...options, bypassCSP: true }, (page) => axe(page)), []);
    });
  }

  test("text has seven to one against its ground, by day and by night", async () => {
    const wrong = [];
    for (const colorScheme of ["light", "dark"]) {
      wrong.push(...(await onEach({ colorScheme, bypassCSP: true }, (page) => axe(page, ["color-contrast-enhanced"]))));
    }
    assert.deepEqual(wrong, []);
  });
});
