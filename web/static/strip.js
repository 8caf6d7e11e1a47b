// A job that is picked shows what has to come off for it, in the picture and in the lists, and says what it adds. A
// pointer resting on a job in the picture shows the same for as long as it rests.
export function showServed() {
  const picks = [...document.querySelectorAll(".jobs .pick")];
  for (const pick of picks) pick.addEventListener("click", () => choose(pick.getAttribute("aria-pressed") === "true" ? "" : pick.dataset.job));
  for (const mark of document.querySelectorAll(".layers .job[data-job]")) {
    mark.addEventListener("pointerenter", () => light(mark.dataset.job));
    mark.addEventListener("pointerleave", () => light(picked()));
    mark.addEventListener("click", () => choose(mark.dataset.job));
  }
  light(picked());
}

let chosen = "";
const picked = () => document.querySelector(`.jobs .pick[data-job="${CSS.escape(chosen)}"]`) ? chosen : "";

function choose(job) {
  chosen = job;
  light(job);
  const pick = document.querySelector(`.jobs .pick[data-job="${CSS.escape(job)}"]`);
  document.querySelector("[data-answer=strip] .says").textContent = pick ? pick.dataset.says : "";
}

function light(job) {
  for (const pick of document.querySelectorAll(".jobs .pick")) pick.setAttribute("aria-pressed", String(pick.dataset.job === job));
  for (const op of document.querySelectorAll(".layers [data-jobs]")) {
    const serves = op.dataset.jobs.split(" ").includes(job);
    op.classList.toggle("served", job !== "" && serves);
    op.classList.toggle("left-alone", job !== "" && !serves);
  }
  for (const step of document.querySelectorAll(".steps [data-serves]")) {
    step.classList.toggle("served", job !== "" && step.dataset.serves.split(" ").includes(job));
  }
}
