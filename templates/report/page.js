// The data of the page, and what all views use. Text from the data is only ever set as text.
const data = JSON.parse(document.getElementById("data").textContent);
const MOST_CHOSEN = 4;
const VERDICTS = ["fits", "tight", "listed", "over", "lacks"];
const WORDS = { listed: "listed only" };

const parts = data.rows.map((cells, order) => {
  const part = { order };
  data.columns.forEach((column, place) => { part[column] = cells[place]; });
  part.status = part.listedOnly && part.verdict === "tight" ? "listed" : part.verdict;
  part.known = part.flashHigh !== null;
  part.flashNeed = part.known ? part.flashHigh + data.flashBrought : null;
  part.ramNeed = part.known ? part.ramStatic + part.stack + data.ramBrought : null;
  part.text = [part.name, part.title, part.family, part.core, part.packages, part.driver,
    part.grade, part.status, part.reason].join(" ").toLowerCase();
  return part;
});

/** Names of parts in the comparison, in the order in which they were chosen. */
const chosen = [];

const byId = (id) => document.getElementById(id);

/** An element; attributes that are false are left out, those that begin with `--` are properties. */
function make(name, attributes = {}, ...children) {
  return filled(document.createElement(name), attributes, children);
}

/** The same for SVG. */
function draw(name, attributes = {}, ...children) {
  return filled(document.createElementNS("http://www.w3.org/2000/svg", name), attributes, children);
}

function filled(element, attributes, children) {
  for (const [key, value] of Object.entries(attributes)) {
    if (key.startsWith("--")) {
      element.style.setProperty(key, value);
    } else if (key.startsWith("on")) {
      element.addEventListener(key.slice(2), value);
    } else if (value !== false && value !== null) {
      element.setAttribute(key, value === true ? "" : value);
    }
  }
  element.append(...children.filter((child) => child !== null));
  return element;
}

const plural = (count, noun) => `${count} ${noun}${count === 1 ? "" : "s"}`;

/** Bytes as people write them: whole KiB from 1 KiB up. */
function size(bytes) {
  if (bytes === null) return "none";
  return bytes >= 1024 && bytes % 512 === 0 ? `${bytes / 1024} KiB` : `${bytes} B`;
}

const shown = (value) => value === null || value === "" ? "\u2013" : String(value);

const word = (status) => WORDS[status] ?? status;

const verdict = (part) => make("span", { class: `verdict ${part.status}` }, word(part.status));

/** A number that says by its colour, its weight and its sign that something is short. */
function left(bytes) {
  const negative = bytes !== null && bytes < 0;
  return make("span", { class: negative && "negative" }, shown(bytes).replace("-", "\u2212"));
}
