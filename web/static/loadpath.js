// A part of the load path leads to its figures: in the drawing for a finger or a mouse, in the list for the keyboard.
export function openParts() {
  for (const link of document.querySelectorAll(".parts a[data-field]")) {
    link.addEventListener("click", event => { event.preventDefault(); goTo(link.dataset.field); });
  }
  for (const part of document.querySelectorAll(".load-path .part[data-part]")) {
    part.addEventListener("click", () => {
      const link = document.querySelector(`.parts [data-part-id="${part.dataset.part}"] a`);
      if (link) goTo(link.dataset.field);
    });
  }
}

function goTo(id) {
  const field = document.getElementById(id);
  if (!field) return;
  for (let inside = field.closest("details"); inside; inside = inside.parentElement.closest("details")) inside.open = true;
  field.focus();
  field.select();
  field.scrollIntoView({ block: "center" });
}
