/** Memory of page and worker over a thousand edits under a running bench, and what one edit takes until its readings are there. */
import type { Page } from 'playwright';
import { middle, ms, printTable, share } from './measure.ts';
import { keep } from './report.ts';

const EDITS = 1000;

/** Page and worker together, after the garbage has been collected [bytes]. */
const bytes = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    const measured = performance as Performance & { measureUserAgentSpecificMemory(): Promise<{ bytes: number }> };
    return (await measured.measureUserAgentSpecificMemory()).bytes;
  });

/** Moves one end of a wire to a free hole and back, so many times; returns what each took [ms]. */
const edit = (page: Page, times: number): Promise<number[]> =>
  page.evaluate(async (times) => {
    interface Wire {
      id: string;
      from: string;
      to: string;
    }
    const { session } = document.querySelector('lampwright-app') as unknown as {
      session: {
        model: { plan: { wires: Wire[] } };
        edit(change: object): void;
        on(what: string, ear: () => void): () => void;
      };
    };
    const took: number[] = [];
    for (let i = 0; i < times; i++) {
      const before = session.model.plan.wires.at(-1) as Wire;
      const next = (what: string) =>
        new Promise<void>((done) => {
          const off = session.on(what, () => {
            off();
            done();
          });
        });
      const readings = next('history').then(() => next('readings'));
      const t = performance.now();
      session.edit({ op: 'replace', list: 'wires', before, after: { ...before, to: before.to === 'a62' ? 'a63' : 'a62' } });
      await readings;
      took.push(performance.now() - t);
    }
    return took;
  }, times);

/** The page must have a bench with its supply on, and the browser must measure memory when asked. */
export async function benchEdits(page: Page): Promise<void> {
  await edit(page, 100);
  const first = await bytes(page);
  const took = await edit(page, EDITS);
  const last = await bytes(page);
  keep('edit to its readings', middle(took));
  keep('memory of page and worker', last / 1e6, 'MB');
  const mb = (n: number) => `${(n / 1e6).toFixed(2)} MB`;
  printTable(`${EDITS} edits under a running bench, all in the history and kept`, [
    ['memory of page and worker after 100 edits', mb(first)],
    [`and after ${EDITS} more`, mb(last)],
    ['growth an edit', `${((last - first) / EDITS).toFixed(0)} B`],
    ['edit to its readings', 'median ms', '95 % ms'],
    ['', ms(middle(took)), ms(share(took, 0.95))],
  ]);
}
