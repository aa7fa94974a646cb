// A chance as ten tally strokes and in words.

import { h, s } from "./dom.mjs";
import { chanceWords, wholeTenths } from "./words.mjs";

export function chanceMark(chance) {
  const tenths = wholeTenths(chance);
  return h("span", { class: "chance" },
    s("svg", { width: 84, height: 16, "aria-hidden": "true" },
      Array.from({ length: 10 }, (_, i) => s("rect", { x: i * 8 + 1.5, y: 1.5, width: 5, height: 13, class: i < tenths ? "yes" : "no" }))),
    h("span", {}, chanceWords(chance)));
}
