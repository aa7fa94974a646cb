// Sheets to print and files for other programs, from the server.

import { h, section } from "./dom.mjs";
import { fieldLabel } from "./words.mjs";

const sheets = [["truck-sheet.html", "Truck sheet, one page"], ["truck-sheet.txt", "The same as a message"], ["work-lists.html", "Work lists, today and this week"], ["combine-card.html", "Combine card"], ["field-sheets.html", "A sheet for each field"]];
const files = [["work.xlsx", "Work book (xlsx)"], ["work.csv", "Work list (CSV)"], ["calendar.ics", "Calendar (iCalendar)"], ["fields.gpkg", "Fields (GeoPackage)"], ["fields.geojson", "Fields (GeoJSON)"]];

function chooser(label, options, put) {
  return h("label", {}, `${label} `, h("select", { onchange: (event) => put(event.target.value) }, options.map(([value, text]) => h("option", { value }, text))));
}

function burnSheet(model) {
  if (model.plan.burning === null) return null;
  const field = h("select", {}, model.plan.fields.map((f) => h("option", { value: f.id }, fieldLabel(f))));
  const day = h("input", { type: "date", value: model.plan.farm.as_of });
  const open = () => window.open(`/burn-sheets/${encodeURIComponent(field.value)}?day=${day.value}`, "_blank", "noopener");
  return h("div", {}, h("h3", {}, "Sheet for the talk with the burn authority"),
    h("p", { class: "control" }, h("label", {}, "Field ", field), " ", h("label", {}, "Day ", day), " ", h("button", { type: "button", onclick: open }, "Open the sheet")));
}

export function takeAwaySection(model, planId) {
  const list = h("ul", { class: "take-away" });
  const choice = { paper: model.plan.farm.units === "us" ? "letter" : "a4", language: "en" };
  const link = (name, query) => `/plans/${planId}/files/${name}${query}`;
  const put = () => list.replaceChildren(
    ...sheets.map(([name, text]) => h("li", {}, h("a", { href: link(name, `?paper=${choice.paper}&language=${choice.language}`), target: "_blank", rel: "noopener" }, text))),
    ...files.map(([name, text]) => h("li", {}, h("a", { href: link(name, ""), download: name }, text))),
    h("li", {}, h("a", { href: `/plans/${planId}/report.html`, download: "report.html" }, "This page as one file")),
    h("li", {}, h("a", { href: `/plans/${planId}`, download: "plan.json" }, "The plan itself (plan.json)")));
  put();
  const papers = [["a4", "A4"], ["letter", "Letter"]].sort(([a]) => (a === choice.paper ? -1 : 1));
  return section("take-away", "Print and take away", null,
    h("p", { class: "control" }, chooser("Paper", papers, (value) => { choice.paper = value; put(); }), " ",
      chooser("Work lists and combine card in", [["en", "English"], ["es", "Spanish"]], (value) => { choice.language = value; put(); })),
    list, burnSheet(model));
}
