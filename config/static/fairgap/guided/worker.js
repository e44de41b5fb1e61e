// The service worker. `self.kept`, written above by the server, says what to keep and its version.
// Pages that belong to a person (/s/, /desk/, the form with its session) and all API calls go to
// the network and are never kept.
importScripts(...kept.scripts);

const CACHE = `fairgap-${kept.version}`;
const NOTES = "fairgap-notes"; // outlives versions: the language spoken last
const shell = (code) => `${kept.home}?lang=${code}`;
const questions = (code) => `${kept.questions}?lang=${code}`;

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("sync", (event) => {
  if (event.tag === "fairgap-outbox") event.waitUntil(sendWhatWaits());
});
self.addEventListener("fetch", (event) => {
  const { request } = event, url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  if (request.mode === "navigate") event.respondWith(page(event, url));
  else if (url.pathname === kept.questions) event.respondWith(keptFirst(request, questions(languageIn(url) ?? kept.languages[0])));
  else if (kept.files.includes(url.pathname)) event.respondWith(keptFirst(request, url.pathname));
});

async function install() {
  const cache = await caches.open(CACHE);
  const needed = [...kept.languages.flatMap((code) => [shell(code), questions(code)]), ...kept.files];
  await Promise.all(needed.map((address) => fresh(cache, address)));
  await Promise.allSettled(kept.pages.map((address) => fresh(cache, address)));
  await self.skipWaiting();
}

/** As a stranger and past the browser's own cache: nobody's name is kept, nothing stale is. */
async function fresh(cache, address) {
  const answer = await fetch(address, { cache: "reload", credentials: "omit" });
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
  await cache.put(address, answer);
}

async function activate() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith("fairgap-") && ![CACHE, NOTES].includes(name));
  await Promise.all(old.map((name) => caches.delete(name)));
  await self.clients.claim();
}

const languageIn = (url) => kept.languages.find((code) => code === url.searchParams.get("lang"));

async function page(event, url) {
  if (url.pathname === kept.home) return homePage(event.request, url);
  try {
    const answer = await fetch(event.request);
    if (answer.ok) event.waitUntil(noteLanguage(answer.headers.get("Content-Language")));
    return answer;
  } catch {
    const cache = await caches.open(CACHE);
    return (await cache.match(url.pathname)) ?? Response.redirect(`${kept.home}#away`);
  }
}

/** All of one version, at once, in the language asked for or spoken last. */
async function homePage(request, url) {
  if (languageIn(url)) await noteLanguage(languageIn(url));
  const code = languageIn(url) ?? (await notedLanguage());
  return keptFirst(request, shell(code ?? kept.languages[0]), Boolean(code));
}

async function keptFirst(request, address, sure = true) {
  const cache = await caches.open(CACHE);
  if (sure) {
    const found = await cache.match(address);
    if (found) return found;
  }
  try {
    const answer = await fetch(request);
    if (request.mode === "navigate") await noteLanguage(answer.headers.get("Content-Language"));
    return answer;
  } catch (error) {
    const found = await cache.match(address);
    if (found) return found;
    throw error;
  }
}

async function noteLanguage(code) {
  if (!kept.languages.includes(code)) return;
  const notes = await caches.open(NOTES);
  await notes.put("/guided/language", new Response(code));
}

async function notedLanguage() {
  const noted = await (await caches.open(NOTES)).match("/guided/language");
  const code = noted ? await noted.text() : "";
  return kept.languages.find((known) => known === code);
}

/** In the background; where it does not get through, the browser calls again. */
async function sendWhatWaits() {
  await fairgapOutbox.sendAll("signal");
  const waiting = (await fairgapStore.drafts()).some((draft) => draft.state === "waiting");
  if (waiting) throw new Error("still waiting");
}
