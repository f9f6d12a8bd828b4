// A value is changed on the page; the command line then says the same of the same file.

import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { after, afterEach, before, beforeEach, describe, test } from "node:test";
import { browse, visit } from "../browser.js";
import { json, serve } from "../server.js";

const TILT = /^Sun: Slope of the panel/;

describe("a build that is changed", () => {
  let browser, server, file, original, page, context, faults;

  before(async () => {
    server = await serve();
    browser = await browse();
    file = join(server.book, "first-panel.toml");
    original = await readFile(file, "utf8");
  });
  after(async () => {
    await browser?.close();
    await server?.stop();
  });
  beforeEach(async () => {
    await writeFile(file, original);
    ({ page, context, faults } = await visit(browser, server, { at: "/builds/first-panel" }));
    const outside = page.getByRole("button", { name: "Take the file as it is now" });
    if (await outside.count()) await outside.click();
    await says(await spared());
  });
  afterEach(async () => {
    await context.close();
    assert.deepEqual(faults, []);
  });

  const spared = async () =>
    Math.round((await json("year", "--json", "--no-band", file)).year.spared_heat_kwh);
  const heading = () => page.getByRole("heading", { level: 1 });
  const says = (kwh, of = page) =>
    of.getByRole("heading", { level: 1, name: new RegExp(`heater ${kwh}\\s*kWh`) }).waitFor({ timeout: 15_000 });
  const change = async (value) => {
    const field = page.getByRole("textbox", { name: TILT });
    await field.fill(value);
    await field.press("Enter");
  };

  test("it opens with the year that the command line computes", async () => {
    await says(await spared());
    for (const station of ["Sun", "Panel", "Circuit", "Store", "Tap"]) {
      await page.getByRole("heading", { name: station, exact: true }).waitFor();
    }
  });

  test("a value typed is in the file, and the answer is that file's", async () => {
    const first = await spared();
    await change("60 deg");
    await page.getByRole("complementary", { name: "What you changed" }).waitFor({ timeout: 15_000 });
    assert.equal(await readFile(file, "utf8"), original.replace('tilt = "35 deg"', 'tilt = "60 deg"'));
    const second = await spared();
    assert.notEqual(second, first);
    await says(second);
    // Who cannot see the sheet change hears of it.
    await page.getByRole("status").filter({ hasText: `${second} kilowatt-hours` }).waitFor();
  });

  test("undone it is the former file to the letter, and done again the changed one", async () => {
    const first = await spared();
    await change("60 deg");
    await page.getByRole("complementary", { name: "What you changed" }).waitFor({ timeout: 15_000 });
    const changed = await readFile(file, "utf8");
    await page.getByRole("button", { name: /^Undo/ }).click();
    await says(first);
    assert.equal(await readFile(file, "utf8"), original);
    await page.getByRole("button", { name: /^Redo/ }).click();
    await page.getByRole("complementary", { name: "What you changed" }).waitFor({ timeout: 15_000 });
    assert.equal(await readFile(file, "utf8"), changed);
    await page.getByRole("button", { name: "Put back" }).click();
    await says(first);
    assert.equal(await readFile(file, "utf8"), original);
  });

  test("a value of the wrong kind stays in the field with its reason, and the file stays", async () => {
    await change("3 l/min");
    const field = page.getByRole("textbox", { name: TILT });
    await page.locator("[aria-invalid=true]").waitFor();
    assert.equal(await field.inputValue(), "3 l/min");
    assert.equal(await field.getAttribute("aria-invalid"), "true");
    assert.equal(await readFile(file, "utf8"), original);
    await change("35 deg");
    await page.locator("[aria-invalid=true]").waitFor({ state: "detached" });
  });

  test("a file that another program changed is never overwritten unasked", async () => {
    const theirs = original.replace('tilt = "35 deg"', 'tilt = "50 deg"');
    await writeFile(file, theirs);
    await page.getByRole("heading", { name: /Another program changed/ }).waitFor({ timeout: 10_000 });
    await change("60 deg");
    await page.getByRole("alert").filter({ hasText: /nothing was written/ }).waitFor();
    assert.equal(await readFile(file, "utf8"), theirs);
    // The browser notes the refusal in its console; it is the only thing there.
    const refused = faults.splice(0);
    assert.equal(refused.length, 1, refused.join());
    assert.match(refused[0], /409/);
    await page.getByRole("button", { name: "Take the file as it is now" }).click();
    await says(await spared());
    assert.equal(await readFile(file, "utf8"), theirs);
  });

  test("a second window shows the change by itself", async () => {
    const second = await visit(browser, server, { at: "/builds/first-panel" });
    await change("20 deg");
    await page.getByRole("complementary", { name: "What you changed" }).waitFor({ timeout: 15_000 });
    await says(await spared(), second.page);
    await second.context.close();
    assert.deepEqual(second.faults, []);
  });

  test("without a script a value is changed all the same", async () => {
    const plain = await visit(browser, server, { at: "/builds/first-panel", javaScriptEnabled: false });
    const field = plain.page.getByRole("textbox", { name: TILT });
    await field.fill("25 deg");
    await field.press("Enter");
    await plain.page.getByRole("complementary", { name: "What you changed" }).waitFor({ timeout: 15_000 });
    assert.match(await readFile(file, "utf8"), /tilt = "25 deg"/);
    await says(await spared(), plain.page);
    await plain.context.close();
    assert.deepEqual(plain.faults, []);
  });

  test("plus and minus beside a number move it by its step", async () => {
    await page.getByRole("button", { name: /^More: Sun: Slope of the panel/ }).click();
    await page.getByRole("complementary", { name: "What you changed" }).waitFor({ timeout: 15_000 });
    assert.doesNotMatch(await readFile(file, "utf8"), /tilt = "35 deg"/);
    await says(await spared());
  });

  test("the answer stands above all else in the sheet", async () => {
    const box = await heading().boundingBox();
    assert.ok(box.y < 450, `the answer begins ${box.y} px down`);
  });
});
