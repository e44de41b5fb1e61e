// Numbers as they are said on the phone: fifty-eight and five eighths.

const SMALL = (
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen " +
  "sixteen seventeen eighteen nineteen"
).split(" ");
const TENS = "- - twenty thirty forty fifty sixty seventy eighty ninety".split(" ");
const PARTS = {
  2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty-second", 64: "sixty-fourth",
};

/** A whole number from 0 to 999 999 999 in words. */
export function whole(number) {
  if (number >= 1000) return withRest(number, number >= 1e6 ? 1e6 : 1000);
  if (number >= 100) {
    const rest = number % 100 ? ` and ${whole(number % 100)}` : "";
    return `${SMALL[Math.floor(number / 100)]} hundred${rest}`;
  }
  if (number < 20) return SMALL[number];
  return TENS[Math.floor(number / 10)] + (number % 10 ? `-${SMALL[number % 10]}` : "");
}

function withRest(number, unit) {
  const rest = number % unit;
  const words = `${whole((number - rest) / unit)} ${unit === 1000 ? "thousand" : "million"}`;
  if (!rest) return words;
  return rest < 100 ? `${words} and ${whole(rest)}` : `${words} ${whole(rest)}`;
}

/** A proper fraction in lowest terms, of a tape: five eighths, one half. */
export function part(top, bottom) {
  return `${whole(top)} ${PARTS[bottom]}${top === 1 ? "" : "s"}`;
}

/** A number with decimal places, digit by digit: one point zero five. */
export function decimal(number, digits) {
  return `${whole(number)} point ${[...digits].map((digit) => SMALL[digit]).join(" ")}`;
}

/** Inches on a tape with their unit: fifty-eight and five eighths inches. */
export function mixed(number, top, bottom) {
  if (!top) return `${whole(number)} ${number === 1 ? "inch" : "inches"}`;
  if (!number) return bottom === 2 ? "half an inch" : `${part(top, bottom)} of an inch`;
  return `${whole(number)} and ${part(top, bottom)} inches`;
}
