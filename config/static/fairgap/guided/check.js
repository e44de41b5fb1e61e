// After the last question: what the desk's checks would still ask, quietly, at most four more.
import { isAnswered, pathOf, stepOf } from "./path.js";

const MOST = 4, PATIENCE = 8_000;

/** Questions to open, {slug, ask}; none without a signal, or when nothing more would help. */
export async function furtherQuestions(draft, body) {
  const room = MOST - (draft.opened ?? []).length;
  if (room <= 0 || !navigator.onLine || !body.wants.length) return [];
  const told = await asked(body);
  if (!told) return [];
  const first = told.next_question, held = (told.findings ?? []).filter((one) => one.severity !== "note");
  const slugs = [first?.answer, ...held.flatMap((finding) => finding.answers)].filter(Boolean);
  const path = new Set(pathOf(draft).map((step) => step.slug));
  const open = [...new Set(slugs.map((slug) => screenOf(slug, draft, path)).filter(Boolean))];
  return open.slice(0, room).map((slug) => ({ slug, ask: slug === first?.answer ? first.ask : "" }));
}

/** The screen for an answer: itself while it is open, a second blind reading where it was given. */
function screenOf(slug, draft, path) {
  const step = stepOf(slug);
  if (step && !path.has(slug)) return slug;
  const again = stepOf(`${slug}.again`);
  const given = step && isAnswered(step, draft.values) && again && !isAnswered(again, draft.values);
  return given && !path.has(again.slug) ? again.slug : null;
}

async function asked({ contact: _unasked, ...body }) {
  try {
    const signal = AbortSignal.timeout ? AbortSignal.timeout(PATIENCE) : undefined;
    const answer = await fetch("/api/v1/check/", {
      method: "POST", headers: { "Content-Type": "application/json" }, credentials: "omit",
      body: JSON.stringify(body), signal,
    });
    return answer.ok ? await answer.json() : null;
  } catch {
    return null; // quietly: it can be sent all the same
  }
}
