// Views, the answer in the head, and everything put together.
const tabs = [...document.querySelectorAll("[role=tab]")];

function select(tab) {
  for (const each of tabs) {
    const here = each === tab;
    each.setAttribute("aria-selected", String(here));
    each.tabIndex = here ? 0 : -1;
    byId(each.getAttribute("aria-controls")).hidden = !here;
  }
}

for (const tab of tabs) {
  tab.addEventListener("click", () => select(tab));
  tab.addEventListener("keydown", (event) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    const ends = { Home: 0, End: tabs.length - 1 };
    if (step === undefined && ends[event.key] === undefined) return;
    event.preventDefault();
    const next = tabs[ends[event.key] ?? (tabs.indexOf(tab) + step + tabs.length) % tabs.length];
    select(next);
    next.focus();
  });
}

function answer() {
  const planned = parts.filter((part) => !part.listedOnly);
  const fitting = planned.filter((part) => part.status === "fits");
  const smallest = [...fitting].sort((a, b) => a.flash - b.flash || a.ram - b.ram)[0];
  const listed = parts.length - planned.length;
  const first = smallest
    ? `It fits ${fitting.length} of ${plural(planned.length, "part")}; the smallest is ${smallest.title}, with ${size(smallest.flash)} of flash and ${size(smallest.ram)} of RAM.`
    : planned.length > 0 ? `It fits none of ${plural(planned.length, "part")} for certain.` : "";
  const more = listed > 0 ? ` ${plural(listed, "more part")} ${listed === 1 ? "is" : "are"} listed only.` : "";
  byId("answer").textContent = first + more;
}

function legend() {
  const kinds = [["used", "used by the loop"], ["mine", "your own code"], ["margin", "margin"], ["beyond", "beyond the end"]];
  byId("legend").append(...kinds.map(([kind, words]) =>
    make("li", {}, make("span", { class: "bar key", "aria-hidden": "true" }, piece(kind, 1)), words)));
}

/** The first that holds the loop, the first with another driver, and one that does not quite. */
function chooseExamples() {
  const planned = parts.filter((part) => part.known);
  const fits = planned.filter((part) => part.status === "fits");
  const examples = [fits[0], fits.find((part) => part.driver !== fits[0].driver),
    planned.find((part) => part.status === "tight" || part.status === "over")].filter(Boolean);
  examples.forEach((part) => choose(part, true));
  if (examples.length === 0) choose(parts[0] ?? null, false);
}

buildTable();
buildFilters();
for (const column of columns.filter((each) => each.memory)) setScale(column, usualScale(column.memory));
byId("detail").addEventListener("click", (event) => event.target === byId("detail") && byId("detail").close());
answer();
legend();
chooseExamples();
applyFilters();
