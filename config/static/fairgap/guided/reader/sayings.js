// One number with what people say around it: its unit in words, about, shy, a half.
// What has to be assumed is said in a doubt, and what stays open is refused.
import { fitting, unitDoubt } from "./by_range.js";
import { readFigures, shapeOf } from "./figures.js";
import { NM_PER_INCH } from "./lengths.js";
import * as refusals from "./refusals.js";
import * as shades from "./shades.js";
import { amounts } from "./words.js";

const { refuse } = refusals;

/** The one way to read the tokens as one number: {amount, shade}; `text` is for refusing. */
export function saidOf(text, tokens) {
  const [bare, shade] = shades.apart(tokens);
  const ways = bare.length ? amounts(bare) : [];
  if (!ways.length) refuse(refusals.whyUnreadable(text));
  if (ways.length > 1) refuse(refusals.twoWays(ways.map((way) => way.figures)));
  return { amount: ways[0], shade };
}

/** The number as a length, with its shade. */
export function readOne({ amount, shade }, unit, plausible) {
  return shades.applied(shade, readAmount(amount, unit, plausible));
}

function readAmount(amount, unit, plausible) {
  if (amount.half && !amount.unit && unit !== "in") return spokenHalf(amount, plausible);
  if (amount.guessed) return guessed(amount, plausible);
  return figures(amount.figures, unit, plausible);
}

function figures(text, unit, plausible) {
  return readFigures(shapeOf(text) ?? refuse(refusals.UNKNOWN), unit, plausible);
}

/** A half in words is said of inches and of millimetres; only the range can tell. */
function spokenHalf(amount, plausible) {
  const read = (unit) => [readAmount(withUnit(amount, unit), null, plausible)];
  return theOneThatFits(amount.figures, read, allIn(plausible))[0];
}

/** The same as if that unit had been written. */
export function withUnit(amount, unit) {
  if (amount.unit) return amount;
  const text = amount.guessed ? amount.figures : `${amount.figures} ${unit}`;
  return { ...amount, figures: text, unit };
}

/** What is read in inches or in millimetres, whichever alone fits; with the doubt. */
export function theOneThatFits(text, read, fits) {
  const fitted = ["in", "mm"]
    .map((unit) => orNull(read, unit))
    .filter((reads) => reads && fits(reads));
  if (fitted.length !== 1) refuse(refusals.eitherUnit(text));
  const [first, ...others] = fitted[0];
  const doubts = [...first.doubts, unitDoubt(first.unit)];
  return [{ ...first, unitWritten: false, doubts }, ...others];
}

function orNull(read, unit) {
  try {
    return read(unit);
  } catch (error) {
    if (error instanceof refusals.Refused) return null;
    throw error;
  }
}

/** Whether every reading lies in the range; never without a range. */
export function allIn(plausible) {
  return (reads) => reads.every((read) => fitting(read.nm, 1, plausible));
}

/** Feet and inches without marks, if they fit where one number with a gap would not. */
function guessed(amount, plausible) {
  const [feet, inches] = amount.figures.replace(/"+$/, "").split("' ");
  const whole = inches.split(" ")[0];
  if (Number(whole) >= 12) refuse(refusals.twoNumbers(feet, inches));
  const read = figures(amount.figures, null, plausible);
  const joined = Number(feet + whole) * NM_PER_INCH;
  if (!fitting(read.nm, 1, plausible) || fitting(joined, 1, plausible)) {
    refuse(refusals.noMarks(amount.figures));
  }
  const doubt = `We read this as feet and inches, ${amount.figures}; is that right?`;
  return { ...read, unitWritten: amount.unit !== "", doubts: [doubt] };
}
