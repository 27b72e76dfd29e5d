/** Whether the currents asked for can be had: what each LED, each output, each package and the supply can bear, added up before anything is built. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { benchSupply } from '../parts/bench-supply.ts';
import { partKind } from '../parts/catalogue.ts';
import { LED_STEPS } from '../run/readout/readings.ts';
import { siFormat } from '../units/quantity.ts';
import { type BuildRequest, memoriesFor, WORD } from './build-request.ts';
import { completed } from './builder-state.ts';
import { type CurrentLimit, type Driving, driving, limitsOf, pathOf } from './current-limits.ts';
import { chipOf } from './kind-contents.ts';

/** Part of an absolute maximum that a current is kept below: supply, resistor and LED may each be off. Our choice. */
const KEEP = 0.6;
/** What flows may differ so much from what was asked for: resistors of E12 lie a fifth apart, and are chosen too large rather than too small. */
const [LEAST, MOST] = [0.8, 1.02];

/** A figure that an answer names rounds down: what is asked next is then within it. */
const below = (amps: number): string => siFormat(Math.floor(amps * 1e5) / 1e5, 'A');
const above = (amps: number): string => siFormat(Math.ceil(amps * 1e5) / 1e5, 'A');

/** request: of a memory that exists. Fails with `build/current-too-high`, `build/current-too-low` or `build/over-supply`. */
export function checkCurrents(request: BuildRequest): Outcome<void> {
  const by = driving(request);
  const limits = limitsOf(request);
  if (!by || !limits) throw new Error(`no memory ${request.memory}`);
  for (const [i, limit] of limits.entries()) {
    const checked = checkOutput(request, by, i, limit);
    if (!checked.ok) return checked;
  }
  for (let m = 0; m < memoriesFor(request); m++) {
    const checked = checkPackage(request, by, m);
    if (!checked.ok) return checked;
  }
  return checkSupply(request, by, limits);
}

/** One output: what its LED and its pin bear, and what the supply leaves for it. */
function checkOutput(request: BuildRequest, { chip, title }: Driving, i: number, { amps: flows }: CurrentLimit): Outcome<void> {
  const output = request.outputs[i];
  if (!output) throw new Error(`no output ${i}`);
  const asked = output.amps ?? request.amps;
  const { led } = pathOf(request, chip, output, i);
  const place = `outputs ${output.name}`;
  const [bears, what] =
    led.mostCurrent.value <= chip.mostPinCurrent.value
      ? [KEEP * led.mostCurrent.value, 'its LED']
      : [KEEP * chip.mostPinCurrent.value, `an output of ${title}`];
  const tooMuch = (most: number, why: string) =>
    failed('build/current-too-high', place, `${output.name} asks for ${siFormat(asked, 'A')}, but ${why}. Ask for ${below(most)} or less.`);
  if (asked > bears) return tooMuch(bears, `${what} is kept to ${100 * KEEP} % of its limit of ${siFormat(bears / KEEP, 'A')}`);
  if (flows < LEAST * asked)
    return tooMuch(flows, `only ${siFormat(flows, 'A')} flows: ${title} and the LED leave too little of the supply for a resistor`);
  if (flows < LED_STEPS.lit)
    return failed(
      'build/current-too-low',
      place,
      `${output.name} asks for ${siFormat(asked, 'A')}, but an LED looks dim below ${siFormat(LED_STEPS.lit, 'A')}. Ask for ${above(LED_STEPS.lit / LEAST)} or more.`,
    );
  return flows > MOST * asked
    ? failed(
        'build/current-too-low',
        place,
        `${output.name} asks for ${siFormat(asked, 'A')}, but its LED might look dim with the supply at 4.5 V. Ask for ${above(flows)} or more.`,
      )
    : done(undefined);
}

/** All outputs of one memory at once, through the supply pins of what drives them. */
function checkPackage({ outputs, amps: all }: BuildRequest, { chip, title }: Driving, memory: number): Outcome<void> {
  const word = outputs.slice(WORD * memory, WORD * (memory + 1));
  const sum = word.reduce((n, o) => n + (o.amps ?? all), 0);
  const bears = KEEP * chip.mostPackageCurrent.value;
  return sum > bears
    ? failed(
        'build/current-too-high',
        'outputs',
        `${word[0]?.name} to ${word.at(-1)?.name} ask for ${siFormat(sum, 'A')} together, but ${title} is kept to ${100 * KEEP} % of its limit of ${siFormat(bears / KEEP, 'A')}. Ask for ${below(bears / word.length)} each or less.`,
      )
    : done(undefined);
}

/** The row that lights most, with every chip at the most that its sheet allows. */
function checkSupply(request: BuildRequest, { chip, title }: Driving, limits: readonly CurrentLimit[]): Outcome<void> {
  const memory = partKind(request.memory);
  if (!memory) throw new Error(`no memory ${request.memory}`);
  const gives = Number(completed(benchSupply, { id: '', kind: benchSupply.id }).amps);
  const own = chipOf(memory, completed(memory, { id: '', kind: memory.id })).supplyCurrent.most.working;
  const beside = request.buffered || request.show === 'loads' ? chip.supplyCurrent.most.working : 0;
  const chips = memoriesFor(request) * (own + beside);
  const { row, amps } = fullestRow(request, limits);
  return chips + amps > gives
    ? failed(
        'build/over-supply',
        `row ${row}`,
        `Row ${row} lights ${siFormat(amps, 'A')} of LEDs, and ${memoriesFor(request)} × ${memory.title}${beside > 0 ? ` with ${title} each` : ''} may draw ${siFormat(chips, 'A')}: more than the ${siFormat(gives, 'A')} of the bench supply. Ask for less current, or choose another memory.`,
      )
    : done(undefined);
}

function fullestRow({ rows }: BuildRequest, limits: readonly CurrentLimit[]): { readonly row: number; readonly amps: number } {
  let most = { row: 0, amps: 0 };
  for (let row = 0; row < rows.length; row++) {
    let amps = 0;
    for (const [bit, limit] of limits.entries()) if (((rows[row] ?? 0) >> bit) & 1) amps += limit.amps;
    if (amps > most.amps) most = { row, amps };
  }
  return most;
}
