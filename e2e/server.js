// Starts the built program on a copy of the samples and reads its address from what it prints.

import { spawn } from "node:child_process";
import { access, cp, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { createInterface } from "node:readline";

const here = import.meta.dirname ?? new URL(".", import.meta.url).pathname;
const root = resolve(here, "..");

/** The program under test: `WARMFEED`, else what `cargo build` leaves. */
export const program = process.env.WARMFEED ?? join(root, "target", "debug", "warmfeed");

/** A running page with its own job book. `stop()` ends it and takes the book away. */
export async function serve({ empty = false } = {}) {
  await access(program).catch(() => {
    throw new Error(`no program at ${program}: cargo build -p warmfeed, or name it in WARMFEED`);
  });
  const folder = await mkdtemp(join(tmpdir(), "warmfeed-e2e-"));
  const book = join(folder, "book");
  await cp(join(root, "samples"), book, { recursive: true, filter: (path) => !(empty && path.endsWith(".toml")) });
  const child = spawn(program, ["open", "--no-browser", "--port", "0", book], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let talk = "";
  child.stderr.on("data", (bytes) => { talk += bytes; });
  const address = await new Promise((found, failed) => {
    const late = setTimeout(() => failed(new Error(`no address after 20 s; it said: ${talk}`)), 20_000);
    createInterface({ input: child.stdout }).on("line", (line) => {
      const url = line.match(/https?:\/\/\S+/);
      if (url) {
        clearTimeout(late);
        found(url[0]);
      }
    });
    child.on("error", failed);
    child.on("exit", (status) => failed(new Error(`it ended with ${status}; it said: ${talk}`)));
  });
  return {
    address,
    origin: new URL(address).origin,
    book,
    talk: () => talk,
    async stop() {
      const gone = new Promise((done) => child.on("exit", done));
      child.kill("SIGTERM");
      const slow = setTimeout(() => child.kill("SIGKILL"), 5000);
      await gone;
      clearTimeout(slow);
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** Runs a command of the program to its end and reads the JSON it prints. */
export async function json(...words) {
  const child = spawn(program, words, { stdio: ["ignore", "pipe", "ignore"] });
  let out = "";
  for await (const bytes of child.stdout) out += bytes;
  return JSON.parse(out);
}
