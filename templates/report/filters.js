// What is shown: a search, verdicts, and a filter for each column.
const MATCHERS = {
  search: (part, text) => text.split(/\s+/).every((piece) => part.text.includes(piece)),
  contains: (key) => (part, text) => String(part[key] ?? "").toLowerCase().includes(text),
  equal: (key) => (part, text) => String(part[key] ?? "").toLowerCase() === text,
  most: (key) => (part, text) => part[key] !== null && part[key] <= Number(text),
  least: (key) => (part, text) => part[key] !== null && part[key] >= Number(text),
};

const filters = [];

function buildFilters() {
  filters.push([byId("search"), MATCHERS.search]);
  byId("verdicts").append(...VERDICTS.map(verdictBox).filter(Boolean));
  const panel = byId("columns");
  panel.append(
    field("Part", text(), MATCHERS.contains("title")),
    field("Flash needed, at most", number(), MATCHERS.most("flashNeed")),
    field("Flash left, at least", number(), MATCHERS.least("flashLeft")),
    field("RAM needed, at most", number(), MATCHERS.most("ramNeed")),
    field("RAM left, at least", number(), MATCHERS.least("ramLeft")),
    field("Flash of the part, at most", number(), MATCHERS.most("flash")),
    field("Bus driver", choice("driver"), MATCHERS.equal("driver")),
    field("Limit", choice("limiting"), MATCHERS.equal("limiting")),
    field("Core", choice("core"), MATCHERS.equal("core")),
    field("Family", choice("family"), MATCHERS.equal("family")),
    field("Package contains", text(), MATCHERS.contains("packages")),
    field("Grade", choice("grade"), MATCHERS.equal("grade")),
    field("Sort by", sortChoice(), null),
    ...columns.filter((column) => column.memory).map((column) =>
      field(`Bars of ${column.title} up to`, scaleChoice(column), null)),
  );
  const form = byId("filters");
  form.addEventListener("input", applyFilters);
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("reset", () => setTimeout(() => {
    byId("sort").value = sorting.key === null ? "" : `${sorting.key} ${sorting.direction}`;
    for (const column of columns.filter((each) => each.memory)) byId(`scale-${column.key}`).value = column.memory.scale;
    applyFilters();
  }));
}

function verdictBox(status) {
  const count = parts.filter((part) => part.status === status).length;
  if (count === 0) return null;
  const box = make("input", { type: "checkbox", name: "verdict", value: status, checked: true });
  return make("label", {}, box, make("span", { class: `verdict ${status}` }, word(status)), ` ${count}`);
}

function field(label, control, matcher) {
  if (matcher) filters.push([control, matcher]);
  return make("label", {}, label, control);
}

const text = () => make("input", { type: "text", autocomplete: "off" });
const number = () => make("input", { type: "number", min: "0", step: "1", inputmode: "numeric", placeholder: "bytes" });

function choice(key) {
  const values = [...new Set(parts.map((part) => part[key]).filter((value) => value))].sort(compareText);
  return make("select", {}, make("option", { value: "" }, "all"),
    ...values.map((value) => make("option", { value: value.toLowerCase() }, value)));
}

/** For screens where the head of the table has no room. */
function sortChoice() {
  const options = columns.flatMap((column) => [1, -1].map((direction) =>
    make("option", { value: `${column.key} ${direction}` }, `${column.title}, ${direction > 0 ? "up" : "down"}`)));
  return make("select", { id: "sort", onchange: (event) => {
    const [key, direction] = event.target.value.split(" ");
    const column = columns.find((each) => each.key === key);
    if (column) sortBy(column, Number(direction));
  } }, make("option", { value: "" }, "as surveyed"), ...options);
}

function scaleChoice(column) {
  const usual = usualScale(column.memory);
  return make("select", { id: `scale-${column.key}`, onchange: (event) => setScale(column, Number(event.target.value)) },
    ...scales(column.memory).map((bytes) => make("option", { value: bytes, selected: bytes === usual }, size(bytes))));
}

function applyFilters() {
  const active = filters
    .map(([control, matcher]) => [control.value.trim().toLowerCase(), matcher])
    .filter(([value]) => value !== "");
  const verdicts = new Set([...document.querySelectorAll("[name=verdict]:checked")].map((box) => box.value));
  let count = 0;
  for (const [part, row] of rows) {
    const passes = verdicts.has(part.status) && active.every(([value, matcher]) => matcher(part, value));
    if (row.hidden === passes) row.hidden = !passes;
    if (passes) count++;
  }
  byId("count").textContent = count === parts.length ? `All ${plural(count, "part")}.` : `${count} of ${plural(parts.length, "part")}.`;
  byId("none").hidden = count > 0;
  byId("table").hidden = count === 0;
  byId("reset").hidden = count === parts.length;
}
