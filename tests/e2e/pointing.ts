/** Where things of the bench are on the screen once it no longer moves, and what a pointer does there. */
import type { Locator, Page } from 'playwright';
import { eventually } from '../support/e2e.ts';
import { benchTitle } from './hands.ts';

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Waits until no frame moves the boards any more: what is measured before may be elsewhere when it is touched. */
export const atRest = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    await document.fonts.ready;
    const frame = () => new Promise((next) => requestAnimationFrame(next));
    const where = () =>
      [...document.querySelectorAll('.board-case')].map((b) => Object.values(b.getBoundingClientRect().toJSON()).join()).join();
    let before = '';
    for (let still = 0; still < 3; ) {
      await frame();
      const now = where();
      still = now !== '' && now === before ? still + 1 : 0;
      before = now;
    }
  });

/** Where a thing is [px] once the bench is at rest; what is just then drawn again is looked for again. */
export async function boxOf(thing: Locator) {
  await atRest(thing.page());
  let box = { x: Number.NaN, y: Number.NaN, width: Number.NaN, height: Number.NaN };
  await eventually
    .poll(async () => {
      const found = await thing.boundingBox();
      if (found) box = found;
      return found;
    })
    .not.toBeNull();
  return box;
}

/** A place on the bench in pitches, on the page [px]. */
export async function onScreen(page: Page, x: number, y: number): Promise<Spot> {
  await atRest(page);
  return page.evaluate(
    ([px, py]) => {
      const world = [...document.querySelector('bench-scene svg.bench')!.children].find((c) => c.tagName === 'g') as SVGGElement;
      const p = new DOMPoint(20 * px!, 20 * py!).matrixTransform(world.getScreenCTM()!);
      return { x: p.x, y: p.y };
    },
    [x, y],
  );
}

/** A terminal of a supply, such as PS1.+ */
export async function terminal(page: Page, name: string): Promise<Spot> {
  const [part, pin] = name.split('.');
  const box = await boxOf(page.locator(`[data-part="${part}"][data-pin="${pin}"] circle`).first());
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

export async function drag(page: Page, a: Spot, b: Spot): Promise<void> {
  await page.mouse.move(a.x, a.y);
  await page.mouse.down();
  await page.mouse.move((a.x + b.x) / 2, (a.y + b.y) / 2, { steps: 3 });
  await page.mouse.move(b.x, b.y, { steps: 3 });
  await page.mouse.up();
}

/** Takes the pointer off the bench, to its title. */
export const away = (page: Page): Promise<void> => benchTitle(page).hover();
