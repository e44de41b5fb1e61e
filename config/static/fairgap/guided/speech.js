// The browser's own voice, for a number read back while both hands are on the tape.

const store = globalThis.fairgapStore;
let always = false;

/** Can this browser speak? */
export const canSpeak = "speechSynthesis" in globalThis;

/** Ask the phone what was wished last time. */
export async function remember() {
  always = canSpeak && Boolean(await store.setting("speak"));
}

/** Whether every number is to be said aloud. */
export function speaksAlways() {
  return always;
}

/** Say every number aloud from now on, or no more; the phone keeps it. */
export function speakAlways(wanted) {
  always = wanted;
  if (!wanted && canSpeak) speechSynthesis.cancel();
  return store.keep("speak", wanted);
}

/** Say it now, in the page's language; what was being said stops. */
export function speak(text) {
  if (!canSpeak || !text) return;
  speechSynthesis.cancel();
  const said = new SpeechSynthesisUtterance(text);
  said.lang = document.documentElement.lang;
  said.rate = 0.9;
  speechSynthesis.speak(said);
}
