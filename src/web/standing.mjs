// A plan made again for a morning: shown, it can take the place of the one that stands.

import { isOver, issueList, putQuestion } from "./answer.mjs";
import { ask } from "./ask.mjs";
import { h, redraw } from "./dom.mjs";

export class Standing {
  constructor(plan) {
    this.plan = plan;
    this.job = null;
    this.box = h("div", { class: "standing", "aria-live": "polite" });
    this.draw();
  }

  draw() {
    const { job } = this, on = job !== null && !isOver(job);
    redraw(this.box, ...[
      h("p", {}, h("button", { type: "button", class: "pick", disabled: on, onclick: () => this.stand() }, "Let this plan stand from now on"),
        h("small", { class: "block" }, "The plan that stands now is kept in the output folder, under “stood”.")),
      job && isOver(job) && job.stage !== "planned" && issueList({ message: job.fault || "The plan that stands is as it was.", issues: job.issues ?? [] }),
      this.trouble && issueList(this.trouble)].filter(Boolean));
  }

  async stand() {
    await putQuestion(this, () => ask.stand(this.plan));
    this.draw();
  }

  happened(data) {
    if (data.id !== this.job?.id) return;
    this.job = { ...this.job, ...data };
    if (this.job.stage === "planned") location.href = "/";
    else this.draw();
  }
}
