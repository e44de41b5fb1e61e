// Finished sheets go out from here, each exactly once: its key and its body are frozen when it is
// finished, so a repeat is the same call, and the desk stores it once. A plain script, for the
// service worker sends from here too.
globalThis.fairgapOutbox ??= (() => {
  const store = globalThis.fairgapStore;
  const ADDRESS = "/api/v1/submissions/", PATIENCE = 30_000;
  const SOONEST = 15_000, LATEST = 30 * 60_000;

  /** Freeze a draft for sending. False where it was frozen or sent before, in whatever window. */
  function finish(id, body) {
    return store.change(id, (draft) => {
      if (draft.state !== "draft") return false;
      Object.assign(draft, {
        state: "waiting", key: crypto.randomUUID(), body: JSON.stringify(body), tries: 0,
        retryAt: 0, problem: "", errors: {}, finished: Date.now(),
        language: document.documentElement.lang,
      });
      return true;
    });
  }

  /** Back to the questions. Only while it was never tried: a try may have arrived unheard. */
  function takeBack(id) {
    return store.change(id, (draft) => {
      if (draft.state !== "waiting" || draft.tries) return false;
      again(draft, "");
      return true;
    });
  }

  /**
   * Send what waits, and answer the next time to try. `hurry`: "signal" tries again what failed
   * for want of one, "all" also what the desk asked to hold back.
   */
  function sendAll(hurry = "") {
    const work = () => everyOne(hurry);
    return navigator.locks ? navigator.locks.request("fairgap-outbox", work) : work();
  }

  async function everyOne(hurry) {
    const now = Date.now();
    const isDue = ({ retryAt, problem }) =>
      hurry === "all" || (retryAt || 0) <= now || (hurry === "signal" && !problem);
    for (const draft of await store.drafts()) {
      if (draft.state === "waiting" && isDue(draft)) await send(draft.id);
    }
    for (const draft of await store.drafts()) {
      if (draft.state === "sent" && isDue(draft)) await sendPhotos(draft);
    }
    const times = (await store.drafts()).filter((draft) => draft.retryAt > now);
    return Math.min(...times.map((draft) => draft.retryAt), Infinity);
  }

  async function send(id) {
    let mine = false;
    const draft = await store.change(id, (found) => {
      mine = found.state === "waiting";
      if (!mine) return false;
      found.tries += 1;
      return true;
    });
    if (!mine) return;
    const headers = { "Content-Type": "application/json", "Idempotency-Key": draft.key, ...speaks(draft) };
    const answer = await call(ADDRESS, { headers, body: draft.body });
    const told = answer ? await jsonOf(answer) : null;
    await store.change(id, (found) => settle(found, answer, told));
  }

  /** The language it was finished in: papers and mails come in it. */
  const speaks = ({ language }) => (language ? { "Accept-Language": language } : {});

  /** What the answer means for the draft. */
  function settle(draft, answer, told) {
    if (!answer) return later(draft, 0, "");
    if (answer.status === 201 && told?.reference) return sent(draft, told);
    if (answer.status === 409) return again(draft, "conflict");
    if (answer.status === 429) return later(draft, secondsOf(answer), "many");
    if (answer.status >= 500 || answer.status === 408 || answer.status === 201) {
      return later(draft, secondsOf(answer), "server_down");
    }
    return again(draft, "refused", told?.errors ?? { "": [told?.detail ?? answer.statusText] });
  }

  function sent(draft, told) {
    Object.assign(draft, {
      state: "sent", reference: told.reference, link: pathOf(told.link), problem: "", retryAt: 0,
      sentAt: Date.now(), body: "", verdict: told.verdict ?? "",
    });
  }

  /** Under a new key: what comes next is another call. */
  function again(draft, problem, errors = {}) {
    Object.assign(draft, { state: "draft", key: "", body: "", tries: 0, retryAt: 0, problem, errors });
  }

  function later(draft, seconds, problem) {
    const doubled = Math.min(SOONEST * 2 ** Math.min(Math.max((draft.tries || 1) - 1, 0), 10), LATEST);
    Object.assign(draft, { problem, retryAt: Date.now() + Math.max(seconds * 1000, doubled) });
  }

  async function sendPhotos(draft) {
    let token = "";
    for (const photo of await store.photosOf(draft.id)) {
      if (photo.state !== "kept") continue;
      token ||= await formToken(draft.link);
      const form = new FormData();
      form.append("photo", photo.blob, "photo.jpg");
      form.append("question", photo.question);
      const answer = token && await call(`${draft.link}photos/`, {
        body: form, credentials: "same-origin",
        headers: { "X-CSRFToken": token, Accept: "application/json", ...speaks(draft) },
      });
      if (!answer || answer.status === 429 || answer.status >= 500) {
        await store.change(draft.id, (found) => later(found, answer ? secondsOf(answer) : 0, ""));
        return;
      }
      const told = await jsonOf(answer);
      await store.changePhoto(photo.id, (found) => {
        found.state = answer.status === 201 ? "sent" : "refused";
        found.why = answer.status === 201 ? "" : reasonIn(told);
        found.blob = null;
      });
    }
    if (draft.retryAt) await store.change(draft.id, (found) => { found.retryAt = 0; });
  }

  /** The status page's own token: photos are taken from its visitor only. "" without a signal. */
  async function formToken(link) {
    const answer = await call(link, { method: "GET", credentials: "same-origin" });
    const text = answer?.ok ? await answer.text() : "";
    return /name="csrfmiddlewaretoken" value="([^"]+)"/.exec(text)?.[1] ?? "";
  }

  function reasonIn(told) {
    return Object.values(told?.errors ?? {}).flat().join(" ") || told?.detail || "";
  }

  async function call(address, options) {
    try {
      const signal = AbortSignal.timeout ? AbortSignal.timeout(PATIENCE) : undefined;
      return await fetch(address, { method: "POST", credentials: "omit", signal, ...options });
    } catch {
      return null; // no signal
    }
  }

  const jsonOf = (answer) => answer.json().catch(() => null);
  const secondsOf = (answer) => Number(answer.headers.get("Retry-After")) || 0;
  const pathOf = (link) => new URL(link, location.origin).pathname;

  return { finish, takeBack, sendAll };
})();
