// What other values of the loop would come to, on the chosen parts. Every point is a plan and an
// estimate of its own, made when the page was written.
const PLOT = { width: 460, height: 270, left: 52, right: 96, top: 14, bottom: 40 };
const MARKS = [
  (x, y) => draw("circle", { cx: x, cy: y, r: 4 }),
  (x, y) => draw("rect", { x: x - 4, y: y - 4, width: 8, height: 8 }),
  (x, y) => draw("path", { d: `M${x} ${y - 5}l5 9h-10z` }),
  (x, y) => draw("path", { d: `M${x} ${y - 5.5}l5.5 5.5-5.5 5.5-5.5-5.5z` }),
];

function showPlots() {
  const planned = chosen.filter((part) => part.curve !== null);
  const without = chosen.filter((part) => part.curve === null).map((part) => part.title);
  const content = [chosenList()];
  if (without.length > 0) content.push(make("p", { class: "soft" }, `No figures for ${without.join(", ")}: there is no plan for it.`));
  if (planned.length > 0) content.push(...data.axes.map((axis) => whatIf(axis, planned)));
  byId("what-if").replaceChildren(...content);
}

function whatIf(axis, planned) {
  const leftOut = axis.values.filter(([, why]) => why !== "");
  const title = axis.title[0].toUpperCase() + axis.title.slice(1);
  return make("div", { class: "what" }, make("h3", {}, title),
    make("div", { class: "plot-pair" }, ...["flash", "ram"].map((key, place) => plot(axis, planned, memories[key], place))),
    ...leftOut.map(([value, why]) => make("p", { class: "soft" }, `Without ${value}: ${why}.`)), ...gaps(axis, planned),
    figures(axis, planned));
}

/** Names the parts that cannot have a value, though it breaks no rule. */
function gaps(axis, planned) {
  return axis.values.flatMap(([value, why], n) => {
    const without = planned.filter((part) => why === "" && curveOf(part, axis, 0)[n] === null).map((part) => part.title);
    return without.length > 0 ? [make("p", { class: "soft" }, `No plan with ${value}, for want of something that it needs: ${without.join(", ")}.`)] : [];
  });
}

const curveOf = (part, axis, place) => data.curves[part.curve][axis.key][place];

function plot(axis, planned, memory, place) {
  const lines = planned.map((part) => ({ part, bytes: curveOf(part, axis, place), number: chosen.indexOf(part) + 1 }));
  const needs = lines.flatMap((line) => line.bytes).filter((bytes) => bytes !== null);
  const caption = `${memory.title[0].toUpperCase()}${memory.title.slice(1)} in bytes`;
  if (needs.length === 0) return make("figure", { class: "plot" }, make("figcaption", {}, caption), "No value can be planned.");
  const reach = 2 * Math.max(...needs);
  const ends = lines.map((line) => memory.capacity(line.part)).filter((end) => end <= reach);
  const top = 1.08 * Math.max(...needs, ...ends);
  const x = places(axis);
  const y = (bytes) => PLOT.top + (PLOT.height - PLOT.top - PLOT.bottom) * (1 - bytes / top);
  const svg = draw("svg", { viewBox: `0 0 ${PLOT.width} ${PLOT.height}`, role: "img",
    "aria-label": `${caption} against ${axis.title}; the same figures are in the table below.` },
  ...frame(axis, x, y, top), ...limits(lines, memory, y, reach), ...curves(axis, lines, x, y));
  const high = lines.filter((line) => memory.capacity(line.part) > reach)
    .map((line) => `${line.part.title} has ${size(memory.capacity(line.part))}`);
  return make("figure", { class: "plot" }, make("figcaption", {}, caption), svg,
    high.length > 0 ? make("p", { class: "soft" }, `Far above: ${high.join(", ")}.`) : null);
}

/** Doublings are equally far apart; words stand side by side. */
function places(axis) {
  const width = PLOT.width - PLOT.left - PLOT.right;
  const values = axis.values.map(([value]) => value);
  if (axis.key === "driver") return values.map((_, n) => PLOT.left + width * (n + 0.5) / values.length);
  const logs = values.map((value) => Math.log2(Number(value)));
  const [from, to] = [logs[0], logs[logs.length - 1]];
  return logs.map((log) => PLOT.left + 10 + (width - 20) * (log - from) / (to - from || 1));
}

function frame(axis, x, y, top) {
  const step = roundStep(top / 5);
  const drawn = [];
  for (let bytes = 0; bytes <= top; bytes += step) {
    drawn.push(draw("line", { class: "grid", x1: PLOT.left, x2: PLOT.width - PLOT.right, y1: y(bytes), y2: y(bytes) }),
      draw("text", { class: "tick", x: PLOT.left - 7, y: y(bytes) + 4, "text-anchor": "end" }, String(bytes)));
  }
  let last = -99;
  axis.values.forEach(([value], n) => {
    if (value === axis.current) drawn.push(draw("line", { class: "now", x1: x[n], x2: x[n], y1: PLOT.top, y2: y(0) }));
    if (x[n] - last < 22 && value !== axis.current) return;
    last = x[n];
    const now = value === axis.current ? " now" : "";
    drawn.push(draw("text", { class: "tick", x: x[n], y: y(0) + 17, "text-anchor": "middle" }, value),
      draw("text", { class: "tick", x: x[n], y: y(0) + 32, "text-anchor": "middle" }, now.trim()));
  });
  return [...drawn, draw("line", { class: "axis", x1: PLOT.left, x2: PLOT.width - PLOT.right, y1: y(0), y2: y(0) })];
}

function roundStep(least) {
  const power = 10 ** Math.floor(Math.log10(least));
  return Math.max(1, [1, 2, 5, 10].map((round) => round * power).find((step) => step >= least));
}

/** The end of each memory, and the margin below it. */
function limits(lines, memory, y, reach) {
  return lines.filter((line) => memory.capacity(line.part) <= reach).flatMap((line) => {
    const end = memory.capacity(line.part);
    const usable = Math.max(0, end - memory.margin(line.part));
    return [
      draw("rect", { class: `band fill-${line.number}`, x: PLOT.left, y: y(end), width: PLOT.width - PLOT.left - PLOT.right, height: y(usable) - y(end) }),
      draw("line", { class: `limit of-${line.number}`, x1: PLOT.left, x2: PLOT.width - PLOT.right, y1: y(end), y2: y(end) }),
      draw("text", { class: `halo fill-${line.number}`, x: PLOT.left + 16, y: y(end) - 4 + 17 * (y(end) < 30) }, `${line.part.title}: ${end}`)];
  });
}

function curves(axis, lines, x, y) {
  const words = axis.key === "driver";
  const drawn = lines.flatMap((line) => {
    const shift = words ? (line.number - 2.5) * 12 : 0;
    const at = line.bytes.map((bytes, n) => bytes === null ? null : [x[n] + shift, y(bytes)]);
    const marks = at.filter((point) => point !== null).map(([px, py]) => {
      const mark = MARKS[line.number - 1](px, py);
      mark.setAttribute("class", `fill-${line.number}`);
      return mark;
    });
    const joined = words ? [] : [draw("path", { class: `curve of-${line.number}`, d: path(at) })];
    return [...joined, ...marks];
  });
  return [...drawn, ...names(lines, y)];
}

/** Interrupted where there is no point. */
function path(at) {
  return at.map((point, n) => point === null ? "" : `${n > 0 && at[n - 1] !== null ? "L" : "M"}${point[0]} ${point[1]}`).join("");
}

/** Each curve has its name at its end, moved down where two would overlap. */
function names(lines, y) {
  const ends = lines.map((line) => ({ line, bytes: line.bytes.filter((bytes) => bytes !== null).pop() }))
    .filter((end) => end.bytes !== undefined).sort((a, b) => b.bytes - a.bytes);
  let lowest = PLOT.top - 14;
  return ends.map(({ line, bytes }) => {
    lowest = Math.max(y(bytes) + 4, lowest + 14);
    return draw("text", { class: `halo fill-${line.number}`, x: PLOT.width - PLOT.right + 6, y: lowest }, line.part.title);
  });
}

/** The figures of both plots, for those who would rather read them. */
function figures(axis, planned) {
  const heads = ["", ...planned.flatMap((part) => [`${part.title} flash`, `${part.title} RAM`])];
  const lines = axis.values.map(([value], n) => [value + (value === axis.current ? " (now)" : ""),
    ...planned.flatMap((part) => [0, 1].map((place) => curveOf(part, axis, place)[n] ?? "\u2013"))]);
  heads[0] = axis.title;
  return make("details", { class: "figures" }, make("summary", {}, `Figures for ${axis.title}`),
    make("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": `Figures for ${axis.title}` }, list("", heads, lines)));
}
