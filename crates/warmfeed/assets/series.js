// The series explorer: fetches thinned columns, draws them, and says what stands under the cursor.
// The server thins, averages and converts; here are only places, words and lines.

import uPlot from "./vendor/uplot-1.6.32/uPlot.esm.js";

const explorer = document.getElementById("explorer");
const graphs = document.getElementById("graphs");
const cursor = document.getElementById("cursor");
const under = document.getElementById("under");
const fault = document.getElementById("series-fault");

// The year has no number; one without a 29 February lends its calendar.
const YEAR_STARTS_S = Date.UTC(2001, 0, 1) / 1000;
const seconds = (minute) => YEAR_STARTS_S + minute * 60;
const minuteOf = (second) => Math.round((second - YEAR_STARTS_S) / 60);
const SHORTEST = 60;
const YEAR = 525600;

const shown = { from: 0, to: YEAR, bucket: 1, minutes: new Float32Array(), columns: new Map() };
const plots = new Map();
let asked = null;
let told = "";
let pageTimer = 0;

// ---- what the page says ----

const said = (parts, options) => {
  const format = new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", ...options });
  return (minute) => parts(format.format(new Date(seconds(minute) * 1000)));
};
const day = said((text) => text, { day: "numeric", month: "long" });
const clock = said((text) => text, { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
const month = said((text) => text, { month: "short" });
const shortDay = said((text) => text, { day: "numeric", month: "short" });

const figure = (value, decimals) => {
  const text = Math.abs(value).toFixed(decimals);
  const nothing = Number(text) === 0;
  const parted = text.replace(/\B(?=(\d{3})+(?!\d))/, "\u00a0");
  return value < 0 && !nothing ? `\u2212${parted}` : parted;
};

const choices = () => [...explorer.querySelectorAll("#choice input[name=show]:checked")];

function words(place) {
  const minute = shown.minutes[place];
  const end = minute + shown.bucket;
  const when =
    shown.bucket === 1
      ? `${day(minute)}, ${clock(minute)}`
      : shown.bucket >= 1440
        ? day(minute)
        : `${day(minute)}, ${clock(minute)} to ${end % 1440 === 0 ? "24:00" : clock(end)}`;
  const values = choices().map((box) => {
    const column = shown.columns.get(box.value);
    const frame = frameOf(box.dataset.graph);
    if (!column || !frame) return "";
    const decimals = Number(frame.dataset.decimals);
    const unit = `\u00a0${frame.dataset.unit}${frame.dataset.byTheMinute}`;
    const least = figure(column.least[place], decimals);
    const most = figure(column.most[place], decimals);
    const value = least === most ? least : `${least} to ${most}`;
    return `${box.dataset.name} ${value}${unit}`;
  });
  return `${when}: ${values.filter(Boolean).join("; ")}.`;
}

function say(place) {
  if (place == null || !shown.minutes.length) return;
  const text = words(Math.min(Math.max(place, 0), shown.minutes.length - 1));
  under.textContent = text;
  cursor.setAttribute("aria-valuetext", text);
}

// ---- where things stand ----

const frameOf = (graph) => graphs.querySelector(`[data-graph="${graph}"]`);

function placeOf(minute) {
  let [low, high] = [0, shown.minutes.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (shown.minutes[middle] <= minute) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Sets every graph's cursor, the slider and the line of words to one minute. */
function pointAt(minute) {
  const place = placeOf(minute);
  for (const plot of plots.values()) {
    plot.setCursor({ left: plot.valToPos(seconds(minute), "x"), top: 0 }, false);
  }
  say(place);
}

/** Names each line where it ends, apart from its neighbours. */
function nameLines(plot, frame) {
  const names = [...frame.querySelectorAll(".line-names li:not([hidden])")];
  const ends = names.map((name) => {
    const most = shown.columns.get(name.dataset.word)?.most;
    const height = name.offsetHeight;
    return { name, height, top: plot.valToPos(most?.[most.length - 1] ?? 0, "y") - height / 2 };
  });
  ends.sort((one, other) => one.top - other.top);
  // First down, so that none covers the one above; then up, so that all stay beside the graph.
  let free = 0;
  for (const end of ends) {
    end.top = Math.max(end.top, free);
    free = end.top + end.height;
  }
  free = plot.over.offsetHeight;
  for (const end of ends.reverse()) {
    end.top = Math.min(end.top, free - end.height);
    free = end.top;
  }
  const above = frame.querySelector(".plot").offsetTop + plot.over.offsetTop;
  for (const end of ends) end.name.style.top = `${above + end.top}px`;
}

// ---- drawing ----

/** The two ends of a channel's buckets, and the ground between them. */
function linesOf(box, place) {
  const line = explorer.querySelector(`.line-names [data-word="${box.value}"] line`);
  const dash = (line.getAttribute("stroke-dasharray") ?? "").split(" ").filter(Boolean).map(Number);
  const stepped = box.dataset.graph === "pump" || box.dataset.graph === "water";
  const stroke = getComputedStyle(line).stroke;
  const series = {
    stroke,
    // Where the ends part there are two lines, and each is lighter.
    width: Number(line.getAttribute("stroke-width")) * (shown.bucket === 1 ? 1 : 0.6),
    dash: dash.length ? dash : undefined,
    paths: stepped ? uPlot.paths.stepped({ align: 1 }) : undefined,
    points: { show: false },
  };
  const fill = stroke.replace("rgb(", "rgba(").replace(")", ", 0.22)");
  return { series: [series, series], band: { series: [2 * place + 2, 2 * place + 1], fill } };
}

function ticks(plot, splits, axis, space, increment) {
  return splits.map((second) => {
    const minute = minuteOf(second);
    if (increment >= 27 * 86400) return month(minute);
    return minute % 1440 === 0 ? shortDay(minute) : clock(minute);
  });
}

function levels(plot, splits, axis, space, increment) {
  return splits.map((value) => figure(value, increment < 1 ? 1 : 0));
}

function options(frame, boxes) {
  const isPump = frame.dataset.graph === "pump";
  const lines = boxes.map(linesOf);
  const style = getComputedStyle(frame);
  const rem = parseFloat(getComputedStyle(document.documentElement).fontSize);
  const axis = {
    stroke: style.getPropertyValue("color"),
    font: `${rem}px ${style.fontFamily}`,
    grid: { stroke: getComputedStyle(frame.querySelector("figcaption")).borderBottomColor, width: 0.7 },
    ticks: { show: false },
  };
  return {
    width: frame.querySelector(".plot").clientWidth,
    height: Math.round(rem * (isPump ? 5.5 : 14)),
    legend: { show: false },
    tzDate: (second) => uPlot.tzDate(new Date(second * 1000), "Etc/UTC"),
    cursor: {
      sync: { key: "series", setSeries: false },
      drag: { x: true, y: false, setScale: false },
      y: false,
      points: { size: 9 },
    },
    scales: {
      x: { time: true, range: () => [seconds(shown.from), seconds(shown.to)] },
      y: isPump ? { range: [0, 100] } : {},
    },
    axes: [
      { ...axis, values: ticks, space: 5.5 * rem, size: 2 * rem },
      { ...axis, values: levels, size: 4 * rem, space: 2.6 * rem, ...(isPump && { splits: () => [0, 100] }) },
    ],
    series: [{}, ...lines.flatMap((line) => line.series)],
    bands: lines.map((line) => line.band),
    hooks: {
      ready: [() => pointAt(Number(cursor.value))],
      setCursor: [(plot) => followPointer(plot)],
      setSelect: [(plot) => chosen(plot)],
      draw: [(plot) => nameLines(plot, frame)],
    },
  };
}

function followPointer(plot) {
  if (plot.cursor.event == null || plot.cursor.idx == null) return;
  cursor.value = String(Math.round(shown.minutes[plot.cursor.idx]));
  say(plot.cursor.idx);
}

function chosen(plot) {
  const { left, width } = plot.select;
  if (width < 8) return;
  plot.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
  go(minuteOf(plot.posToVal(left, "x")), minuteOf(plot.posToVal(left + width, "x")));
}

function draw() {
  const x = Float64Array.from(shown.minutes, seconds);
  for (const frame of graphs.querySelectorAll("[data-graph]")) {
    const boxes = choices().filter((box) => box.dataset.graph === frame.dataset.graph);
    frame.hidden = boxes.length === 0;
    for (const name of frame.querySelectorAll(".line-names li")) {
      name.hidden = !boxes.some((box) => box.value === name.dataset.word);
    }
    const data = [x];
    for (const box of boxes) {
      const { least, most } = shown.columns.get(box.value);
      data.push(least, most);
    }
    const drawn = `${boxes.map((box) => box.value)} ${shown.bucket === 1}`;
    const plot = plots.get(frame);
    if (plot && plot.drawn === drawn) {
      plot.setData(data);
      continue;
    }
    plot?.destroy();
    plots.delete(frame);
    if (frame.hidden) continue;
    const made = new uPlot(options(frame, boxes), data, frame.querySelector(".plot"));
    made.drawn = drawn;
    plots.set(frame, made);
  }
  queueMicrotask(() => pointAt(Number(cursor.value)));
}

function drawAnew() {
  for (const plot of plots.values()) plot.destroy();
  plots.clear();
  if (shown.minutes.length) draw();
}

// ---- asking the server ----

const address = () => {
  const query = new URLSearchParams({ from: shown.from, to: shown.to });
  for (const box of choices()) query.append("show", box.value);
  return `${location.pathname}?${query}`;
};

async function column(word, signal) {
  const points = Math.max(200, Math.round(graphs.clientWidth));
  const query = new URLSearchParams({ from: shown.from, to: shown.to, points });
  const answer = await fetch(`${explorer.dataset.build}/column/${word}?${query}`, { signal });
  if (!answer.ok) throw new Error(await answer.text());
  const bytes = new DataView(await answer.arrayBuffer());
  const values = new Float32Array(bytes.byteLength / 4);
  for (let place = 0; place < values.length; place += 1) {
    values[place] = bytes.getFloat32(place * 4, true);
  }
  return { values, bucket: Number(answer.headers.get("bucket-minutes")) };
}

/** A column's least and most: the same where each minute stands for itself. */
function ends({ values, bucket }) {
  if (bucket === 1) return { least: values, most: values };
  return {
    least: values.filter((value, place) => place % 2 === 0),
    most: values.filter((value, place) => place % 2 === 1),
  };
}

async function fetchColumns() {
  asked?.abort();
  const mine = new AbortController();
  asked = mine;
  try {
    const boxes = choices().map((box) => box.value);
    const [minutes, ...columns] = await Promise.all(
      ["minute", ...boxes].map((word) => column(word, mine.signal)),
    );
    shown.minutes = minutes.values;
    shown.bucket = minutes.bucket;
    shown.columns = new Map(boxes.map((word, place) => [word, ends(columns[place])]));
    fault.hidden = true;
    cursor.step = String(shown.bucket);
    draw();
    graphs.dataset.drawn = `${shown.from}-${shown.to}`;
  } catch (error) {
    if (error.name === "AbortError") return;
    fault.textContent = "The series could not be fetched; what you see is what was there before. Try again.";
    fault.hidden = false;
  }
}

/** The server's page for this stretch: its buttons and its table take the place of ours. */
async function fetchPage(url) {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(String(answer.status));
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  for (const id of ["stretch", "means"]) {
    document.getElementById(id).replaceWith(document.adoptNode(page.getElementById(id)));
  }
  told = document.getElementById("means").textContent;
  return page.getElementById("explorer").dataset;
}

function take(from, to) {
  shown.from = from;
  shown.to = to;
  cursor.min = String(from);
  cursor.max = String(to - 1);
}

/** The address says what is shown, for coming back to. */
function keepAddress() {
  history.replaceState(null, "", address());
  for (const back of document.querySelectorAll("input[name=back]")) back.value = address();
}

/** Moves to a stretch at once; the table and the buttons follow when the hand rests. */
function go(from, to) {
  const length = Math.min(Math.max(Math.round(to - from), SHORTEST), YEAR);
  const begins = Math.min(Math.max(Math.round(from), 0), YEAR - length);
  take(begins, begins + length);
  for (const plot of plots.values()) {
    plot.setScale("x", { min: seconds(shown.from), max: seconds(shown.to) });
  }
  fetchColumns();
  clearTimeout(pageTimer);
  pageTimer = setTimeout(async () => {
    try {
      await fetchPage(address());
      keepAddress();
    } catch {
      fault.textContent = "The table could not be fetched; it still shows the stretch before. Try again.";
      fault.hidden = false;
    }
  }, 150);
}

/** Follows one of the stretch's links without leaving the page. */
async function follow(link) {
  const url = new URL(link.href);
  if (url.searchParams.has("zoom")) url.searchParams.set("at", cursor.value);
  url.searchParams.delete("show");
  for (const box of choices()) url.searchParams.append("show", box.value);
  const name = link.textContent;
  const data = await fetchPage(url);
  take(Number(data.from), Number(data.to));
  keepAddress();
  const again = [...document.querySelectorAll("#stretch a")].find((one) => one.textContent === name);
  again?.focus();
  await fetchColumns();
}

// ---- hands ----

explorer.addEventListener("click", (event) => {
  const link = event.target.closest("#stretch a");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  follow(link).catch(() => location.assign(link.href));
});

explorer.addEventListener("change", (event) => {
  if (event.target.name === "show") go(shown.from, shown.to);
});

cursor.addEventListener("input", () => pointAt(Number(cursor.value)));

cursor.addEventListener("keydown", (event) => {
  const links = { "+": "closer", "=": "closer", "-": "wider", "\u2212": "wider", "<": "earlier", ">": "later" };
  const link = explorer.querySelector(`#stretch a[data-move="${links[event.key]}"]`);
  if (!link || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  follow(link)
    .then(() => cursor.focus())
    .catch(() => location.assign(link.href));
});

graphs.addEventListener("pointerdown", () => requestAnimationFrame(() => cursor.focus({ preventScroll: true })));

graphs.addEventListener(
  "wheel",
  (event) => {
    const plot = [...plots.values()].find((one) => one.over.contains(event.target));
    // The wheel scrolls the page until a graph has been taken in hand.
    if (!plot || !(event.ctrlKey || document.activeElement === cursor)) return;
    event.preventDefault();
    const bounds = plot.over.getBoundingClientRect();
    const share = (event.clientX - bounds.left) / bounds.width;
    const length = shown.to - shown.from;
    const wanted = Math.min(Math.max(length * (event.deltaY > 0 ? 1.25 : 0.8), SHORTEST), YEAR);
    const at = shown.from + share * length;
    go(at - share * wanted, at - share * wanted + wanted);
  },
  { passive: false },
);

// Another window may have changed the build: the page's own script has then taken the table anew.
told = document.getElementById("means").textContent;
document.addEventListener("warmfeed:taken", () => {
  const now = document.getElementById("means").textContent;
  if (now !== told) fetchColumns();
  told = now;
});

new ResizeObserver(() => {
  const stale = [...plots.entries()].some(
    ([frame, plot]) => plot.width !== frame.querySelector(".plot").clientWidth,
  );
  if (stale) drawAnew();
}).observe(graphs);
matchMedia("(prefers-color-scheme: dark)").addEventListener("change", drawAnew);
new MutationObserver(drawAnew).observe(document.documentElement, { attributes: true });

explorer.classList.add("alive");
take(Number(explorer.dataset.from), Number(explorer.dataset.to));
cursor.value = String(Math.round((shown.from + shown.to) / 2));
fetchColumns();
// Figures beside the axes are drawn anew once their type is there.
document.fonts.ready.then(drawAnew);
