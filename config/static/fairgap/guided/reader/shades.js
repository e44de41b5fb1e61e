// Words that shade a number: strong, shy, about. Which part of a mark they mean, and how surely.
// The figures are common practice, no source.
import { LONGEST_NM, NM_PER_64TH, NM_PER_MM, show } from "./lengths.js";
import * as refusals from "./refusals.js";

const SHADED_PARTS = 4; // strong and shy are a quarter of the smallest mark
// Who says "58 strong" saw finer marks than inches: the mark is at most an eighth, or a millimetre.
const COARSEST_SHADED = { in: 8 * NM_PER_64TH, mm: NM_PER_MM };
// "About" is true to a mark either way, and to no less than a sixteenth or a millimetre.
const FINEST_ABOUT = { in: 4 * NM_PER_64TH, mm: NM_PER_MM };

const SIGNS = [["strong", 1], ["full", 1], ["heavy", 1]];
for (const word of ["shy", "bare", "light", "scant"]) SIGNS.push([word, -1]);
const LITTLE = ["slightly", "just", "bit", "a bit", "a little", "a touch", "a hair", "a tad"];
const ABOUT = "about around roughly approx approximately circa ca c ~ ≈".split(" ");
const ABOUT_AFTER = ["about", "roughly", "approx", "approximately", "ish", "or so", "- ish"];

const PHRASES = new Map(SIGNS);
for (const little of LITTLE) {
  for (const [word, sign] of [...SIGNS, ["over", 1], ["under", -1]]) {
    PHRASES.set(`${little} ${word}`, sign);
  }
}
/** What may stand before a number and after it, and which way it moves it: 1, -1, or 0 neither. */
export const BEFORE = new Map(PHRASES);
for (const [phrase, sign] of PHRASES) BEFORE.set(`${phrase} of`, sign);
for (const [word, sign] of SIGNS) BEFORE.set(`a ${word}`, sign);
BEFORE.set("nearly", -1).set("almost", -1);
for (const word of ABOUT) BEFORE.set(word, 0);
export const AFTER = new Map(PHRASES);
for (const words of [...ABOUT_AFTER, "give or take"]) AFTER.set(words, 0);
AFTER.set("and a bit", 1);

/** The number's own tokens, and the shade that stood before or after them: {words, sign}. */
export function apart(tokens) {
  for (let length = 4; length > 0; length -= 1) {
    const before = tokens.slice(0, length).join(" ");
    if (BEFORE.has(before)) {
      return [own(tokens.slice(length)), { words: before, sign: BEFORE.get(before) }];
    }
    const after = tokens.slice(-length).join(" ");
    if (AFTER.has(after)) {
      const kept = tokens.slice(0, -length);
      if (kept[kept.length - 1] === ",") kept.pop();
      return [own(kept), { words: after, sign: AFTER.get(after) }];
    }
  }
  return [own(tokens), { words: "", sign: 0 }];
}

/** Without the sign of a diameter. */
const own = (tokens) => (tokens[0] === "ø" ? tokens.slice(1) : tokens);

/** The text without its first or last word, where that one is a shade by itself. */
export function* oneWord(text) {
  const gap = text.indexOf(" ");
  const first = gap < 0 ? text : text.slice(0, gap);
  if (BEFORE.has(first)) {
    yield [{ words: first, sign: BEFORE.get(first) }, gap < 0 ? "" : text.slice(gap + 1)];
  }
  const back = text.lastIndexOf(" ");
  const last = text.slice(back + 1);
  if (AFTER.has(last)) {
    const rest = text.slice(0, Math.max(back, 0)).replace(/,$/, "");
    yield [{ words: last, sign: AFTER.get(last) }, rest];
  }
}

/** A reading with its shade: the length moved, its uncertainty widened, and a doubt. */
export function applied({ words, sign }, read) {
  if (!words) return read;
  const written = read.mark ?? 0;
  if (!sign) {
    const doubt = `You said “${words}”, so we count this number as less sure.`;
    return said(read, Math.max(written, FINEST_ABOUT[read.system]), doubt);
  }
  const mark = Math.min(written, COARSEST_SHADED[read.system]);
  const part = mark / SHADED_PARTS;
  if (!part || !Number.isInteger(part)) {
    const doubt =
      `“${words}” is less than a tape can show here; ` +
      "we kept the mark and count it as less sure.";
    return said(read, part, doubt);
  }
  const than = sign > 0 ? "more" : "less";
  const shown = partShown(part, read.system);
  const doubt = `We read “${words}” as ${shown} ${than} than the mark; is that right?`;
  return said(read, part, doubt, sign * part);
}

function said(read, halfWidth, doubt, moved = 0) {
  const nm = read.nm + moved;
  if (nm < 0) refusals.refuse(refusals.belowNothing(show(read.nm, read.system)));
  if (nm > LONGEST_NM) refusals.refuse(refusals.TOO_FAR);
  const extraU = Math.hypot(read.extraU, halfWidth / Math.sqrt(3)); // a rectangular half-width
  return { ...read, nm, doubts: [...read.doubts, doubt], extraU };
}

/** A part of a mark: as a mark of the tape where it is one, else in decimals, exactly. */
function partShown(nm, system) {
  if (system === "in" && nm % NM_PER_64TH === 0) return show(nm, system);
  const millionths = system === "in" ? (nm * 5) / 127 : nm;
  return `${(millionths / 1e6).toFixed(6).replace(/\.?0+$/, "")} ${system}`;
}
