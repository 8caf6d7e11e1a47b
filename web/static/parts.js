// Puts answers from the server in the place of those on the page. A part that has not changed is left alone; focus and
// what was unfolded stay as they were.
const shown = new Map();

export function showParts(html) {
  const box = document.createElement("template");
  box.innerHTML = html;
  for (const part of box.content.querySelectorAll("[data-answer]")) {
    const name = part.dataset.answer;
    if (shown.get(name) === part.outerHTML) continue;
    shown.set(name, part.outerHTML);
    for (const old of document.querySelectorAll(`[data-answer="${name}"]`)) replace(old, part.cloneNode(true));
  }
  document.dispatchEvent(new Event("answers-shown"));
}

function replace(old, part) {
  for (const unfolded of old.querySelectorAll("details[open][id]")) {
    part.querySelector(`#${CSS.escape(unfolded.id)}`)?.setAttribute("open", "");
  }
  const focus = old.contains(document.activeElement) ? document.activeElement.id : "";
  old.replaceWith(part);
  if (focus) document.getElementById(focus)?.focus({ preventScroll: true });
}
