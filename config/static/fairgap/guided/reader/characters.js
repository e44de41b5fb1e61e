// Characters that only look different, made plain: full width, thin spaces, curly quotes.
// Every fraction keeps a space in front, and digits are never moved together.

const PLAIN = new Map();
const alike = (signs, plain) => [...signs].forEach((sign) => PLAIN.set(sign, plain));
for (let code = 0xff01; code < 0xff5f; code += 1) {
  PLAIN.set(String.fromCharCode(code), String.fromCharCode(code - 0xfee0)); // full width
}
alike("\t\xa0\u1680\u202f\u205f\u3000", " ");
for (let code = 0x2000; code < 0x200b; code += 1) alike(String.fromCharCode(code), " ");
alike("‐‑‒–—―−﹣", "-");
alike("″”“‟ʺ〃", '"');
alike("′’‘‛ʹ´", "'");
alike("∕⁄", "/");
alike("⌀Ø", "ø");
alike("㎜", "mm");
alike("㎝", "cm");
alike("→", "->");

const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const LOWERED = "₀₁₂₃₄₅₆₇₈₉";
const DIGITS = new Map();
[...RAISED].forEach((sign, digit) => DIGITS.set(sign, digit));
[...LOWERED].forEach((sign, digit) => DIGITS.set(sign, digit));
const figures = (text) => [...text].map((sign) => DIGITS.get(sign) ?? sign).join("");

const UNSEEN = /[\u00ad\u200b-\u200e\u2060\ufe0e\ufe0f\ufeff]+/g;
const STACKED = new RegExp(`([${RAISED}]+) ?/ ?([${LOWERED}]+|[0-9]+)(?![0-9${LOWERED}])`, "g");
const ONE_OVER = new RegExp(`⅟ ?([${LOWERED}]+|[0-9]+)(?![0-9${LOWERED}])`, "g");
const NAMES = "½ ⅓ ⅔ ¼ ¾ ⅕ ⅖ ⅗ ⅘ ⅙ ⅚ ⅐ ⅛ ⅜ ⅝ ⅞ ⅑ ⅒ ↉".split(" ");
const VALUES = "1/2 1/3 2/3 1/4 3/4 1/5 2/5 3/5 4/5 1/6 5/6 1/7 1/8 3/8 5/8 7/8 1/9 1/10 0/3";
const SIGNS = new Map(VALUES.split(" ").map((value, at) => [NAMES[at], value]));
const SIGN = new RegExp(`[${NAMES.join("")}](?![0-9${NAMES.join("")}])`, "g");

/** Whether it has more characters than that; some take two places in a text. */
export function isLonger(text, most) {
  return text.length > 2 * most || (text.length > most && [...text].length > most);
}

/** Figures of a whole number without blanks and useless zeros. */
export const plainWhole = (text) => text.trim().replace(/^0+(?=.)/, "");

/** The text without the blanks at its ends. */
export function stripped(text) {
  let [start, end] = [0, text.length];
  while (start < end && " \t\r\n".includes(text[start])) start += 1;
  while (start < end && " \t\r\n".includes(text[end - 1])) end -= 1;
  return text.slice(start, end);
}

/** The same text in plain characters and small letters, with single spaces. */
export function plain(text) {
  const small = stripped(inAscii(text)).toLowerCase();
  const signed = small.replace(/`/g, "'").replace(/''/g, '"');
  return signed.includes("  ") ? signed.split(" ").filter(Boolean).join(" ") : signed;
}

function inAscii(text) {
  return text
    .replace(/[\t\x80-\uffff]/g, (sign) => PLAIN.get(sign) ?? sign)
    .replace(UNSEEN, unseen)
    .replace(STACKED, (_all, top, bottom) => ` ${figures(top)}/${figures(bottom)}`)
    .replace(ONE_OVER, (_all, bottom) => ` 1/${figures(bottom)}`)
    .replace(SIGN, (sign) => ` ${SIGNS.get(sign)}`);
}

/** Between two digits nothing tells whether they belong together: one stays, and is refused. */
function unseen(run, at, text) {
  const between = /[0-9]/.test(text[at - 1] ?? "") && /[0-9]/.test(text[at + run.length] ?? "");
  return between ? run[0] : "";
}
