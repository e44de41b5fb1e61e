// One length among the words of a text, written anew in figures for `figures.js` to read:
// "fifty-eight and five eighths inches" becomes "58 5/8 in". Where words can be grouped in two
// ways, both are kept for the caller to refuse.
import { BOTTOMS, DIGIT_WORDS, JOINTS, fractions, isDigits, wholes } from "./numerals.js";

export const UNITS = new Map(Object.entries({
  in: "in", ins: "in", inch: "in", inches: "in", '"': "in",
  ft: "ft", foot: "ft", feet: "ft", "'": "ft", mm: "mm", cm: "cm", m: "m",
}));
for (const end of ["re", "res", "er", "ers"]) {
  UNITS.set(`met${end}`, "m").set(`centimet${end}`, "cm").set(`millimet${end}`, "mm");
}

/**
 * One length in figures; `unit` as written or empty; `fraction` where it has one; `half`: that is
 * a half said in words; `guessed`: feet and inches without marks.
 */
const amount = (figures, more = {}) => (
  { figures, unit: "", fraction: false, half: false, guessed: false, ...more }
);

/** Every way to read all the tokens as one length; none where they are not one. */
export function amounts(tokens) {
  const ended = [...tokens, "", "", ""];
  const ways = [...plain(ended), ...special(ended)];
  if (tokens.some((word) => UNITS.get(word) === "ft")) ways.push(...withFeet(ended));
  if (tokens.some((word) => UNITS.get(word) === "in")) ways.push(...unitBetween(ended));
  const whole = ways.filter(([, end]) => end === tokens.length).map(([found]) => found);
  return [...new Map(whole.map((found) => [JSON.stringify(found), found])).values()];
}

/** A number with its unit or without. */
function* plain(tokens) {
  for (const [number, end] of numbers(tokens, 0)) {
    yield [number, end];
    yield* withUnit(tokens, end, number);
  }
}

/** `in`; after a fraction also `of an inch`. */
function* withUnit(tokens, at, number) {
  if (number.fraction) {
    if (tokens[at] === "of") at += 1;
    if (tokens[at] === "a" || tokens[at] === "an") at += 1;
  }
  const unit = UNITS.get(tokens[at]);
  if (unit) yield [{ ...number, figures: `${number.figures} ${unit}`, unit }, at + 1];
}

function* withInch(tokens, at, number) {
  for (const found of withUnit(tokens, at, number)) if (found[0].unit === "in") yield found;
}

/** `4 ft 10 5/8 in`; "four feet and a half" only where it says that the half is an inch's. */
function* withFeet(tokens) {
  for (const [feet, end] of wholes(tokens, 0)) {
    if (UNITS.get(tokens[end]) !== "ft") continue;
    const joined = tokens[end + 1] === "and";
    const start = end + 1 + (joined || tokens[end + 1] === "-" ? 1 : 0);
    for (const [number, last] of numbers(tokens, start)) {
      const { fraction } = number;
      const inches = amount(`${feet}' ${number.figures}"`, { unit: "in", fraction });
      const isPart = fraction && !number.figures.includes(" ");
      if ((!joined && tokens[start].includes("/")) || !isPart) yield [inches, last];
      for (const [, after] of withInch(tokens, last, number)) yield [inches, after];
    }
  }
}

/** `58 inches and five eighths`, `an inch and a half`. */
function* unitBetween(tokens) {
  for (const [whole, end] of [...wholes(tokens, 0), ...one(tokens)]) {
    if (UNITS.get(tokens[end]) !== "in" || !JOINTS.includes(tokens[end + 1])) continue;
    for (const [fraction, last] of fractions(tokens, end + 2)) {
      const found = { ...mixed(whole, fraction), unit: "in" };
      yield [{ ...found, figures: `${found.figures} in` }, last];
      yield* withInch(tokens, last, found);
    }
  }
}

/** "An" before a unit is one; an inch and more may leave it out. */
function* one([first]) {
  if (first === "a" || first === "an") yield ["1", 1];
  else if (first === "inch") yield ["1", 0];
}

/** `an inch`, `1 489 mm`, `4 10 5/8`. */
function* special(tokens) {
  const unit = UNITS.get(tokens[1]);
  if ((tokens[0] === "a" || tokens[0] === "an") && unit) yield [amount(`1 ${unit}`, { unit }), 2];
  yield* withGaps(tokens);
  yield* withoutMarks(tokens);
}

/** `1 489 mm`: only millimetres are written so, and only with their unit. */
function* withGaps(tokens) {
  if (!/^[1-9][0-9]{0,2}$/.test(tokens[0])) return;
  let end = 1;
  while (/^[0-9]{3}(?:[.,][0-9]+)?$/.test(tokens[end]) && isDigits(tokens[end - 1])) end += 1;
  if (end > 1 && UNITS.get(tokens[end]) === "mm") {
    yield [amount(`${tokens.slice(0, end).join("")} mm`, { unit: "mm" }), end + 1];
  }
}

/** `4 10 5/8`: feet and inches, if anything; whether they are is asked of the range. */
function* withoutMarks(tokens) {
  const second = tokens[1] === "-" ? 2 : 1;
  const third = tokens[second + 1] === "-" ? second + 2 : second + 1;
  const [feet, inches, part] = [tokens[0], tokens[second], tokens[third]];
  if (!/^[0-9]{1,2}$/.test(feet) || !/^[0-9]{1,2}$/.test(inches) || !part.includes("/")) return;
  const guess = amount(`${feet}' ${inches} ${part}"`, { fraction: true, guessed: true });
  yield [guess, third + 1];
  if (UNITS.get(tokens[third + 1]) === "in") yield [{ ...guess, unit: "in" }, third + 2];
}

/** Whole, mixed, decimal or a fraction alone, without a unit. */
function* numbers(tokens, at) {
  const here = tokens[at];
  if (/^[0-9]+[.,]/.test(here)) yield* pointed(tokens, at);
  else if (here[0] === ".") yield [amount(here), at + 1];
  else if (here === "point") yield* decimals(tokens, at + 1, "0");
  for (const [whole, end] of wholes(tokens, at)) {
    yield [amount(whole), end];
    yield* mixes(tokens, end, whole);
    if (tokens[end] === "point") yield* decimals(tokens, end + 1, whole);
  }
  yield* mixes(tokens, at, "");
}

const GROUPED = new RegExp(
  "^([1-9][0-9]{0,2})(?:((?:,[0-9]{3})+)([.][0-9]+)?|((?:[.][0-9]{3})+)(,[0-9]+)?)$",
);

/** `58.6`; `1,489.5` and `1.489,5`, where the thousands are plain; `1,489 5/8`. */
function* pointed(tokens, at) {
  const found = GROUPED.exec(tokens[at]);
  if (!found) {
    yield [amount(tokens[at]), at + 1];
    return;
  }
  const [, first, byComma = "", tenths = "", byPoint = "", others = ""] = found;
  const whole = first + (byComma + byPoint).replace(/[.,]/g, "");
  const surely = whole.length - first.length > 3 || tenths || others;
  const figures = surely ? whole + (tenths + others).replace(",", ".") : tokens[at];
  yield [amount(figures), at + 1];
  if (byComma && !tenths) yield* mixes(tokens, at + 1, whole);
}

/** After "point": figures, or single digits in words. */
function* decimals(tokens, at, whole) {
  let [digits, end] = ["", at];
  for (; DIGIT_WORDS.has(tokens[end]); end += 1) digits += DIGIT_WORDS.get(tokens[end]);
  if (isDigits(tokens[at])) [digits, end] = [tokens[at], at + 1];
  if (digits) yield [amount(`${whole}.${digits}`), end];
}

/** A fraction after its whole number, and one more that is counted on: `5/8 plus a 32nd`. */
function* mixes(tokens, at, whole) {
  if (whole && (JOINTS.includes(tokens[at]) || tokens[at] === "-")) at += 1;
  else if (whole && (tokens[at] === "half" || tokens[at] === "quarter")) {
    return; // "a hundred and one half" is not a hundred and one, half
  }
  for (const [fraction, end] of fractions(tokens, at)) {
    yield [mixed(whole, fraction), end];
    if (tokens[end] !== "plus" && tokens[end] !== "+") continue;
    for (const [more, last] of fractions(tokens, end + 1)) {
      const total = sum(fraction, more);
      if (total) yield [mixed(whole, total), last];
    }
  }
}

function mixed(whole, { top, bottom, half }) {
  return amount(`${whole} ${top}/${bottom}`.trim(), { fraction: true, half });
}

/** Two marks of a tape together, where they stay below one inch. */
function sum(...parts) {
  const known = [...BOTTOMS.values()];
  if (!parts.every((part) => known.includes(Number(part.bottom)))) return null;
  const bottom = Math.max(...parts.map((part) => part.bottom));
  const top = parts.reduce((total, part) => total + (part.top * bottom) / part.bottom, 0);
  return top < bottom ? { top, bottom, half: false } : null;
}
