// A job under the pointer, tapped or in focus shows what has to come off for it, in the picture and in the lists.
export function showServed() {
  for (const mark of document.querySelectorAll(".layers [data-job], .steps [data-job]")) {
    const job = mark.dataset.job;
    mark.addEventListener("pointerenter", () => show(job));
    mark.addEventListener("pointerleave", () => show(""));
    mark.addEventListener("click", () => show(job));
    mark.addEventListener("focus", () => show(job));
    mark.addEventListener("blur", () => show(""));
  }
}

function show(job) {
  for (const op of document.querySelectorAll(".layers [data-jobs]")) {
    const serves = op.dataset.jobs.split(" ").includes(job);
    op.classList.toggle("served", job !== "" && serves);
    op.classList.toggle("left-alone", job !== "" && !serves);
  }
  for (const step of document.querySelectorAll(".steps [data-serves]")) {
    step.classList.toggle("served", job !== "" && step.dataset.serves.split(" ").includes(job));
  }
}
