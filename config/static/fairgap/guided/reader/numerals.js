// Whole numbers and fractions among the tokens of a text, in figures or in words.
//
// Every function takes the tokens and where to begin, and yields each way to go on: a value and
// where it ends. Two ways are two meanings ("twenty five eighths"); the caller refuses them.
import { plainWhole } from "./characters.js";
import { whole } from "./spoken.js";

const spokenFrom = (first, end, step = 1) => {
  const words = new Map();
  for (let number = first; number < end; number += step) words.set(whole(number), number);
  return words;
};
export const DIGIT_WORDS = spokenFrom(0, 10).set("oh", 0).set("nought", 0);
const SMALL = spokenFrom(0, 100).set("nought", 0);
const TENS = spokenFrom(20, 100, 10);
const ONES = spokenFrom(1, 10);
export const BOTTOMS = new Map([["half", 2], ["halves", 2], ["32nd", 32], ["32nds", 32]]);
for (const [name, bottom] of [
  ["quarter", 4], ["fourth", 4], ["eighth", 8], ["sixteenth", 16], ["thirty-second", 32],
  ["sixty-fourth", 64], ["4th", 4], ["8th", 8], ["16th", 16], ["64th", 64],
]) {
  BOTTOMS.set(name, bottom).set(`${name}s`, bottom);
}
export const COMPOUNDS = new Set([...SMALL.keys()].filter((word) => word.includes("-")));
export const JOINTS = ["and", "plus", "&", "+"];

export const isDigits = (text) => /^[0-9]+$/.test(text);

/** Whole numbers in figures (as they stand) or in words (as figures). */
export function* wholes(tokens, at) {
  if (isDigits(tokens[at])) yield [tokens[at], at + 1];
  else for (const [number, end] of belowMillion(tokens, at)) yield [String(number), end];
}

/** `5/8`, `half`, `a quarter`, `three eighths`, `10 16ths`; proper or not: {top, bottom, half}. */
export function* fractions(tokens, at) {
  const here = tokens[at];
  if (here.includes("/")) {
    const [top, bottom] = here.split("/").map(plainWhole);
    yield [{ top, bottom, half: false }, at + 1];
  } else if (here === "half" || here === "quarter") {
    yield [said(1, here), at + 1];
  } else if ((here === "a" || here === "an") && !tokens[at + 1].endsWith("s")) {
    if (BOTTOMS.has(tokens[at + 1])) yield [said(1, tokens[at + 1]), at + 2];
  }
  for (const [top, next] of counts(tokens, at)) {
    const end = tokens[next] === "-" ? next + 1 : next;
    if (BOTTOMS.has(tokens[end])) yield [said(top, tokens[end]), end + 1];
  }
}

function said(top, name) {
  const bottom = BOTTOMS.get(name);
  return { top, bottom, half: bottom === 2 && name !== "quarter" };
}

function* counts(tokens, at) {
  const here = tokens[at];
  if (isDigits(here) && here.length <= 2) yield [Number(here), at + 1];
  else yield* belowHundred(tokens, at);
}

function* belowHundred(tokens, at) {
  if (SMALL.has(tokens[at])) yield [SMALL.get(tokens[at]), at + 1];
  const [tens, ones] = [TENS.get(tokens[at]), ONES.get(tokens[at + 1])];
  if (tens && ones) yield [tens + ones, at + 2];
}

function* belowThousand(tokens, at) {
  yield* belowHundred(tokens, at);
  yield* scaled(tokens, at, belowHundred, 20, "hundred", 100);
}

function* belowMillion(tokens, at) {
  yield* belowThousand(tokens, at);
  yield* scaled(tokens, at, belowThousand, 1000, "thousand", 1000);
}

/** How many hundreds or thousands (a number, or "a"), and what follows, with "and" or without. */
function* scaled(tokens, at, below, most, name, size) {
  const several = [...below(tokens, at)];
  if (tokens[at] === "a") several.push([1, at + 1]);
  for (const [count, end] of several) {
    if (!(count > 0 && count < most && tokens[end] === name)) continue;
    yield [count * size, end + 1];
    const next = tokens[end + 1] === "and" ? end + 2 : end + 1;
    for (const [rest, last] of below(tokens, next)) if (rest) yield [count * size + rest, last];
  }
}
