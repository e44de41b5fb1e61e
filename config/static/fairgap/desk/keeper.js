// Keeps the call at the desk while it is typed: one message at a time, in order, the last text wins;
// each is acknowledged. What fails stays in the page and in this browser, and is tried again.
import { asForm, texts } from "./boxes.js";
import * as store from "./store.js";
import { freshToken, post } from "./wire.js";

const PAUSE = 250, SOONEST = 1000, LATEST = 30_000;
const LOOK = 15_000, LOOK_TOGETHER = 4000; // how often what others typed is asked for

export class Keeper {
  /** `told(event, facts)` hears "kept", "failed" and "waiting". */
  constructor(form, told) {
    Object.assign(this, { form, told, held: new Set(), loop: null, again: false, tries: 0, nth: 0 });
    this.ident = form.dataset.ident;
    this.revision = Number(form.elements.seen.value) || 0;
    this.known = texts(form); // what the desk has, as far as this page knows
    this.closed = "closed" in form.dataset; // saved before: nothing more of it is kept
  }

  /** Names of boxes that say something the desk has not got. */
  get open() {
    const now = texts(this.form);
    return Object.keys(now).filter((name) => now[name] !== this.known[name]);
  }

  /** The call goes to the desk as a whole, which answers with a page of its own. */
  leave() {
    if (this.closed) store.keep(this.ident, {}); // what was typed late is of another call from now on
    this.form.submit();
  }

  /** Ask now and then for what others typed; more often while somebody is here. */
  watch(isTogether) {
    clearTimeout(this.watching);
    this.watching = setTimeout(() => {
      if (document.visibilityState === "hidden" || this.closed) this.watch(isTogether);
      else this.send({ always: true, headers: { "X-Background": "1" } });
    }, isTogether ? LOOK_TOGETHER : LOOK);
  }

  /** Something was typed. */
  touch() {
    this.remember();
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.send(), this.tries ? this.wait : PAUSE);
  }

  remember() {
    const now = texts(this.form), { open } = this;
    this.form.dataset.open = open.length; // how many boxes the desk has not got
    store.keep(this.ident, Object.fromEntries(open.map((name) => [name, now[name]])));
  }

  get wait() {
    return Math.min(SOONEST * 2 ** Math.max(this.tries - 1, 0), LATEST);
  }

  /** Send now what is open; resolves to whether the desk has everything that may be sent. */
  send(options = {}) {
    clearTimeout(this.timer);
    if (this.loop) this.again = true; // one message at a time: this one follows
    else this.loop = this.run(options).finally(() => { this.loop = null; });
    return this.loop;
  }

  async run(options) {
    for (let next = options; next; next = this.again && !this.tries && !this.closed ? {} : null) {
      this.again = false;
      await this.once(next);
    }
    if (this.tries && !this.closed) this.timer = setTimeout(() => this.send(), this.wait);
    return this.tries === 0;
  }

  /** One message; `always` also where nothing changed. What failed is tried even then. */
  async once({ always = false, ...options } = {}) {
    if (!this.form.dataset.keep || (this.closed && !always)) return;
    const sent = texts(this.form);
    const changed = this.open.filter((name) => !this.held.has(name));
    if (!changed.length && !always && !this.tries) return;
    const more = { seen: this.revision, changed: changed.join(" "), page: this.form.elements.page.value, nth: ++this.nth };
    let { came, answer, text } = await post(this.form.dataset.keep, asForm(this.form, sent, more), options);
    if (came === "login" && await this.renewToken()) {
      ({ came, answer, text } = await post(this.form.dataset.keep, asForm(this.form, sent, more), options));
      if (came === "login") came = "refused"; // the page opens, so it is no login that is missing
    }
    const facts = came === "ok" ? kept(answer) : null;
    if (!facts) {
      this.tries += 1;
      this.told("failed", { came, status: answer?.status, wait: this.wait });
      return;
    }
    this.tries = 0;
    this.acknowledge(sent, changed, facts);
    const isNew = changed.length || Object.keys(facts.boxes ?? {}).length;
    this.told("kept", { ...facts, changed: Boolean(isNew), html: text });
  }

  acknowledge(sent, changed, facts) {
    const refused = new Set([...facts.conflicts ?? [], ...facts.refused ?? []].map((one) => one.name));
    this.closed ||= Boolean(facts.closed); // nothing of this message went into what was saved
    for (const name of this.closed ? [] : changed) if (!refused.has(name)) this.known[name] = sent[name];
    this.revision = facts.revision ?? this.revision;
    this.form.elements.seen.value = this.revision;
    this.remember();
  }

  async renewToken() {
    const token = await freshToken(location.pathname);
    for (const field of token ? document.querySelectorAll("[name=csrfmiddlewaretoken]") : []) {
      field.value = token;
    }
    return token !== "";
  }
}

function kept(answer) {
  try {
    return JSON.parse(answer.headers.get("HX-Trigger"))["desk:kept"];
  } catch {
    return null;
  }
}
