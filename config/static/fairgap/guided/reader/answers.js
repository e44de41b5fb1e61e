// A number as the answer to a question: read with the range of the question, less the mark at
// which the tape was held (intake/domain/answers.py), and looked at for being possible at all.
import { readLength, shown } from "./read_length.js";
import { STARTED } from "./several.js";

/** @typedef {{in: [number, number], mm: [number, number]}} Range of a question, in nanometres */

/** The range whatever the unit, for deciding the unit of a bare number; null without one. */
export function widest(range) {
  if (!range) return null;
  return [Math.min(range.in[0], range.mm[0]), Math.max(range.in[1], range.mm[1])];
}

/** False where no such part measures that; metric units by the metric range. */
export function isPlausible({ nm, unit }, range) {
  if (!range) return true;
  const [low, high] = unit === "in" || unit === "ft" ? range.in : range.mm;
  return low <= nm && nm <= high;
}

/**
 * What the tape showed less the mark it started at, as `readLength` returns it.
 *
 * @param {string} text what the tape showed
 * @param {"in"|"mm"|null} unit the tape's; null: not known
 * @param {Range|null} range the question's
 * @param {string} startMark where the tape was held, on the same tape; empty or "0": at its end
 */
export function readAnswer(text, unit, range = null, startMark = "0") {
  const read = readLength(text, unit, widest(range));
  if (!read.understood) return read;
  const tape = read.unit === "in" || read.unit === "ft" ? "in" : "mm";
  const begun = readLength(startMark || "0", tape);
  if (!begun.understood || !begun.nm) return begun.understood ? read : begun;
  if (read.doubts.some((doubt) => doubt.startsWith(STARTED))) {
    return refused("The start mark is in the number too; please give it once.");
  }
  const nm = read.nm - begun.nm;
  if (nm < 0) return refused("The start mark is past what the tape showed; give both as read.");
  const { unit: known, unitWritten, mark } = read;
  const doubts = [...read.doubts, ...begun.doubts];
  const extraU = Math.hypot(read.extraU, begun.extraU);
  return shown({ nm, unit: known, system: tape, unitWritten, doubts, mark, extraU });
}

const refused = (message) => ({ understood: false, message, suggestions: [] });
