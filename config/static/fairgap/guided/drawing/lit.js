// The answer being asked, lit: what is measured across, shown or told apart rather than measured.
// The same as intake/domain/lit.py. asked: {slug, at, text, station, words, hook, size}.
import { arrowUp, tape } from "./dimensions.js";
import { powerPath } from "./gearbox.js";
import { litStation } from "./plan_view.js";
import { BOLD, line, polygon, rectangle, text, textWidth } from "./shapes.js";

const SHOWN = {
  dia_clean: clean,
  dia_journal: journal,
  flange_od: flange,
  shell_od: shell,
  strut_bore: shell,
  flange_direction: hubWay,
  forward_datum: datumFace,
  coupling_state: faces,
  drive_layout: drive,
  boat_name_and_station: which,
};

/** Is this answer shown in a way of its own, not as a length along the axis? */
export function isShown(slug) {
  return Object.hasOwn(SHOWN, slug);
}

/** The shapes of one such answer; captions from paper `y` on. */
export function drawShown(asked, y) {
  return SHOWN[asked.slug](asked, y).map((s) => ({ ...s, slug: asked.slug, part: "ends" }));
}

/** Two lines below the drawing, as near below `where` as there is room. */
function caption(asked, where, y, named = "", first = "") {
  const across = `${asked.words[`${asked.slug}.name`]} ⌀ ${asked.text}`.trimEnd();
  const own = asked.hook || (asked.words[`${asked.slug}.first`] ?? "");
  return [[first || own, "lit"], [named || across, "word"]].flatMap(([words, kind], number) => {
    const half = (textWidth(words, asked.size) * (kind === "lit" ? BOLD : 1)) / 2;
    const x = Math.min(Math.max(where, half + 0.8), asked.at.width - half - 0.8);
    const low = y + 1.2 + number * (asked.size + 1.6);
    return words ? [text(x, low, words, asked.size, "middle", kind)] : [];
  });
}

/** What stands at the far end of the answer. */
function last(asked) {
  return asked.words[`${asked.slug}.last`];
}

function clean(asked, y) {
  const at = asked.at, left = at.breaks ? at.breaks[1] : at.logEnd;
  return bar(asked, left + 0.6, at.strutFwd - 0.4, y);
}

function journal(asked, y) {
  return bar(asked, asked.at.strutFwd, asked.at.strutAft, y);
}

function bar(asked, x1, x2, y) {
  const at = asked.at, middle = (x1 + x2) / 2;
  return [
    ...pair(at, x1, x2, at.radius, "lit"),
    ...across(middle, at.axis - at.radius, at.axis + at.radius),
    ...caption(asked, middle, y),
  ];
}

function shell(asked, y) {
  const at = asked.at, r = at.shell;
  return [
    ...pair(at, at.strutFwd, at.strutAft, r, "lit"),
    ...across(at.strutAft + 1.6, at.axis - r, at.axis + r),
    ...pair(at, at.strutAft, at.strutAft + 2.4, r, "tape"),
    ...caption(asked, (at.strutFwd + at.strutAft) / 2, y),
  ];
}

function flange(asked, y) {
  const at = asked.at, r = at.flange, thick = 0.55 * at.unit;
  const left = Math.min(at.gearLeft, at.frontTip) - 1.6;
  return [
    ...pair(at, at.face - thick, at.face + thick, r, "lit"),
    ...pair(at, left - 1, at.face - thick, r, "tape"),
    ...across(Math.max(left, 1.2), at.axis - r, at.axis + r),
    ...caption(asked, at.face, y),
  ];
}

function pair(at, x1, x2, r, kind) {
  return [-1, 1].map((sign) => line(x1, at.axis + sign * r, x2, at.axis + sign * r, kind));
}

/** An upright dimension with its arrows outside when it is small. */
function across(x, top, bottom) {
  const small = bottom - top < 8, reach = small ? 4 : 0, way = small ? -1 : 1;
  return [
    line(x, top - reach, x, bottom + reach, "lit"),
    polygon(arrowUp(x, top, way), "lit", "paper"),
    polygon(arrowUp(x, bottom, -way), "lit", "paper"),
  ];
}

/** An arrow head whose tip is at x and points to the right (1) or to the left (-1). */
function arrow(x, y, way) {
  const back = x - way * 2.8;
  return polygon([[x, y], [back, y - 1.1], [back, y + 1.1]], "lit", "paper");
}

function hubWay(asked, y) {
  const at = asked.at, hub = at.unit, way = at.passes ? -1 : 1;
  const near = at.face + way * 0.5 * at.unit, below = at.axis + hub + 2.6;
  return [
    rectangle(near, at.axis - hub, at.hubEnd, at.axis + hub, "lit", ""),
    line(near, below, at.hubEnd, below, "lit"),
    arrow(at.hubEnd + way * 2.2, below, way),
    ...caption(asked, (near + at.hubEnd) / 2, y, asked.words[at.passes ? "forward" : "aft"]),
  ];
}

function datumFace(asked, y) {
  const at = asked.at;
  return [
    line(at.face, at.axis - at.flange, at.face, at.axis + at.flange, "lit"),
    line(at.face, at.axis + at.flange, at.face, y - 1.6, "tape"),
    ...tape(at.face, Math.min(at.strutFwd, at.face + 34), y),
    ...caption(asked, at.face + 12, y + 5.4, last(asked)),
  ];
}

/** The joint between the two flanges, an arrow at it from either side. */
function faces(asked, y) {
  const at = asked.at, below = at.axis + at.flange + 1.9;
  return [
    ...[-1, 1].flatMap((way) => {
      const x = at.face - way * 0.45;
      return [
        line(x, at.axis - at.flange, x, at.axis + at.flange, "lit"),
        line(at.face - way * 7.5, below, at.face - way * 3.4, below, "lit"),
        arrow(at.face - way * 0.9, below, way),
      ];
    }),
    ...caption(asked, at.face, y, last(asked)),
  ];
}

/** The way the power takes, from the engine to the shaft. */
function drive(asked, y) {
  const run = powerPath(asked.at), [x, end] = run[run.length - 1];
  return [
    ...run.slice(1).map(([x2, y2], number) => line(run[number][0], run[number][1], x2, y2, "lit")),
    arrow(x + 2.2, end, 1),
    ...caption(asked, asked.at.face, y, asked.words[asked.at.layout],
               asked.words["drive_layout.first"]),
  ];
}

function which(asked, y) {
  return [
    ...litStation(asked.station, asked.words),
    ...caption(asked, asked.at.width / 2, y, last(asked)),
  ];
}
