// Dimension lines after ISO 129-1, set out in rows so that no two texts meet.
// The same as intake/domain/dimensions.py. A dimension: {slug, x1, x2, text, from1, from2, ends,
// mark, word, letter}.
import { BOLD, ellipse, line, polygon, text, textWidth } from "./shapes.js";

const ARROW = 2.6, OUTSIDE = 3.6, LETTER_BOX = 3.6; // paper mm
const MARKS = ["measured", "computed", "assumed", "table", "desk"];

/** Give every dimension a row and its text a place; also the number of rows used. */
export function place(dimensions, { size, width }) {
  const edges = dimensions.flatMap((d) => [d.x1, d.x2]);
  const taken = [], placed = [];
  const shortestFirst = [...dimensions].sort((a, b) => a.x2 - a.x1 - (b.x2 - b.x1) || a.x1 - b.x1);
  for (const d of shortestFirst) placed.push(firstFree(d, taken, edges, size, width));
  return { placed, rows: taken.length };
}

function firstFree(d, taken, edges, size, width) {
  const rows = taken.length + 1;
  for (let row = 0; row < rows; row += 1) {
    if (row === taken.length) taken.push([]);
    for (const [left, right, inside] of candidates(d, size)) {
      const from = Math.min(left, d.x1), to = Math.max(right, d.x2);
      const crossed = !inside && edges.some((edge) => left < edge && edge < right);
      if (from < 0.6 || to > width - 0.6 || (crossed && row < taken.length - 1)) continue;
      if (taken[row].every(([a, b]) => to <= a + 0.01 || from >= b - 0.01)) {
        taken[row].push([from, to]);
        return { dimension: d, row, textX: left, inside };
      }
    }
  }
  taken[taken.length - 1].push([d.x1, d.x2]);
  const wide = textWidth(d.text, 1) * size;
  const left = Math.min(Math.max((d.x1 + d.x2 - wide) / 2, 0.6), width - wide - 0.6);
  return { dimension: d, row: taken.length - 1, textX: left, inside: true };
}

function candidates(d, size) {
  const wide = textWidth(d.text, 1) * size + (d.mark ? LETTER_BOX + 0.8 : 0);
  const span = d.x2 - d.x1, places = [];
  if (wide + 1.2 <= span) {
    const left = d.x1 + (span - wide) / 2;
    places.push([left, left + wide, true]);
  }
  places.push([d.x1 - OUTSIDE - wide, d.x1 - OUTSIDE, false]);
  places.push([d.x2 + OUTSIDE, d.x2 + OUTSIDE + wide, false]);
  return places;
}

/** One dimension: extension lines, line, arrow heads, text and its letter. */
export function draw(placed, { axis, y, size }) {
  const d = placed.dimension, kind = d.mark === "assumed" ? "dashed" : "dimension";
  const shapes = [
    line(d.x1, axis + d.from1 + 0.9, d.x1, y + 1.2, "dimension"),
    line(d.x2, axis + d.from2 + 0.9, d.x2, y + 1.2, "dimension"),
    ...lineAndArrows(placed, y, kind),
  ];
  const right = placed.textX + textWidth(d.text, 1) * size;
  if (d.mark) {
    shapes.push(text(right, y - 1, d.text, size, "end"),
                ...letterBox(right + 0.7, y - 0.9, d.letter, size));
  } else {
    shapes.push(text((placed.textX + right) / 2, y - 1, d.text, size));
  }
  return shapes.map((shape) => ({ ...shape, slug: d.slug }));
}

function lineAndArrows(placed, y, kind) {
  const d = placed.dimension, roomy = d.x2 - d.x1 > 2 * ARROW + 0.6;
  const out1 = roomy ? d.x1 : d.x1 - OUTSIDE + 0.4, out2 = roomy ? d.x2 : d.x2 + OUTSIDE - 0.4;
  const way = roomy ? 1 : -1;
  const shapes = [line(out1, y, out2, y, kind), arrow(d.x1, y, way), arrow(d.x2, y, -way)];
  if (!placed.inside && placed.textX < d.x1) {
    shapes.push(line(placed.textX, y, out1, y, kind));
  } else if (!placed.inside) {
    shapes.push(line(out2, y, placed.textX + textWidth(d.text, 1) * 4.4, y, kind));
  }
  return shapes;
}

/** A filled arrow head (15 degrees) whose tip is at x; `way` 1 has its body to the right. */
function arrow(x, y, way) {
  const back = x + way * ARROW;
  return polygon([[x, y], [back, y - ARROW * 0.15], [back, y + ARROW * 0.15]], "arrow");
}

/** The points of an arrow head standing upright; `way` 1 has its body below the tip. */
export function arrowUp(x, y, way) {
  const back = y + way * ARROW;
  return [[x, y], [x - ARROW * 0.15, back], [x + ARROW * 0.15, back]];
}

function letterBox(x, y, letter, size) {
  const top = y - 0.84 * size + 0.2, right = x + LETTER_BOX;
  return [
    polygon([[x, top], [right, top], [right, y + 0.5], [x, y + 0.5]], "thin", "paper"),
    text(x + LETTER_BOX / 2, y - 0.15, letter, 0.76 * size),
  ];
}

/** The dimension being asked: a tape between the two ends, a hook here and a thumb there. */
export function drawLit(d, { axis, y, size, width }) {
  return [
    line(d.x1, axis - d.from1, d.x1, axis + d.from1, "lit"),
    line(d.x2, axis - d.from2, d.x2, axis + d.from2, "lit"),
    line(d.x1, axis + d.from1, d.x1, y - 1.6, "tape"),
    line(d.x2, axis + d.from2, d.x2, y - 1.6, "tape"),
    ...tape(d.x1, d.x2, y),
    polygon(ellipse(d.x2 + 1.75, y + 0.5, 1.75, 2.7), "lit", "paper"),
    polygon(ellipse(d.x2 + 1.35, y - 0.7, 0.8, 1.1), "tape", ""),
    ...endWords(d, y + 6.6, size, width),
  ].map((shape) => ({ ...shape, slug: d.slug, part: "ends" }));
}

/** A tape's blade from its hook at x1 to x2, lit. */
export function tape(x1, x2, y) {
  const half = 1.5, step = 1.6;
  const shapes = [
    polygon([[x1, y - half], [x2, y - half], [x2, y + half], [x1, y + half]], "tape", ""),
  ];
  for (let mark = 1; mark <= Math.trunc((x2 - x1) / step); mark += 1) {
    const x = x1 + mark * step;
    if (x < x2 - 0.2) {
      shapes.push(line(x, y - half, x, y - half + (mark % 4 === 0 ? 1.7 : 0.9), "tape"));
    }
  }
  shapes.push(polygon([[x1, y - 3], [x1, y + 1.9], [x1 - 1, y + 1.9], [x1 - 1, y - 3]],
                      "lit", "paper"));
  return shapes;
}

/** The two ends in words, set apart; and below them the name and number of the dimension. */
function endWords(d, y, size, width) {
  const [first, second] = d.ends;
  const asked1 = textWidth(first, size) * BOLD, asked2 = textWidth(second, size) * BOLD;
  const middle = (d.x1 + d.x2) / 2, apart = 2.4;
  // Longer words than the drawing is wide are set smaller, both alike.
  const fits = asked1 + asked2 ? Math.min(1, (width - 1.6 - apart) / (asked1 + asked2)) : 1;
  const wide1 = asked1 * fits, wide2 = asked2 * fits, small = size * fits;
  let left = Math.min(d.x1 - wide1 / 2, middle - apart / 2 - wide1);
  let right = Math.max(d.x2 - wide2 / 2, middle + apart / 2);
  right = Math.min(right, width - 0.8 - wide2);
  left = Math.max(Math.min(left, right - apart - wide1), 0.8);
  const named = d.text === d.word || !d.word ? d.text : `${d.word} ${d.text}`;
  const half = textWidth(named, size) / 2;
  return [
    text(left, y, first, small, "start", "lit"),
    text(Math.max(right, left + wide1 + apart), y, second, small, "start", "lit"),
    text(Math.min(Math.max(middle, half + 0.8), width - half - 0.8), y + size + 1.6, named, size),
  ];
}

/** What the letters mean, only those in use. */
export function key(marks, words) {
  return MARKS.filter((mark) => marks.has(mark))
    .map((mark) => `${words[`letter.${mark}`]} ${words[`mark.${mark}`]}`)
    .join(" · ");
}
