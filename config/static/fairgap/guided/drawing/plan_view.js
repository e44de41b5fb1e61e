// Which shaft of several: the boat seen from above, bow to the left as in the drawing below it.
import { curve, ellipse, line, path, polygon, text } from "./shapes.js";

export const PLAN_HIGH = 11.5; // paper mm the view takes, above the drawing
const LEFT = 30, RIGHT = 66, MIDDLE = 5.6, HALF = 4.6;
// Facing the bow, which lies to the left, port is the lower side of the paper.
const SHAFTS = { starboard: -2.2, centre: 0, port: 2.2 };

/** Does this station belong to a boat of several shafts? */
export function isOfSeveral(station) {
  return Object.hasOwn(SHAFTS, station);
}

/** The boat from above with her shafts; `station` is drawn full and named. */
export function planView(station, words) {
  const shapes = [path(deck(), "outline"), text(LEFT - 1.4, MIDDLE + 1.1, words.bow, 3.4, "end")];
  for (const [name, off] of shaftsOf(station)) {
    shapes.push(...shaft(MIDDLE + off, name === station ? "outline" : "dashed"));
  }
  if (isOfSeveral(station)) {
    shapes.push(text(RIGHT + 3.4, wordY(station), words[station], 3.4, "start"));
  }
  return shapes;
}

/** The asked shaft lit; both of a pair, each with its side, where none is named yet. */
export function litStation(station, words) {
  return shaftsOf(station)
    .filter(([name]) => name === station || !isOfSeveral(station))
    .flatMap(([name, off]) => [
      ...shaft(MIDDLE + off, "lit"),
      text(RIGHT + 3.4, wordY(name), words[name], 3.4, "start", "lit"),
    ]);
}

function shaftsOf(station) {
  return Object.entries(SHAFTS).filter(([name]) => name !== "centre" || station === "centre");
}

function wordY(name) {
  return MIDDLE + 1.1 + 1.25 * SHAFTS[name];
}

function deck() {
  const side = curve([RIGHT, MIDDLE - HALF * 0.86], [LEFT + 18, MIDDLE - HALF * 1.05],
                     [LEFT + 7, MIDDLE - HALF], [LEFT, MIDDLE], 16);
  const other = side.map(([x, y]) => [x, 2 * MIDDLE - y]).reverse();
  return [...side, ...other.slice(1), side[0]];
}

function shaft(y, kind) {
  const x = RIGHT - 1;
  return [line(LEFT + 20, y, x, y, kind), polygon(ellipse(x + 0.6, y, 0.5, 1.3, 12), kind, "paper")];
}
