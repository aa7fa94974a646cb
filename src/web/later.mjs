// Parts that are made when they come near the view, when the browser has nothing else to do, and at the latest for print.

const frame = 10;  // ms that making may take at a time
const waiting = new Map();  // element -> what makes its inside
let asked = false;

function make(element) {
  const build = waiting.get(element);
  if (!build) return;
  waiting.delete(element);
  build();
}

const wanted = [];

function makeWanted() {
  const start = performance.now();
  while (wanted.length > 0 && performance.now() - start < frame) make(wanted.shift());
  if (wanted.length > 0) requestAnimationFrame(makeWanted);
}

const near = new IntersectionObserver((entries) => {
  const more = entries.filter((entry) => entry.isIntersecting).map((entry) => entry.target);
  more.forEach((element) => near.unobserve(element));
  if (more.length === 0) return;
  wanted.push(...more);
  if (wanted.length === more.length) makeWanted();
}, { rootMargin: "800px 0px" });

// A few at a time: nothing that is made here may hold up a scroll.
function makeSome(deadline) {
  asked = false;
  const start = performance.now();
  for (const element of waiting.keys()) {
    if (!element.dataset.spare) continue;
    make(element);
    if (deadline.timeRemaining() < 8 || performance.now() - start > frame) break;
  }
  askAgain();
}

function askAgain() {
  if (asked || ![...waiting.keys()].some((element) => element.dataset.spare)) return;
  asked = true;
  if (window.requestIdleCallback) window.requestIdleCallback(makeSome);
  else setTimeout(() => makeSome({ timeRemaining: () => 0 }), 30);
}

// `build()` runs once: when makeNow() asks for it or for print, with `spare` also in spare time.
export function whenAsked(element, build, spare) {
  waiting.set(element, build);
  if (spare) element.dataset.spare = "1";
  askAgain();
}

// The same, and when the element comes near the view.
export function later(element, build, spare) {
  whenAsked(element, build, spare);
  near.observe(element);
}

export const makeNow = make;

export function makeAll() {
  [...waiting.keys()].forEach(make);
}

// For a page that is built anew.
export function forgetAll() {
  waiting.clear();
  near.disconnect();
}
