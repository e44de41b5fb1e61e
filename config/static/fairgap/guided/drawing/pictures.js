// Pictures of the usual mistakes. They are drawn once, in intake/domain/mistake_pictures.py; the
// server hands them over as rows of shapes, in the page's language, with the questions.
import { line, polygon, text } from "./shapes.js";
import { toSvg } from "./svg.js";

let kept = { pictures: {}, of: {} };

/**
 * Keep what the server gave.
 * @param {{pictures: Object<string, object>, of: Object<string, string[]>}} given
 */
export function keepPictures(given) {
  kept = given;
}

/** The names of the pictures that belong to a question, the commonest mistake first. */
export function mistakesOf(slug) {
  return kept.of[slug] ?? [];
}

/** One picture as an SVG element, or null when there is none of that name. */
export function mistakePicture(name) {
  if (!Object.hasOwn(kept.pictures, name)) return null;
  const picture = kept.pictures[name];
  return toSvg({
    shapes: picture.shapes.map(fromRow), widthMm: picture.width, heightMm: picture.height,
    title: picture.title, description: picture.description, lit: "",
  });
}

/** A shape from its row, as intake/domain/shape_rows.py writes it. */
export function fromRow([is, ...row]) {
  if (is === "L") return line(...row);
  if (is === "T") return text(...row);
  const [flat, kind, fill, closed] = row;
  const points = [];
  for (let at = 0; at < flat.length; at += 2) points.push([flat[at], flat[at + 1]]);
  return polygon(points, kind, fill, closed === 1);
}
