// Where everything on the drive line stands: real millimetres in, paper millimetres out.
// The same stations as intake/domain/stations.py.

export const INCH = 25.4;
const GEARBOX = 9.4; // paper mm a gearbox that is passed through may take on a shortened drawing
const CASED = ["down_angle", "v_rear_flange"]; // the gearbox's own shape tells these two apart
const CASE = 14; // paper mm such a gearbox takes

/** One length of the stack in mm, or null when it is not there. */
export function asMm(stack, key) {
  let value = stack[key] ?? null;
  if (value !== null && typeof value === "object") value = value.mm ?? null;
  return value === null || value === "" ? null : Number(value);
}

/** Sizes to draw with. A typical boat's stand in, in shaft diameters, for what is missing. */
export function sizes(stack) {
  const pick = (key, usual, low, high, per = 1) => {
    const value = asMm(stack, key);
    return Math.min(Math.max(value === null ? usual * per : value, low * per), high * per);
  };
  const d = pick("nominal", INCH, 10, 120);
  const gap = asMm(stack, "predicted_gap") === null ? "gap_goal" : "predicted_gap";
  const aft = asMm(stack, "x_strut_aft"), fwd = asMm(stack, "x_strut_fwd");
  const barrel = aft === null || fwd === null ? 3 * d : aft - fwd;
  return {
    diameter: d,
    gap: pick(gap, 0.75, 0.2, 2.5, d),
    hub: pick("hub_length", 2.9, 1.2, 5, d),
    nut: pick("nut_standoff", 1.19, 0.7, 2, d),
    nose: pick("nose", 0.31, 0, 0.8, d),
    taper: pick("taper_length", 2.75, 1, 5, d),
    barrel: Math.min(Math.max(barrel, 2 * d), 4.5 * d),
    faceToStrut: pick("x_strut_aft", 43, 14, 200, d),
    front: pick("front_length", 4.2, 3, 7, d),
    through: pick("gearbox_through", 9, 4, 16, d),
  };
}

/** Place every station for a paper `width` mm wide; the axis runs at paper y `axis`. */
export function stations(size, { passes, shorten, width, axis, layout = "inline" }) {
  const d = size.diameter, margin = 4.5, cased = CASED.includes(layout);
  const aftReal = size.gap + size.hub + size.nut + size.nose;
  let scale, face;
  if (shorten) {
    scale = Math.min((width * 0.43) / (size.barrel + aftReal), (cased ? 5.2 : 6.6) / d);
    if (passes) { // front, gearbox, gland, break and clearances share what is left
      const room = width - 2 * margin - GEARBOX - 12;
      scale = Math.min(scale, room / (size.front + 2.4 * d + size.barrel + aftReal));
    }
    face = passes ? margin + size.front * scale + 1 : 0.035 * width + (cased ? 17 : 8.6);
  } else {
    const forward = passes ? size.front : (cased ? 5 : 2.6) * d;
    // A gearbox that is passed through is part of it: lengths run from the coupling's face.
    scale = (width - 2 * margin) / (forward + size.faceToStrut + aftReal);
    face = margin + forward * scale;
  }
  const unit = d * scale, tip = width - margin;
  const threadEnd = tip - size.nose * scale;
  const hubBack = threadEnd - size.nut * scale;
  const hubFront = hubBack - size.hub * scale;
  const strutAft = hubFront - size.gap * scale;
  const strutFwd = strutAft - size.barrel * scale;
  const taperSmall = hubBack - (INCH / 4) * scale;
  const gearRight = passes ? face + gearLength(size, scale, shorten) : face;
  const insideEnd = passes ? gearRight : face + 2.5 * unit;
  const gland = insideEnd + (passes ? 0.6 : 0.9) * unit;
  const log = gland + 1.6 * unit;
  let logEnd, breaks = null;
  if (shorten) {
    const middle = strutFwd - 6; // a stretch of bright shaft before the strut
    logEnd = Math.max(log + 1.5, Math.min(log + 3 * unit, middle - 2.6));
    breaks = [middle - 1.2, middle + 1.2];
  } else {
    logEnd = log + Math.max(8 * unit, (strutFwd - log) * 0.45);
  }
  return {
    passes, unit, axis, width, face,
    hubEnd: passes ? face - 2.3 * unit : face + 2.5 * unit,
    gearLeft: passes ? face : Math.max(face - 0.55 * unit - (cased ? CASE : 6), 2),
    gearRight, gland, log, logEnd, breaks, strutFwd, strutAft, hubFront, taperSmall,
    taperBig: Math.max(taperSmall - size.taper * scale, strutAft + 0.2),
    hubBack, threadEnd, tip,
    frontTip: passes ? face - size.front * scale : face,
    layout: passes ? "v_pass_through" : layout,
    radius: unit / 2,
    flange: Math.min(2 * unit, 12), // four shaft diameters across, as for a 1 in shaft
    barrel: 0.98 * unit,
    hub: 0.95 * unit,
    shell: 0.64 * unit,
  };
}

function gearLength(size, scale, shorten) {
  return shorten ? Math.min(size.through * scale, GEARBOX) : size.through * scale;
}
