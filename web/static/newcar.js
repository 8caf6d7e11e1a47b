// A fault's line number leads to its place in the text.
export function pointAtFaults() {
  document.querySelector(".new-car .trouble")?.focus();
  for (const link of document.querySelectorAll("a[data-line]")) {
    link.addEventListener("click", event => {
      event.preventDefault();
      const text = document.getElementById("text");
      const lines = text.value.split("\n");
      const before = lines.slice(0, link.dataset.line - 1).reduce((sum, line) => sum + line.length + 1, 0);
      const place = before + Number(link.dataset.column) - 1;
      text.focus();
      text.setSelectionRange(place, before + (lines[link.dataset.line - 1] ?? "").length);
      text.scrollTop = text.scrollHeight * (link.dataset.line - 4) / lines.length;
    });
  }
}
