// Parts that are made when they come near the view, when the browser has nothing else to do, and at the latest for print.

const waiting = new Map();  // element -> what makes its inside
let asked = false;

function make(element) {
  const build = waiting.get(element);
  if (!build) return;
  waiting.delete(element);
  build();
}

const near = new IntersectionObserver((entries) => entries.forEach((entry) => {
  if (!entry.isIntersecting) return;
  near.unobserve(entry.target);
  make(entry.target);
}), { rootMargin: "800px 0px" });

// A few at a time: nothing that is made here may hold up a scroll.
function makeSome(deadline) {
  asked = false;
  for (const element of waiting.keys()) {
    if (!element.dataset.spare) continue;
    make(element);
    if (deadline.timeRemaining() < 8) break;
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
