// Which screens a boat needs, where one stands among them, and the body that is sent. Pure.
import { saidOr } from "./said.js";

let all = [];
const HOW = ["method", "start_mark"]; // says how, not what: alone it is no answer

/** Keep the screens the server gave. */
export function keepSteps(steps) {
  all = steps;
}

/** The screen of that name. */
export function stepOf(slug) {
  return all.find((step) => step.slug === slug);
}

/** The screen at which an error of the API belongs: the one with that box, or of that answer. */
export function stepOfPath(path) {
  return all.find((step) => step.boxes.some((box) => box.name === path))
    ?? all.find((step) => step.path === path)
    ?? all.find((step) => path.startsWith(`${step.path}.`));
}

/** Every screen this boat needs now, in order. What a check asked for comes last. */
export function pathOf(draft) {
  const asked = new Map((draft.opened ?? []).map((one) => [one.slug, one.ask]));
  const usual = all.filter((step) => step.opens && opens(step, draft));
  const there = new Set(usual.map((step) => step.slug));
  const more = [...asked].filter(([slug]) => !there.has(slug) && stepOf(slug))
    .map(([slug, ask]) => ({ ...stepOf(slug), ask: saidOr(ask, stepOf(slug).ask), further: true }));
  return [...usual, ...more];
}

function opens(step, draft) {
  return !step.opens.length || step.opens.some((rule) => holds(rule, draft));
}

function holds(rule, { values }) {
  const wants = values.wants ?? [];
  if (rule.wants && wants.length && !wants.includes(rule.wants)) return false;
  if (rule.is && values[rule.is[0]] !== rule.is[1]) return false;
  return !rule.cannot || isCannot(rule.cannot, values);
}

/** "I can't measure this" was said of that question. */
export function isCannot(slug, values) {
  return values[`answers.${slug}.state`] === "cannot_measure";
}

/** Something stands in one of its boxes that is an answer. */
export function isAnswered(step, values) {
  return isCannot(step.slug, values) || step.boxes.some(({ name, kind }) => {
    const value = values[name], how = HOW.includes(name.split(".").pop());
    return value?.length && !(how && step.boxes.length > 1 && kind !== "length");
  });
}

/** The cautions said at a screen: each once along the path. */
export function cautionsAt(slug, path) {
  const said = new Set();
  for (const step of path) {
    const fresh = step.caution.filter((key) => !said.has(key));
    if (step.slug === slug) return fresh;
    fresh.forEach((key) => said.add(key));
  }
  return [];
}

/** The unit a number in this box was measured in: its own, else its boat's. */
export function unitOf(name, values) {
  return values[`${name}:unit`] || values.tape_unit || null;
}

/** The API's body of what was typed. `written(text)`: whether the text names its unit itself. */
export function bodyOf(draft, written) {
  const { values } = draft, answers = {}, contact = {};
  const tape = values.tape_unit || null;
  for (const [name, value] of Object.entries(values)) {
    if (!value?.length || name.includes(":")) continue;
    const [top, slug, ...parts] = name.split(".");
    if (top === "contact") contact[slug] = value.trim();
    if (top === "answers") put(answers, [slug, ...parts], withUnit(name, value, tape, values, written));
  }
  for (const [slug, answer] of Object.entries(answers)) {
    const tidy = tidied(answer);
    if (tidy === null) delete answers[slug];
    else answers[slug] = tidy;
  }
  const wants = values.wants ?? [];
  return { channel: "form", tape_unit: tape, wants, contact, answers };
}

function withUnit(name, value, tape, values, written) {
  if (typeof value !== "string") return value;
  const own = values[`${name}:unit`], text = value.trim();
  return own && own !== tape && !written(text) ? `${text} ${own}` : text;
}

function put(answers, [slug, ...parts], value) {
  if (!parts.length) { answers[slug] = value; return; }
  if (typeof answers[slug] !== "object" || Array.isArray(answers[slug])) answers[slug] = {};
  let inside = answers[slug];
  for (const part of parts.slice(0, -1)) inside = inside[part] ??= {};
  inside[parts[parts.length - 1]] = value;
}

function tidied(answer) {
  if (typeof answer !== "object" || Array.isArray(answer)) return answer;
  if (answer.state) return { state: answer.state };
  if (answer.again && !answer.again.text) delete answer.again;
  delete answer.again?.state;
  return Object.keys(answer).some((part) => !HOW.includes(part)) ? answer : null;
}
