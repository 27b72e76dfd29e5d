/** Parts as a stage's picture draws them: outlines that print in black and white, each with its id, its pins' names, and the marks that say which way round it stands. */
import type { PlanPart } from '../../shared/plan.ts';
import { holeSpot, type Leg, partKind, readParams } from '../../sim-core/index.ts';
import { around, type Spot, U } from '../scene/geometry.ts';
import { el, short } from '../scene/svg.ts';

type PartState = 'fresh' | 'before' | 'later';

/** legs: all in holes. */
export function drawPart(part: PlanPart, legs: readonly Leg[], state: PartState): SVGElement {
  const kind = partKind(part.kind);
  const params = kind && readParams(kind, part);
  const names = new Map(params?.ok ? kind?.pins(params.value).map((p) => [p.pin, p.name] as const) : []);
  const spots = legs.map((l) => (l.hole ? holeSpot(l.hole) : ([0, 0] as const)));
  const inner =
    legs.length === 2 && part.to !== undefined
      ? twoLegs(part, kind?.group === 'led', legs, spots, names)
      : body(part, legs, spots, names, state, kind?.group);
  return el('g', { class: `stage-part ${state}` }, ...inner);
}

const dot = ([x, y]: Spot) => el('circle', { cx: short(x * U), cy: short(y * U), r: 0.17 * U, class: 'leg-dot' });

/** A resistor, a capacitor, a diode or an LED between its two holes; + at the leg that is named anode or +. */
function twoLegs(
  part: PlanPart,
  isLed: boolean,
  legs: readonly Leg[],
  spots: readonly Spot[],
  names: ReadonlyMap<string, string>,
): SVGElement[] {
  const [[ax, ay] = [0, 0], [bx, by] = [0, 0]] = spots;
  const [mx, my] = [((ax + bx) / 2) * U, ((ay + by) / 2) * U];
  const span = Math.hypot(bx - ax, by - ay);
  const angle = (Math.atan2(by - ay, bx - ax) * 180) / Math.PI;
  const upright = angle > 90 || angle <= -90 ? angle + 180 : angle;
  const plus = legs.findIndex((l) => ['anode', '+'].includes(names.get(l.pin) ?? ''));
  const sign = plus < 0 ? [] : [plusSign(spots[plus] as Spot, spots[1 - plus] as Spot)];
  const wires = el('path', { d: `M${short(ax * U)} ${short(ay * U)}L${short(bx * U)} ${short(by * U)}`, class: 'part-leg' });
  const turned = `translate(${short(mx)} ${short(my)}) rotate(${short(upright)})`;
  if (isLed) {
    const r = 0.72 * U;
    // the flat is at the cathode
    const side = (plus === 0 ? 1 : -1) * (upright === angle ? 1 : -1);
    const shape = el('path', {
      d: `M${short(side * 0.55 * r)} ${short(-0.84 * r)}A${r} ${r} 0 1 ${side > 0 ? 0 : 1} ${short(side * 0.55 * r)} ${short(0.84 * r)}Z`,
      class: 'part-body',
    });
    return [wires, el('g', { transform: turned }, shape), ...spots.map(dot), ...sign, idText(part.id, mx, my, 0.5)];
  }
  const w = Math.min(2.2, Math.max(1, span - 0.9)) * U;
  const h = 0.8 * U;
  const square = names.get('1') === '1' && partKind(part.kind)?.spread?.of === 'farads';
  return [
    wires,
    el(
      'g',
      { transform: turned },
      el('rect', {
        x: short(-w / 2),
        y: -h / 2,
        width: short(w),
        height: h,
        rx: square ? 1 : 6,
        class: square ? 'part-body shaded' : 'part-body',
      }),
      idText(part.id, 0, 0, 0.56),
    ),
    ...spots.map(dot),
    ...sign,
  ];
}

/** Beside a leg, on the far side of the body. */
function plusSign([x, y]: Spot, [ox, oy]: Spot): SVGElement {
  const length = Math.hypot(x - ox, y - oy) || 1;
  return el(
    'text',
    { x: short((x + (0.62 * (x - ox)) / length) * U), y: short((y + (0.62 * (y - oy)) / length) * U), class: 'plus-sign' },
    '+',
  );
}

const idText = (id: string, x: number, y: number, size: number) =>
  el('text', { x: short(x), y: short(y), class: 'part-id', 'font-size': size * U }, id);

/** A part with rows of legs: its pins' names at the legs, a notch or a pole's number 1, its id and label in the middle. */
function body(
  part: PlanPart,
  legs: readonly Leg[],
  spots: readonly Spot[],
  names: ReadonlyMap<string, string>,
  state: PartState,
  group: string | undefined,
): SVGElement[] {
  const outer = around(spots);
  const flat = outer.height < 0.5;
  const box = flat
    ? { x: outer.x - 0.4, y: outer.y - 0.4, width: outer.width + 0.8, height: 0.8 }
    : { x: outer.x - 0.55, y: outer.y + 0.34, width: outer.width + 1.1, height: outer.height - 0.68 };
  const [one = [0, 0]] = spots;
  const left = one[0] <= outer.x + outer.width / 2;
  const middle = box.y + box.height / 2;
  const rect = el('rect', { x: box.x * U, y: box.y * U, width: box.width * U, height: box.height * U, rx: 3, class: 'part-body' });
  const edgeX = (left ? box.x : box.x + box.width) * U;
  const isChip = group === 'memory' || group === 'logic';
  const mark = isChip
    ? [
        el('path', {
          d: `M${short(edgeX)} ${short((middle - 0.45) * U)}a${0.45 * U} ${0.45 * U} 0 0 ${left ? 1 : 0} 0 ${0.9 * U}`,
          class: 'part-mark',
        }),
      ]
    : [
        el('circle', {
          cx: short(one[0] * U),
          cy: short((one[1] < middle ? box.y + 0.3 : box.y + box.height - 0.3) * U),
          r: 2.2,
          class: 'leg-dot',
        }),
      ];
  const showNames = isChip || group === 'led' || group === 'switch';
  const pins = showNames
    ? legs.flatMap((leg, i) =>
        pinText(leg.pin, names.get(leg.pin) ?? leg.pin, spots[i] as Spot, box, group === 'switch' ? legs.length / 2 : 0),
      )
    : [];
  const wide = box.height > 3;
  const label = [state === 'later' ? `${part.id} later` : part.id, part.label].filter(Boolean).join(' ');
  const size = Math.min(wide ? 0.95 : 0.72, (1.5 * box.width) / label.length);
  return [rect, ...mark, ...spots.map(dot), ...pins, idText(label, (box.x + box.width / 2) * U, middle * U, size)];
}

/** Upright beside its leg, inside the body; of a switch the pole's number at its first leg only. */
function pinText(
  pin: string,
  name: string,
  [x, y]: Spot,
  box: { readonly y: number; readonly height: number },
  poles: number,
): SVGElement[] {
  const top = y < box.y + box.height / 2;
  if (poles > 0 && (Number(pin) > poles || poles > 12)) return [];
  const text = poles > 0 ? pin : name;
  const wide = box.height > 3;
  const edge = top ? box.y + 0.14 : box.y + box.height - 0.14;
  if (!wide)
    return [
      el('text', { x: short(x * U), y: short((top ? edge + 0.3 : edge - 0.3) * U), class: 'pin-text', 'text-anchor': 'middle' }, text),
    ];
  return [
    el(
      'text',
      {
        transform: `translate(${short((x + 0.2) * U)} ${short(edge * U)}) rotate(-90)`,
        class: 'pin-text wide',
        'text-anchor': top ? 'end' : 'start',
      },
      text,
    ),
  ];
}
