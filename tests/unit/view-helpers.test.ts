/** Small decisions of the page: which command a key types, where a card stands, whether the LEDs are in sight, and when letters are fitted again. */
// @vitest-environment happy-dom
import { afterEach, describe, expect, test, vi } from 'vitest';
import { COMMANDS } from '../../client/commands/catalogue.ts';
import { commandOfKey, keyName, setSingleKeys, singleKeys } from '../../client/commands/keys.ts';
import { overlap } from '../../client/scene/geometry.ts';
import { makeLabelScale } from '../../client/scene/label-scaling.ts';
import { ledsBox, roundLeds, watchLeds } from '../../client/scene/led-sight.ts';
import { laidAt, placeBeside } from '../../client/scene/popover-placement.ts';
import { el } from '../../client/scene/svg.ts';
import { withLed } from '../support/led-bench.ts';

const press = (key: string, held: KeyboardEventInit = {}, target: EventTarget = document.body) => {
  const e = new KeyboardEvent('keydown', { key, ...held });
  Object.defineProperty(e, 'target', { value: target });
  return commandOfKey(e, COMMANDS);
};

describe('keys', () => {
  afterEach(() => localStorage.clear());
  test('of the catalogue type their line, every one of them', () => {
    for (const { keys } of COMMANDS)
      for (const [name, line] of Object.entries(keys ?? {})) {
        const parts = name.split(/\+(?=.)/);
        const key = parts.at(-1)!;
        const held = { ctrlKey: parts.includes('Mod'), shiftKey: parts.includes('Shift') };
        expect(press(/^[A-Z]$/.test(key) ? key.toLowerCase() : key, held)).toBe(line);
      }
  });

  test('without Ctrl mean nothing in a field, nor once they are turned off', () => {
    const [name] = COMMANDS.flatMap(({ keys }) => Object.keys(keys ?? {})).filter((k) => k.length === 1);
    expect(press(name!)).toBeDefined();
    expect(press(name!, {}, document.createElement('input'))).toBeUndefined();
    setSingleKeys(false);
    expect([singleKeys(), press(name!)]).toEqual([false, undefined]);
    setSingleKeys(true);
    expect(press(name!)).toBeDefined();
  });

  test('with Alt, or while a word is being composed, are not ours; those that nobody named type nothing', () => {
    expect(press('k', { altKey: true, ctrlKey: true })).toBeUndefined();
    expect(press('k', { ctrlKey: true, isComposing: true })).toBeUndefined();
    expect(press('F13')).toBeUndefined();
    expect(keyName('Mod+Shift+K')).toEqual([expect.stringMatching(/Ctrl|⌘/), 'Shift', 'K']);
    expect(keyName('+')).toEqual(['+']);
  });
});

describe('a card beside a thing', () => {
  const room = { width: 1000, height: 700 };
  const bench = { x: 100, y: 100, width: 800, height: 400 };
  test('is within the window, and hides nothing of it where there is room below', () => {
    const card = placeBeside({ width: 200, height: 100 }, { thing: { x: 300, y: 200, width: 50, height: 20 }, bench }, room);
    expect(overlap(card, bench)).toBe(0);
    expect([card.x >= 0, card.y >= 0, card.x + 200 <= 1000, card.y + 100 <= 700]).toEqual([true, true, true, true]);
  });
  test('keeps off the thing rather than off the bench where there is no room beside both', () => {
    const all = { x: 0, y: 0, width: 1000, height: 700 };
    const thing = { x: 480, y: 330, width: 40, height: 40 };
    expect(overlap(placeBeside({ width: 300, height: 200 }, { thing, bench: all }, room), thing)).toBe(0);
    expect(laidAt({ x: 10.4, y: 20.6, width: 0, height: 0 })).toBe('10px 21px');
  });
});

describe('the LEDs', () => {
  test('are told to be away, and by which edge, once each time that changes', async () => {
    const bench = await withLed();
    const box = ledsBox(bench.live.session.model, bench.drawing)!;
    const told: unknown[] = [];
    const watch = watchLeds((where) => told.push(where));
    const at = (x: number) => ({ x, y: -50, width: 20, height: 200 });
    for (const x of [box.x - 5, box.x + 30, box.x + 31, box.x - 60, box.x - 5]) watch(box, at(x));
    expect(told).toEqual(['left', 'right', undefined]);
    watch(undefined, at(0));
    expect(told).toHaveLength(3);
    const sight = roundLeds(box);
    expect(sight.width).toBeGreaterThanOrEqual(24);
    expect(sight.x + sight.width / 2).toBeCloseTo(box.x + box.width / 2, 9);
  });
});

describe('letters', () => {
  test('are placed at once for a bench drawn again, and after a pause for a zoom; not for less than a step', () => {
    vi.useFakeTimers();
    try {
      const world = el('g');
      const placed: number[] = [];
      const letters = makeLabelScale([world], (scale) => placed.push(scale));
      letters.fit(1);
      expect(placed).toHaveLength(1);
      expect(placed[0]).toBeLessThanOrEqual(1);
      letters.fit(1.001);
      letters.fit(2);
      letters.fit(3);
      expect(placed).toHaveLength(1);
      vi.advanceTimersByTime(100);
      expect(placed).toHaveLength(2);
      expect(placed[1]).toBeGreaterThan(2.7);
      expect(world.style.getPropertyValue('--least')).toMatch(/px$/);
      letters.renew();
      letters.fit(3);
      expect(placed).toHaveLength(3);
    } finally {
      vi.useRealTimers();
    }
  });
});
