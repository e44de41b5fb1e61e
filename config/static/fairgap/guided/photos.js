// Photos of a question: shrunk on the phone, kept with the draft, sent after the sheet.
import { button, el, notice, say } from "./dom.js";

const store = globalThis.fairgapStore;
const MOST = 6, LONGEST = 1600, QUALITY = 0.82, THUMB = 96;

/** The photo button of a question with the pictures taken so far. */
export function photosAt(step, draft) {
  const box = el("div", { class: "photos" });
  const slug = step.slug.replace(".again", "");
  const input = el("input", { type: "file", accept: "image/*", id: `photo-${slug}`, class: "visually-hidden" });
  const label = el("label", { for: input.id, class: "button quiet" }, say("photo_add"));
  const shown = el("ul", { class: "thumbs" });
  input.addEventListener("change", async () => {
    if (input.files[0]) await take(input.files[0], slug, draft);
    input.value = "";
    await refresh();
  });
  async function refresh() {
    const all = await store.photosOf(draft.id);
    const here = all.filter((photo) => photo.question === slug && photo.blob);
    shown.replaceChildren(...(await Promise.all(here.map((photo, n) => thumb(photo, n, refresh)))));
    input.disabled = all.length >= MOST;
    label.textContent = all.length >= MOST ? say("photo_full") : say("photo_add");
    label.classList.toggle("full", all.length >= MOST);
  }
  refresh();
  box.append(input, label, shown);
  return box;
}

async function take(file, question, draft) {
  try {
    const blob = await shrunk(file);
    if ((await store.photosOf(draft.id)).length >= MOST) return;
    await store.addPhoto({ id: crypto.randomUUID(), draft: draft.id, question, blob, state: "kept" });
    notice("");
  } catch {
    notice(say("photo_bad"), "warning");
  }
}

/** At most 1600 px at its longer side, as JPEG, without what the camera wrote beside the picture. */
async function shrunk(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  const canvas = painted(picture, LONGEST);
  picture.close();
  return new Promise((resolve, reject) => canvas.toBlob(
    (blob) => (blob ? resolve(blob) : reject(new Error("no picture"))), "image/jpeg", QUALITY));
}

function painted(picture, longest) {
  const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
  const canvas = el("canvas", { width: Math.round(picture.width * scale), height: Math.round(picture.height * scale) });
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas;
}

async function thumb(photo, number, refresh) {
  const picture = await createImageBitmap(photo.blob).catch(() => null);
  const canvas = picture ? painted(picture, THUMB) : el("span");
  canvas.setAttribute("role", "img");
  canvas.setAttribute("aria-label", say("photo_one", { n: number + 1 }));
  const remove = async () => { await store.removePhoto(photo.id); await refresh(); };
  return el("li", {}, canvas, button(say("photo_remove"), remove, "link"));
}
