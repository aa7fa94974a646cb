// The day under the pointer or the arrow keys, on every strip of the season board: what the ground and the work are like there.

import { h } from "./dom.mjs";
import { capital, chanceWords, dayNumber, fieldLabel, isoOf, listWords, weekdayWords, dateWords } from "./words.mjs";

function jobsOn(model, field, day) {
  return model.passesOf(field).filter((p) => dayNumber(p.start) <= day && day <= dayNumber(p.end)).map((p) => model.operationName(p.operation));
}

function groundWords(model, field, day) {
  const chance = model.workableOf(field)[day - model.firstDay];
  if (day <= dayNumber(field.harvest)) return "crop still standing";
  if (chance === undefined) return "no figure for the ground";
  return `ground can be worked in ${chanceWords(chance)}`;
}

export function dayWords(model, field, day) {
  const iso = isoOf(day);
  const jobs = jobsOn(model, field, day);
  const marks = [field.planting_date === iso && "planting date", field.cut_off === iso && "last day"].filter(Boolean);
  return [`${weekdayWords(iso)} ${dateWords(iso)}`, groundWords(model, field, day),
    jobs.length > 0 ? capital(listWords(jobs)) : "no job", ...marks].join(" · ");
}

const steps = { ArrowLeft: -1, ArrowRight: 1, PageUp: -7, PageDown: 7 };

// One readout for the whole board. `strips()` gives the fields in the order in which they stand.
export function dayReadout(model, shownFields) {
  const hair = h("div", { class: "day-line", "aria-hidden": "true" });
  const words = h("div", { class: "day-words", "aria-hidden": "true" });
  const handles = new Map();
  let at = Math.min(Math.max(dayNumber(model.plan.farm.as_of), model.fromDay), model.toDay);
  let stop = null;

  const share = (day) => (day + 0.5 - model.fromDay) / (model.toDay + 1 - model.fromDay);

  function show(field) {
    const handle = handles.get(field);
    const text = dayWords(model, field, at);
    words.textContent = text;
    handle.setAttribute("aria-valuenow", String(at - model.fromDay));
    handle.setAttribute("aria-valuetext", text);
    handle.append(hair, words);
    const x = `${100 * share(at)}%`;
    hair.style.left = x;
    words.style.left = x;
    words.classList.toggle("right", share(at) > 0.5);
  }

  function hide() {
    hair.remove();
    words.remove();
  }

  function stopAt(field) {
    if (stop !== null) handles.get(stop).tabIndex = -1;
    stop = field;
    handles.get(field).tabIndex = 0;
  }

  function moveTo(field, by) {
    const fields = shownFields();
    const next = fields[fields.indexOf(field) + by];
    if (next === undefined) return;
    stopAt(next);
    handles.get(next).focus();
  }

  function onKey(field, event) {
    const { key } = event;
    if (key === "ArrowUp" || key === "ArrowDown") moveTo(field, key === "ArrowUp" ? -1 : 1);
    else if (key === "Home") at = model.fromDay;
    else if (key === "End") at = model.toDay;
    else if (key in steps) at = Math.min(Math.max(at + steps[key], model.fromDay), model.toDay);
    else return;
    event.preventDefault();
    if (document.activeElement === handles.get(field)) show(field);
  }

  function onPointer(field, handle, event) {
    const box = handle.getBoundingClientRect();
    const day = model.fromDay + Math.floor(((event.clientX - box.left) / box.width) * (model.toDay + 1 - model.fromDay));
    at = Math.min(Math.max(day, model.fromDay), model.toDay);
    show(field);
  }

  function handleFor(field) {
    const handle = h("div", {
      class: "day-handle", role: "slider", tabindex: -1, "aria-label": `Day on field ${fieldLabel(field)}`, "aria-describedby": "board-keys",
      "aria-valuemin": 0, "aria-valuemax": model.toDay - model.fromDay, "aria-valuenow": at - model.fromDay, "aria-valuetext": dayWords(model, field, at),
      onkeydown: (event) => onKey(field, event),
      onfocus: () => { stopAt(field); show(field); },
      onblur: hide,
      onpointermove: (event) => onPointer(field, handle, event),
      onpointerdown: (event) => onPointer(field, handle, event),
      onpointerleave: (event) => event.pointerType === "mouse" && document.activeElement !== handle && hide(),
    });
    handles.set(field, handle);
    if (stop === null) stopAt(field);
    return handle;
  }

  return { handleFor, stopAtFirst: () => stopAt(shownFields()[0]) };
}
