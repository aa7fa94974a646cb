// Passes of one machine on every field, laid over the map: from the server, on demand.

import L from "leaflet";
import { ask } from "./ask.mjs";
import { issueList } from "./answer.mjs";
import { h } from "./dom.mjs";

const kinds = { round: "pass-line round", pass: "pass-line" };

// Puts a choice of machines below the map.
export function addPasses(model, map, place) {
  if (!map || model.plan.machines.length === 0) return;
  const tractors = new Set(model.plan.resources.filter((r) => r.kind === "tractor").map((r) => r.id));
  const machines = model.plan.machines.filter((m) => !tractors.has(m.id));
  let laid = null;
  const words = h("span", { class: "note", role: "status" });
  const show = async (id) => {
    laid?.remove();
    laid = null;
    words.textContent = "";
    if (id === "") return;
    words.textContent = " Laying the passes …";
    try {
      const lines = await ask.passes(id);
      laid = L.geoJSON(lines, { interactive: false, style: (f) => ({ className: kinds[f.properties.kind] ?? "pass-line", weight: 1 }) }).addTo(map);
      const passes = lines.features.filter((f) => f.properties.kind === "pass").length;
      words.textContent = ` ${passes.toLocaleString("en-US")} passes; dashed lines are rounds along the edge, to turn on.`;
    } catch (error) {
      words.replaceChildren(issueList(error));
    }
  };
  const select = h("select", { id: "passes-of", onchange: (event) => show(event.target.value) }, h("option", { value: "" }, "none"), machines.map((m) => h("option", { value: m.id }, m.name || m.id)));
  place.after(h("p", { class: "control" }, h("label", { for: "passes-of" }, "Passes of: "), select, words));
}
