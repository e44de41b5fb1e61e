// The drive line on top of a question: this boat, her numbers so far, the asked dimension lit.
import { el, say } from "./dom.js";
import { pathOf, unitOf } from "./path.js";
import { readBox } from "./reading.js";

let drawing = null;

/** Load the drawing and hand it its words and pictures. Without it, questions stand alone. */
export async function prepare(given) {
  if (!given) return;
  const module = await import("./drawing/drive_line.js").catch(() => null);
  if (!module) return;
  module.keepWords(given.words);
  if (given.mistakes) module.keepPictures(given.mistakes);
  drawing = module;
}

/** The picture of one screen, or null. A number that must stay hidden is not drawn. */
export function pictureOf(step, draft) {
  if (!drawing || !step.lit) return null;
  const { stack, readings } = boatOf(draft, step.blind);
  const svg = attempt(() => drawing.driveLine(stack, { lit: step.lit, readings }));
  return svg && el("figure", { class: "asked-line" }, svg);
}

/** The whole boat as described, for the review. */
export function wholePicture(draft) {
  if (!drawing) return null;
  const { stack, readings } = boatOf(draft, "");
  const svg = attempt(() => drawing.driveLine(stack, { readings }));
  return svg && el("figure", {}, svg);
}

/** The usual mistake, drawn. */
export function mistakeOf(slug) {
  const name = drawing?.mistakesOf?.(slug)[0];
  const svg = name && attempt(() => drawing.mistakePicture(name));
  return svg ? el("figure", { class: "mistake" }, svg, el("figcaption", {}, say("usual_mistake"))) : null;
}

function attempt(draw) {
  try {
    return draw();
  } catch (error) {
    console.warn(error);
    return null;
  }
}

const KEYS = {
  face_to_strut_aft: "x_strut_aft", face_to_strut_fwd: "x_strut_fwd", gap_now: "predicted_gap",
  hub_length: "hub_length", dia_clean: "nominal", gearbox_through: "gearbox_through",
};

/** As the server's drawing prints it: no unit, millimetres to a tenth. */
function printed(read, system) {
  return system === "mm" ? String(Math.round(read.nm / 1e5) / 10) : read.inch;
}

/** The draft as the drawing's stack, and the texts for its dimension lines. */
function boatOf({ values, opened }, hidden) {
  const stack = { layout: values["answers.drive_layout"] || "inline",
                  station: values["answers.boat_name_and_station.station"] || "",
                  system: values.tape_unit === "mm" ? "mm" : "inch" };
  const readings = {};
  for (const step of pathOf({ values, opened })) {
    for (const box of step.boxes) {
      const text = values[box.name];
      if (box.kind !== "length" || !text?.trim() || box.name === hidden || step.blind) continue;
      const read = readBox(box, text, unitOf(box.name, values));
      if (!read?.understood) continue;
      const slug = step.slug;
      if (KEYS[slug]) stack[KEYS[slug]] = (read.nm / 1e6).toFixed(6);
      readings[slug] = printed(read, stack.system);
    }
  }
  return { stack, readings };
}
