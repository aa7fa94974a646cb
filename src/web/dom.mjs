// Elements from plain values. Text always goes in as text, never as markup.

const svgSpace = "http://www.w3.org/2000/svg";

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? "" : String(value));
  }
  for (const child of children.flat(Infinity)) {
    if (child === undefined || child === null || child === false) continue;
    element.append(child instanceof Node ? child : String(child));
  }
  return element;
}

export function h(tag, attributes, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

export function s(tag, attributes, ...children) {
  return fill(document.createElementNS(svgSpace, tag), attributes, children);
}

export function section(id, title, lead, ...children) {
  return h("section", { id, "aria-labelledby": `${id}-title` },
    h("h2", { id: `${id}-title` }, title), lead && h("p", { class: "lead" }, lead), children);
}

const looks = new Map();  // element -> looks at its width and draws

// A drawing that is wider than its paper is made smaller by its view box.
function boxed(element) {
  for (const drawing of element.querySelectorAll(":scope > svg:not([viewBox])"))
    drawing.setAttribute("viewBox", `0 0 ${drawing.getAttribute("width")} ${drawing.getAttribute("height")}`);
}

// Calls draw(width) now and whenever the element's width changes.
export function onWidth(element, draw) {
  let last = 0;
  const look = () => {
    const width = Math.floor(element.clientWidth);
    if (width > 0 && width !== last) {
      last = width;
      draw(width);
      boxed(element);
    }
  };
  new ResizeObserver(look).observe(element);
  looks.set(element, look);
  return look;
}

// Draws what has just come into the open: no frame comes between that and a print.
export function drawAll() {
  for (const [element, look] of looks) {
    if (element.isConnected) look();
    else looks.delete(element);
  }
}

// Draws a box anew. Who stands on a button of it goes on standing on it: the one with the same words.
export function redraw(box, ...children) {
  const words = (element) => element.getAttribute("aria-label") ?? element.textContent;
  const at = box.contains(document.activeElement) ? document.activeElement : null;
  box.replaceChildren(...children);
  if (at) [...box.querySelectorAll(at.localName)].find((element) => words(element) === words(at))?.focus({ preventScroll: true });
}
