/** Checks once the chips are in: each chip's own supply legs before power, then what the bench draws and what lights. */
import type { PartOverrides } from '../run/circuit/part-overrides.ts';
import type { ContactSite } from '../run/circuit/sites.ts';
import { contactsInOrder, isButton } from '../run/circuit/switch-settings.ts';
import { forwardSpread } from '../tolerance/tolerances.ts';
import type { CheckBench } from './check-bench.ts';
import { readCheck } from './meter-reading.ts';
import type { LightCheck, MeterCheck, StageCheck } from './stage-check.ts';

/** Supply off: probes on the legs themselves, counted from the notch. A chip that is reversed, or a row off, has its legs elsewhere. */
export function legChecks(bench: CheckBench): StageCheck[] {
  return bench.chips.flatMap((site) => {
    const legs = [site.supply.leg, site.ground.leg].filter((l, i, all) => all.findIndex((o) => o.pin === l.pin) === i);
    return legs.flatMap((leg) => {
      const rail = bench.railOf(leg, bench.after('chips'));
      if (!rail) return [];
      const [red, black] = [`${leg.part.id}.${leg.pin}`, rail === '+' ? bench.plus : bench.minus];
      return bench.reading('chips', { by: 'ohms', red, black, about: { what: 'leg', ...bench.pinWords(leg) } }) ?? [];
    });
  });
}

/** Supply on, all switches open. */
export function powerOnChecks(bench: CheckBench): StageCheck[] {
  const { plan } = bench.after('chips');
  const red = `${bench.supply.placed.part.id}.${bench.supply.plus.pin}`;
  const drawn: MeterCheck = { by: 'amps', stage: 'chips', closed: [], red, black: bench.minus, about: { what: 'drawn' } };
  const amps = (overrides?: PartOverrides): number => {
    const reading = readCheck(plan, drawn, overrides);
    return reading.ok && typeof reading.value === 'number' ? reading.value : Number.NaN;
  };
  const expects = amps();
  const all = CORNERS.map((corner) => amps(specimens(bench, corner)));
  const seen = [expects, ...all].filter((a) => !Number.isNaN(a));
  return [
    ...(Number.isNaN(expects)
      ? []
      : [
          {
            ...drawn,
            expects,
            least: Math.min(...seen),
            most: Math.max(...seen),
            ...(expects > bench.figures.amps ? { drawnWrong: true as const } : {}),
          },
        ]),
    ...lookChecks(bench),
  ];
}

/** What lights with all inputs open, and with each alone closed that makes a difference. */
function lookChecks(bench: CheckBench): StageCheck[] {
  const { plan, circuit } = bench.after('chips');
  const look = (of?: ContactSite): LightCheck[] => {
    const words = of && bench.poleWords(of);
    const check: LightCheck = {
      by: 'eye',
      stage: 'chips',
      closed: words ? [{ part: words.part, pole: words.pole }] : [],
      lights: [],
      about: { what: 'look', ...(words ? { of: words } : {}) },
    };
    const seen = readCheck(plan, check);
    return seen.ok && typeof seen.value !== 'number' ? [{ ...check, lights: seen.value }] : [];
  };
  const inputs = contactsInOrder(circuit.contacts).filter((c) => !isButton(c) && bench.stages.get(c.placed.part.id) === 'inputs');
  const [rest] = look();
  if (!rest) return [];
  return [rest, ...inputs.flatMap((c) => look(c)).filter((c) => c.lights.join() !== rest.lights.join())];
}

interface Corner {
  /** 1: all that makes the current larger; −1: all that makes it smaller */
  readonly way: 1 | -1;
  /** outputs between their guaranteed (0) and their typical curve (1), and the supply current of chips between most and typical */
  readonly drive: 0 | 1;
}

const CORNERS: readonly Corner[] = [
  { way: 1, drive: 0 },
  { way: 1, drive: 1 },
  { way: -1, drive: 0 },
  { way: -1, drive: 1 },
];

function specimens({ whole }: CheckBench, { way, drive }: Corner): PartOverrides {
  return new Map(
    [...whole.placed.values()].flatMap(({ part, kind, params }) => {
      const led = whole.leds.find((l) => l.placed.part.id === part.id);
      const spread = led && forwardSpread(led);
      const share = Number(params.tolerance ?? 0) / 100;
      const figure = kind.spread?.of;
      // more voltage, less resistance, a lower forward voltage: more current
      const off = figure === undefined ? 0 : Number(params[figure]) * share * (figure === 'volts' ? way : -way);
      const made = {
        ...(figure === undefined || off === 0 ? {} : { params: { [figure]: Number(params[figure]) + off } }),
        ...(spread ? { forward: (way === 1 ? spread.least : spread.most) - spread.nominal } : {}),
        ...(whole.chipById.has(part.id) ? { drive } : {}),
      };
      return Object.keys(made).length > 0 ? [[part.id, made] as const] : [];
    }),
  );
}
