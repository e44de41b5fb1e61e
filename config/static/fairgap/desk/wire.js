// One question to the desk and what came of it, in the words the page acts on.
const PATIENCE = 20_000;

/**
 * Post a form. `came` says how it went: "ok", "offline", "away" (the desk failed), "login", "locked",
 * or "refused" (with its status). `text` is what the desk said.
 */
export async function post(address, body, options = {}) {
  let answer, text;
  try {
    const signal = options.signal ?? AbortSignal.timeout(PATIENCE);
    answer = await fetch(address, {
      method: "POST", body, credentials: "same-origin", ...options, signal,
      headers: { "X-Requested-With": "fetch", "HX-Request": "true", ...options.headers },
    });
    text = await answer.text(); // an answer that breaks off halfway is none
  } catch {
    return { came: "offline", answer: null, text: "" };
  }
  return { came: cameOf(answer, address), answer, text };
}

function cameOf(answer, address) {
  const elsewhere = answer.redirected && new URL(answer.url).pathname !== address;
  if (elsewhere || answer.status === 401 || answer.status === 403) return "login";
  if (answer.status === 423) return "locked";
  if (answer.status >= 500 || answer.status === 429 || answer.status === 408) return "away";
  return answer.ok ? "ok" : "refused";
}

/** A new form token from the page itself, once somebody has logged in again; "" where nobody has. */
export async function freshToken(address) {
  try {
    const answer = await fetch(address, { credentials: "same-origin", headers: { "X-Requested-With": "fetch" } });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    return page.querySelector("[data-desk] [name=csrfmiddlewaretoken]")?.value ?? "";
  } catch {
    return "";
  }
}
