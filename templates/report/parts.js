// The table of all parts. Rows are made once; filters hide them, and sorting moves them.
const compareText = new Intl.Collator("en", { numeric: true }).compare;

const columns = [
  { key: "name", title: "Part", cell: nameCell },
  { key: "status", title: "Verdict", value: (part) => VERDICTS.indexOf(part.status), cell: (part) => [verdict(part)] },
  { key: "flashNeed", title: "Flash", memory: memories.flash },
  { key: "flashLeft", title: "Flash left", number: true, class: "left", descending: true },
  { key: "ramNeed", title: "RAM", memory: memories.ram },
  { key: "ramLeft", title: "RAM left", number: true, class: "left", descending: true },
  { key: "driver", title: "Bus driver", class: "wide" },
  { key: "limiting", title: "Limit", class: "wide" },
  { key: "core", title: "Core", class: "wide" },
  { key: "packages", title: "Packages", class: "wide", cell: packagesCell },
  { key: "grade", title: "Grade", class: "wide" },
];

const sorting = { key: null, direction: 1 };
const rows = new Map();

const valueOf = (column, part) => column.value ? column.value(part) : part[column.key];

function nameCell(part) {
  return [make("button", { type: "button", class: "name", onclick: () => openDetail(part) }, part.title)];
}

/** A name is not broken at its hyphen. */
function packagesCell(part) {
  const names = part.packages === "" ? [shown("")] : part.packages.split(", ");
  return names.flatMap((name, n) => [make("span", { class: "whole" }, name + (n < names.length - 1 ? "," : "")), " "]);
}

function buildTable() {
  const pick = make("th", { scope: "col", role: "columnheader", class: "pick" }, make("span", { class: "unseen" }, "Compare"));
  byId("table").tHead.append(make("tr", { role: "row" }, pick, ...columns.map(headCell)));
  for (const part of parts) rows.set(part, makeRow(part));
  byId("table").tBodies[0].append(...rows.values());
}

function headCell(column) {
  const sort = make("button", { type: "button", onclick: () => sortBy(column) }, column.title);
  const scale = column.memory
    ? make("span", { class: "scale", "aria-hidden": "true" }, make("span", {}, "0"), make("span", { class: "end" }, "")) : null;
  const cell = make("th", { scope: "col", role: "columnheader", class: classes(column), "aria-sort": "none", "data-title": column.title }, sort, scale);
  column.head = cell;
  return cell;
}

const classes = (column) =>
  [`c-${column.key}`, column.memory && "memory", column.number && "number", column.class].filter(Boolean).join(" ");

function makeRow(part) {
  const box = make("input", { type: "checkbox", "aria-label": `Compare ${part.title}`, onchange: () => choose(part, box.checked) });
  part.box = box;
  const pick = make("td", { role: "cell", class: "pick" }, box);
  return make("tr", { role: "row" }, pick, ...columns.map((column) => cell(column, part)));
}

function cell(column, part) {
  const attributes = { role: column.key === "name" ? "rowheader" : "cell", class: classes(column), "data-label": column.title };
  if (column.key === "name") return make("th", { scope: "row", ...attributes }, ...column.cell(part));
  if (column.memory) {
    return make("td", attributes, bar(column.memory, part), make("span", { class: "figure" }, needed(column.memory, part)));
  }
  if (column.number) return make("td", attributes, left(part[column.key]));
  return make("td", attributes, ...(column.cell ? column.cell(part) : [shown(part[column.key])]));
}

/** Another column sorts upwards, or what is left downwards; the same one turns round. */
function sortBy(column, direction) {
  const first = column.descending ? -1 : 1;
  sorting.direction = direction ?? (sorting.key === column.key ? -sorting.direction : first);
  sorting.key = column.key;
  const sorted = [...parts].sort((a, b) => inOrder(column, a, b));
  byId("table").tBodies[0].append(...sorted.map((part) => rows.get(part)));
  for (const each of columns) {
    const here = each === column;
    each.head.setAttribute("aria-sort", here ? (sorting.direction > 0 ? "ascending" : "descending") : "none");
  }
  byId("sort").value = `${column.key} ${sorting.direction}`;
}

/** What is not known comes last in both directions; equal ones stay as the survey has them. */
function inOrder(column, a, b) {
  const [x, y] = [valueOf(column, a), valueOf(column, b)];
  if (x === null || y === null) return (x === null) - (y === null) || a.order - b.order;
  const difference = typeof x === "number" ? x - y : compareText(x, y);
  return difference * sorting.direction || a.order - b.order;
}

/** Sets the bytes that are as long as the column is wide, and marks the bars that are longer. */
function setScale(column, bytes) {
  byId("table").style.setProperty("--scale", bytes);
  column.memory.scale = bytes;
  column.head.querySelector(".end").textContent = size(bytes);
  for (const [part, row] of rows) {
    const drawn = row.querySelector(`.c-${column.key} .bar`);
    drawn.style.setProperty("--scale", bytes);
    const end = Math.max(column.memory.capacity(part) ?? 0, column.memory.need(part) ?? 0);
    drawn.classList.toggle("longer", end > bytes);
  }
}

function choose(part, on) {
  const place = chosen.indexOf(part);
  if (on && place < 0 && chosen.length < MOST_CHOSEN) chosen.push(part);
  if (!on && place >= 0) chosen.splice(place, 1);
  const full = chosen.length >= MOST_CHOSEN;
  for (const each of parts) {
    each.box.checked = chosen.includes(each);
    each.box.disabled = full && !each.box.checked;
  }
  byId("chosen-count").textContent = `(${chosen.length})`;
  showComparison();
  showPlots();
}
