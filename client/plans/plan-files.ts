/** Plans in and out of the page: the demonstrations from the server, files from this machine, and saving. */
import type { Plan } from '../../shared/plan.ts';
import type { Failure } from '../core.ts';

export interface DemoTitle {
  readonly id: string;
  readonly title: string;
}

/** A file larger than this cannot be a plan [bytes]. */
const MOST = 5_000_000;
export type Text = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly failure: Failure };

/** Where answers are kept for a visit without a network; the service worker leaves this cache alone. */
const KEPT_ANSWERS = 'lampwright-plans';

/** Keeps an answer, or with none finds the one that was kept. Where nothing can be kept it does nothing. */
async function kept(path: string, answer?: Response): Promise<Response | undefined> {
  try {
    const cache = await caches.open(KEPT_ANSWERS);
    if (answer) await cache.put(path, answer);
    return answer ?? (await cache.match(path));
  } catch {
    return undefined; // no cache here, or it is full
  }
}

async function fetchText(path: string): Promise<Text> {
  try {
    const reply = await fetch(path);
    if (reply.ok) {
      void kept(path, reply.clone());
      return { ok: true, text: await reply.text() };
    }
    return {
      ok: false,
      failure: { at: path, says: `The server answered ${reply.status} for ${path}. Try again, or open a plan from a file.` },
    };
  } catch {
    const before = await kept(path);
    if (before) return { ok: true, text: await before.text() };
    return {
      ok: false,
      failure: { at: path, says: 'The server cannot be reached. Open a plan from a file, or try again when you are connected.' },
    };
  }
}

export async function demoTitles(): Promise<readonly DemoTitle[] | Failure> {
  const got = await fetchText('/api/plans');
  return got.ok ? (JSON.parse(got.text) as DemoTitle[]) : got.failure;
}

export const demoText = (id: string): Promise<Text> => fetchText(`/api/plans/${encodeURIComponent(id)}`);

export async function fileText(file: File): Promise<Text> {
  if (file.size > MOST)
    return {
      ok: false,
      failure: {
        at: file.name,
        says: `${file.name} has ${(file.size / 1e6).toFixed(0)} MB; a plan has at most ${MOST / 1e6} MB. Choose a .plan.json file.`,
      },
    };
  return { ok: true, text: await file.text() };
}

const KEPT = 'lampwright-last-plan';

/** Keeps the text of the plan that stands, for a visit without a network. */
export function keepText(text: string): void {
  try {
    localStorage.setItem(KEPT, text);
  } catch {
    // storage is full or closed to us: nothing is kept
  }
}

export function keptText(): string | undefined {
  try {
    return localStorage.getItem(KEPT) ?? undefined;
  } catch {
    return undefined;
  }
}

/** Offers the plan as a file named after its title. */
export const savePlan = (plan: Plan): void =>
  offerFile(plan.title, 'plan.json', new Blob([`${JSON.stringify(plan, null, 2)}\n`], { type: 'application/json' }));

/** Offers a file, named after a title. */
export function offerFile(title: string, extension: string, content: Blob): void {
  const name =
    title
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '') || 'bench';
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = `${name}.${extension}`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
