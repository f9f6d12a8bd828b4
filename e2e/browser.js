// One browser for all tests of a file; each test has its own context, which notes everything that
// must never happen: an error in the console, a request to another host.

import { access, readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const PLACES = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser"];

async function executable() {
  for (const path of PLACES.filter(Boolean)) {
    try {
      await access(path);
      return path;
    } catch {
      // The next one.
    }
  }
  throw new Error("no Chromium: install Debian's package chromium, or name the program in CHROMIUM");
}

/** A browser; the sandbox needs a user that is not root. */
export async function browse() {
  const args = process.getuid?.() === 0 ? ["--no-sandbox"] : [];
  return chromium.launch({ executablePath: await executable(), args });
}

/** A page at a path that keeps count of what must not happen. */
export async function visit(browser, server, { at = "/", ...options } = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const page = await context.newPage();
  const faults = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") faults.push(message.text());
  });
  page.on("pageerror", (error) => faults.push(String(error)));
  context.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(server.origin) && !url.startsWith("data:")) faults.push(`asked ${url}`);
  });
  await page.goto(new URL(at, server.address).href);
  return { page, context, faults };
}

const axeSource = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

/**
 * What axe-core finds serious or critical, in words; of the rules named, all it finds. The context has
 * to bypass the page's policy, which lets no script in but the page's own.
 */
export async function axe(page, rules) {
  await page.addScriptTag({ content: await readFile(axeSource, "utf8") });
  const { violations } = await page.evaluate((only) => {
    const options = only ? { runOnly: { type: "rule", values: only } } : {};
    if (only) options.rules = Object.fromEntries(only.map((rule) => [rule, { enabled: true }]));
    return globalThis.axe.run(document, options);
  }, rules);
  return violations
    .filter(({ impact }) => rules || impact === "serious" || impact === "critical")
    .flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target.join(" ")}: ${node.failureSummary.split("\n").at(-1).trim()}`));
}

/** By how many pixels the page scrolls sideways; 0 is right. */
export const sideways = (page) =>
  page.evaluate(() => document.scrollingElement.scrollWidth - document.scrollingElement.clientWidth);
