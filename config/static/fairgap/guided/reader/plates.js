// What plates and gauges say: power, speed, ratio, thread and slope, by the server's rules
// (intake/domain/plates.py, intake/domain/angles.py).
//
// Each reader returns {understood: true, ...} or {understood: false, message}, an English sentence.
import { isLonger, plain } from "./characters.js";
import { NM_PER_INCH, NM_PER_MM } from "./lengths.js";

const LONGEST = 40; // characters; what is longer is no plate
const tidy = (text) => (isLonger(text, LONGEST) ? "" : plain(text));
const numberOf = (text) => Number(text.replace(",", "."));
const refused = (message) => ({ understood: false, message });

const POWERS = new Map(Object.entries({
  hp: "hp", bhp: "hp", shp: "hp", horsepower: "hp", "h.p": "hp",
  kw: "kW", kilowatt: "kW", kilowatts: "kW", ps: "PS", "metric horsepower": "PS",
}));

/** Power with its unit: {value, unit: "hp"|"kW"|"PS"}; refused without one. */
export function readPower(text) {
  const found = /^([0-9]{1,4}(?:[.,][0-9]{1,2})?) ?([a-z .]*?[a-z])\.?$/.exec(tidy(text));
  const [value, unit] = found ? [numberOf(found[1]), POWERS.get(found[2])] : [0, ""];
  if (value && unit) return { understood: true, value, unit };
  return refused("Write the power with its unit, such as 310 hp, 75 kW or 100 PS.");
}

const SPEED = new RegExp(
  "^([0-9]{2,5}|[0-9]{1,2}[ ,.][0-9]{3})(?: ?(?:rpm|r\\.p\\.m\\.?|r?/min|1/min|min-1))?$",
);

/** Engine speed in turns a minute: {value}; a comma in it can only part thousands. */
export function readSpeed(text) {
  const found = SPEED.exec(tidy(text));
  const value = found ? Number(found[1].replace(/[ ,.]/g, "")) : 0;
  if (value) return { understood: true, value };
  return refused("Write the engine speed as a whole number, such as 3600.");
}

const SAID = { one: "1", two: "2", three: "3", four: "4" };
const RATIO = /^([0-9]{1,2}(?:[.,][0-9]{1,3})?)(?: ?(?::|to) ?([0-9]{1,2}(?:[.,][0-9]{1,3})?))?$/;

/** Engine turns for one turn of the shaft: {value}; "1:2" is kept as one half. */
export function readRatio(text) {
  const found = RATIO.exec(tidy(text).replace(/\b(?:one|two|three|four)\b/g, (word) => SAID[word]));
  // In thousandths: two whole numbers give the nearest Number to their exact ratio.
  const [above, below] = found ? [found[1], found[2] ?? "1"].map(thousandths) : [0, 0];
  if (above && below) return { understood: true, value: above / below };
  return refused("Write the ratio as on the gearbox plate, such as 2:1 or 2.05.");
}

const thousandths = (text) => Math.round(numberOf(text) * 1000);

const UN = new RegExp(
  "^((?:[0-9][ -])?[0-9]{1,2}/(?:2|4|8|16|32|64)|[0-9]) ?(?:in\\.?|\")? ?[-x×] ?" +
    "([0-9]{1,2})(?: ?tpi)?(?: ?un[cf]?(?:-[123][ab])?)?$",
);
const METRIC = /^m ?([0-9]{1,3})(?: ?[x×*] ?([0-9](?:[.,][0-9]{1,2})?))?$/;

/** A thread as a gauge names it: {text, system: "inch"|"mm", major (nm), pitch}. */
export function readThread(text) {
  const said = tidy(text);
  const [un, metric] = [UN.exec(said), METRIC.exec(said)];
  const thread = un ? inchThread(un[1], un[2]) : metric && metricThread(metric[1], metric[2]);
  if (thread) return { understood: true, ...thread };
  return refused("Write the thread as size and pitch, such as 3/4-10 or M20x1.5.");
}

/** Null where the fraction is no part of an inch, or there are no threads. */
function inchThread(size, threads) {
  const words = size.split(/[ -]/);
  const [top, bottom] = words[words.length - 1].split("/").map(Number);
  const pitch = threads.replace(/^0+/, "");
  if (!pitch || top <= 0 || top >= (bottom || 10)) return null;
  const inches = (words.length > 1 ? Number(words[0]) : 0) + top / (bottom || 1);
  const text = `${words.join("-")}-${pitch}`;
  return { text, system: "inch", major: inches * NM_PER_INCH, pitch };
}

/** Null for no size, or a pitch that is nothing or not finer than the thread is thick. */
function metricThread(written, pitch) {
  const [size, fine] = [Number(written), pitch ? numberOf(pitch) : null];
  if (!size || (fine !== null && !(fine > 0 && fine < size))) return null;
  const text = fine ? `M${size}x${fine}` : `M${size}`;
  return { text, system: "mm", major: size * NM_PER_MM, pitch: fine ? String(fine) : "" };
}

const ANGLE = /^([0-9]{1,2}(?:[.,][0-9]{1,2})?)\s*(?:°|deg|degrees?)?\.?$/i;
const FULL_WIDTH = /[\uff10-\uff19]/g;

/** The slope of a shaft in degrees, from 0 to 45: {value}. */
export function readAngle(text) {
  const found = ANGLE.exec(text.trim().replace(FULL_WIDTH, (digit) => plain(digit)));
  const value = found ? numberOf(found[1]) : 46;
  if (value <= 45) return { understood: true, value };
  return refused("Give the slope in degrees, such as 10; a level shaft is 0.");
}
