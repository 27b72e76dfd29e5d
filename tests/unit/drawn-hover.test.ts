/** What a pointer and the focus rest on is told by its name, with its nets; the browser's events reach the hand on the bench. */
// @vitest-environment happy-dom
import { describe, expect, test } from 'vitest';
import { makeEditLayer } from '../../client/edit/edit-layer.ts';
import { type Under, underElement } from '../../client/scene/hit-text.ts';
import { indexHoles } from '../../client/scene/hole-index.ts';
import { attachPointing } from '../../client/scene/hover.ts';
import { el } from '../../client/scene/svg.ts';
import type { DrawnBench } from '../support/drawn-bench.ts';
import { by, middleOf, withLed } from '../support/led-bench.ts';

const PITCH = 20;

function pointed(bench: DrawnBench) {
  const told: Array<Under | undefined> = [];
  const touched: Under[] = [];
  let busy = false;
  attachPointing(bench.surface, {
    model: () => bench.live.session.model,
    drawing: () => bench.drawing,
    toBench: (x, y) => [x / PITCH, y / PITCH],
    holeAt: indexHoles(bench.plan.boards),
    busy: () => busy,
    tell: (under) => told.push(under),
    touched: (under) => touched.push(under),
    reveal: () => {},
  });
  const send = (type: string, [x, y]: readonly [number, number], on: Element = bench.surface) =>
    on.dispatchEvent(new PointerEvent(type, { clientX: x * PITCH, clientY: y * PITCH, bubbles: true }));
  return {
    told,
    touched,
    send,
    setBusy: (is: boolean) => {
      busy = is;
    },
  };
}
const drawn = (bench: DrawnBench, selector: string) => bench.surface.querySelector(selector)!;

describe('a pointer', () => {
  test('over a hole tells the hole and its strip, over nothing nothing, and when it leaves nothing', async () => {
    const bench = await withLed();
    const { told, send } = pointed(bench);
    send('pointermove', bench.spotOf('c5'));
    expect(told.at(-1)).toMatchObject({ name: 'c5', point: 'c5', strips: [expect.any(String)] });
    expect(told.at(-1)?.nets).toHaveLength(1);
    send('pointermove', [-50, -50]);
    expect(told.at(-1)).toBeUndefined();
    send('pointermove', bench.spotOf('c5'));
    send('pointerleave', [0, 0]);
    expect(told.at(-1)).toBeUndefined();
  });

  test('over a wire tells the wire and its nearer end, over a part the leg that is nearest', async () => {
    const bench = await withLed();
    const { told, send } = pointed(bench);
    send('pointermove', bench.spotOf('b5'), drawn(bench, '[data-wire="W1"]'));
    expect(told.at(-1)).toMatchObject({ name: 'W1', point: 'b5', ref: { kind: 'wire', id: 'W1' } });
    send('pointermove', by(bench.spotOf('a5'), 0.6), drawn(bench, '[data-part="R1"]'));
    expect(told.at(-1)).toMatchObject({ ref: { kind: 'part', id: 'R1' }, leg: 'R1.1' });
    send('pointermove', by(bench.spotOf('a10'), -0.6), drawn(bench, '[data-part="R1"]'));
    expect(told.at(-1)?.leg).toBe('R1.2');
  });

  test('over an LED tells its two sides; over nothing of the bench nothing is found', async () => {
    const bench = await withLed();
    const { session } = bench.live;
    const under = underElement({ part: 'LED1', led: 'LED1' } as unknown as DOMStringMap, session.model!, bench.drawing);
    expect(under?.sides).toEqual(['anode', 'cathode']);
    expect(new Set(under?.nets).size).toBe(2);
    expect(underElement({ part: 'X9' } as unknown as DOMStringMap, session.model!, bench.drawing)).toBeUndefined();
    const post = underElement({ part: 'PS1', pin: '+' } as unknown as DOMStringMap, session.model!, bench.drawing);
    expect([post?.name, post?.leg]).toEqual(['red terminal (+) of PS1', 'PS1.+']);
  });

  test('tells nothing while something is being moved; a click touches what is under it', async () => {
    const bench = await withLed();
    const { told, touched, send, setBusy } = pointed(bench);
    setBusy(true);
    send('pointermove', bench.spotOf('c5'));
    expect(told).toEqual([]);
    send('click', bench.spotOf('c5'));
    expect(touched.map((u) => u.name)).toEqual(['c5']);
  });
});

describe('the edit layer', () => {
  const opened = async () => {
    const bench = await withLed();
    const said: string[] = [];
    const came: Array<readonly [number, number]> = [];
    const host = document.createElement('div');
    bench.surface.setPointerCapture = () => {};
    document.elementFromPoint = () => null;
    const layer = makeEditLayer({
      builder: bench.builder,
      surface: bench.surface,
      host,
      ghostLayer: el('g'),
      choosing: el('g'),
      note: document.createElement('p'),
      overlay: bench.overlay,
      model: () => bench.live.session.model,
      drawing: () => bench.drawing,
      toBench: (x, y) => [x / PITCH, y / PITCH],
      holeAt: (spot) => indexHoles(bench.plan.boards)(spot)?.name,
      away: () => false,
      scale: () => 1,
      building: () => false,
      stopPanning: () => {},
      choseLed: () => {},
      say: (news) => said.push(news),
      askMenu: () => {},
      cameTo: (spot) => came.push(spot),
    });
    const send = (type: string, [x, y]: readonly [number, number], on: Element = bench.surface) =>
      on.dispatchEvent(new PointerEvent(type, { clientX: x * PITCH, clientY: y * PITCH, pointerId: 1, bubbles: true, cancelable: true }));
    const key = (name: string, target: EventTarget = bench.surface) => {
      const e = new KeyboardEvent('keydown', { key: name, cancelable: true });
      Object.defineProperty(e, 'target', { value: target });
      return layer.key(e);
    };
    return { bench, layer, said, came, host, send, key };
  };

  test('drags a part by the browser’s own events, and gives it up when the window loses the focus', async () => {
    const { bench, layer, send } = await opened();
    const spot = middleOf(bench);
    const r1 = drawn(bench, '[data-part="R1"]');
    send('pointerdown', spot, r1);
    send('pointermove', by(spot, 20));
    expect([layer.busy, bench.surface.classList.contains('grabbing')]).toEqual([true, true]);
    dispatchEvent(new Event('blur'));
    expect([layer.busy, bench.surface.classList.contains('grabbing')]).toEqual([false, false]);
    send('pointerdown', spot, r1);
    send('pointermove', by(spot, 20));
    send('pointerup', by(spot, 20));
    expect(bench.part('R1')?.at).toBe('a25');
  });

  test('moves what is selected by arrow keys, and the cursor where nothing is', async () => {
    const { bench, said, came, key, layer } = await opened();
    expect(key('ArrowRight')).toBe(true);
    expect([came.length, said.at(-1)]).toEqual([1, expect.stringMatching(/^row 1 column a/)]);
    expect(layer.cancel()).toBe(true);
    bench.builder.select(['R1']);
    expect(key('ArrowRight', document.body)).toBe(true);
    expect([bench.part('R1')?.at, said.at(-1)]).toEqual(['a6', expect.stringMatching(/R1 moved\.$/)]);
    // there is no room to the left of the first row
    for (let i = 0; i < 6; i++) key('ArrowLeft', document.body);
    expect(bench.part('R1')?.at).toBe('a1');
    expect(bench.live.refused.length).toBeGreaterThan(0);
    expect(key('q')).toBe(false);
  });

  test('lets go of everything at once', async () => {
    const { bench, layer, host } = await opened();
    bench.builder.hold({ kind: 'resistor' });
    expect(host.classList.contains('carrying')).toBe(true);
    expect(layer.cancel()).toBe(true);
    expect([bench.builder.toPlace, host.classList.contains('carrying')]).toEqual([undefined, false]);
    expect(layer.cancel()).toBe(false);
  });
});
