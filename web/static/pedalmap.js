// Reads the pedal map: a line follows the pointer, a finger or the arrow keys, and a table says what each pair does at
// that pedal travel. The figures come with the page as they are shown; here they are only looked up.
let reading; // pedal travel that somebody reads at; answers that come in meanwhile are read there too
const thumb = 8; // px, half the width of a slider's thumb
const ns = "http://www.w3.org/2000/svg";

export function readMaps() {
  for (const figure of document.querySelectorAll(".pedal-map[data-readings]")) {
    if (figure.querySelector(".map-range")) continue;
    const curves = JSON.parse(figure.querySelector(".map-readings").textContent);
    if (curves?.length) new Reader(figure, curves);
  }
}

class Reader {
  constructor(figure, curves) {
    this.figure = figure;
    this.curves = curves;
    this.points = curves[0].points;
    this.range = Object.assign(document.createElement("input"), { type: "range", className: "map-range", min: 0, max: this.points.length - 1, value: 0, id: "map-range" });
    this.range.setAttribute("aria-label", "Pedal travel on the map");
    figure.querySelector(".map-picture").after(this.range);
    this.drawings = [...figure.querySelectorAll(".map-picture svg")].map(svg => new Overlay(svg));
    this.range.addEventListener("input", () => this.read(Number(this.range.value)));
    for (const drawing of this.drawings) {
      const follow = event => this.read(this.nearest(this.points, drawing.pedalAt(event)));
      drawing.svg.addEventListener("pointermove", follow);
      drawing.svg.addEventListener("pointerdown", follow);
    }
    this.lieUnder();
    new ResizeObserver(() => this.lieUnder()).observe(figure);
    this.show(this.nearest(this.points, reading ?? Number(figure.querySelector(".map-picture").dataset.stop)));
  }

  // The slider lies under the pedal's travel on whichever drawing is shown.
  lieUnder() {
    const shown = this.drawings.find(drawing => drawing.svg.getBoundingClientRect().width > 0);
    if (!shown) return;
    const scale = shown.svg.getBoundingClientRect().width / shown.svg.viewBox.baseVal.width, p = shown.panels[0];
    const end = this.points[this.points.length - 1].at;
    this.range.style.marginLeft = `${p.left * scale - thumb}px`;
    this.range.style.width = `${(end - p.xMin) / (p.xMax - p.xMin) * p.width * scale + 2 * thumb}px`;
  }

  nearest(points, pedal) {
    let best = 0;
    points.forEach((point, i) => { if (Math.abs(point.at - pedal) < Math.abs(points[best].at - pedal)) best = i; });
    return best;
  }

  read(i) {
    reading = this.points[i].at;
    this.show(i);
  }

  show(i) {
    const pedal = this.points[i].at;
    const rows = this.curves.map(curve => [curve.name, ...curve.points[this.nearest(curve.points, pedal)].shown]);
    this.range.value = i;
    this.range.setAttribute("aria-valuetext", rows.map(([name, at, fingers, effort, line, torque]) =>
      `${name}: pedal ${at}, fingers ${fingers}, effort ${effort}, line ${line}, carries ${torque}`).join("; "));
    const heads = [...this.figure.querySelectorAll(".reading thead th")].map(head => head.textContent);
    this.figure.querySelector(".reading tbody").replaceChildren(...rows.map(texts => row(texts, heads)));
    this.figure.querySelector(".reading").hidden = false;
    for (const drawing of this.drawings) drawing.mark(pedal);
  }
}

function row(texts, heads) {
  const tr = document.createElement("tr");
  texts.forEach((text, i) => {
    const cell = document.createElement(i ? "td" : "th");
    if (i) cell.dataset.head = heads[i];
    else cell.scope = "row";
    cell.textContent = text;
    tr.append(cell);
  });
  return tr;
}

// Overlay is the line and the dots on one drawing of the map.
class Overlay {
  constructor(svg) {
    this.svg = svg;
    this.panels = [...svg.querySelectorAll(".panel")].map(panel => {
      const d = panel.dataset, n = key => Number(d[key]);
      return {
        key: d.panel, left: n("left"), top: n("top"), width: n("width"), height: n("height"),
        xMin: n("xMin"), xMax: n("xMax"), yMin: n("yMin"), yMax: n("yMax"),
        curves: [...panel.querySelectorAll(".curve")].map(curve => curve.dataset.values.split(";").map(pair => pair.split(" ").map(Number))),
      };
    });
    this.group = document.createElementNS(ns, "g");
    this.group.setAttribute("class", "reader");
    svg.append(this.group);
  }

  pedalAt(event) {
    const box = this.svg.getBoundingClientRect(), view = this.svg.viewBox.baseVal, p = this.panels[0];
    const x = (event.clientX - box.left) / box.width * view.width;
    return p.xMin + (x - p.left) / p.width * (p.xMax - p.xMin);
  }

  mark(pedal) {
    this.group.replaceChildren();
    for (const p of this.panels) {
      const x = p.left + (pedal - p.xMin) / (p.xMax - p.xMin) * p.width;
      this.add("line", { x1: x, x2: x, y1: p.top, y2: p.top + p.height });
      for (const curve of p.curves) {
        const near = curve.reduce((best, point) => Math.abs(point[0] - pedal) < Math.abs(best[0] - pedal) ? point : best);
        this.add("circle", { cx: x, cy: p.top + p.height * (1 - (near[1] - p.yMin) / (p.yMax - p.yMin)), r: 4 });
      }
    }
  }

  add(name, attributes) {
    const item = document.createElementNS(ns, name);
    for (const [key, value] of Object.entries(attributes)) item.setAttribute(key, value);
    this.group.append(item);
  }
}
