// Figures on a tape: whole numbers, decimals, fractions, feet and inches, each with its unit.
// One shape reads them all; what people say around the figures is the business of `sayings.js`.
import { eitherComma, step, ten, whichUnit } from "./by_range.js";
import { plainWhole } from "./characters.js";
import { LONGEST_NM, NM, NM_PER_INCH, NM_PER_MM, show, systemOf } from "./lengths.js";
import * as refusals from "./refusals.js";

const { refuse } = refusals;
const UNITS = new Map(Object.entries({
  inches: "in", inch: "in", in: "in", feet: "ft", foot: "ft", ft: "ft", mm: "mm", cm: "cm", m: "m",
}));
for (const sign of ['"', "″", "”", "''", "′′", "’’"]) UNITS.set(sign, "in");
for (const sign of ["'", "′", "’"]) UNITS.set(sign, "ft");
const SIGNS = {
  "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
};
const UNDER_A_FOOT = [0, NM.ft];
export const FRACTION_DOUBT =
  "We read this as inches, because a fraction is an inch mark; is that right?";

// Two patterns, one after the other; every part of them begins with what the part before it cannot
// take, so that reading is one pass.
const HEAD = new RegExp(
  "^(?:[ø⌀] *)?([0-9]*)" +
    "(?: *((?:ft|feet|foot)\\.?|['′’]) *(?:- *)?(?=[.]?[0-9]|[½¼¾⅛⅜⅝⅞])([0-9]*))?",
);
const TAIL = new RegExp(
  "^(?: *(?:- *)?([0-9]+ ?[/⁄] ?[0-9]+)|([.,])([0-9]*)|( ?[/⁄] ?)([0-9]+)" +
    "|( *(?:- *)?)([½¼¾⅛⅜⅝⅞]))?" +
    " *(in(?:ch(?:es)?)?|[\"″”]|''|′′|’’|mm|cm|m|ft|feet|foot|['′’])?\\.?$",
);

/** The parts of a text in figures; null where it has another shape. */
export function shapeOf(text) {
  const head = HEAD.exec(text);
  const [all, number, foot = "", inches = ""] = head;
  const tail = TAIL.exec(text.slice(all.length));
  if (!tail) return null;
  const [, part, point, decimals, slash, under, gap, sign, word] = tail.map((at) => at ?? "");
  if ((part || slash || gap) && !(foot ? inches : number)) return null; // these follow a digit
  return { number, foot, inches, part, point, decimals, under, sign, word };
}

/**
 * The length of a shape; refused where it means none, or several. `unit` is for a number written
 * without one, `plausible` decides where it is null.
 */
export function readFigures(shape, unit, plausible) {
  const { foot, point, decimals } = shape;
  let { number } = shape;
  let written = UNITS.get(shape.word) ?? "";
  if (foot) {
    if (written && written !== "in") refuse(refusals.TWO_UNITS);
    [number, written, plausible] = [shape.inches, "in", UNDER_A_FOOT];
  }
  let [known, nm, mark, doubts] = marked(shape, number, written, unit)
    ?? decimal(number, point, decimals, written, unit, plausible);
  if (foot) nm = withFeet(shape.number, nm);
  if (nm > LONGEST_NM) refuse(refusals.TOO_FAR);
  const [system, unitWritten] = [systemOf(known), written !== ""];
  return { nm, unit: known, system, unitWritten, doubts, mark, extraU: 0 };
}

/** With a fraction, or a whole number; null for anything else. */
function marked({ part, under, sign, point }, number, written, unit) {
  if (part) return fraction(number, part, written, unit);
  if (under) return fraction("", `${number}/${under}`, written, unit);
  if (sign) return fraction(number, SIGNS[sign], written, unit);
  const known = written || unit;
  return number && !point && known ? [known, Number(number) * NM[known], NM[known], []] : null;
}

function fraction(whole, part, written, unit) {
  const [top, bottom] = part.split(/[/⁄]/).map(plainWhole);
  const mark = [2, 4, 8, 16, 32, 64].includes(Number(bottom)) ? NM_PER_INCH / bottom : 0;
  if (!mark || top === "0" || Number(top) >= bottom) {
    refuse(refusals.badFraction(whole, top, bottom));
  }
  if (!written || written === "in") {
    const nm = Number(whole) * NM_PER_INCH + top * mark;
    return ["in", nm, mark, written || unit === "in" ? [] : [FRACTION_DOUBT]];
  }
  if (written !== "mm" || bottom !== "2") refuse(refusals.fractionOf(written, whole, top, bottom));
  return ["mm", Number(whole) * NM_PER_MM + NM_PER_MM / 2, NM_PER_MM / 2, []];
}

function decimal(number, point, decimals, written, unit, plausible) {
  let [known, doubts] = [written || unit, []];
  if (!(number + decimals) || (point === "," && !decimals)) refuse(refusals.UNKNOWN);
  if (point === "," && decimals.length === 3) {
    return eitherComma(number, decimals, known, written, plausible);
  }
  if (!known) [known, doubts] = whichUnit(number, decimals, plausible);
  const [nm, scale] = [BigInt(number + decimals) * BigInt(NM[known]), ten(decimals.length)];
  if (nm % scale) refuse(refusals.TOO_FINE);
  return [known, Number(nm / scale), step(known, decimals.length), doubts];
}

function withFeet(feet, nm) {
  if (!feet) refuse(refusals.UNKNOWN);
  const total = nm + Number(feet) * NM.ft;
  if (nm >= NM.ft) refuse(refusals.manyInches(show(nm, "in"), show(total, "in")));
  return total;
}
