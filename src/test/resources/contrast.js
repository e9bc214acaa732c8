// The contrast of every text that is to be seen with what lies behind it: relative luminance and
// contrast ratio as WCAG 2.2 defines them, 4.5:1 for all text, whatever its size.
(() => {
  const numbers = (color) => color.match(/[\d.]+/g).map(Number);
  const over = (top, below) => {
    const alpha = top[3] ?? 1;
    return [0, 1, 2].map((i) => top[i] * alpha + below[i] * (1 - alpha));
  };
  const behind = (element) => {
    const layers = [];
    for (let each = element; each; each = each.parentElement) {
      layers.push(numbers(getComputedStyle(each).backgroundColor));
      if ((layers[layers.length - 1][3] ?? 1) === 1) break;
    }
    return layers.reverse().reduce((below, top) => over(top, below), [255, 255, 255]);
  };
  const luminance = (rgb) => {
    const [r, g, b] = rgb.map((v) => v / 255).map((v) => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ratio = (a, b) => {
    const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
    return (light + 0.05) / (dark + 0.05);
  };
  const faint = new Set();
  let texts = 0;
  const root = document.querySelector("dialog[open]") ?? document.body;
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    if (!walker.currentNode.data.trim() || element.closest("script, style, noscript")) continue;
    if (!element.checkVisibility() || element.closest(":disabled")) continue;
    const style = getComputedStyle(element);
    const ground = behind(element);
    const ink = element instanceof SVGElement ? style.fill : style.color;
    const found = ratio(over(numbers(ink), ground), ground);
    texts++;
    if (found < 4.5) faint.add(`${walker.currentNode.data.trim().slice(0, 30)}: ${found.toFixed(2)}`);
  }
  return { texts, faint: [...faint] };
})()
