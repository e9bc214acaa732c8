// Up to four parts side by side.
function chosenList() {
  if (chosen.length === 0) {
    return make("p", { class: "notice" }, `Choose up to ${MOST_CHOSEN} parts: with the boxes before their names, or in the view of one part.`);
  }
  return make("ul", { class: "chosen", "aria-label": "Chosen parts" }, ...chosen.map((part) =>
    make("li", {}, part.title, make("button", { type: "button", "aria-label": `Leave out ${part.title}`, onclick: () => drop(part) }, "\u00d7"))));
}

/** The list is drawn anew, so the focus goes to where the user still is. */
function drop(part) {
  const view = document.activeElement.closest("section");
  choose(part, false);
  (view?.querySelector(".chosen button") ?? document.querySelector("[role=tab][aria-selected=true]")).focus();
}

function showComparison() {
  byId("comparison").replaceChildren(chosenList(), ...(chosen.length > 0 ? [comparison()] : []));
}

function comparison() {
  const rowsOf = (title, value) => make("tr", {}, make("th", { scope: "row" }, title),
    ...chosen.map((part) => make("td", {}, ...[value(part)].flat().map((each) => each instanceof Node ? each : shown(each)))));
  const group = (title) => make("tr", { class: "group" }, make("th", { scope: "colgroup", colspan: chosen.length + 1 }, title));
  const detail = (part) => part.detail === null ? null : data.details[part.detail];
  const fromDetail = (value) => (part) => detail(part) ? value(detail(part)) : null;
  const named = [...new Set(chosen.flatMap((part) => detail(part)?.modules.map(([name]) => name) ?? []))];
  const body = [
    rowsOf("Verdict", verdict), rowsOf("Why", (part) => part.reason), rowsOf("Grade", (part) => part.grade),
    ...Object.values(memories).flatMap((memory) => [
      group(memory.title[0].toUpperCase() + memory.title.slice(1)),
      rowsOf("Needed", (part) => [oneScale(memory, part), needed(memory, part)]),
      rowsOf("Margin", (part) => part.known ? memory.margin(part) : null),
      rowsOf("Left", (part) => left(memory.left(part)))]),
    rowsOf("Fixed", (part) => part.ramStatic), rowsOf("Deepest stack", (part) => part.stack),
    rowsOf("Buffers", fromDetail((d) => d.buffers.map(([name, bytes]) => `${name} ${bytes}`).join(", "))),
    group("The part"),
    rowsOf("Family", (part) => part.family), rowsOf("Core", (part) => part.core), rowsOf("Packages", (part) => part.packages),
    rowsOf("Supply, V", (part) => part.supply), rowsOf("Clock up to, MHz", (part) => part.megahertz),
    rowsOf("Bus driver", (part) => part.driver), rowsOf("Pins", fromDetail((d) => d.pins.map((pin) => pin.join(" ")).join(", "))),
    ...(named.length > 0 ? [group("Flash by module"), ...named.map((name) =>
      rowsOf(name, fromDetail((d) => d.modules.find(([each]) => each === name)?.[1] ?? null)))] : []),
  ];
  const table = make("table", { class: "comparison" },
    make("caption", { class: "unseen" }, "The chosen parts side by side, in bytes"),
    make("thead", {}, make("tr", {}, make("td", {}), ...chosen.map((part) => make("th", { scope: "col" }, ...nameCell(part))))),
    make("tbody", {}, ...body));
  return make("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Comparison" }, table);
}

/** The bars of a memory have the scale of the largest of the chosen parts, or of the table if that is less. */
function oneScale(memory, part) {
  const largest = Math.max(...chosen.map((each) => Math.max(memory.capacity(each) ?? 0, memory.need(each) ?? 0)));
  const scale = Math.min(largest, 4 * memory.scale);
  const drawn = bar(memory, part);
  drawn.style.setProperty("--scale", scale);
  drawn.classList.toggle("longer", Math.max(memory.capacity(part) ?? 0, memory.need(part) ?? 0) > scale);
  return drawn;
}
