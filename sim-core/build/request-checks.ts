/** What of a request cannot be built, in the order in which a person meets it: the table, the loads, the manner of writing. */
import { grouped } from '../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { ERASED } from '../document/memory-rows.ts';
import type { ChipSpec, PartKind } from '../parts/part.ts';
import { siFormat } from '../units/quantity.ts';
import { enumeration } from '../units/text-list.ts';
import { type BuildRequest, memoriesFor, WORD } from './build-request.ts';
import { bytesOfRequest } from './bytes-of-request.ts';
import { checkCurrents } from './current-checks.ts';
import { ledsOf } from './led-placement.ts';
import { checkLength } from './programming-card.ts';

/** Memories beside each other that a build may have. */
const MOST_MEMORIES = 2;

/** kind, spec: the memory that was asked for. Fails with `build/…` or `table/…`. */
export function checkRequest(request: BuildRequest, kind: PartKind, spec: ChipSpec): Outcome<void> {
  for (const check of [checkColumns, checkRows, checkLoads, checkDigits, checkArrangement, checkWriting, checkCard, checkCurrents]) {
    const checked = check(request, kind, spec);
    if (!checked.ok) return checked;
  }
  return done(undefined);
}

function checkColumns(request: BuildRequest, { title }: PartKind, { word }: ChipSpec): Outcome<void> {
  const pins = word?.address.length ?? 0;
  if (request.inputs.length === 0) return failed('table/no-columns', 'inputs', 'The table has no input. Name at least one.');
  if (request.inputs.length > pins)
    return failed(
      'build/too-many-inputs',
      'inputs',
      `The table has ${request.inputs.length} inputs and ${title} has ${pins} address pins. Choose a larger memory or remove inputs.`,
    );
  if (request.outputs.length === 0) return failed('table/no-columns', 'outputs', 'The table has no output. Name at least one.');
  if (memoriesFor(request) > MOST_MEMORIES)
    return failed(
      'build/too-many-outputs',
      'outputs',
      `The table has ${request.outputs.length} outputs; two memories have ${MOST_MEMORIES * WORD}. Split it into two builds.`,
    );
  return done(undefined);
}

function checkRows({ inputs, outputs, rows }: BuildRequest): Outcome<void> {
  const all = 2 ** inputs.length;
  if (rows.length !== all)
    return failed(
      'table/wrong-row-count',
      'rows',
      `The table has ${grouped(rows.length)} rows; ${inputs.length} inputs make ${grouped(all)}. Fill in the missing rows.`,
    );
  const twice = [...inputs, ...outputs.map((o) => o.name)].find((name, i, names) => names.indexOf(name) !== i);
  if (twice !== undefined) return failed('table/name-taken', 'names', `Two columns of the table are called ${twice}. Rename one of them.`);
  return done(undefined);
}

function checkLoads({ show, outputs, amps: each }: BuildRequest): Outcome<void> {
  const low = show === 'loads' ? outputs.find((o) => o.activeLow) : undefined;
  if (low)
    return failed(
      'build/active-low-load',
      'outputs',
      `A Darlington array switches a load on when its data pin is high, so ${low.name} cannot be active low. Make it active high, or show the outputs with LEDs.`,
    );
  for (const { name, amps } of [{ name: 'an LED', amps: each }, ...outputs])
    if (amps !== undefined && !(amps > 0 && amps < Number.POSITIVE_INFINITY))
      return failed(
        'build/no-current',
        'amps',
        `The current for ${name} is ${siFormat(amps, 'A')}, too little to light it. Give a current above 0, such as 5 mA.`,
      );
  return done(undefined);
}

/** The segments of a display share a pin, so they light at one level. */
function checkDigits({ show, outputs }: BuildRequest): Outcome<void> {
  if (show !== 'digit') return done(undefined);
  for (let from = 0; from < outputs.length; from += WORD) {
    const word = outputs.slice(from, from + WORD);
    const low = word.filter((o) => o.activeLow);
    if (low.length > 0 && low.length < word.length)
      return failed(
        'build/mixed-digit',
        'outputs',
        `All segments of a 7-segment display share one pin, but of ${word[0]?.name} to ${word.at(-1)?.name} only ${enumeration(low.map((o) => o.name))} ${low.length === 1 ? 'is' : 'are'} active low. Make all of them active low or none, or show them with LEDs.`,
      );
  }
  return done(undefined);
}

function checkArrangement({ arrangement = 'row', show, outputs }: BuildRequest): Outcome<void> {
  const leds = ledsOf(arrangement);
  if (leds === undefined) return done(undefined);
  if (show !== 'leds')
    return failed(
      'build/wrong-arrangement',
      'arrangement',
      `Only single LEDs can be arranged in a ${arrangement}. Show the outputs with LEDs, or keep the row.`,
    );
  return outputs.length === leds
    ? done(undefined)
    : failed(
        'build/wrong-arrangement',
        'arrangement',
        `A ${arrangement} has ${leds} LEDs, and the table has ${outputs.length} outputs. Arrange the LEDs in a row.`,
      );
}

/** A card that nobody would follow to its end is refused here, not after the bench is wired. */
function checkCard(request: BuildRequest): Outcome<void> {
  for (let m = 0; request.byHand && m < memoriesFor(request); m++) {
    const { bytes, given } = bytesOfRequest(request, m);
    const toWrite = bytes.reduce((n, byte, row) => ((byte ^ ERASED) & (given[row] ?? 0) ? n + 1 : n), 0);
    const fits = checkLength('memory', toWrite, memoriesFor(request) > 1 ? `Memory ${m + 1}` : 'The memory');
    if (!fits.ok) return fits;
  }
  return done(undefined);
}

function checkWriting(request: BuildRequest, { title }: PartKind, { word, toRead }: ChipSpec): Outcome<void> {
  if (!request.byHand)
    return word?.forgets
      ? failed(
          'build/volatile-memory',
          'memory',
          `${title} is volatile: it loses its bytes without supply, so an image cannot be loaded in advance. Write it by hand, or choose an EEPROM.`,
        )
      : done(undefined);
  if (!('/WE' in (toRead ?? {})))
    return failed('build/not-by-hand', 'memory', `${title} cannot be written by hand on the bench. Load the image, or choose an EEPROM.`);
  if (request.show === 'loads')
    return failed(
      'build/loads-while-writing',
      'show',
      'A Darlington array has no enable: during a write its inputs load the data pins, and its loads switch with the data. Load the image, or show the outputs with LEDs.',
    );
  if (!request.buffered && request.outputs.some((o) => o.activeLow))
    return failed(
      'build/needs-buffer',
      'buffered',
      'Active-low LEDs directly on the memory pull its data pins up during a write. Add a buffer.',
    );
  return done(undefined);
}
