// The parts of the drive line as line work, from the gearbox aft to the nose of the shaft.
// The same shapes as intake/domain/elevation.py.
import { gearbox } from "./gearbox.js";
import { curve, ellipse, hatch, heightOf, line, path, polygon, rectangle } from "./shapes.js";

const HULL_BELOW = 13.6, HULL_ABOVE = 16.5; // paper mm from the axis
export const WATER_DOWN = 16.5;

/** Every part, back to front; `word` is "engine", for a drive whose engine is seen. */
export function elevation(at, word) {
  return [
    ...hullAndWater(at), ...logAndGland(at), ...strut(at), ...propeller(at), ...shaft(at),
    ...gearbox(at, word), ...(at.passes ? reversedCoupling(at) : coupling(at)), ...nuts(at),
    line(Math.min(at.frontTip, at.gearLeft) - 2.4, at.axis, at.tip + 3.2, at.axis, "axis"),
  ];
}

/** Flat below the engine, up past the log, flat again above the propeller. */
function hull(at) {
  const low = at.axis + HULL_BELOW, top = at.axis - HULL_ABOVE;
  const knee = at.axis - Math.max(2.1 * at.unit, 9);
  const middle = (at.log + at.logEnd) / 2, reach = at.passes ? 11 : 15;
  const a = Math.max(middle - reach, 1), b = Math.min(middle + reach, at.strutAft);
  const half = 0.5 * (b - a);
  const rise = curve([a, low], [a + half, low], [b - half, knee + 1], [b, knee], 24);
  const run = curve([b, knee], [b + 9, knee - 1], [at.width - 20, top], [at.width, top], 10);
  return [[0, low], ...rise, ...run.slice(1)];
}

function hullAndWater(at) {
  const skin = hull(at), bottom = at.axis + WATER_DOWN;
  return [
    polygon([...skin, [at.width, bottom], [0, bottom]], "thin", "water"),
    path(skin, "outline"),
    path(skin.map(([x, y]) => [x, y - 1.3]), "thin"),
  ];
}

function logAndGland(at) {
  const y = at.axis, tube = 0.78 * at.unit, hose = 0.95 * at.unit, nut = 1.12 * at.unit;
  const end = at.log + Math.min(1.2 * at.unit, (at.logEnd - at.log) / 2);
  return [
    rectangle(at.log, y - tube, at.logEnd, y + tube),
    ...walls(at, at.log, at.logEnd, at.radius + 0.55 * (tube - at.radius), tube),
    rectangle(at.gland, y - hose, end, y + hose),
    ...[at.gland + 0.55 * at.unit, end - 0.35 * at.unit].map(
      (x) => line(x, y - hose - 0.5, x, y + hose + 0.5)),
    rectangle(at.gland - 0.35 * at.unit, y - nut, at.gland + 0.1 * at.unit, y + nut),
  ];
}

/** A bored part's cut walls, above and below the shaft, hatched. */
function walls(at, x1, x2, inner, outer) {
  return [[-outer, -inner], [inner, outer]].flatMap(([top, bottom]) => [
    rectangle(x1, at.axis + top, x2, at.axis + bottom),
    ...hatch(x1, at.axis + top, x2, at.axis + bottom),
  ]);
}

function strut(at) {
  const y = at.axis, long = at.strutAft - at.strutFwd, skin = hull(at);
  const a = at.strutFwd + 0.24 * long, b = at.strutAft - 0.16 * long;
  const c = b - 0.2 * long, d = a - 0.2 * long;
  return [
    polygon([[a, y - at.barrel], [b, y - at.barrel], [c, heightOf(skin, c)],
             [d, heightOf(skin, d)]], "outline", "metal"),
    ...walls(at, at.strutFwd, at.strutAft, at.shell, at.barrel),
    ...[[-at.shell, -at.radius], [at.radius, at.shell]].map(([top, bottom]) =>
      rectangle(at.strutFwd, y + top, at.strutAft, y + bottom, "outline", "dark")),
  ];
}

function propeller(at) {
  const y = at.axis, front = at.hub, back = 0.8 * at.unit;
  const x = at.hubFront + 0.86 * (at.hubBack - at.hubFront);
  return [
    blade(at, -1),
    blade(at, 1),
    polygon([[at.hubFront, y - front], [at.hubBack, y - back], [at.hubBack, y + back],
             [at.hubFront, y + front]], "outline", "paper"),
    line(x, y - 0.82 * at.unit, x, y + 0.82 * at.unit, "thin"),
  ];
}

/** The root of one blade, ended by a freehand break line (ISO 128): blades go on beyond. */
function blade(at, sign) {
  const y = at.axis, x1 = at.hubFront, long = at.hubBack - at.hubFront;
  const root = 0.88 * at.unit, reach = Math.min(9, 2.4 * at.unit);
  const a = [x1 + 0.2 * long, y + sign * root];
  const b = [x1 + 0.78 * long, y + sign * root * 0.95];
  const c = [x1 + 1.02 * long, y + sign * (root + reach * 0.5)];
  const d = [x1 + 0.86 * long, y + sign * (root + reach)];
  const e = [x1 + 0.1 * long, y + sign * (root + reach * 0.86)];
  const trailing = curve(b, c, c, d, 8);
  const tip = curve(d, [x1 + 0.6 * long, d[1] - sign * 2.4],
                    [x1 + 0.4 * long, d[1] + sign * 1.2], e, 8);
  const leading = curve(e, [x1 - 0.02 * long, y + sign * (root + reach * 0.4)], a, a, 8);
  return polygon([a, b, ...trailing, ...tip, ...leading], "thin", "metal");
}

function shaft(at) {
  const y = at.axis, r = at.radius, shapes = [];
  const start = at.passes ? at.frontTip + 1.6 * at.unit : at.face, stop = at.hubFront;
  const stretches = at.breaks ? [[start, at.breaks[0]], [at.breaks[1], stop]] : [[start, stop]];
  for (const [x1, x2] of stretches) {
    shapes.push(rectangle(x1, y - r, x2, y + r, "word", "paper"),
                line(x1, y - r, x2, y - r), line(x1, y + r, x2, y + r));
  }
  if (at.breaks) {
    const [x1, x2] = at.breaks;
    shapes.push(rectangle(x1, y - r - 0.3, x2, y + r + 0.3, "word", "water"),
                barBreak(x1, y, r), barBreak(x2, y, r));
  }
  const big = Math.max(at.taperBig, at.hubFront), small = at.taperSmall;
  for (const sign of [-1, 1]) {
    shapes.push(line(at.hubFront, y + sign * r, big, y + sign * r, "dashed"),
                line(big, y + sign * r, small, y + sign * r * 0.83, "dashed"));
  }
  return shapes;
}

/** The break line of a round bar: an S across it. */
function barBreak(x, y, r) {
  return path(curve([x, y - r - 0.4], [x - 1.6, y - r / 3], [x + 1.6, y + r / 3],
                    [x, y + r + 0.4], 12));
}

function coupling(at) {
  const y = at.axis, hub = at.unit, x = at.face + 0.5 * at.unit, end = at.hubEnd;
  return [
    polygon([[at.face, y - at.flange], [x, y - at.flange], [x, y - hub - 0.6], [x + 0.6, y - hub],
             [end - 0.4, y - hub], [end, y - hub + 0.4], [end, y + hub - 0.4],
             [end - 0.4, y + hub], [x + 0.6, y + hub], [x, y + hub + 0.6], [x, y + at.flange],
             [at.face, y + at.flange]], "outline", "paper"),
    ...bolts(at, at.face - 0.55 * at.unit, x),
    ...[-1, 1].map((sign) =>
      line(at.face, y + sign * at.radius, end, y + sign * at.radius, "dashed")),
  ];
}

function reversedCoupling(at) {
  const y = at.axis, hub = at.unit, x = at.face - 0.5 * at.unit, front = at.hubEnd;
  const mid = front - 0.85 * at.unit;
  return [
    rectangle(front, y - hub, x, y + hub),
    rectangle(x, y - at.flange, at.face, y + at.flange),
    ...bolts(at, x, at.face + 0.55 * at.unit),
    ...[-1, 1].map((sign) =>
      line(at.face, y + sign * at.radius, front, y + sign * at.radius * 0.8, "dashed")),
    ...nut(at, mid, front, 0.72 * at.unit),
    rectangle(at.frontTip, y - 0.36 * at.unit, mid, y + 0.36 * at.unit),
  ];
}

function bolts(at, x1, x2) {
  const head = 0.3 * at.unit;
  return [-1, 1].flatMap((sign) => {
    const y = at.axis + sign * 0.76 * at.flange;
    return [
      rectangle(x1 - head, y - head, x1, y + head),
      rectangle(x2, y - head, x2 + head, y + head),
      line(x1 - head - 0.8, y, x2 + head + 0.8, y, "axis"),
    ];
  });
}

/** A hexagon nut seen on its corners. */
function nut(at, x1, x2, half) {
  return [
    rectangle(x1, at.axis - half, x2, at.axis + half),
    ...[-1, 1].map((sign) =>
      line(x1, at.axis + (sign * half) / 2, x2, at.axis + (sign * half) / 2, "thin")),
  ];
}

function nuts(at) {
  const y = at.axis, n = at.threadEnd - at.hubBack, thread = 0.375 * at.unit;
  const shapes = [
    rectangle(at.hubBack, y - thread, at.threadEnd, y + thread),
    ...[-0.8 * thread, 0.8 * thread].map((root) =>
      line(at.hubBack, y + root, at.threadEnd, y + root, "thin")),
    ...nut(at, at.hubBack, at.hubBack + 0.52 * n, 0.68 * at.unit),
    ...nut(at, at.hubBack + 0.52 * n, at.hubBack + 0.87 * n, 0.66 * at.unit),
  ];
  if (at.tip - at.threadEnd > 0.3) {
    const hole = Math.min(0.28 * (at.tip - at.threadEnd), 0.7);
    shapes.push(
      rectangle(at.threadEnd, y - 0.28 * at.unit, at.tip, y + 0.28 * at.unit),
      polygon(ellipse((at.threadEnd + at.tip) / 2, y, hole, hole, 12), "thin", "paper"));
  }
  return shapes;
}
