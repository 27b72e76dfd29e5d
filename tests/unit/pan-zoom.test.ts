/** Pan and zoom: what is under the pointer stays under it, the whole bench fits, and what is brought into sight is in sight. */
// @vitest-environment happy-dom
import { describe, expect, test } from 'vitest';
import type { Box, Spot } from '../../client/scene/geometry.ts';
import { View } from '../../client/scene/pan-zoom.ts';
import { el } from '../../client/scene/svg.ts';

const [WIDTH, HEIGHT] = [800, 600];
const WHOLE: Box = { x: -12, y: 0, width: 80, height: 40 };
const MIDDLE: Spot = [400, 300];

function opened() {
  const surface = el('svg');
  Object.defineProperty(surface, 'clientWidth', { value: WIDTH });
  Object.defineProperty(surface, 'clientHeight', { value: HEIGHT });
  surface.getBoundingClientRect = () => ({ left: 0, top: 0, width: WIDTH, height: HEIGHT }) as DOMRect;
  surface.setPointerCapture = () => {};
  surface.hasPointerCapture = () => false;
  const world = el('g');
  const sights: Box[] = [];
  const view = new View({
    surface,
    worlds: [world],
    home: () => WHOLE,
    inset: () => ({ top: 40, bottom: 52, spare: 0 }),
    moved: (sight) => sights.push(sight),
  });
  view.fit(WHOLE);
  const pointer = (type: string, [x, y]: Spot, id = 1, button = 0) =>
    surface.dispatchEvent(new PointerEvent(type, { clientX: x, clientY: y, pointerId: id, button, bubbles: true }));
  const key = (name: string) => view.key(new KeyboardEvent('keydown', { key: name }));
  return { surface, world, view, sights, pointer, key };
}
const near = (a: Spot, b: Spot) => {
  expect(a[0]).toBeCloseTo(b[0], 6);
  expect(a[1]).toBeCloseTo(b[1], 6);
};
const corners = (view: View, b: Box): readonly [Spot, Spot] => [
  view.toSurface([b.x, b.y]),
  view.toSurface([b.x + b.width, b.y + b.height]),
];

describe('the view', () => {
  test('of the whole bench has it within the surface, between head and foot, and tells what is in sight', () => {
    const { view, sights, world } = opened();
    const [[l, t], [r, b]] = corners(view, WHOLE);
    expect(l).toBeGreaterThanOrEqual(0);
    expect(r).toBeLessThanOrEqual(WIDTH);
    expect(t).toBeGreaterThanOrEqual(40);
    expect(b).toBeLessThanOrEqual(HEIGHT - 52);
    const sight = sights.at(-1)!;
    expect(sight.x).toBeLessThanOrEqual(WHOLE.x);
    expect(sight.x + sight.width).toBeGreaterThanOrEqual(WHOLE.x + WHOLE.width);
    expect(view.chosen).toBe(false);
    expect(world.dataset.detail).toBe('far');
  });

  test('on a narrow window keeps a scale at which it can be read, and shows its start', () => {
    const { view } = opened();
    view.fit({ ...WHOLE, width: 400 }, 0.75);
    expect(view.scale).toBeCloseTo(0.6 * 1, 0);
    expect(view.toSurface([WHOLE.x, 0])[0]).toBeGreaterThan(0);
  });

  test('leads from the bench to the surface and back to the same spot', () => {
    const { view } = opened();
    for (const spot of [
      [0, 0],
      [13.5, 7.25],
      [-3, 60],
    ] as const)
      near(view.toBench(...view.toSurface(spot)), spot);
  });
});

describe('zooming', () => {
  test('by the wheel leaves the spot under the pointer where it is', () => {
    const { view, surface } = opened();
    const before = view.toBench(200, 150);
    const scale = view.scale;
    const wheel = new WheelEvent('wheel', { deltaY: -100 });
    for (const [name, value] of [
      ['clientX', 200],
      ['clientY', 150],
    ] as const)
      Object.defineProperty(wheel, name, { value });
    surface.dispatchEvent(wheel);
    expect(view.scale).toBeGreaterThan(scale);
    near(view.toBench(200, 150), before);
    expect(view.chosen).toBe(true);
  });

  test('ends at a least and a most scale', () => {
    const { view } = opened();
    for (let i = 0; i < 60; i++) view.zoomBy(2);
    expect(view.scale).toBe(8);
    for (let i = 0; i < 60; i++) view.zoomBy(0.5);
    expect(view.scale).toBe(0.12);
  });

  test('with two fingers goes by how far they are apart, and the bench follows their middle', () => {
    const { view, pointer } = opened();
    const scale = view.scale;
    pointer('pointerdown', [350, 300], 1);
    pointer('pointerdown', [450, 300], 2);
    pointer('pointermove', [550, 300], 2);
    expect(view.scale / scale).toBeCloseTo(2, 6);
    pointer('pointerup', [550, 300], 2);
    pointer('pointerup', [350, 300], 1);
    pointer('pointermove', [700, 300], 1);
    expect(view.scale / scale).toBeCloseTo(2, 6);
  });

  test('by keys is round the middle; 0 shows the whole again', () => {
    const { view, key } = opened();
    const [scale, middle] = [view.scale, view.toBench(...MIDDLE)];
    expect(key('+')).toBe(true);
    expect(view.scale / scale).toBeCloseTo(1.25, 6);
    near(view.toBench(...MIDDLE), middle);
    key('-');
    expect(view.scale / scale).toBeCloseTo(1, 6);
    key('+');
    key('0');
    expect([view.scale, view.chosen]).toEqual([scale, false]);
    expect(key('q')).toBe(false);
  });
});

describe('panning', () => {
  test('moves the bench with the pointer, from five pixels on, and the click after it is no click', () => {
    const { view, pointer, surface, world } = opened();
    const clicks: string[] = [];
    surface.append(world);
    world.addEventListener('click', () => clicks.push('click'));
    const click = () => world.dispatchEvent(new MouseEvent('click', { bubbles: true }));
    const spot = view.toBench(...MIDDLE);
    pointer('pointerdown', MIDDLE);
    pointer('pointermove', [402, 300]);
    near(view.toBench(...MIDDLE), spot);
    expect(view.moving).toBe(false);
    pointer('pointermove', [410, 300]);
    pointer('pointermove', [450, 320]);
    expect(view.moving).toBe(true);
    near(view.toBench(448, 320), spot);
    pointer('pointerup', [450, 320]);
    expect(view.moving).toBe(false);
    click();
    expect(clicks).toEqual([]);
    click();
    expect(clicks).toEqual(['click']);
  });

  test('by arrow keys goes sixty pixels, and not with Ctrl held', () => {
    const { view, key } = opened();
    const [x, y] = view.toSurface([0, 0]);
    key('ArrowLeft');
    near(view.toSurface([0, 0]), [x + 60, y]);
    expect(view.key(new KeyboardEvent('keydown', { key: 'ArrowLeft', ctrlKey: true }))).toBe(false);
    near(view.toSurface([0, 0]), [x + 60, y]);
  });

  test('stops when another has the hand, or the pointer is lost', () => {
    for (const end of ['letGo', 'pointercancel', 'lostpointercapture'] as const) {
      const { view, pointer } = opened();
      pointer('pointerdown', MIDDLE);
      pointer('pointermove', [440, 300]);
      if (end === 'letGo') view.letGo();
      else pointer(end, [440, 300]);
      const spot = view.toBench(...MIDDLE);
      pointer('pointermove', [500, 300]);
      near(view.toBench(...MIDDLE), spot);
    }
  });
});

describe('bringing into sight', () => {
  test('moves the bench only as far as it has to, and not at all for what is in sight', () => {
    const { view } = opened();
    const before = view.toSurface([0, 0]);
    view.reveal({ x: 10, y: 10, width: 2, height: 2 });
    near(view.toSurface([0, 0]), before);
    expect(view.chosen).toBe(false);
    for (const far of [
      { x: 200, y: 10, width: 2, height: 2 },
      { x: -200, y: 10, width: 2, height: 2 },
      { x: 10, y: 300, width: 2, height: 2 },
      { x: 10, y: -300, width: 2, height: 2 },
    ]) {
      view.reveal(far);
      const [[l, t], [r, b]] = corners(view, far);
      expect([l >= 0, r <= WIDTH, t >= 40, b <= HEIGHT - 52]).toEqual([true, true, true, true]);
    }
    expect(view.chosen).toBe(true);
  });

  test('as a choice fills the surface with it', () => {
    const { view } = opened();
    const box = { x: 10, y: 10, width: 8, height: 8 };
    view.show(box);
    const [[l], [r]] = corners(view, box);
    expect(r - l).toBeGreaterThan(HEIGHT / 2);
    expect(view.chosen).toBe(true);
  });
});
