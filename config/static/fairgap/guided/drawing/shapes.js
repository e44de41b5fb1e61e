// What a drawing is made of: lines, polygons and texts in paper millimetres, y downwards.
// The same shapes as intake/domain/shapes.py; one set of vectors runs against both.

/**
 * @typedef {[number, number]} Point
 * @typedef {{is: "line"|"polygon"|"text", kind: string, slug: string, part: string,
 *   x1?: number, y1?: number, x2?: number, y2?: number,
 *   points?: Point[], fill?: string, closed?: boolean,
 *   x?: number, y?: number, text?: string, size?: number, anchor?: string}} Shape
 */

/** A straight line. */
export function line(x1, y1, x2, y2, kind = "outline") {
  return { is: "line", x1, y1, x2, y2, kind, slug: "", part: "plain" };
}

/** A run of points, closed unless said otherwise. */
export function polygon(points, kind = "outline", fill = "", closed = true) {
  return { is: "polygon", points, kind, fill, closed, slug: "", part: "plain" };
}

/** Words at a baseline. */
export function text(x, y, words, size = 3.6, anchor = "middle", kind = "word") {
  return { is: "text", x, y, text: words, size, anchor, kind, slug: "", part: "plain" };
}

export function rectangle(x1, y1, x2, y2, kind = "outline", fill = "paper") {
  return polygon([[x1, y1], [x2, y1], [x2, y2], [x1, y2]], kind, fill);
}

/** An open run of points. */
export function path(points, kind = "thin") {
  return polygon(points, kind, "", false);
}

/** A cubic Bézier as points, ends included. */
export function curve(a, b, c, d, steps = 24) {
  const points = [];
  for (let step = 0; step <= steps; step += 1) {
    const t = step / steps;
    const p = (1 - t) ** 3, q = 3 * t * (1 - t) ** 2, r = 3 * t * t * (1 - t), s = t ** 3;
    points.push([
      p * a[0] + q * b[0] + r * c[0] + s * d[0],
      p * a[1] + q * b[1] + r * c[1] + s * d[1],
    ]);
  }
  return points;
}

/** A closed ellipse as points. */
export function ellipse(x, y, rx, ry, steps = 20) {
  return Array.from({ length: steps }, (_, step) => {
    const turn = (2 * Math.PI * step) / steps;
    return [x + rx * Math.cos(turn), y + ry * Math.sin(turn)];
  });
}

/** Lines at 45 degrees in a box: a cut surface (ISO 128-3). */
export function hatch(x1, y1, x2, y2, pitch = 1.1) {
  const high = y2 - y1, lines = [];
  for (let c = x1 - high + pitch; c < x2 - 1e-9; c += pitch) {
    const left = Math.max(c, x1), right = Math.min(c + high, x2);
    lines.push(line(left, y2 - (left - c), right, Math.max(y2 - (right - c), y1), "hatch"));
  }
  return lines;
}

/** y of a left-to-right run of points at x. */
export function heightOf(points, x) {
  for (let at = 1; at < points.length; at += 1) {
    const [x1, y1] = points[at - 1], [x2, y2] = points[at];
    if (x1 <= x && x <= x2 && x2 > x1) return y1 + ((y2 - y1) * (x - x1)) / (x2 - x1);
  }
  const last = points[points.length - 1];
  return x > last[0] ? last[1] : points[0][1];
}

// Widths in em of a wide sans serif, so that a narrower one always has room.
const EM = new Map();
for (const [letters, wide] of [["ijl.,:;'|I ()/", 0.32], ["rtf", 0.41], ["mwMW", 0.95],
                               ["≈⌀—", 0.9], ["cksvxyz", 0.56]]) {
  for (const letter of letters) EM.set(letter, wide);
}
export const BOLD = 1.13;

/** Split off every fraction, so that it can be set as one: [piece, plain|over|under]. */
export function runs(words) {
  const pieces = [];
  let at = 0;
  for (const found of words.matchAll(/(\d+)\/(\d+)/g)) {
    let before = words.slice(at, found.index);
    if (/\d $/.test(before)) before = before.slice(0, -1);
    pieces.push([before, "plain"], [found[1], "over"], [found[2], "under"]);
    at = found.index + found[0].length;
  }
  pieces.push([words.slice(at), "plain"]);
  return pieces.filter(([piece]) => piece);
}

/** About how wide a text runs, in mm, for a plain sans serif of `size` mm. */
export function textWidth(words, size) {
  let total = 0;
  for (const [piece, role] of runs(words)) {
    let wide = 0;
    for (const letter of piece) wide += EM.get(letter) ?? 0.63;
    total += role === "plain" ? wide : 0.66 * wide + (role === "under" ? 0.17 : 0);
  }
  return total * size;
}
