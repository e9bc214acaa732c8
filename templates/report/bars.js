// Memories as bars. All bars of a memory have one scale, so that their lengths can be compared.
const memories = {
  flash: {
    title: "flash", scale: 0,
    capacity: (part) => part.flash, own: (part) => part.flashHigh, brought: data.flashBrought,
    margin: (part) => part.flashMargin, need: (part) => part.flashNeed, left: (part) => part.flashLeft,
  },
  ram: {
    title: "RAM", scale: 0,
    capacity: (part) => part.ram, own: (part) => part.known ? part.ramStatic + part.stack : null,
    brought: data.ramBrought, margin: () => data.ramMargin, need: (part) => part.ramNeed,
    left: (part) => part.ramLeft,
  },
};

/** Used, yours, margin, and what is free or beyond the end, inside the walls of the memory. */
function bar(memory, part) {
  const capacity = memory.capacity(part) ?? 0;
  const pieces = part.known
    ? [["used", memory.own(part)], ["mine", memory.brought], ["margin", memory.margin(part)]] : [];
  let room = capacity;
  const drawn = [];
  let beyond = 0;
  for (const [kind, bytes] of pieces) {
    const inside = Math.min(bytes, room);
    if (inside > 0) drawn.push(piece(kind, inside));
    room -= inside;
    beyond += bytes - inside;
  }
  if (room > 0) drawn.push(piece("free", room));
  if (beyond > 0) drawn.push(piece("beyond", beyond));
  const walls = make("i", { class: "walls", "--bytes": capacity });
  return make("span", { class: part.known ? "bar" : "bar unknown", "aria-hidden": "true" }, ...drawn, walls);
}

const piece = (kind, bytes) => make("i", { class: kind, "--bytes": bytes });

/** The same in words, for beside the bar. */
function needed(memory, part) {
  const need = memory.need(part);
  const capacity = memory.capacity(part);
  const all = capacity === null ? "no size of its own" : size(capacity);
  return need === null ? all : `${need} of ${all}`;
}

/** Scales that are offered: powers of two up to the largest memory. */
function scales(memory) {
  const largest = Math.max(...parts.map((part) => memory.capacity(part) ?? 0), 64);
  const offered = [];
  for (let bytes = 64; bytes < largest * 2; bytes *= 2) offered.push(bytes);
  return offered;
}

/** Three times what the loop needs in the middle of all parts: most bars say something then. */
function usualScale(memory) {
  const needs = parts.filter((part) => part.known).map(memory.need).sort((a, b) => a - b);
  const wanted = needs.length > 0 ? 3 * needs[needs.length >> 1] : 4096;
  const offered = scales(memory);
  return offered.find((bytes) => bytes >= wanted) ?? offered[offered.length - 1];
}

/** A long bar in its own scale, for the view of one part. */
function wholeBar(memory, part) {
  const scale = Math.max(memory.capacity(part) ?? 0,
    part.known ? memory.need(part) + memory.margin(part) : 0, 1);
  const long = bar(memory, part);
  long.style.setProperty("--scale", scale);
  return long;
}
