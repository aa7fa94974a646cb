// The plan with look-ups. Nothing is worked out here beyond sums of what the plan says.

import { operationMarks } from "./methods.mjs";
import { dayNumber } from "./words.mjs";
import { unitsOf } from "./units.mjs";

// Stretches of one pass on one field, from its first day to its last.
function passesOf(plan) {
  const passes = new Map();
  for (const row of plan.schedule) {
    if (row.stands_by) continue;  // a crew that waited; nothing was done
    const key = [row.field, row.fell_back, row.step, row.pass, row.operation].join("\n");
    const pass = passes.get(key) ?? { ...row, hours: 0, area_ha: 0, fuel_l: 0, people: new Set(), machines: new Set() };
    pass.hours += row.hours;
    pass.area_ha += row.area_ha;
    pass.fuel_l += row.fuel_l;
    pass.end = row.end > pass.end ? row.end : pass.end;
    row.operators.forEach((id) => pass.people.add(id));
    [row.tractor, row.machine].forEach((id) => id !== null && pass.machines.add(id));
    passes.set(key, pass);
  }
  return [...passes.values()].sort((a, b) => (a.start < b.start ? -1 : a.start > b.start ? 1 : 0));
}

// The days worth drawing: from shortly before the first harvest to shortly after the last day of the spring.
function shownDays(plan, first, last) {
  const harvests = plan.fields.map((f) => dayNumber(f.harvest));
  const ends = plan.fields.filter((f) => f.cut_off !== null).map((f) => dayNumber(f.cut_off));
  const work = plan.schedule.map((r) => dayNumber(r.end));
  return { fromDay: Math.max(first, Math.min(...harvests) - 12), toDay: ends.length === 0 ? last : Math.min(last, Math.max(...ends, ...work) + 5) };
}

// A farm of more fields is drawn piece by piece, as it comes into view.
const usualFields = 60;

export function modelOf(plan, shapes) {
  const names = new Map([...plan.machines, ...plan.operators].map((x) => [x.id, x.name || x.id]));
  const first = dayNumber(plan.farm.season_first);
  const passes = passesOf(plan);
  const passesByField = new Map(plan.fields.map((f) => [f.id, []]));
  passes.forEach((p) => passesByField.get(p.field)?.push(p));
  const workable = new Map(plan.workable.map((w) => [w.field, w.chance]));
  return {
    plan,
    shapes,
    large: plan.fields.length > usualFields,
    units: unitsOf(plan.farm),
    marks: operationMarks(plan),
    nameOf: (id) => names.get(id) ?? id,
    methodName: (id) => plan.methods.find((m) => m.id === id)?.name ?? "no method is open",
    operationName: (id) => plan.operations.find((o) => o.id === id)?.name ?? id,
    firstDay: first,
    lastDay: first + plan.farm.season_days - 1,
    ...shownDays(plan, first, first + plan.farm.season_days - 1),
    passes,
    fieldById: (id) => plan.fields.find((f) => f.id === id),
    passesOf: (field) => passesByField.get(field.id) ?? [],
    outcomeOf: (field) => field.methods.find((m) => m.id === field.chosen.method && m.possible),
    workableOf: (field) => workable.get(field.id) ?? [],
    wantedOf: (field) => plan.target.fields.find((w) => w.field === field.id)?.wanted_chance ?? plan.target.wanted_chance,
    due: (field) => field.planting_date !== null,
    sheetId: (field) => `sheet-${plan.fields.indexOf(field)}`,
  };
}
