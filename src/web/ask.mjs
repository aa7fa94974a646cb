// Requests to the page's own server. An error is always {code, message, issues}.

async function answerOf(response) {
  const text = await response.text();
  let value = null;
  try {
    value = text === "" ? {} : JSON.parse(text);
  } catch {
    value = null;
  }
  if (response.ok && value !== null) return value;
  throw value?.error ?? { code: "no-answer", message: `The server answered with ${response.status}.`, issues: [] };
}

async function send(method, path, body, headers = {}) {
  const json = body === undefined ? {} : { "Content-Type": "application/json" };
  let response = null;
  try {
    response = await fetch(path, { method, headers: { ...json, ...headers }, body: body === undefined ? undefined : JSON.stringify(body) });
  } catch {
    throw { code: "no-answer", message: "The server does not answer. Is aftercut serve still running?", issues: [] };
  }
  return answerOf(response);
}

const marked = (mark) => (mark ? { "If-Match": `"${mark}"` } : {});

export const ask = {
  state: () => send("GET", "/state"),
  plan: (id) => send("GET", `/plans/${id}`),
  planAgain: (changes, scenario) => send("POST", scenario ? `/plans?scenario=${encodeURIComponent(scenario.name)}` : "/plans", { name: scenario?.title ?? "", changes }),
  passes: (machine) => send("GET", `/passes/${encodeURIComponent(machine)}`),
  tradeOffs: () => send("GET", "/trade-offs"),
  weigh: () => send("POST", "/trade-offs", {}),
  journal: () => send("GET", "/journal"),
  write: (entries) => send("POST", "/journal", { entries }),
  planFrom: (morning) => send("POST", "/again", { as_of: morning }),
  stand: (plan) => send("POST", "/standing", { plan }),
  ahead: () => send("GET", "/ahead"),
  lookAhead: () => send("POST", "/ahead", {}),
  giveUp: (job) => send("DELETE", `/jobs/${job}`),
  keep: (name, title, changes, mark) => send("PUT", `/scenarios/${encodeURIComponent(name)}`, { name: title, changes }, marked(mark)),
  drop: (name, mark) => send("DELETE", `/scenarios/${encodeURIComponent(name)}`, undefined, marked(mark)),
};
