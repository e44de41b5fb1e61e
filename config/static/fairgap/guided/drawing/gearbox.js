// The gearbox of each drive as line work, and the way the power takes through it.
import { curve, line, path, polygon, rectangle, text } from "./shapes.js";

const ENGINE = 21, ENGINE_HIGH = 6.6, TILT = 1.6, RISE = 4.2; // paper mm
const V_DRIVES = ["v_rear_flange", "v_pass_through"];

/** The gearbox with its output flange; on a V-drive the engine that stands over the shaft. */
export function gearbox(at, word) {
  const over = V_DRIVES.includes(at.layout) ? engine(at, word) : [];
  if (at.passes) return [...over, ...passedThrough(at)];
  const draw = { down_angle: angledCase, v_rear_flange: squareCase }[at.layout] ?? cutCase;
  const x2 = at.face - 0.55 * at.unit;
  return [
    ...over,
    ...draw(at),
    rectangle(x2 - 1.6, at.axis - 0.8 * at.unit, x2, at.axis + 0.8 * at.unit),
    rectangle(x2, at.axis - at.flange, at.face, at.axis + at.flange),
  ];
}

/** From the engine through the gearbox to the shaft, as a run of points. */
export function powerPath(at) {
  const y = at.axis, end = (at.passes ? at.gland : at.hubEnd) + 2;
  if (at.layout === "down_angle") {
    const x2 = caseEnd(at);
    return [[at.gearLeft - 1, engineAxis(at)], [x2 - 1, y - 0.2 * at.unit], [x2, y], [end, y]];
  }
  if (!V_DRIVES.includes(at.layout)) return [[at.gearLeft - 1, y], [end, y]];
  const [left, top] = engineCorner(at);
  const over = top + ENGINE_HIGH / 2, x = left - 2.2;
  const down = [[left + 3.5, over], [x, over]];
  if (!at.passes) return [...down, [x, y], [end, y]];
  const low = y - 0.45 * high(at), front = at.hubEnd - 1.2;
  return [...down, [x, low], [front, low], [front, y], [end, y]];
}

function high(at) {
  return 0.78 * at.flange;
}

/** Where the case ends and the boss of the output begins. */
function caseEnd(at) {
  return at.face - 0.55 * at.unit - 1.6;
}

/** A gearbox straight behind its engine, cut off by a freehand line. */
function cutCase(at) {
  const y = at.axis, h = high(at), x1 = at.gearLeft, x2 = caseEnd(at);
  const edge = curve([x1, y - h], [x1 - 1.5, y - 2], [x1 + 1.5, y + 2], [x1, y + h], 12);
  return [
    polygon([...edge, [x2, y + h], [x2, y - h]], "word", "metal"),
    path(edge),
    line(x1, y - h, x2, y - h),
    line(x1, y + h, x2, y + h),
    line(x2, y - h, x2, y + h),
  ];
}

/** How high the engine's own axis stands where a down-angle gearbox is cut off. */
function engineAxis(at) {
  return at.axis - 0.2 * at.unit - RISE;
}

/** The output leaves downwards: engine and case lean against the shaft's axis. */
function angledCase(at) {
  const y = at.axis, h = high(at), x1 = at.gearLeft, x2 = caseEnd(at);
  const top = y - h - RISE, low = y + 0.8 * h - RISE;
  const edge = curve([x1, top], [x1 - 1.5, top + 5], [x1 + 1.5, low - 5], [x1, low], 12);
  const corner = x1 + 0.55 * (x2 - x1), knee = y - h - 0.45 * RISE, heel = y + h;
  return [
    polygon([...edge, [corner, heel - 1.2], [x2, heel], [x2, y - h], [corner, knee]],
            "word", "metal"),
    path(edge),
    path([[x1, top], [corner, knee], [x2, y - h], [x2, heel], [corner, heel - 1.2], [x1, low]],
         "outline"),
    line(corner, knee, corner, heel - 1.2, "thin"),
    line(x1 - 2.4, engineAxis(at) - 0.6, x2, y - 0.2 * at.unit, "axis"),
  ];
}

/** A V-drive that ends at its flange: the shaft starts behind it. */
function squareCase(at) {
  const h = high(at);
  return [rectangle(at.gearLeft, at.axis - h, caseEnd(at), at.axis + h, "outline", "metal")];
}

function passedThrough(at) {
  const y = at.axis, h = high(at), x1 = at.face + 0.55 * at.unit, x2 = at.gearRight;
  return [
    polygon([[x1, y - h], [x2 - 1.2, y - h], [x2, y - h + 1.2], [x2, y + h + 1.2],
             [x1 + 1.2, y + h + 1.2], [x1, y + h]], "outline", "metal"),
    line(x1, y - at.radius, x2, y - at.radius, "dashed"),
    line(x1, y + at.radius, x2, y + at.radius, "dashed"),
    rectangle(at.face, y - at.flange, x1, y + at.flange),
  ];
}

/** Left top corner of the engine that stands over the shaft. */
function engineCorner(at) {
  if (at.passes) return [at.gearRight + 3, at.axis - Math.max(18.1, at.flange + 6)];
  return [caseEnd(at) - 3.2, at.axis - at.flange - 15];
}

/** The engine aft of its V-drive, and the leg that carries the power down to the gearbox. */
function engine(at, word) {
  const [x, top] = engineCorner(at), low = at.axis - high(at) + 1, end = x + ENGINE;
  return [
    polygon([[x - 4.4, top + 0.9], [x, top + 0.9], [x, top + ENGINE_HIGH + 0.6], [x - 0.4, low],
             [x - 4.4, low]], "outline", "metal"),
    polygon([[x, top + TILT / 2], [end, top - TILT / 2], [end, top + ENGINE_HIGH - TILT / 2],
             [x, top + ENGINE_HIGH + TILT / 2]], "outline", "metal"),
    text(x + ENGINE / 2 + 1.6, top + ENGINE_HIGH / 2 + 1.1, word, 3.4),
  ];
}
