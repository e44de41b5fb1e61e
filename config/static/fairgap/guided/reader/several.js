// Several numbers that are one length: read more than once, or from a mark on the tape.
// Each is read with a sentence that says so, and with the uncertainty it brings; or refused.
import { fitting } from "./by_range.js";
import { FRACTION_DOUBT } from "./figures.js";
import { LONGEST_NM, NM_PER_INCH, show, systemOf } from "./lengths.js";
import { isDigits } from "./numerals.js";
import * as refusals from "./refusals.js";
import { allIn, readOne, saidOf, theOneThatFits, withUnit } from "./sayings.js";
import * as shades from "./shades.js";
import { UNITS } from "./words.js";

const { refuse } = refusals;
const MOST_READINGS = 5;
// Readings of one thing lie this near, and within a quarter of their mean; common practice, no
// source. A slip of a whole inch stays outside.
const NEAR_NM = NM_PER_INCH / 2;
const INCHES = ["in", "ft"];

/** Several numbers off one tape: what one of them says of the unit holds for all. */
function each(text, said, unit, plausible, fits) {
  const read = (all, known) => all.map((one) => readOne(one, known, plausible));
  const written = unitOfAll(said);
  if (written) {
    return read(said.map((one) => ({ ...one, amount: withUnit(one.amount, written) })), unit);
  }
  if (said.some(({ amount }) => amount.fraction && !amount.half)) {
    const [first, ...others] = read(said, "in");
    if (unit === "in") return [first, ...others];
    return [{ ...first, doubts: [FRACTION_DOUBT, ...first.doubts] }, ...others];
  }
  return unit ? read(said, unit) : theOneThatFits(text, (known) => read(said, known), fits);
}

/** The unit written with one number or with all of them; empty where none is. */
function unitOfAll(said) {
  const all = said.map((one) => one.amount);
  const written = [...new Set(all.map((amount) => amount.unit).filter(Boolean))].sort();
  const bare = all.filter((amount) => !amount.unit);
  const metric = written.some((unit) => !INCHES.includes(unit));
  if (metric && written.some((unit) => INCHES.includes(unit))) refuse(refusals.TWO_UNITS);
  if (bare.length && written.length && (written.length > 1 || written[0] === "ft")) {
    refuse(refusals.UNIT_WITH_EACH);
  }
  if (metric && bare.some((amount) => amount.guessed)) refuse(refusals.TWO_UNITS);
  return written[0] ?? "";
}

function together(reads, nm, doubt, extraU) {
  if (nm > LONGEST_NM) refuse(refusals.TOO_FAR);
  const units = [...new Set(reads.map((read) => read.unit))];
  const family = units.every((unit) => INCHES.includes(unit)) ? "in" : "mm";
  const unit = units.length === 1 ? units[0] : family;
  const marks = reads.map((read) => read.mark).filter(Boolean);
  return {
    nm,
    unit,
    system: systemOf(unit),
    unitWritten: reads.some((read) => read.unitWritten),
    doubts: [...new Set(reads.flatMap((read) => read.doubts)), doubt],
    mark: marks.length ? Math.min(...marks) : null,
    extraU,
  };
}

export const STARTED = "We took the mark at the start";

/** `10 to 68 5/8`: the tape started at a mark, which is taken off. */
export function readFromAMark(text, tokens, unit, plausible) {
  const at = tokens.findIndex((word) => word === "to" || word === "->");
  const first = tokens.slice(tokens[0] === "from" ? 1 : 0, at);
  const said = [saidOf(text, first), saidOf(text, tokens.slice(at + 1))];
  if (said[0].shade.words) refuse(refusals.whyUnreadable(text));
  const fits = (reads) => fitting(reads[1].nm - reads[0].nm, 1, plausible);
  const [start, end] = each(text, said, unit, null, fits);
  const nm = end.nm - start.nm;
  const shown = [nm, start.nm, end.nm].map((length) => show(length, end.system));
  if (nm <= 0) refuse(refusals.beforeTheStart(shown[1], shown[2]));
  const near = end.nm * 4 < start.nm * 5;
  if (near && (!plausible || allIn(plausible)([start, end]))) refuse(refusals.markOrTwo(...shown));
  const doubt = `${STARTED}, ${shown[1]}, off ${shown[2]} and read ${shown[0]}; is that right?`;
  return { ...together([start, end], nm, doubt, end.extraU), mark: end.mark };
}

/**
 * `58 5/8, 58 9/16`: one length read more than once; their mean, as sure as they agree. Half the
 * spread over the root of their number is the extra standard uncertainty.
 */
export function readRepeated(text, tokens, pieces, unit, plausible) {
  const many = pieces.length;
  if (many > MOST_READINGS) refuse(refusals.MANY);
  if (many === 2 && tokens.includes(",")) oneNumberOrTwo(pieces);
  const said = pieces.map((piece) => saidOf(text, piece));
  const reads = each(text, said, unit, plausible, allIn(plausible));
  const lengths = reads.map((read) => read.nm);
  const total = lengths.reduce((sum, nm) => sum + nm, 0);
  const spread = Math.max(...lengths) - Math.min(...lengths);
  if (spread > NEAR_NM || spread * 4 * many > total) {
    refuse(refusals.farApart(said.map((one) => one.amount.figures)));
  }
  const known = Math.max(...reads.map((read) => read.extraU));
  const extraU = Math.hypot(known, spread / 2 / Math.sqrt(many));
  const doubt =
    `We took the mean of ${many} readings, ` +
    `which lie ${show(spread, reads[0].system)} apart; is that right?`;
  return together(reads, Math.floor((2 * total + many) / (2 * many)), doubt, extraU);
}

/** `44, 44`: the space after a decimal comma may be a slip of the thumb. */
function oneNumberOrTwo(pieces) {
  const [first, second] = pieces.map((piece) => shades.apart(piece)[0]);
  const [whole, decimals] = [first[0] ?? "", second[0] ?? ""];
  if (first.length > 1 || !isDigits(whole) || !isDigits(decimals) || decimals.length > 2) return;
  const rest = second.slice(1);
  if (!rest.length || (rest.length === 1 && UNITS.has(rest[0]))) {
    refuse(refusals.commaOrTwo(whole, decimals, rest.join(" ")));
  }
}

/** Split between readings; a comma before "shy" and the "or" of "or so" part nothing. */
export function readingsApart(tokens) {
  const pieces = [[]];
  tokens.forEach((word, at) => {
    const next = tokens[at + 1];
    const byOr = word === "or" && next !== "so" && next !== "take";
    const byComma = word === "," && !shades.AFTER.has(tokens.slice(at + 1).join(" "));
    if (word === ";" || byOr || byComma) pieces.push([]);
    else pieces[pieces.length - 1].push(word);
  });
  return pieces;
}
