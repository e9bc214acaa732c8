// How long the page takes for what a person does, layout included, in milliseconds each time.
(() => {
  const timed = (steps, action) => steps.map((step) => {
    const start = performance.now();
    action(step);
    document.body.getBoundingClientRect();
    return performance.now() - start;
  });
  const visible = () => document.querySelectorAll("#table tbody tr:not([hidden])").length;
  const type = (text) => {
    search.value = text;
    search.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const searched = timed(["a", "at", "att", "attiny85", "", "polled", "", "qfn", "measured 20", ""], type);
  type("attiny85 pdip");
  const found = visible();
  type("");
  const heads = [...document.querySelectorAll("#table thead button")];
  const sorted = timed(heads, (head) => head.click());
  const names = [...document.querySelectorAll(".name")].slice(0, 8);
  const opened = timed(names, (name) => { name.click(); });
  return { found, search: searched, sort: sorted, "open a part": opened };
})()
