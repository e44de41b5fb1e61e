// What is kept on the phone: drafts, their photos, a few settings. In IndexedDB, so that pages,
// other windows and the service worker see the same. A plain script, for the worker loads it too.
globalThis.fairgapStore ??= (() => {
  const NAME = "fairgap", VERSION = 1;
  let opening = null;
  const channel = "BroadcastChannel" in globalThis ? new BroadcastChannel("fairgap") : null;

  /** The database, made on the first visit. */
  function open() {
    opening ??= new Promise((resolve, reject) => {
      const request = indexedDB.open(NAME, VERSION);
      request.onupgradeneeded = () => {
        request.result.createObjectStore("drafts", { keyPath: "id" });
        request.result.createObjectStore("photos", { keyPath: "id" }).createIndex("of", "draft");
        request.result.createObjectStore("settings");
      };
      request.onsuccess = () => {
        request.result.onversionchange = () => { request.result.close(); opening = null; };
        resolve(request.result);
      };
      request.onerror = () => { opening = null; reject(request.error); };
    });
    return opening;
  }

  /** One transaction; `work(get)` gets the object stores and may set `out.value`. */
  async function within(names, mode, work) {
    const db = await open();
    return new Promise((resolve, reject) => {
      const transaction = db.transaction(names, mode), out = { value: undefined };
      transaction.oncomplete = () => resolve(out.value);
      transaction.onabort = transaction.onerror = () => reject(transaction.error);
      work((name) => transaction.objectStore(name), out);
    });
  }

  const answered = (request, out) => { request.onsuccess = () => { out.value = request.result; }; };
  const read = (name, ask) => within([name], "readonly", (get, out) => answered(ask(get(name)), out));
  const tell = (id) => channel?.postMessage({ id });

  /** Read, change and write back one draft or photo in one transaction: no window can get between. */
  async function changeIn(name, id, change) {
    const changed = await within([name], "readwrite", (get, out) => {
      get(name).get(id).onsuccess = (event) => {
        const found = event.target.result;
        if (!found || change(found) === false) { out.value = found; return; }
        get(name).put(found);
        out.value = found;
      };
    });
    if (changed) tell(changed.draft ?? changed.id);
    return changed;
  }

  async function put(name, value) {
    await within([name], "readwrite", (get) => get(name).put(value));
    tell(value.draft ?? value.id);
    return value;
  }

  async function remove(id) {
    await within(["drafts", "photos"], "readwrite", (get) => {
      get("drafts").delete(id);
      get("photos").index("of").getAllKeys(id).onsuccess = (event) => {
        for (const key of event.target.result) get("photos").delete(key);
      };
    });
    tell(id);
  }

  return {
    drafts: () => read("drafts", (drafts) => drafts.getAll()),
    draft: (id) => read("drafts", (drafts) => drafts.get(id)),
    add: (draft) => put("drafts", draft),
    change: (id, change) => changeIn("drafts", id, change),
    remove,
    photosOf: (id) => read("photos", (photos) => photos.index("of").getAll(id)),
    addPhoto: (photo) => put("photos", photo),
    changePhoto: (id, change) => changeIn("photos", id, change),
    removePhoto: (id) => within(["photos"], "readwrite", (get) => get("photos").delete(id)),
    setting: (name) => read("settings", (settings) => settings.get(name)),
    keep: (name, value) =>
      within(["settings"], "readwrite", (get) => get("settings").put(value, name)),
    /** Call `heard(id)` when another window or the worker has changed a draft. */
    listen: (heard) => channel?.addEventListener("message", (event) => heard(event.data.id)),
  };
})();
