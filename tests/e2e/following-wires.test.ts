/** Wires among many others: none covers the print of a chip, and the one that is pointed at or chosen stands out from its bundle. */
import type { Page } from 'playwright';
import { eventually, expect, test } from '../support/e2e.ts';
import { wideBuild } from '../support/wide-build.ts';
import { openText } from './hands.ts';
import { atRest, away } from './pointing.ts';

async function openWide(page: Page): Promise<void> {
  await page.setViewportSize({ width: 1440, height: 900 });
  await openText(page, 'wide.plan.json', JSON.stringify(wideBuild()));
  await eventually(page.getByRole('group', { name: 'Bench: Sixteen by sixteen' })).toBeVisible();
  await eventually(page.locator('.wire').nth(100)).toBeAttached();
  await atRest(page);
}

/** How solid the wires are, by id. */
const solidity = (page: Page): Promise<Record<string, number>> =>
  page.evaluate(() =>
    Object.fromEntries(
      [...document.querySelectorAll<SVGGElement>('.wires > .wire')].map((l) => [l.dataset.wire ?? '', Number(getComputedStyle(l).opacity)]),
    ),
  );

/** A spot on a wire where nothing lies over it, on the page [px]. */
const spotOn = (page: Page, wire: string) =>
  page.evaluate((id) => {
    const path = document.querySelector<SVGPathElement>(`[data-wire="${id}"] .wire-hit`)!;
    for (let t = 0.2; t < 0.9; t += 0.02) {
      const p = path.getPointAtLength(path.getTotalLength() * t).matrixTransform(path.getScreenCTM()!);
      if (document.elementFromPoint(p.x, p.y)?.closest('[data-wire]') === path.parentElement) return { x: p.x, y: p.y };
    }
    throw new Error(`no spot of ${id} can be touched`);
  }, wire);

test('of the widest bench that the builder makes no wire lies over the print of a chip, but the bus that goes straight on to the memory above', async ({
  page,
}) => {
  await page.goto('/');
  await openWide(page);
  const over = await page.evaluate(() => {
    const chips = [...document.querySelectorAll<SVGGElement>('.chip-body')].map((b) => b.getBoundingClientRect());
    const across = [...document.querySelectorAll<SVGPathElement>('.wire-case')].filter((path) => {
      const [long, to] = [path.getTotalLength(), path.getScreenCTM()!];
      for (let d = 0; d <= long; d += 4) {
        const p = path.getPointAtLength(d).matrixTransform(to);
        if (chips.some((c) => p.x > c.left + 2 && p.x < c.right - 2 && p.y > c.top + 2 && p.y < c.bottom - 2)) return true;
      }
      return false;
    });
    const wires = [...document.querySelectorAll<SVGGElement>('.wires > .wire')];
    const fromPole = (net: string | undefined) => wires.filter((w) => w.dataset.net === net).length === 2;
    const bus = across.filter((path) => {
      // straight but for half a pitch at its ends, and one of the two wires of an address
      const [from, to] = [path.getPointAtLength(0), path.getPointAtLength(path.getTotalLength())];
      return (
        path.getTotalLength() - Math.hypot(to.x - from.x, to.y - from.y) < 20 && fromPole(path.closest<SVGGElement>('.wire')?.dataset.net)
      );
    });
    return { chips: chips.length, across: across.length, bus: bus.length };
  });
  expect(over.chips).toBe(4);
  expect(over.bus).toBeLessThan(20);
  expect(over.across).toBe(over.bus);
});

/** A wire that shares its net with another one: an address that goes on from one memory to the next. */
const sharing = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const wires = [...document.querySelectorAll<SVGGElement>('.wires > .wire')];
    return wires.find((l) => wires.filter((m) => m.dataset.net === l.dataset.net).length === 2)?.dataset.wire ?? '';
  });

test('a wire under the pointer and its net stand out, the others step back, and all come forward again', async ({ page }) => {
  await page.goto('/');
  await openWide(page);
  const wire = await sharing(page);
  const { x, y } = await spotOn(page, wire);
  await page.mouse.move(x, y);
  await eventually(page.locator(`[data-wire="${wire}"]`)).toHaveClass(/the-one/);
  await eventually.poll(async () => Object.values(await solidity(page)).filter((s) => s < 0.5).length).toBeGreaterThan(90);
  const now = await solidity(page);
  const net = await page.evaluate((id) => {
    const of = document.querySelector<SVGGElement>(`[data-wire="${id}"]`)!.dataset.net;
    return [...document.querySelectorAll<SVGGElement>(`.wire[data-net="${of}"]`)].map((l) => l.dataset.wire ?? '');
  }, wire);
  expect(net).toHaveLength(2);
  expect(
    Object.entries(now)
      .filter(([, s]) => s === 1)
      .map(([id]) => id)
      .sort(),
  ).toEqual(net.sort());
  await away(page);
  await eventually.poll(async () => Object.values(await solidity(page)).filter((s) => s < 1)).toEqual([]);
});

test('a chosen wire stands out alone until it is let go', async ({ page }) => {
  await page.goto('/');
  await openWide(page);
  const { x, y } = await spotOn(page, 'W40');
  await page.mouse.click(x, y);
  await away(page);
  await eventually
    .poll(async () =>
      Object.entries(await solidity(page))
        .filter(([, s]) => s === 1)
        .map(([id]) => id),
    )
    .toEqual(['W40']);
  await page.keyboard.press('Escape');
  await eventually.poll(async () => Object.values(await solidity(page)).filter((s) => s < 1)).toEqual([]);
});
