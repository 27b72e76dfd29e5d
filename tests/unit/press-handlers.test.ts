/** A drawn thing is worked by mouse, finger, keys and assistive tools, once a gesture; what is held down is always let go of. */
// @vitest-environment happy-dom
import { describe, expect, test } from 'vitest';
import { holdable, openable, tappable, unlessAnswered } from '../../client/scene/press-handlers.ts';
import { el } from '../../client/scene/svg.ts';

const pointer = (on: SVGElement, type: string, pointerType = 'mouse', button = 0) =>
  on.dispatchEvent(new PointerEvent(type, { pointerType, button, pointerId: 1, bubbles: true }));
const key = (on: SVGElement, type: string, name: string, repeat = false) =>
  on.dispatchEvent(new KeyboardEvent(type, { key: name, repeat, bubbles: true }));
const click = (on: SVGElement, detail = 1) => on.dispatchEvent(new MouseEvent('click', { detail, bubbles: true }));

describe('a switch', () => {
  const made = () => {
    const on = el('g');
    let acts = 0;
    tappable(on, {
      act: () => {
        acts += 1;
      },
    });
    return { on, acts: () => acts };
  };
  test('is thrown by the mouse on the way down, and its click throws it no second time', () => {
    const { on, acts } = made();
    pointer(on, 'pointerdown');
    expect(acts()).toBe(1);
    click(on);
    expect(acts()).toBe(1);
    click(on);
    expect(acts()).toBe(2);
  });
  test('is thrown by a finger’s tap, not by its touch: it may be meant to pan', () => {
    const { on, acts } = made();
    pointer(on, 'pointerdown', 'touch');
    expect(acts()).toBe(0);
    click(on);
    expect(acts()).toBe(1);
  });
  test('is thrown by Enter and the space bar, once however long they are held; by another button not at all', () => {
    const { on, acts } = made();
    key(on, 'keydown', 'Enter');
    key(on, 'keydown', 'Enter', true);
    key(on, 'keydown', ' ');
    key(on, 'keydown', 'x');
    pointer(on, 'pointerdown', 'mouse', 2);
    expect(acts()).toBe(2);
    expect(on.getAttribute('tabindex')).toBe('0');
  });
});

describe('a chip', () => {
  test('opens at a double click, at Enter, at an assistive tool’s click, and not at a single one', () => {
    const [body, on] = [el('g'), el('g')];
    let opens = 0;
    openable(body, on, () => {
      opens += 1;
    });
    click(on);
    expect(opens).toBe(0);
    body.dispatchEvent(new MouseEvent('dblclick'));
    key(on, 'keydown', 'Enter');
    click(on, 0);
    key(on, 'keydown', ' ');
    expect(opens).toBe(3);
  });
});

describe('a button that is held', () => {
  const made = () => {
    const on = el('g');
    on.setPointerCapture = () => {};
    const log: string[] = [];
    holdable(on, { down: () => log.push('down'), up: () => log.push('up') });
    return { on, log };
  };
  for (const end of ['pointerup', 'lostpointercapture', 'blur'])
    test(`by the pointer is let go of by ${end}, once`, () => {
      const { on, log } = made();
      pointer(on, 'pointerdown');
      expect(log).toEqual(['down']);
      pointer(on, end);
      pointer(on, 'pointerup');
      click(on);
      expect(log).toEqual(['down', 'up']);
    });
  test('by a key is let go of by that key or by losing the focus', () => {
    const { on, log } = made();
    key(on, 'keydown', ' ');
    key(on, 'keydown', ' ', true);
    key(on, 'keyup', 'x');
    expect(log).toEqual(['down']);
    key(on, 'keyup', ' ');
    key(on, 'keydown', 'Enter');
    on.dispatchEvent(new FocusEvent('blur'));
    key(on, 'keyup', 'Enter');
    expect(log).toEqual(['down', 'up', 'down', 'up']);
  });
  test('by a key is not pressed by the pointer as well', () => {
    const { on, log } = made();
    key(on, 'keydown', ' ');
    pointer(on, 'pointerdown');
    expect(log).toEqual(['down']);
  });
  test('is pressed for a moment by an assistive tool’s click', () => {
    const { on, log } = made();
    click(on, 0);
    expect(log).toEqual(['down', 'up']);
  });
});

test('a hand’s own movement is drawn without the bench’s answer only where that is long in coming', async () => {
  const drawn: string[] = [];
  unlessAnswered(
    () => true,
    () => drawn.push('answered'),
  );
  unlessAnswered(
    () => false,
    () => drawn.push('late'),
  );
  expect(drawn).toEqual([]);
  await new Promise((go) => setTimeout(go, 40));
  expect(drawn).toEqual(['late']);
});
