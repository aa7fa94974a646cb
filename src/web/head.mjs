// The opening: what the plan is, how sure, what it costs, what must happen first.

import { h } from "./dom.mjs";
import { swatch } from "./methods.mjs";
import { askedChanceWords, capital, chanceWords, count, dateWords, fieldLabel, fieldWord, listWords, rangeWords, weekWords } from "./words.mjs";

function tally(model) {
  const { plan, units } = model;
  const groups = new Map();
  for (const field of plan.fields) {
    const group = groups.get(field.chosen.method) ?? { fields: [], area: 0 };
    group.fields.push(field);
    group.area += field.area_ha;
    groups.set(field.chosen.method, group);
  }
  const rows = [...groups].sort((a, b) => b[1].area - a[1].area);
  return h("table", { class: "tally" },
    h("caption", {}, "What to do with the straw"),
    h("tbody", {}, rows.map(([id, group]) => h("tr", {},
      h("th", { scope: "row" }, swatch(plan, id), " ", capital(model.methodName(id))),
      h("td", {}, units.areaWords(group.area)),
      h("td", {}, `${fieldWord(group.fields)} ${listWords(group.fields.map((f) => f.id))}`)))));
}

function sureWords(model) {
  const { plan } = model;
  const due = plan.fields.filter((f) => model.due(f));
  const chances = due.map((f) => ({ field: f, chance: model.outcomeOf(f)?.chance_ready ?? 0 }));
  if (chances.length === 0) return ["No field asks for a seedbed this spring."];
  const good = plan.target.fields.filter((w) => w.met_shown).length;
  const one = plan.target.fields.every((w) => w.wanted_chance === plan.target.wanted_chance);
  const planned = chances.filter((c) => model.outcomeOf(c.field));
  const least = planned.length > 0 && planned.reduce((a, b) => (b.chance < a.chance ? b : a));
  return [
    h("strong", {}, `${good} of ${count(chances.length, "field", "fields")}`),
    ` that will be planted ${good === 1 ? "is" : "are"} ready on time ${one ? `in at least ${askedChanceWords(plan.target.wanted_chance)}` : "as often as wanted"}, which is what you asked for. `,
    least && ["Least sure: field ", fieldLink(model, least.field), `, ready on time in ${chanceWords(least.chance)}.`],
  ];
}

function costWords(model) {
  const { plan, units } = model;
  const o = plan.objective;
  const words = [h("strong", {}, units.money(o.plan)), ` out of pocket (${units.moneyPerArea(o.plan_per_ha)}), as the mean of ${count(plan.weather.years.length, "weather year", "weather years")}; `,
    `${units.money(o.full)} when the machines you own and your own hours are counted too.`];
  if (o.bound !== null) words.push(` No plan for this farm can cost less than ${units.money(o.bound)}; how much of the difference could be saved is not known.`);
  return words;
}

export function fieldLink(model, field) {
  return h("a", { href: `#${model.sheetId(field)}` }, fieldLabel(field));
}

function firstThings(model) {
  const { plan } = model;
  const byId = new Map(plan.fields.map((f) => [f.id, f]));
  const next = model.passes.filter((p) => p.start.slice(0, 10) >= plan.farm.as_of).slice(0, 8);
  const who = (p) => listWords([...p.people, ...p.machines].map(model.nameOf));
  return h("ol", { class: "first" }, next.map((p) => h("li", {},
    h("span", { class: "when" }, rangeWords(p.start, p.end)),
    h("span", {}, h("strong", {}, capital(model.operationName(p.operation))), " field ", fieldLink(model, byId.get(p.field)),
      h("small", {}, who(p))))));
}

function turningPoints(model) {
  const tests = model.plan.fall_backs.filter((t) => t.kinds.length === 1);
  if (tests.length === 0) return null;
  const sorted = [...tests].sort((a, b) => ((a.start_by ?? "") < (b.start_by ?? "") ? -1 : 1));
  return h("div", { class: "turns" }, h("h3", {}, "If the others do not come"),
    h("ul", {}, sorted.map((t) => h("li", {}, h("strong", {}, t.start_by === null ? "At once" : capital(weekWords(t.start_by))), `, if ${t.trigger}: fall-backs start on ${fieldWord(t.fields)} `,
      t.fields.map((id, i) => [i ? ", " : "", fieldLink(model, model.fieldById(id))]), "."))),
    h("p", {}, h("a", { href: "#others" }, "What each field then does")));
}

function warnings(model) {
  const { plan } = model;
  const byId = new Map(plan.fields.map((f) => [f.id, f]));
  const boxes = plan.troubles.map((t) => h("div", { class: "warning", role: "note" }, h("strong", {}, capital(t.name)), `: ${t.text}. `,
    t.fields.length > 0 && [`${capital(fieldWord(t.fields))} `, t.fields.map((id, i) => [i ? ", " : "", fieldLink(model, byId.get(id))])]));
  if (!plan.audit.ok) {
    boxes.push(h("div", { class: "warning", role: "note" }, h("strong", {}, "This plan did not pass its own check"),
      `: ${count(plan.audit.count, "fault", "faults")} found. See “Behind the numbers”.`));
  }
  return boxes;
}

export function head(model) {
  const { plan, units } = model;
  const season = `${plan.farm.season_first.slice(0, 4)}–${String(+plan.farm.season_first.slice(0, 4) + 1).slice(2)}`;
  return h("header", { class: "opening" },
    h("p", { class: "kicker" }, `Straw plan for the winter ${season}`),
    h("h1", {}, plan.farm.name),
    h("p", { class: "lead" }, `${count(plan.fields.length, "field", "fields")}, ${units.areaWords(plan.farm.area_ha)}. Planned on ${dateWords(plan.farm.as_of, true)}.`),
    warnings(model),
    h("div", { class: "answers" },
      h("div", { class: "answer" }, tally(model)),
      h("div", { class: "answer" },
        h("h3", {}, "Will the seedbeds be ready?"), h("p", {}, sureWords(model)),
        h("h3", {}, "What does it cost?"), h("p", {}, costWords(model)))),
    h("div", { class: "answers" },
      h("div", { class: "answer" }, h("h3", {}, "First jobs"),
        h("p", { class: "note" }, `Days as they would fall in the weather of ${plan.schedule_year}. In the real season the order holds and the days follow the weather.`),
        firstThings(model)),
      turningPoints(model) && h("div", { class: "answer" }, turningPoints(model))));
}
