// One part, byte by byte, in a dialog that the keyboard can leave with Escape.
function openDetail(part) {
  const dialog = byId("detail");
  const close = make("button", { type: "button", class: "close", onclick: () => dialog.close() }, "Close");
  const head = make("div", { class: "detail-head" },
    make("h2", { id: "detail-title", tabindex: "-1" }, part.title), verdict(part), compareButton(part), close);
  dialog.replaceChildren(head, make("div", { class: "detail-body" }, ...body(part)));
  dialog.showModal();
  dialog.scrollTop = 0;
  byId("detail-title").focus();
}

function compareButton(part) {
  const words = () => chosen.includes(part) ? "Leave out of the comparison" : "Add to the comparison";
  const button = make("button", { type: "button", class: "plain", disabled: part.box.disabled }, words());
  button.addEventListener("click", () => {
    choose(part, !chosen.includes(part));
    button.textContent = words();
  });
  return button;
}

function body(part) {
  const facts = make("dl", { class: "facts" }, ...Object.entries({
    Family: part.family, Core: part.core, Packages: part.packages, "Supply, V": part.supply,
    "Clock up to, MHz": part.megahertz, "Two-wire hardware": part.busHardware, Grade: part.grade,
  }).map(([term, value]) => make("div", {}, make("dt", {}, term), make("dd", {}, shown(value)))));
  const open = part.status === "listed"
    ? "Nothing that is known rules this part out, but there is no port for it yet: it has limits here, and no figures."
    : `${part.reason}.`;
  const page = [make("p", {}, open), facts];
  if (part.listedOnly && part.status !== "listed") {
    page.push(make("p", { class: "notice" }, "This part is listed only: there is no port for it yet, so its limits are all that is known."));
  }
  for (const memory of Object.values(memories)) page.push(...memoryBlock(memory, part));
  if (part.detail !== null) page.push(...budget(part, data.details[part.detail]));
  return page;
}

function memoryBlock(memory, part) {
  const words = part.known
    ? `: ${needed(memory, part)}, margin ${memory.margin(part)} B, left ${shown(memory.left(part)).replace("-", "\u2212")}`
    : `: ${needed(memory, part)}`;
  return [make("h3", {}, `${memory.title[0].toUpperCase()}${memory.title.slice(1)}${words}`), wholeBar(memory, part)];
}

function budget(part, detail) {
  const most = Math.max(...detail.modules.map(([, flash]) => flash), 1);
  const modules = list("Modules", ["module", "flash", "", "fixed RAM"],
    detail.modules.map(([name, flash, ram]) => [name, flash, share(flash, most), ram]),
    ["together", part.flashLikely, null, part.ramStatic]);
  const buffers = list("Buffers", ["buffer", "RAM", "module", "in the C text"], detail.buffers);
  let depth = 0;
  const path = list("Deepest stack path", ["function", "stack", "so far"],
    detail.path.map(([name, bytes]) => [name, bytes, depth += bytes]));
  const pins = list("Pins", ["role", "pin"], detail.pins);
  const notes = make("div", {}, make("h3", {}, "Chosen, and to know"), make("ul", {},
    ...[`Bus driver ${part.driver}: ${detail.bus}.`, `Clock: ${detail.clock}.`, ...detail.notes.map((note) => `${note}.`)]
      .map((note) => make("li", {}, note[0].toUpperCase() + note.slice(1)))));
  const brought = data.flashBrought + data.ramBrought > 0
    ? `, and your own code adds ${data.flashBrought} B of flash and ${data.ramBrought} B of RAM` : "";
  const interval = make("p", { class: "soft" },
    `Flash by module is the likely figure; the linker will say ${part.flashLow} to ${part.flashHigh} B${brought}.`);
  return [
    make("div", { class: "pair" }, make("div", {}, modules, interval), make("div", {}, buffers, pins)),
    make("div", { class: "pair" }, path, notes),
  ];
}

const share = (bytes, most) => {
  const drawn = make("span", { class: "bar", "aria-hidden": "true", "--scale": most }, piece("used", bytes));
  return drawn;
};

/** A table with a caption; the first cell of a row names it. */
function list(caption, titles, cells, sum = null) {
  const numeric = titles.map((_, place) => cells.some((row) => typeof row[place] === "number"));
  const line = (row, attributes = {}) => make("tr", attributes, ...row.map((value, place) =>
    place === 0 ? make("th", { scope: "row" }, value)
      : make("td", { class: value instanceof Node || value === null ? "share" : numeric[place] && "number" },
        value instanceof Node || value === null ? value : String(value))));
  const heads = titles.map((title, place) => title === "" ? make("td", {})
    : make("th", { scope: "col", class: numeric[place] && "number" }, title));
  return make("table", { class: "list" }, make("caption", {}, caption), make("thead", {}, make("tr", {}, ...heads)),
    make("tbody", {}, ...cells.map((row) => line(row)), sum && line(sum, { class: "sum" })));
}
