// A drawing as an SVG element, built by DOM calls: classes only, the same classes as the server's
// SVG, so that one style sheet draws both.
import { runs } from "./shapes.js";

const SVG = "http://www.w3.org/2000/svg";
let made = 0;

/** One <svg> for the page: {shapes, widthMm, heightMm, title, description, lit}. */
export function toSvg(drawing) {
  made += 1;
  const ident = `drawn-${made}`;
  const lit = drawing.lit && drawing.lit !== "all" ? " has-lit" : "";
  const svg = element("svg", {
    class: `drawing${lit}`, viewBox: `0 0 ${n(drawing.widthMm)} ${n(drawing.heightMm)}`,
    role: "img", "aria-labelledby": `${ident}-t ${ident}-d`, focusable: "false",
  });
  svg.append(said("title", `${ident}-t`, drawing.title));
  svg.append(said("desc", `${ident}-d`, drawing.description));
  for (const [slug, shapes] of together(drawing.shapes, (shape) => shape.slug)) {
    svg.append(slug ? group(slug, shapes, drawing.lit) : filled("g", { class: "back" }, shapes));
  }
  return svg;
}

function element(name, attributes) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

function said(name, id, words) {
  const made = element(name, { id });
  made.textContent = words;
  return made;
}

/** Neighbours that are alike by `by`: [what they share, them]. */
function together(shapes, by) {
  const groups = [];
  for (const shape of shapes) {
    const shared = by(shape), last = groups[groups.length - 1];
    if (last && last[0] === shared) last[1].push(shape);
    else groups.push([shared, [shape]]);
  }
  return groups;
}

function group(slug, shapes, lit) {
  const made = element("g", { class: slug === lit ? "dim is-lit" : "dim", "data-slug": slug });
  for (const [part, run] of together(shapes, (shape) => shape.part)) {
    made.append(filled("g", { class: part }, run));
  }
  return made;
}

/** Lines of one kind that follow each other are one path. */
function filled(name, attributes, shapes) {
  const made = element(name, attributes);
  for (const [kind, run] of together(shapes, (s) => (s.is === "line" ? s.kind : ""))) {
    if (kind) made.append(lines(kind, run));
    else made.append(...run.map((shape) => (shape.is === "text" ? text(shape) : polygon(shape))));
  }
  return made;
}

function lines(kind, run) {
  const d = run.map((l) => `M${n(l.x1)} ${n(l.y1)}L${n(l.x2)} ${n(l.y2)}`).join("");
  return element("path", { class: `k-${kind}`, d });
}

function polygon(shape) {
  const points = shape.points.map(([x, y]) => `${n(x)} ${n(y)}`).join("L");
  const fill = shape.fill ? ` f-${shape.fill}` : "";
  return element("path", {
    class: `k-${shape.kind}${fill}`, d: `M${points}${shape.closed ? "Z" : ""}`,
  });
}

/** Fractions are set as fractions: raised figures, a slash, small figures. */
function text(shape) {
  const made = element("text", {
    class: `k-${shape.kind}`, x: n(shape.x), y: n(shape.y), "font-size": n(shape.size),
    "text-anchor": shape.anchor,
  });
  for (const [piece, role] of runs(shape.text)) {
    if (role === "under") made.append(span({ dy: ".33em" }, "⁄"));
    if (role === "plain") made.append(piece);
    else made.append(span({ "font-size": "66%", ...(role === "over" ? { dy: "-.5em" } : {}) }, piece));
  }
  return made;
}

function span(attributes, words) {
  const made = element("tspan", attributes);
  made.textContent = words;
  return made;
}

function n(value) {
  return String(Number(value.toFixed(2)));
}
