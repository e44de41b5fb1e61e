// Why a text is not a length we read, in one kind sentence with something to try.
// The sentences are the server's own, word for word; a page translates them as it shows them.

export const EXAMPLES = ["58 5/8 in", "58.625 in", "1489 mm"];
export const LONGEST = 100; // characters

/** A text that is not read: one sentence, and texts to try instead. */
export class Refused extends Error {
  constructor(message, suggestions = EXAMPLES) {
    super(message);
    this.suggestions = suggestions;
  }
}

/** Throw it: `refuse([message, suggestions])`. */
export function refuse([message, suggestions]) {
  throw new Refused(message, suggestions);
}

export const TOO_LONG = ["That is too long for one measurement; please type just the number."];
const NOTHING = ["Please type the number you read off the tape, such as 58 5/8 in."];
export const UNKNOWN = [
  "We cannot read that as one length; please write it like 58 5/8 in or 1489 mm.",
];
export const TOO_FINE = [
  "That has more decimal places than anyone can measure; please leave some out.",
];
export const TWO_UNITS = ["That has two units in it; please write the length in one of them."];
export const TOO_FAR = ["That is longer than 100 metres; please check the number and its unit."];
export const UNIT_WITH_EACH = ["Please write the unit with each number, or with none of them."];
export const MANY = ["That is more readings than we can take at once; please give at most five."];

// What was probably meant by texts that mean more than one thing; the first that fits is said.
const MEANT = [
  [
    /^(?:-|minus\b) ?([0-9.a-z][^\n]*)$/,
    "A length cannot be less than nothing; please type it without the minus sign.",
    (number) => [number],
  ],
  [
    /^([0-9]{1,3}) ([0-9]{1,3}) ?(in|mm|"|)$/,
    "Is that one number? Please write it without the gap, or with its feet mark.",
    (first, second, unit) => [`${first}${second} ${unit}`, `${first}' ${second}"`],
  ],
  [
    /^([^\n]+[0-9]) ?(?:and|&) ?([0-9][^\n]*)$/,
    "Are these two readings? Please put a semicolon between them.",
    (one, other) => [`${one}; ${other}`],
  ],
  [
    /^((?:over|under) [^\n]+)$/,
    "By how much? Please type the nearest mark.",
    (said) => [`just ${said}`],
  ],
  [
    /^([^\n]+(?:feet|foot|ft|')) (and [^\n]+)$/,
    "A part of a foot can be meant two ways; please say that it is of an inch.",
    (feet, part) => [`${feet} ${part} of an inch`],
  ],
];

// Everything the server takes for a space or for a digit when it looks for a reason.
const SPACE = "\\t-\\r\\x1c- \\x85\\xa0\\u1680\\u2000-\\u200a\\u2028\\u2029\\u202f\\u205f\\u3000";
const ENDS = new RegExp(`^[${SPACE}]+|[${SPACE}]+$`, "g");
const DIGIT = new RegExp(
  "[\\p{Nd}\\xb2\\xb3\\xb9\\u1369-\\u1371\\u19da\\u2070\\u2074-\\u2079\\u2080-\\u2089" +
    "\\u2460-\\u2468\\u2474-\\u247c\\u2488-\\u2490\\u24ea\\u24f5-\\u24fd\\u24ff\\u2776-\\u277e" +
    "\\u2780-\\u2788\\u278a-\\u2792\\u{10a40}-\\u{10a43}\\u{10e60}-\\u{10e68}" +
    "\\u{11052}-\\u{1105a}\\u{1f100}-\\u{1f10a}]",
  "u",
);

/** Explain a text in plain characters (at most 100) that is not a length in any form. */
export function whyUnreadable(plain) {
  if (!plain) return NOTHING;
  for (const [pattern, message, texts] of MEANT) {
    const found = pattern.exec(plain);
    if (found) return [message, texts(...found.slice(1)).map((text) => text.replace(ENDS, ""))];
  }
  return DIGIT.test(plain) && unitWords(plain) > 1 ? TWO_UNITS : UNKNOWN;
}

/** How many words or signs of units stand in it: `mm` begins a word, `m` stands alone. */
function unitWords(plain) {
  const unit = /millimet|mm|cm|m|ft|feet|foot|in|["']/g;
  let count = 0;
  for (let found = unit.exec(plain); found; found = unit.exec(plain)) {
    const [before, after] = [plain.slice(0, found.index), plain.slice(unit.lastIndex)];
    const joined =
      (found[0] === "mm" && /[\p{L}\p{N}_]$/u.test(before)) ||
      (found[0] === "m" && (/[a-z]$/.test(before) || /^[a-z]/.test(after)));
    if (joined) unit.lastIndex = found.index + 1;
    else count += 1;
  }
  return count;
}

/** `10 68 5/8`: no feet and inches, for there are twelve inches or more. */
export const twoNumbers = (first, second) => [
  "Are these two numbers? Please write the length alone, or the mark at the start first.",
  [second, `${first} to ${second}`],
];

/** Less than nothing once "shy" is taken off. */
export const belowNothing = (shown) => [
  "That would be less than nothing; please type the nearest mark alone.",
  [shown],
];

/** `4 10 5/8`, where nothing shows that feet and inches are meant. */
export const noMarks = (marked) => [
  "Are these feet and inches? Please add their marks.",
  [marked],
];

/** Words that can be grouped in two ways; `25/8` is suggested as `3 1/8`. */
export const twoWays = (figures) => [
  "That can be heard in two ways; please type it in figures.",
  figures.map((text) => text.replace(/^([0-9]+)\/([0-9]+)/, withWhole)),
];

function withWhole(text, top, bottom) {
  const [above, below] = [BigInt(top), BigInt(bottom) || 1n];
  return above < below ? text : `${above / below} ${above % below}/${bottom}`;
}

/** `58 to 59`: a start mark, or two readings. */
export const markOrTwo = (length, start, end) => [
  "Is the first number the mark held at the start? Please write the length alone.",
  [length, `${start}; ${end}`],
];

/** A start mark at or past what was read. */
export const beforeTheStart = (start, end) => [
  "The mark at the start should be the smaller number; please check both.",
  [`${end} to ${start}`, end],
];

/** Repeated readings that cannot be of the same thing. */
export const farApart = (shown) => [
  "Those readings are too far apart for one length; please measure once more.",
  shown,
];

/** `44, 44`: a decimal comma with a space, or two readings. */
export const commaOrTwo = (whole, decimals, unit) => [
  "Is that one number or two readings? Please use a point or a semicolon.",
  [`${whole}.${decimals} ${unit}`.trim(), `${whole}; ${decimals} ${unit}`.trim()],
];

/** A number, or several, when nothing says which tape they came from. */
export const eitherUnit = (text) => [
  "Inches or millimetres? Please add the unit to the number.",
  [`${text} in`, `${text} mm`],
];

/** A fraction no tape has: not a half to a 64th, or not smaller than one. */
export function badFraction(whole, top, bottom) {
  const finer = [8, 16, 32, 64].filter((marks) => Number(top) < marks);
  const nearby = finer.map((marks) => `${whole} ${top}/${marks}`.trim());
  const apart = whole || top.length < 2 ? [] : [`${top.slice(0, -1)} ${top.slice(-1)}/${bottom}`];
  return [
    "That fraction is not a mark on a tape; it needs halves, quarters, eighths, 16ths, " +
      "32nds or 64ths.",
    [...apart, ...nearby.slice(0, 2)],
  ];
}

/** A fraction written with a unit that is not divided like that. */
export function fractionOf(unit, whole, top, bottom) {
  const decimals = (Number(whole) + Number(top) / Number(bottom)).toFixed(6).replace(/0+$/, "");
  if (unit === "ft") {
    return [
      "A fraction of a foot can be meant two ways; please write feet and inches apart.",
      [`${whole || 0} ft ${top}/${bottom} in`, `${decimals} ft`],
    ];
  }
  return [
    `A fraction is an inch mark, but ${unit} is written; please say which is meant.`,
    [`${`${whole} ${top}/${bottom}`.trim()} in`, `${decimals} ${unit}`],
  ];
}

/** `1,489`: a decimal comma or a thousands comma, nobody can tell. */
export const eitherComma = (whole, decimals, unit) => [
  "That comma can be meant two ways; please write it with a point or without it.",
  [`${whole}${decimals} ${unit}`.trim(), `${whole || 0}.${decimals} ${unit}`.trim()],
];

/** Twelve inches or more after the feet. */
export const manyInches = (inches, total) => [
  "After feet the inches stay below 12; please check both numbers.",
  [total, inches],
];
