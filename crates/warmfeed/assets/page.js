// The page's hands: it sends forms without leaving the sheet, takes what the server drew, and keeps two
// windows in step. It sets text, classes and positions; every figure comes from the server.

const root = document.documentElement;
root.classList.add("scripted");
const build = document.body.dataset.build;
const calm = matchMedia("(prefers-reduced-motion: reduce)");

/** Says one sentence to who cannot see the sheet change. */
export function speak(sentence) {
  const region = document.getElementById("speaks");
  if (region && sentence) region.textContent = sentence;
}

/** A field that is being typed into and was not sent yet. */
function isBusy(element) {
  return element.matches?.("input:focus") && element.value !== element.defaultValue;
}

/** Takes over the parts of a sheet that changed. */
function take(text, sent) {
  const fresh = new DOMParser().parseFromString(text, "text/html");
  const parts = fresh.querySelectorAll("[data-part]");
  if (!parts.length) return false;
  const stops = document.getElementById("answer")?.dataset.stops;
  const hand = whereIs(document.activeElement);
  const wasSeen = isSeen(document.activeElement);
  for (const part of parts) {
    const old = document.getElementById(part.id);
    if (!old || old.outerHTML === part.outerHTML) continue;
    if (!sent && [...old.querySelectorAll("input:focus")].some(isBusy)) continue;
    keepOpen(old, part);
    const moves = shapesOf(old);
    old.replaceWith(document.adoptNode(part));
    move(moves, document.getElementById(part.id));
  }
  dress(document);
  const again = foundAgain(hand);
  if (again && document.activeElement !== again) again.focus({ preventScroll: true });
  // What grew above it must not push it out of sight or under the strip.
  if (again && wasSeen) again.scrollIntoView({ block: "nearest" });
  document.dispatchEvent(new CustomEvent("warmfeed:taken"));
  // Worries come later than the year: who cannot see them come hears how many stop.
  const found = document.getElementById("answer")?.dataset.stops;
  if (!sent && found !== stops) speak(found);
  return true;
}

/** Where an element stands, below the nearest that has a name: it may be another one soon. */
function whereIs(element) {
  const path = [];
  let at = element;
  while (at && !at.id && at.parentElement) {
    path.unshift([...at.parentElement.children].indexOf(at));
    at = at.parentElement;
  }
  return at?.id ? { id: at.id, path } : null;
}

function isSeen(element) {
  const box = element?.getBoundingClientRect();
  return element !== document.body && box && box.bottom > 0 && box.top < innerHeight;
}

function foundAgain(where) {
  return where && where.path.reduce((at, place) => at?.children[place], document.getElementById(where.id));
}

/** What the person opened stays open. */
function keepOpen(old, part) {
  for (const one of old.querySelectorAll("details[data-keep][open]")) {
    const same = one.id && part.querySelector("#" + CSS.escape(one.id));
    if (!same) continue;
    same.open = true;
    fetchLater(same);
  }
}

/** Outlines of the column, for moving from where they were. */
function shapesOf(part) {
  const all = new Map();
  if (!calm.matches) {
    for (const place of [".core", ".wedges", ".rail"]) {
      part.querySelectorAll(place).forEach((strip, at) => {
        const shapes = strip.querySelectorAll("polygon.stratum, polygon.heat, polyline.heat-edge, polyline.boundary");
        if (shapes.length) all.set(place + at, [...shapes].map((shape) => shape.getAttribute("points")));
      });
    }
  }
  return all;
}

const TIME = 240;

/** Lets strata, heat and edges slide to their new boundaries together. */
function move(from, part) {
  const slides = [];
  for (const [key, were] of from) {
    const place = key.replace(/\d+$/, "");
    const strip = part.querySelectorAll(place)[Number(key.slice(place.length))];
    const shapes = strip?.querySelectorAll("polygon.stratum, polygon.heat, polyline.heat-edge, polyline.boundary") ?? [];
    if (shapes.length !== were.length) continue;
    shapes.forEach((shape, at) => {
      const to = numbers(shape.getAttribute("points"));
      const was = numbers(were[at]);
      if (to.length === was.length && to.some((value, index) => value !== was[index])) {
        slides.push({ shape, was, to });
      }
    });
  }
  if (!slides.length) return;
  const start = performance.now();
  const step = (now) => {
    const share = Math.min(1, (now - start) / TIME);
    const eased = 1 - (1 - share) ** 3;
    for (const { shape, was, to } of slides) {
      shape.setAttribute("points", to.map((value, at) => was[at] + (value - was[at]) * eased).join(" "));
    }
    if (share < 1) requestAnimationFrame(step);
  };
  requestAnimationFrame(step);
}

const numbers = (points) => points.split(/[ ,]+/).map(Number);

let working = 0;

/** Sends a form and takes the sheet that comes back. */
async function send(form) {
  const body = new URLSearchParams(new FormData(form));
  const mine = ++working;
  const slow = setTimeout(() => root.classList.add("waiting"), 400);
  try {
    const answer = await fetch(form.action, { method: "POST", body, headers: { accept: "text/html" } });
    const text = await answer.text();
    stopped(false);
    if (!answer.ok || !take(text, true)) return refused(text);
    if (mine === working) speak(document.getElementById("answer")?.dataset.says);
  } catch {
    stopped(true);
  } finally {
    clearTimeout(slow);
    root.classList.remove("waiting");
  }
}

/** A change that the server did not make: its reason, at the head of the sheet. */
function refused(text) {
  const says = new DOMParser().parseFromString(text, "text/html").querySelector("h1")?.textContent ?? "It was not done.";
  notice("problem fault", says);
  look();
}

/** The server does not answer. */
function stopped(is) {
  const old = document.getElementById("stopped");
  if (!is) return old?.remove();
  if (old) return;
  const bar = document.createElement("p");
  bar.id = "stopped";
  bar.className = "problem fault stopped";
  bar.setAttribute("role", "alert");
  bar.textContent = "warmfeed has stopped answering. Your last change is kept in this page. ";
  const again = document.createElement("button");
  again.textContent = "Try again";
  again.addEventListener("click", () => look());
  bar.append(again);
  document.getElementById("main").prepend(bar);
}

function notice(name, says) {
  const old = document.getElementById("notice");
  const bar = old ?? document.createElement("p");
  bar.id = "notice";
  bar.className = name;
  bar.setAttribute("role", "alert");
  bar.textContent = says;
  if (!old) document.getElementById("main").prepend(bar);
}

/** Looks at the sheet anew. */
let looking = false;
async function look() {
  if (looking) return;
  looking = true;
  try {
    // A list whose form was refused stands at the form's own address, which cannot be asked for.
    const at = document.querySelector("[data-follows]")?.dataset.follows || location.href;
    const answer = await fetch(at, { headers: { accept: "text/html" } });
    if (answer.ok) take(await answer.text(), false);
    stopped(false);
  } catch {
    stopped(true);
  } finally {
    looking = false;
  }
}

/** A drawing that comes when its button is opened, and anew when the year is another. */
document.addEventListener("toggle", (event) => fetchLater(event.target), true);
async function fetchLater(details) {
  if (!details.matches?.("details.later[open]") || details.dataset.has === details.dataset.number) return;
  details.dataset.has = details.dataset.number;
  const answer = await fetch(details.dataset.src).catch(() => null);
  const figure = answer?.ok && new DOMParser().parseFromString(await answer.text(), "text/html").querySelector("figure");
  if (!figure) return delete details.dataset.has;
  details.querySelectorAll("figure, p").forEach((old) => old.remove());
  details.append(document.adoptNode(figure));
}

/** Minus and plus beside a number, and what the arrow keys do. */
function dress(within) {
  for (const field of within.querySelectorAll("input[data-step]")) {
    if (field.dataset.dressed) continue;
    field.dataset.dressed = "yes";
    const set = document.createElement("span");
    set.className = "set";
    field.replaceWith(set);
    const name = document.querySelector(`label[for="${field.id}"]`)?.textContent ?? "";
    set.append(knob("\u2212", "Less: " + name, () => nudge(field, -1, false, true)), field, knob("+", "More: " + name, () => nudge(field, 1, false, true)));
  }
}

function knob(sign, name, press) {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = sign;
  button.setAttribute("aria-label", name);
  button.addEventListener("click", press);
  return button;
}

/** Moves the typed number by one stride; its unit stays. */
function nudge(field, way, fine, sends) {
  const found = /^\s*([-+]?[0-9]*\.?[0-9]+)(.*)$/.exec(field.value);
  if (!found) return;
  const stride = Number(fine ? field.dataset.fine : field.dataset.step);
  const decimals = Math.max(0, -Math.floor(Math.log10(stride) + 1e-9), (found[1].split(".")[1] ?? "").length);
  const value = (Number(found[1]) + way * stride).toFixed(decimals);
  field.value = (decimals ? value.replace(/\.?0+$/, "") : value) + found[2];
  if (sends) field.form.requestSubmit();
}

const sent = new WeakMap();

document.addEventListener("submit", (event) => {
  if (!event.target.matches("form.live")) return;
  event.preventDefault();
  sent.set(event.target, (sent.get(event.target) ?? 0) + 1);
  send(event.target);
});

document.addEventListener("change", (event) => {
  if (!event.target.matches("form.live select, form.live input:not([type=hidden])")) return;
  const form = event.target.form;
  const before = sent.get(form);
  // Enter sends the form right after the change: then once is enough.
  setTimeout(() => sent.get(form) === before && form.isConnected && form.requestSubmit());
});

document.addEventListener("keydown", (event) => {
  const field = event.target;
  if (field.matches?.("input[data-step]")) {
    if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      event.preventDefault();
      nudge(field, event.key === "ArrowUp" ? 1 : -1, event.shiftKey, false);
    } else if (event.key === "Escape") {
      field.value = field.defaultValue;
    }
    return;
  }
  const typing = field.closest?.("input, select, textarea, [contenteditable]");
  if (typing || event.ctrlKey || event.metaKey || event.altKey || root.dataset.keys !== "on") return;
  if (/^[1-5]$/.test(event.key)) {
    const station = document.querySelector(`[data-station="${event.key}"]`);
    station?.scrollIntoView();
    station?.focus({ preventScroll: true });
  } else if (event.key === "?") {
    document.getElementById("keys")?.showModal();
  } else if (event.key === "u" || event.key === "r") {
    document.querySelector(`.tools [data-key="${event.key}"]:not(:disabled)`)?.click();
  }
});

// A browser keeps few lines open to one host: a window that nobody sees gives its own back.
if (build !== undefined || document.querySelector("[data-follows]")) {
  let source;
  let wanted;
  const changed = (event) => {
    const item = JSON.parse(event.data);
    if (build !== undefined && item.build !== undefined && item.build !== build) return;
    const now = Number(document.getElementById("answer")?.dataset.version ?? -1);
    if (item.version !== undefined && item.version <= now) return;
    clearTimeout(wanted);
    wanted = setTimeout(look, 120);
  };
  const listen = () => {
    if (document.hidden) {
      source?.close();
      source = undefined;
    } else if (!source) {
      const again = source === undefined && performance.now() > 5000;
      source = new EventSource("/events");
      source.addEventListener("changed", changed);
      source.addEventListener("error", () => stopped(true));
      source.addEventListener("open", () => {
        if (document.getElementById("stopped")) look();
      });
      if (again) look();
    }
  };
  document.addEventListener("visibilitychange", listen);
  listen();
}

dress(document);
