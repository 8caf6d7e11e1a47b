// The answers follow what is typed and ticked. Nothing is entered until somebody keeps it; until then it is
// remembered on this device, so that a reload or a flat battery loses nothing.
import { showParts } from "./parts.js";

const pause = 100; // ms without a key before the answers are asked for
const again = 3000; // ms until the next try when the server does not answer

let form, fields, draftName, timer, running;

export function followFigures() {
  form = document.getElementById("figures");
  fields = [...form.querySelectorAll("[data-kept]")];
  draftName = `layshaft car ${form.dataset.car}`;
  document.addEventListener("input", event => { if (event.target.form === form) edited(event.target); });
  form.addEventListener("keydown", event => {
    if (event.key === "Escape" && event.target.dataset.kept !== undefined) { event.target.value = event.target.dataset.kept; edited(event.target); }
  });
  form.addEventListener("submit", event => {
    if (!event.submitter?.formAction.endsWith("/try")) return;
    event.preventDefault(); // Enter in a field, or a phone's "go": it tries, and the answers come in here
    ask();
  });
  document.getElementById("put-back")?.addEventListener("click", putBack);
  window.addEventListener("online", ask);
  const restored = restoreDraft();
  fields.forEach(mark);
  count();
  if (restored) ask(`${restored} typed here before and not kept ${restored === "1 figure" ? "is" : "are"} back in the form.`);
}

function edited(target) {
  if (target.dataset.kept !== undefined) mark(target);
  count();
  saveDraft();
  running?.abort(); // an answer to what stood here before must not come in now
  clearTimeout(timer);
  timer = setTimeout(ask, pause);
}

// A figure is changed where it differs by more than blanks.
const tidy = text => text.trim().split(/\s+/).join(" ");
const changed = field => tidy(field.value) !== field.dataset.kept;
const options = () => [...document.querySelectorAll('input[name="option"]')].filter(box => box.form === form);

function mark(field) {
  const box = field.closest(".field");
  box.classList.toggle("changed", changed(field));
  let kept = box.querySelector(".kept");
  if (!changed(field)) { kept?.remove(); return; }
  if (!kept) {
    kept = document.createElement("span");
    kept.className = "kept";
    box.querySelector(".said").append(kept);
  }
  kept.textContent = field.dataset.kept ? `kept: ${field.dataset.kept}` : "not given yet";
}

function count() {
  const n = fields.filter(changed).length;
  const line = document.getElementById("not-kept");
  line.textContent = n === 0 ? "" : `${figuresWord(n)} not kept yet`;
  form.addEventListener("submit", event => {
    if (!event.submitter?.formAction.endsWith("/try")) return;
    event.preventDefault(); // Enter in a field, or a phone's "go": it tries, and the answers come in here
    ask();
  });
  document.getElementById("put-back").hidden = n === 0;
}

const figuresWord = n => n === 1 ? "1 figure" : `${n} figures`;

function putBack() {
  for (const field of fields) { field.value = field.dataset.kept; mark(field); }
  edited(form);
}

// ask fetches the answers to what is typed. Only the last question's answer counts.
async function ask(note) {
  clearTimeout(timer);
  running?.abort();
  const mine = running = new AbortController();
  try {
    const answer = await fetch(`/cars/${encodeURIComponent(form.dataset.car)}/try`, {
      method: "POST", headers: { "Layshaft-Part": "answers" }, body: question(), signal: mine.signal,
    });
    const html = await answer.text();
    if (mine.signal.aborted) return;
    if (answer.status === 422) return refused(html);
    if (!answer.ok) throw new Error(answer.statusText);
    understood(html, typeof note === "string" ? note : "");
  } catch (error) {
    if (mine.signal.aborted) return;
    say("The shop's computer does not answer. What you typed is remembered on this device; the answers are those of before.", true);
    timer = setTimeout(ask, again);
  }
}

function question() {
  const body = new URLSearchParams({ seen: form.dataset.seq, options: "sent" });
  for (const field of fields) if (changed(field)) body.append(field.name, field.value);
  for (const box of options()) if (box.checked) body.append("option", box.value);
  for (const name of ["pair", "beside"]) {
    const value = new FormData(form).get(name);
    if (value) body.append(name, value);
  }
  return body;
}

function understood(html, note) {
  clearFaults();
  showParts(html);
  const newer = Number(document.querySelector("[data-answer=short]")?.dataset.seq) > Number(form.dataset.seq);
  if (newer) note = "Somebody entered something since this page was loaded. Load it anew to see it; what you typed stays.";
  const n = fields.filter(changed).length;
  say([note, n ? `The answers are those of ${figuresWord(n)} not kept yet.` : ""].filter(Boolean).join(" "), false);
}

function refused(html) {
  clearFaults();
  const box = document.createElement("template");
  box.innerHTML = html;
  for (const item of box.content.querySelectorAll("[data-key]")) {
    const name = "figure." + item.dataset.key.split("[")[0];
    const field = fields.find(field => field.name === name);
    if (!field) { document.getElementById("other-faults").append(item); continue; }
    const said = document.createElement("span");
    said.className = "fault";
    said.textContent = item.querySelector("span").textContent;
    field.closest(".field").querySelector(".said").prepend(said);
    field.setAttribute("aria-invalid", "true");
    for (let inside = field.closest("details"); inside; inside = inside.parentElement.closest("details")) inside.open = true;
  }
  say("A figure cannot be read yet. The answers still belong to the last figures that could.", true);
}

function clearFaults() {
  document.getElementById("other-faults").replaceChildren();
  for (const fault of form.querySelectorAll(".said .fault")) fault.remove();
  for (const field of fields) field.removeAttribute("aria-invalid");
}

function say(text, stale) {
  document.getElementById("figures-state").textContent = text;
  const state = document.getElementById("state");
  state.textContent = text;
  state.hidden = text === "";
  document.querySelector(".car").classList.toggle("stale", stale);
}

function saveDraft() {
  const figures = Object.fromEntries(fields.filter(changed).map(field => [field.name, field.value]));
  const recorded = form.dataset.chosen.split(" ");
  const ticks = Object.fromEntries(options().filter(box => box.checked !== recorded.includes(box.value)).map(box => [box.value, box.checked]));
  try {
    if (Object.keys(figures).length || Object.keys(ticks).length) localStorage.setItem(draftName, JSON.stringify({ figures, ticks }));
    else localStorage.removeItem(draftName);
  } catch { /* a device that keeps nothing still shows the answers */ }
}

// restoreDraft puts back what was typed before and not kept, and says how much it was.
function restoreDraft() {
  let draft;
  try { draft = JSON.parse(localStorage.getItem(draftName)); } catch { return ""; }
  if (!draft) return "";
  let n = 0;
  for (const field of fields) {
    const typed = draft.figures?.[field.name];
    if (typed === undefined || tidy(typed) === field.dataset.kept) continue;
    field.value = typed;
    for (let inside = field.closest("details"); inside; inside = inside.parentElement.closest("details")) inside.open = true;
    n++;
  }
  let ticked = false;
  for (const box of options()) {
    const tick = draft.ticks?.[box.value];
    if (tick === undefined || tick === box.checked) continue;
    box.checked = tick;
    ticked = true;
  }
  if (n === 0 && !ticked) { localStorage.removeItem(draftName); return ""; }
  return n ? figuresWord(n) : "Options";
}
