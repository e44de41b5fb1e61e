// The guided path: one question a screen, kept on the phone, sent once. Starts here.
import "./store.js";
import "./outbox.js";
import { showBoats, whereIn } from "./boats.js";
import { furtherQuestions } from "./check.js";
import { el, keepWords, notice, say, show } from "./dom.js";
import { showHandOver, takeOver } from "./helper.js";
import { bodyOf, keepSteps, pathOf, stepOf } from "./path.js";
import { prepare } from "./picture.js";
import { showQuestion } from "./question.js";
import { keepOrder, namesItsUnit } from "./reading.js";
import { keepSaid } from "./said.js";
import { showReview } from "./review.js";
import { remember } from "./speech.js";

const store = globalThis.fairgapStore, outbox = globalThis.fairgapOutbox;
const page = document.body.dataset;
let shown = { draft: "", slug: "", refresh: null }, timer = 0, moves = 0;

const app = {
  cautions: {}, handOver: page.handOver, paper: page.paper,
  address: (id, slug) => `#d=${id}&q=${slug}`,
  home() {
    history.pushState(null, "", page.home);
    return route();
  },
  open(id, slug, replace = false) {
    const address = app.address(id, slug);
    if (replace) history.replaceState(null, "", address);
    else history.pushState(null, "", address);
    return route();
  },
  async add(parts) {
    const now = Date.now();
    return store.add({ id: crypto.randomUUID(), made: now, changed: now, state: "draft", values: {}, opened: [],
                       errors: {}, tries: 0, ...parts });
  },
  async start() { app.open((await app.add({})).id, ""); },
  /** Change the kept draft; nothing is changed any more once it was finished, in any window. */
  save: (id, change) => store.change(id, (kept) => {
    if (kept.state !== "draft") return false;
    change(kept);
    kept.changed = Date.now();
    return true;
  }),
  async again(seek) {
    notice("");
    await route();
    document.querySelector(seek)?.focus();
  },
  async back(slug) {
    const draft = await store.draft(shown.draft), path = pathOf(draft);
    const place = slug === "review" ? path.length : path.findIndex((step) => step.slug === slug);
    notice("");
    return place > 0 ? app.open(draft.id, path[place - 1].slug) : app.home();
  },
  async next(slug) {
    const draft = await store.draft(shown.draft), path = pathOf(draft);
    const following = path[path.findIndex((step) => step.slug === slug) + 1];
    if (following) return app.open(draft.id, following.slug);
    return app.open(draft.id, await afterTheLast(draft));
  },
  async finish(draft, body) {
    await outbox.finish(draft.id, body);
    notice(say("thanks"), "success");
    await app.home();
    await app.send("signal");
    if ((await store.draft(draft.id))?.state === "sent") notice("");
  },
  async send(hurry = "") {
    await backgroundSync();
    const next = await outbox.sendAll(hurry);
    if (!shown.draft && document.querySelector(".boats")) showBoatsQuietly();
    clearTimeout(timer);
    if (next < Infinity) timer = setTimeout(() => app.send(), Math.max(next - Date.now(), 1000));
  },
};

async function afterTheLast(draft) {
  notice(say("checking"));
  const more = await furtherQuestions(draft, bodyOf(draft, namesItsUnit));
  notice(more.length ? say("review_more") : "");
  if (!more.length) return "review";
  await app.save(draft.id, (kept) => { kept.opened = [...kept.opened, ...more]; });
  return more[0].slug;
}

/** Where the browser can, it sends for us when the signal is back and this page is closed. */
async function backgroundSync() {
  const waiting = (await store.drafts()).some((draft) => draft.state === "waiting");
  const worker = waiting && (await navigator.serviceWorker?.getRegistration());
  await worker?.sync?.register("fairgap-outbox").catch(() => null);
}

async function route() {
  const move = ++moves;
  const asked = new URLSearchParams(location.hash.slice(1));
  shown = { draft: "", slug: "", refresh: null };
  if (asked.has("h")) return takeOver(app, asked.get("h"));
  const draft = asked.get("d") && (await store.draft(asked.get("d")));
  if (move !== moves) return undefined;
  if (asked.has("away")) notice(say("away"), "warning");
  if (!draft || draft.state !== "draft") return showBoats(app);
  const slug = asked.get("q") || whereIn(draft);
  shown.draft = draft.id;
  if (slug === "hand") return showHandOver(app, draft);
  app.save(draft.id, (kept) => { kept.at = slug; });
  if (slug === "review") return showReview(app, draft);
  const view = await showQuestion(app, draft, stepOf(slug) ?? pathOf(draft)[0]);
  if (move === moves) shown = { draft: draft.id, ...view };
  return undefined;
}

async function heard(id) {
  if (!shown.draft) return document.querySelector(".boats") && showBoatsQuietly();
  if (id !== shown.draft) return undefined;
  const draft = await store.draft(id);
  if (!draft || draft.state !== "draft") return route();
  return shown.refresh?.(draft);
}

/** Not while a row is being renamed or deleted. */
function showBoatsQuietly() {
  return document.querySelector(".boats form, .boats [role=alert]") ? undefined : showBoats(app, true);
}

function listen() {
  window.addEventListener("hashchange", route);
  window.addEventListener("popstate", route);
  window.addEventListener("online", () => { signal(); app.send("signal"); });
  window.addEventListener("offline", signal);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) app.send(); });
  document.querySelector("[data-boats]").addEventListener("click", (event) => { event.preventDefault(); notice(""); app.home(); });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && shown.slug) app.back(shown.slug);
  });
  store.listen(heard);
}

/** The signal came or went: said, and the review's button says what it will do now. */
function signal() {
  if (document.querySelector("dl.review")) route();
  document.body.classList.toggle("no-signal", !navigator.onLine);
  notice(say(navigator.onLine ? "online" : "offline"));
}

async function start() {
  const told = await (await fetch(page.questions)).json();
  keepWords(told.words);
  keepSteps(told.steps);
  keepOrder(told.metric_first);
  keepSaid(told);
  app.cautions = told.cautions;
  try {
    await store.drafts();
  } catch {
    show(el("h1", {}, say("boats")), el("p", { class: "notice warning" }, say("no_store")));
    return;
  }
  await Promise.all([prepare(told.drawing), remember()]);
  listen();
  await route();
  if (!navigator.onLine && !location.hash.includes("away")) signal();
  navigator.serviceWorker?.register("/sw.js").catch((error) => console.warn(error));
  navigator.storage?.persist?.();
  app.send();
}

start();
