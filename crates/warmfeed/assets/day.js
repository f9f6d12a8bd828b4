// Plays a day on the drawings: figures, colours and running parts of each minute come from the server.

const strip = document.getElementById("strip");
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const part = (id) => document.getElementById(id);
let day;
let playing = null;

async function fetchDay(number, minute) {
  stop();
  const wanted = Number(number);
  if (!Number.isInteger(wanted) || wanted < 0 || wanted > 364) return;
  const answer = await fetch(strip.dataset.days + wanted).catch(() => null);
  if (!answer?.ok) {
    part("strip-words").textContent = "This day could not be fetched.";
    return;
  }
  day = await answer.json();
  strip.dataset.day = day.day;
  part("strip-date").textContent = day.date;
  part("strip-wide").innerHTML = day.strip[0];
  part("strip-narrow").innerHTML = day.strip[1];
  choose(day.day);
  drawCistern();
  show(minute ?? day.minute);
  lay();
}

/** The cistern on this day's own scale. */
function drawCistern() {
  const old = part("p-cistern");
  if (!old || !day.cistern) return;
  const open = old.querySelector("details")?.open;
  old.outerHTML = day.cistern;
  const fresh = part("p-cistern")?.querySelector("details");
  if (fresh && open) fresh.open = true;
}

/** Month and day in the fields. */
function choose(number) {
  const month = part("strip-month");
  const option = [...month.options].reverse().find((one) => Number(one.value) <= number);
  month.value = option.value;
  part("strip-dom").max = option.dataset.long;
  part("strip-dom").value = number - Number(option.value) + 1;
}

/** Sets every live part of every drawing to a minute. */
function show(minute) {
  if (!day) return;
  const at = Math.max(0, Math.min(1439, Math.round(minute)));
  document.documentElement.classList.add("played");
  const handle = part("strip-at");
  handle.value = at;
  handle.setAttribute("aria-valuetext", day.words[at]);
  part("strip-words").textContent = day.words[at];
  for (const [name, texts] of Object.entries(day.texts)) each(name, (shape) => (shape.textContent = texts[at]));
  for (const [name, levels] of Object.entries(day.levels)) {
    each(name, (shape) => {
      const kept = [...shape.classList].filter((word) => !/^w\d+$/.test(word));
      shape.setAttribute("class", [...kept, "w" + levels[at]].join(" "));
    });
  }
  for (const [name, runs] of Object.entries(day.runs)) {
    each(name, (shape) => shape.classList.toggle("runs", runs[at]));
  }
}

function each(name, act) {
  document.querySelectorAll(`[data-live="${name}"]`).forEach(act);
}

/** Lays the handle over the day of the graph. */
function lay() {
  if (!day) return;
  const wide = part("strip-wide");
  const which = wide.offsetParent === null ? 1 : 0;
  const graph = (which ? part("strip-narrow") : wide).querySelector("svg");
  if (!graph) return;
  const width = graph.getBoundingClientRect().width;
  const handle = part("strip-at");
  const [left, right] = day.ends[which];
  // The handle's middle runs from half its width to that much before the end.
  handle.style.left = left * width - 11 + "px";
  handle.style.width = (right - left) * width + 22 + "px";
}

function stop() {
  if (playing !== null) cancelAnimationFrame(playing.frame);
  clearTimeout(playing?.timer);
  playing = null;
  part("strip-play").textContent = "Play the day";
}

function play() {
  if (playing !== null) return stop();
  if (!day) return;
  part("strip-play").textContent = "Pause";
  let minute = Number(part("strip-at").value);
  if (minute >= 1439) minute = 0;
  playing = {};
  let last = performance.now();
  const step = (now) => {
    if (playing === null) return;
    const speed = Number(part("strip-speed").value);
    if (calm.matches) {
      minute += 15;
    } else {
      // A minute for each sixtieth of a second.
      minute += ((now - last) / 1000) * 60 * speed;
      last = now;
    }
    show(minute);
    if (minute >= 1439) return stop();
    if (calm.matches) playing.timer = setTimeout(() => step(performance.now()), 1000 / speed);
    else playing.frame = requestAnimationFrame(step);
  };
  if (calm.matches) playing.timer = setTimeout(() => step(performance.now()), 1000);
  else playing.frame = requestAnimationFrame(step);
}

/** A press on a map of the year chooses the day there. */
document.addEventListener("click", (event) => {
  const figure = event.target.closest?.("figure[data-sides]");
  const graph = event.target.closest?.("svg");
  if (!figure || !graph || !strip) return;
  const sides = (graph.parentElement.matches(".at-narrow, [data-narrow]") ? figure.dataset.narrow : figure.dataset.sides).split(" ").map(Number);
  const box = graph.getBoundingClientRect();
  const share = ((event.clientX - box.left) / box.width) * 10000;
  const found = sides.findLastIndex((side) => side <= share);
  if (found >= 0 && found < 365 && share <= sides[365]) {
    fetchDay(found);
    strip.scrollIntoView({ block: "nearest" });
  }
});

if (strip) {
  part("strip-play").addEventListener("click", play);
  part("strip-at").addEventListener("input", (event) => {
    stop();
    show(Number(event.target.value));
  });
  part("strip-at").addEventListener("keydown", (event) => {
    const by = { PageUp: 60, PageDown: -60 }[event.key];
    if (by) {
      event.preventDefault();
      stop();
      show(Number(event.target.value) + by);
    } else if (event.key === " ") {
      event.preventDefault();
      play();
    }
  });
  part("day-before").addEventListener("click", () => fetchDay((Number(strip.dataset.day) + 364) % 365, Number(part("strip-at").value)));
  part("day-after").addEventListener("click", () => fetchDay((Number(strip.dataset.day) + 1) % 365, Number(part("strip-at").value)));
  const chosen = () => {
    const month = part("strip-month");
    const long = Number(month.selectedOptions[0].dataset.long);
    const dom = Math.min(long, Math.max(1, Math.round(Number(part("strip-dom").value)) || 1));
    fetchDay(Number(month.value) + dom - 1);
  };
  part("strip-month").addEventListener("change", chosen);
  part("strip-dom").addEventListener("change", chosen);
  strip.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (button?.dataset.go) fetchDay(button.dataset.go);
    if (button?.dataset.by) {
      stop();
      show(Number(part("strip-at").value) + Number(button.dataset.by));
    }
  });
  // Where there is room the choice of days stands open.
  if (part("strip-wide").offsetParent !== null) part("strip-days").open = true;
  new ResizeObserver(() => {
    lay();
    // What gets the focus must not come to lie under the strip, however many lines it has.
    const fixed = getComputedStyle(strip).position === "sticky";
    document.documentElement.style.scrollPaddingBottom = fixed ? `${strip.offsetHeight + 16}px` : "";
  }).observe(strip);
  let version = part("answer")?.dataset.computed;
  document.addEventListener("warmfeed:taken", () => {
    const now = part("answer")?.dataset.computed;
    if (now !== version) {
      version = now;
      fetchDay(strip.dataset.day, Number(part("strip-at").value));
    } else if (day) {
      drawCistern();
      show(Number(part("strip-at").value));
    }
  });
  fetchDay(strip.dataset.day);
}
