// The gap as a picture: where the propeller will stand, blurred by how sure we are.
// The same shapes as intake/domain/fog.py.
import { likelyRange } from "./gap_range.js";
import { lengthText } from "./lengths.js";
import { hatch, line, polygon, rectangle, text, textWidth } from "./shapes.js";
import { asMm } from "./stations.js";
import { toSvg } from "./svg.js";

const WIDTH = 110, LEFT = 16, RIGHT = 106, TOP = 11, AXIS = 27, BOTTOM = 43;

/** Strut and propeller hub at the predicted gap, as an SVG element; words as the drive line's. */
export function gapPicture(stack, words) {
  return toSvg(gapShapes(stack, words));
}

/** The same as shapes: dark fog holds 2 of 3 outcomes, pale fog 19 of 20. */
export function gapShapes(stack, words) {
  const low = asMm(stack, "gap_min") || 12.7, high = asMm(stack, "gap_max") || 25.4;
  const goal = asMm(stack, "gap_goal") || (low + high) / 2;
  const gap = asMm(stack, "predicted_gap"), u = asMm(stack, "u_mm") || 0;
  const told = { stands: gap === null ? goal : gap, u, known: gap !== null, low, high, words,
                 system: stack.system || "inch" };
  const longest = Math.max(1.45 * high, told.stands + 2.4 * u, 1), scale = (RIGHT - LEFT) / longest;
  const x = (mm) => LEFT + Math.min(Math.max(mm, -0.06 * longest), longest) * scale;
  return {
    shapes: [
      ...band([low, goal, high], x, told),
      ...fog(x, told, fogEnds(stack, told)),
      ...strut(),
      ...hub(x(told.stands), words),
      line(2, AXIS, WIDTH - 2, AXIS, "axis"),
      ...said(x(told.stands), told),
    ],
    widthMm: WIDTH, heightMm: 58.5, title: words["gap.title"], description: describe(told), lit: "",
  };
}

/** Least, goal and most, each named over its line; names stay apart on a small picture. */
function band(real, x, { system, words }) {
  const shapes = [rectangle(x(real[0]), TOP, x(real[2]), BOTTOM, "word", "band")];
  let right = 0;
  ["least", "goal", "most"].forEach((name, number) => {
    const place = x(real[number]), shown = fair(real[number], system), word = words[`gap.${name}`];
    shapes.push(line(place, TOP - 1, place, BOTTOM, name === "goal" ? "dashed" : "thin"));
    const half = Math.max(textWidth(shown, 3.6), textWidth(word, 3.6)) / 2;
    const centre = Math.min(Math.max(place, right + half + 1.2), WIDTH - 1 - half);
    right = centre + half;
    shapes.push(text(centre, TOP - 6.2, word, 3.6), text(centre, TOP - 2.2, shown, 3.6));
  });
  return shapes;
}

/** An edge of the band, exactly. */
function fair(mm, system) {
  return system === "mm" ? `${Number(mm.toPrecision(4))} mm` : length(mm, system, {});
}

/** Where the pale fog ends: two standard uncertainties, or as far as a likely slip reaches. */
function fogEnds(stack, { stands, u }) {
  const between = stack.explained?.length ? likelyRange(stack) : null;
  return between ?? [stands - 2 * u, stands + 2 * u];
}

/** Two bands of fog, hatched as well as tinted, so that it shows without colour. */
function fog(x, { stands, u }, ends) {
  if (u <= 0) return [];
  const bands = [["fog-2", ends], ["fog-1", [stands - u, stands + u]]];
  return [
    ...bands.map(([name, [low, high]]) =>
      rectangle(x(low), TOP + 4, x(high), BOTTOM - 4, "word", name)),
    ...hatch(x(ends[0]), TOP + 4, x(ends[1]), BOTTOM - 4, 2),
  ];
}

function strut() {
  const half = 10.5, bore = 5.5;
  return [
    ...[[-half, -bore], [bore, half]].flatMap(([top, bottom]) => [
      rectangle(2, AXIS + top, LEFT, AXIS + bottom),
      ...hatch(2, AXIS + top, LEFT, AXIS + bottom, 1.6),
    ]),
    line(LEFT, AXIS - half, LEFT, AXIS + half),
    ...[AXIS - bore, AXIS + bore].map((y) => line(2, y, WIDTH - 2, y)),
  ];
}

function hub(front, words) {
  const half = 10, end = WIDTH - 2, wide = textWidth(words["gap.hub"], 3.4);
  return [
    line(front, AXIS - half, front, AXIS + half, "lit"),
    line(front, AXIS - half, end, AXIS - half * 0.88),
    line(front, AXIS + half, end, AXIS + half * 0.88),
    text(end - wide / 2 - 1, AXIS + 14, words["gap.hub"], 3.4),
    text(9, AXIS + 14, words["gap.strut"], 3.4),
  ];
}

function said(front, { stands, u, known, system, words }) {
  const y = BOTTOM + 4;
  const shapes = [
    line(LEFT, BOTTOM - 4, LEFT, y + 1, "dimension"),
    line(front, AXIS + 10, front, y + 1, "dimension"),
    line(LEFT, y, front, y, "dimension"),
  ];
  if (front - LEFT > 6) shapes.push(head(LEFT, y, 1), head(front, y, -1));
  let told = known ? length(stands, system, words) : words["gap.unknown"];
  if (known && u > 0) {
    told = filled(words["gap.doubt"], { gap: told, doubt: length(u, system, words) });
  }
  if (known && stands <= 0) told = words["gap.touch"];
  const wide = textWidth(told, 4.2);
  const middle = Math.min(Math.max((LEFT + front) / 2, wide / 2 + 1), WIDTH - 1 - wide / 2);
  return [...shapes, text(middle, y + 6, told, 4.2)];
}

function head(x, y, way) {
  return polygon([[x, y], [x + way * 2.6, y - 0.4], [x + way * 2.6, y + 0.4]], "arrow");
}

/** To the nearest 1/32 in or 0.5 mm: a picture promises no more. */
function length(mm, system, words) {
  if (system === "mm") return `${(halfToEven(mm * 2) / 2).toString()} mm`;
  const marks = Math.max(halfToEven((mm / 25.4) * 32), 0);
  return mm > 0 && marks === 0 ? words["gap.under"] : lengthText(marks * 0.79375, "inch");
}

function halfToEven(value) {
  const low = Math.floor(value), rest = value - low;
  return rest > 0.5 || (rest === 0.5 && low % 2 !== 0) ? low + 1 : low;
}

function describe({ stands, u, known, low, high, system, words }) {
  const band = filled(words["gap.fair"], { least: fair(low, system), most: fair(high, system) });
  if (!known) return filled(words["gap.cannot"], { fair: band });
  const inside = low <= stands - 2 * u && stands + 2 * u <= high;
  return filled(words["gap.expected"], {
    gap: length(stands, system, words), doubt: length(u, system, words), fair: band,
    verdict: words[inside ? "gap.inside" : "gap.outside"],
  });
}

/** A sentence with its places filled. */
function filled(sentence, values) {
  return sentence.replace(/\{(\w+)\}/g, (_, place) => values[place]);
}
