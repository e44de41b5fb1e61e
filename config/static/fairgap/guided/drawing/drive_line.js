// The drive line, drawn: a side elevation to one datum, x = 0 at the coupling face. The same shapes
// from the same stack as intake/domain/drawing.py; tests/vectors/drawing.json runs against both.
import { draw, drawLit, key, place } from "./dimensions.js";
import { elevation, WATER_DOWN } from "./elevation.js";
import { lengthText, toNm } from "./lengths.js";
import { drawShown, isShown } from "./lit.js";
import { isOfSeveral, PLAN_HIGH, planView } from "./plan_view.js";
import { polygon, text, textWidth } from "./shapes.js";
import { sizes, stations } from "./stations.js";
import { toSvg } from "./svg.js";

export { keepPictures, mistakePicture, mistakesOf } from "./pictures.js";

const ABOVE = 19.5, ROW = 6.6, FIRST_ROW = 6.4; // paper mm: over the axis, between rows, to the first
const ENGINE_ABOVE = 7; // more of it where the engine stands over the shaft's flange

// slug: [key in the stack, key in stack.marks]
const VALUES = {
  face_to_strut_aft: ["x_strut_aft", "face_to_strut_aft"],
  gap_now: ["predicted_gap", "gap"],
  hub_length: ["hub_length", "hub_length"],
  tail_to_thread: ["tail", "tail"],
  old_length_face_to_thread: ["length", "length"],
  old_length_overall: ["overall", "overall"],
  nut_standoff: ["nut_standoff", "nut_standoff"],
  front_length: ["front_length", "front_length"],
  gearbox_through: ["gearbox_through", "gearbox_through"],
};
const ALWAYS = ["gap_now", "hub_length", "tail_to_thread", "face_to_strut_aft",
                "old_length_face_to_thread", "old_length_overall"];
const ON_PASSING = ["gearbox_through", "front_length"];

let kept = {};

/** Keep the drawing's words (intake/domain/drawing_words.py, in the page's language). */
export function keepWords(words) {
  kept = words;
}

/**
 * The drive line as an SVG element; what the stack lacks is drawn as on a typical boat.
 * @param {object} stack keys as in intake/domain/stack.py, and `station` (port, starboard, centre)
 * @param {{lit?: string, readings?: Object<string, string>, hook?: string, thumb?: string,
 *   shorten?: boolean, widthMm?: number, words?: Object<string, string>}} [options] lit: one
 *   answer in brass with hook and thumb; readings: texts to print, by answer; hook and thumb: other
 *   words for the two ends of what is lit
 * @returns {SVGElement}
 */
export function driveLine(stack, options = {}) {
  return toSvg(driveLineShapes(stack, options));
}

/** The same as shapes: {shapes, widthMm, heightMm, title, description, lit}. */
export function driveLineShapes(stack, options = {}) {
  const { lit = "", readings = {}, hook = "", thumb = "" } = options;
  const { shorten = true, widthMm = 110, words = kept } = options;
  const passes = stack.layout === "v_pass_through", station = stack.station || "";
  const planned = isOfSeveral(station) || lit === "boat_name_and_station";
  const at = stations(sizes(stack), {
    passes, shorten, width: widthMm, axis: axisOf(stack, planned), layout: stack.layout || "inline",
  });
  const size = widthMm < 150 ? 4.3 : 3.7, asked = askedOf(words);
  const known = asked.includes(lit);
  const said = { stack, readings, words, lit, hook, thumb, marks: marksOf(stack) };
  const every = new Map(dimensions(at, said, widthMm >= 150).map((d) => [d.slug, d]));
  const shown = [...ALWAYS, ...extra(at, every, widthMm)].filter((slug) => every.has(slug));
  const { placed, rows } = place(known ? [] : shown.map((slug) => every.get(slug)),
                                 { size, width: widthMm });
  const first = at.axis + WATER_DOWN + FIRST_ROW;
  const shapes = [...elevation(at, words.engine), ...datum(at, size, words)];
  if (planned) shapes.push(...planView(station, words));
  for (const one of placed) {
    shapes.push(...draw(one, { axis: at.axis, y: first + one.row * ROW, size }));
  }
  let bottom = first + (rows - 1) * ROW + 2.4;
  if (lit) {
    for (const slug of lit === "all" ? asked : [lit]) {
      const one = { slug, at, text: readings[slug] ?? "", station, words, hook, size };
      shapes.push(...litShapes(one, every, first + 1));
    }
    bottom = Math.max(bottom, first + 1 + 6.6 + size + 1.6 + 1.6);
  }
  const letters = key(new Set(placed.map((one) => one.dimension.mark)), words);
  if (letters && !known) {
    bottom += size + 1.4;
    const unit = words[stack.system === "mm" ? "mm" : "inches"];
    shapes.push(text(1, bottom - 1.2, `${unit} · ${letters}`, 0.82 * size, "start"));
  }
  return {
    shapes: inGroups(shapes, asked),
    widthMm,
    heightMm: Math.round(bottom * 100) / 100,
    title: titleOf(known ? lit : "", words, passes),
    description: describe(every, said, { station, passes, shorten }),
    lit,
  };
}

/** Paper y of the shaft's axis: lower where there is more to show above it. */
function axisOf(stack, planned) {
  const engine = stack.layout === "v_rear_flange" ? ENGINE_ABOVE : 0;
  return ABOVE + engine + (planned ? PLAN_HIGH : 0);
}

/** Every answer that can be lit, in the order of the words. */
function askedOf(words) {
  return Object.keys(words)
    .filter((name) => name.endsWith(".name"))
    .map((name) => name.slice(0, -".name".length));
}

function marksOf(stack) {
  const said = Object.entries(stack.marks ?? {}).filter(([, mark]) => mark);
  return { nut_standoff: "table", ...Object.fromEntries(said) };
}

/** What is worth a line when there is room, or on the layout that needs it. */
function extra(at, every, width) {
  const room = width >= 150 && every.has("nut_standoff");
  return [...(at.passes ? ON_PASSING : []), ...(room ? ["nut_standoff"] : [])];
}

/** Every length along the axis that can be drawn. */
function dimensions(at, said, wide) {
  const spans = spansOf(at);
  if (wide && said.stack.nut_standoff) spans.nut_standoff = spans.nuts;
  return Object.entries(spans).map(([slug, [x1, x2, from1, from2]]) => {
    const word = said.words[`${slug}.name`] || (said.words[slug] ?? slug);
    const [words, mark] = textAndMark(slug, said);
    const letter = mark ? said.words[`letter.${mark}`] : "";
    return { slug, x1, x2, text: words || word, from1, from2, ends: endsOf(slug, said), mark, word,
             letter };
  });
}

function endsOf(slug, { words, lit, hook, thumb }) {
  const first = words[`${slug}.first`] ?? "", last = words[`${slug}.last`] ?? "";
  return slug === lit ? [hook || first, thumb || last] : [first, last];
}

/** The customer's text, else the stack's value; and how it is known. */
function textAndMark(slug, { stack, readings, marks }) {
  const [key, markKey] = VALUES[slug] ?? ["", ""];
  const value = valueOf(stack, key);
  const own = value === null ? "" : lengthText(value, stack.system || "inch").replace(/ \w+$/, "");
  const words = readings[slug] || own;
  return [words, words ? marks[markKey] ?? "" : ""];
}

/** One value of the stack; the tail is the length less what lies before the strut's end. */
function valueOf(stack, key) {
  if (key === "tail" && !stack.tail) {
    const { length, x_strut_aft: strut } = stack;
    return length && strut ? (toNm(length) - toNm(strut)) / 1e6 : null;
  }
  const value = stack[key] ?? "";
  return value === "" ? null : value;
}

/** Two paper stations and the radii there, by answer. */
function spansOf(at) {
  const thread = 0.375 * at.unit, nose = 0.28 * at.unit, one = 0.55 * at.unit;
  const hubBack = 0.8 * at.unit, hub = at.unit;
  const spans = {
    gap_now: [at.strutAft, at.hubFront, at.barrel, at.hub],
    hub_length: [at.hubFront, at.hubBack, at.hub, hubBack],
    tail_to_thread: [at.strutAft, at.threadEnd, at.barrel, thread],
    face_to_strut_aft: [at.face, at.strutAft, at.flange, at.barrel],
    face_to_strut_fwd: [at.face, at.strutFwd, at.flange, at.barrel],
    strut_barrel: [at.strutFwd, at.strutAft, at.barrel, at.barrel],
    bearing_length: [at.strutFwd, at.strutAft, at.shell, at.shell],
    old_length_face_to_thread: [at.face, at.threadEnd, at.flange, thread],
    old_length_overall: [at.frontTip, at.tip, at.passes ? thread : at.flange, nose],
    nuts: [at.hubBack, at.threadEnd, hubBack, thread],
    pin_end: [at.threadEnd, at.tip, thread, nose],
    gland_position: [at.face, at.gland - 0.35 * at.unit, at.flange, 1.12 * at.unit],
  };
  if (!at.passes) {
    spans.hub_length_coupling = [at.face, at.hubEnd, at.flange, hub];
    spans.flange_thickness = [at.face - one, at.face, at.flange, at.flange];
    return spans;
  }
  spans.gearbox_through = [at.face, at.gearRight, at.flange, 0.78 * at.flange + 1.2];
  spans.front_length = spans.front_end = [at.frontTip, at.face, thread, at.flange];
  spans.hub_length_coupling = [at.hubEnd, at.face, hub, at.flange];
  spans.flange_thickness = [at.face, at.face + one, at.flange, at.flange];
  return spans;
}

/** The one datum: a filled triangle standing on the coupling face (ISO 5459's sign). */
function datum(at, size, words) {
  const y = at.axis - at.flange, small = 0.8 * size, half = textWidth(words.datum, small) / 2;
  return [
    polygon([[at.face, y - 0.3], [at.face - 1.2, y - 2.4], [at.face + 1.2, y - 2.4]], "arrow"),
    text(Math.max(at.face, half + 0.8), y - 3.2, words.datum, small),
  ];
}

function litShapes(asked, every, y) {
  const { at, slug, size } = asked;
  // A view from above is not on every drawing.
  if (slug === "boat_name_and_station" && at.axis < ABOVE + PLAN_HIGH) return [];
  if (isShown(slug)) return drawShown(asked, y);
  if (!every.has(slug)) return [];
  return drawLit(every.get(slug), { axis: at.axis, y, size, width: at.width });
}

/** Parts first, then each slug's shapes together, plain before ends. */
function inGroups(shapes, asked) {
  const order = new Map(["", ...Object.keys(VALUES), ...asked].map((slug, at) => [slug, at]));
  const rank = (shape) => order.get(shape.slug) ?? 99;
  const inside = (shape) => (shape.part === "ends" ? 1 : 0);
  return [...shapes].sort((a, b) => rank(a) - rank(b) || inside(a) - inside(b));
}

function titleOf(lit, words, passes) {
  const title = words[passes ? "title.through" : "title"];
  return lit ? filled(words["title.lit"], { line: title, name: words[`${lit}.name`] }) : title;
}

function describe(every, { words }, { station, passes, shorten }) {
  const listed = [...every.values()]
    .filter((d) => d.text !== d.word && [...ALWAYS, ...ON_PASSING].includes(d.slug))
    .map((d) => filled(words[d.mark ? "said.mark" : "said"], {
      name: d.word, text: d.text, mark: d.mark && words[`mark.${d.mark}`].split(" (")[0],
    }))
    .join("; ");
  return filled(words.description, {
    first: words[passes ? "first.through" : "first"],
    scale: words[shorten ? "shortened" : "to_scale"],
    twin: isOfSeveral(station) ? filled(words.twin, { station: words[station] }) : "",
    listed: listed && ` ${listed[0].toUpperCase()}${listed.slice(1).toLowerCase()}.`,
  });
}

/** A sentence with its places filled: "{name} shown". */
function filled(sentence, values) {
  return sentence.replace(/\{(\w+)\}/g, (_, place) => values[place]);
}
