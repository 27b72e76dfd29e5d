/** Plans in and out of the page: the demonstrations from the server, files from this machine, and saving. */

import { fileName } from '../../shared/file-name.ts';
import type { Plan } from '../../shared/plan.ts';
import { done, failed, isBenchText, type Outcome, writeBenchText } from '../../sim-core/index.ts';
import { offerFile } from '../ui/offer-file.ts';
import { textIn } from '../ui/opened-file.ts';

export interface DemoTitle {
  readonly id: string;
  readonly title: string;
  /** what there is to see */
  readonly says: string;
  /** what there is to learn; without it, it is a riddle */
  readonly teaches?: string;
}

/** A file larger than this cannot be a plan [bytes]. */
const MOST = 5_000_000;

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

async function fetchText(path: string): Promise<Outcome<string>> {
  try {
    const reply = await fetch(path);
    if (reply.ok) {
      void kept(path, reply.clone());
      return done(await reply.text());
    }
    return failed('file/unreachable', path, `The server answered ${reply.status} for ${path}. Try again, or open a plan from a file.`);
  } catch {
    const before = await kept(path);
    if (before) return done(await before.text());
    return failed('file/unreachable', path, 'The server cannot be reached. Open a plan from a file, or try again when you are connected.');
  }
}

export async function demoTitles(): Promise<Outcome<readonly DemoTitle[]>> {
  const got = await fetchText('/api/plans');
  return got.ok ? done(JSON.parse(got.value) as DemoTitle[]) : got;
}

export const demoText = (id: string): Promise<Outcome<string>> => fetchText(`/api/plans/${encodeURIComponent(id)}`);

export async function fileText(file: File): Promise<Outcome<string>> {
  if (file.size > MOST)
    return failed(
      'file/too-large',
      file.name,
      `${file.name} has ${(file.size / 1e6).toFixed(0)} MB; a plan has at most ${MOST / 1e6} MB. Choose a .plan.json or .plan.txt file.`,
    );
  return textIn(file);
}

interface Picker {
  showSaveFilePicker?(options: object): Promise<FileSystemFileHandle>;
}

/** A file that a bench was saved into or dropped from: saving again goes there. */
export type PlanFile = FileSystemFileHandle;

const EXTENSION = 'plan.json';

/**
 * Writes the plan into this file; without one, asks where to. The file it went into, 'downloaded' where a browser only lets pages download,
 * or undefined if the person thought better of it.
 */
export async function savePlan(plan: Plan, file: PlanFile | undefined): Promise<PlanFile | 'downloaded' | undefined> {
  // a bench that was opened from its text goes back as text
  const content = isBenchText(file?.name ?? '', '')
    ? new Blob([writeBenchText(plan)], { type: 'text/plain' })
    : new Blob([`${JSON.stringify(plan, null, 2)}\n`], { type: 'application/json' });
  const picker: Picker = window as Picker;
  if (!file && !picker.showSaveFilePicker) {
    offerFile(plan.title, EXTENSION, content);
    return 'downloaded';
  }
  try {
    const into =
      file ??
      (await picker.showSaveFilePicker?.({
        suggestedName: fileName(plan.title, EXTENSION),
        types: [{ description: 'Plan', accept: { 'application/json': ['.json'] } }],
      }));
    const stream = await into?.createWritable();
    await stream?.write(content);
    await stream?.close();
    return into;
  } catch (e) {
    if (e instanceof DOMException && e.name === 'AbortError') return undefined;
    // the file may not be written any more
    offerFile(plan.title, EXTENSION, content);
    return 'downloaded';
  }
}
