// The tape language in the browser: what people write as a length, read exactly or refused kindly.
//
// The same rules as the server's reader (catalog/domain/tape.py and what it imports, file by file);
// tests/vectors/lengths.json runs against both. It needs no network and nothing but these files.
import { isLonger, plain, stripped } from "./characters.js";
import { readFigures, shapeOf } from "./figures.js";
import { both, inchText, mmText, spoken } from "./lengths.js";
import { EXAMPLES, LONGEST, Refused, TOO_LONG, whyUnreadable } from "./refusals.js";
import { readOne, saidOf } from "./sayings.js";
import { readFromAMark, readRepeated, readingsApart } from "./several.js";
import * as shades from "./shades.js";
import { tokensOf } from "./tokens.js";

/**
 * Read one length as people write it, from 0 to 100 m, exact to 1 nm.
 *
 * @param {string} text what was typed or said
 * @param {"in"|"mm"|null} unit the tape's, for numbers written without one; null: not known, then
 *   the plausible range decides where it can, aloud
 * @param {[number, number]|null} plausible lowest and highest, in nanometres
 * @returns {{understood: true, nm: number, inch: string, mm: string, both: string, spoken: string,
 *   unit: string, unitWritten: boolean, doubts: string[], mark: number|null, extraU: number} |
 *   {understood: false, message: string, suggestions: string[]}} lengths in whole nanometres;
 *   `mark` is the smallest mark that the way of writing implies, `extraU` a standard uncertainty
 *   in nanometres to add to that of the method; doubts and messages are English sentences
 */
export function readLength(text, unit = "in", plausible = null) {
  try {
    return shown(reading(text, unit, plausible));
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    const texts = [...new Set(error.suggestions)].filter(isRead);
    const suggestions = texts.length ? texts : [...EXAMPLES];
    return { understood: false, message: error.message, suggestions };
  }
}

/** A reading as `readLength` gives it, with both systems and its words. */
export function shown({ system, ...read }) {
  const { nm } = read;
  const texts = { inch: inchText(nm), mm: mmText(nm), both: both(nm), spoken: spoken(nm, system) };
  return { understood: true, ...read, ...texts };
}

function isRead(text) {
  try {
    return Boolean(reading(text, "in", null));
  } catch (error) {
    if (error instanceof Refused) return false;
    throw error;
  }
}

/** The same without its texts: {nm, unit, system, unitWritten, doubts, mark, extraU}; or thrown. */
function reading(text, unit, plausible) {
  if (isLonger(text, LONGEST)) throw new Refused(...TOO_LONG);
  const shape = shapeOf(stripped(text).toLowerCase());
  if (shape) return readFigures(shape, unit, plausible);
  const said = plain(text);
  return readQuickly(said, unit, plausible) ?? readSaid(said, unit, plausible);
}

/** Figures with one word of shade beside them: about 58, 58 shy. */
function readQuickly(said, unit, plausible) {
  const shape = shapeOf(said);
  if (shape) return readFigures(shape, unit, plausible);
  for (const [shade, text] of shades.oneWord(said)) {
    const figures = shapeOf(text);
    if (figures) return shades.applied(shade, readFigures(figures, unit, plausible));
  }
  return null;
}

function readSaid(said, unit, plausible) {
  const tokens = tokensOf(said.endsWith("..") ? said : said.replace(/\.$/, ""));
  if (!tokens || !tokens.length) throw new Refused(...whyUnreadable(said));
  if (tokens.includes("to") || tokens.includes("->")) {
    return readFromAMark(said, tokens, unit, plausible);
  }
  const pieces = readingsApart(tokens);
  if (pieces.length > 1) return readRepeated(said, tokens, pieces, unit, plausible);
  return readOne(saidOf(said, tokens), unit, plausible);
}
