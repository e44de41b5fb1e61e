// The call page: typed by keyboard, judged beside it, kept while it is typed. Without this file the
// page is a form that is saved as a whole.
import { asForm, texts } from "./boxes.js";
import { Both } from "./both.js";
import { chords } from "./chords.js";
import { readBack, showKeys } from "./dialogs.js";
import { el } from "./dom.js";
import { find, walkFound } from "./finder.js";
import { Keeper } from "./keeper.js";
import { offerLeftOver } from "./left_over.js";
import { draw } from "./panel.js";
import { walkByEnter } from "./steps.js";
import { notice, trouble, well } from "./trouble.js";
import { post } from "./wire.js";

const form = document.querySelector("[data-desk]");
const byId = (id) => document.getElementById(id);
const NOT_KEPT = "not kept";
let pricing = null; // the question for the price that is under way

if (form) start();

function start() {
  form.toggleAttribute("data-live", true);
  for (const one of document.querySelectorAll(".call-keys, [data-chords]")) one.hidden = false;
  const keeper = new Keeper(form, hear);
  const both = new Both(form, keeper, (text) => { byId("call-says").textContent = text; });
  const saving = { now: false };

  const walk = chords(form, byId("call-leader"), {
    "/": find, ".": save, "'": () => readBack(form), "?": showKeys, Enter: goToAsked,
  });
  walkFound(() => form.querySelector("[data-stop]").focus());
  walkByEnter(form, save);

  form.addEventListener("input", () => keeper.touch());
  form.addEventListener("change", () => keeper.touch());
  form.addEventListener("submit", onSubmit);
  document.querySelector("[data-chords]")?.addEventListener("click", showKeys);
  addEventListener("online", () => keeper.send());
  addEventListener("focus", () => { if (keeper.tries) keeper.send(); });
  addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") keeper.send({ keepalive: true });
  });
  addEventListener("pageshow", (event) => { if (event.persisted) again(); });
  for (const told of document.querySelectorAll("[data-conflict]")) {
    const { conflict: name, theirs, by, at } = told.dataset;
    both.differ({ name, theirs, by, at });
  }
  offerLeftOver(form, keeper, byId("call-left"), () => keeper.touch());
  if ("kept" in form.dataset && !keeper.closed) keeper.send({ always: true }); // how each number reads stands beside it at once
  drawPrice();

  function goToAsked() {
    const code = document.querySelector("[data-asked]")?.dataset.asked;
    const field = code && form.querySelector(`[data-code="${code}"]`);
    if (field) walk.go(field);
  }

  function hear(event, facts) {
    if (event === "failed") {
      byId("call-kept").textContent = NOT_KEPT;
      trouble(form, facts.came);
      return;
    }
    well();
    const place = byId("call-kept");
    if (facts.changed || place.textContent === NOT_KEPT) place.textContent = `kept ${facts.at}`;
    byId("call-here").textContent = facts.here?.length ? `Also here: ${facts.here.join(", ")}` : "";
    byId("call-here").dataset.here = `draft ${keeper.ident}`;
    if (form.dataset.draft && location.pathname !== form.dataset.draft) history.replaceState(null, "", form.dataset.draft);
    both.hear(facts);
    if (facts.html !== undefined) draw(form, facts.html);
    if (facts.closed) savedElsewhere(facts.closed);
    else {
      if (facts.changed) drawPrice();
      keeper.watch(Boolean(facts.here?.length));
    }
  }

  function savedElsewhere(reference) {
    notice(`This call was saved meanwhile, as ${reference}. What you type from then on is not in it: save, and it becomes a correction of it. `,
      el("a", { href: `/desk/${reference}/` }, "Open it"));
  }

  function onSubmit(event) {
    if (event.submitter?.matches("[data-away]")) return;
    event.preventDefault();
    if (event.submitter?.matches("[data-read]")) readBack(form);
    else save();
  }

  // The desk has every box before the call is saved: where it cannot, nothing leaves this page.
  async function save() {
    if (saving.now || both.goToFirst()) return;
    again(true);
    const isKept = await keeper.send({ always: true });
    if (isKept && !both.goToFirst()) keeper.leave();
    else again();
  }

  function again(now = false) {
    saving.now = now;
    for (const button of document.querySelectorAll("[data-save], [data-save-last]")) button.disabled = now;
  }
}

/** The price comes on its own: it never holds up what the checks say. */
async function drawPrice() {
  const place = byId("desk-price");
  if (!place || !form.dataset.price) return;
  pricing?.abort();
  pricing = new AbortController();
  const { came, text } = await post(form.dataset.price, asForm(form, texts(form)), { signal: pricing.signal });
  if (came !== "ok") return;
  place.innerHTML = text; // our own fragment, escaped where it is made
  const total = place.querySelector(".big")?.textContent;
  byId("call-total").textContent = total ? `price so far ${total}` : ""; // in sight, however much is found
}
