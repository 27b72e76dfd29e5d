/** Where a data sheet that was entered contradicts itself: pins against the organisation and the kind, times and levels against each other. */
import { siFormat } from '../../units/quantity.ts';
import { enumeration } from '../../units/text-list.ts';
import type { Params } from '../part.ts';

export const SHEET_KINDS = ['EEPROM', 'SRAM', 'ROM'] as const;
export type SheetKind = (typeof SHEET_KINDS)[number];

/** What selects the chip; all of them must be active. */
const SELECTS = ['/CE', '/CS', '/CS1', '/CS2', '/CS3', 'CE', 'CS', 'CS1', 'CS2', 'CS3'];
const CONTROLS = [...SELECTS, '/OE', '/WE'];
const [LEAST_PINS, MOST_PINS] = [14, 40];
/** As many as a plan's addresses are made for. */
const MOST_ADDRESS = 16;

/** Packages from 24 pins on are the wide ones; from memory. */
export const packageInches = (pins: number): 0.3 | 0.6 => (pins >= 24 ? 0.6 : 0.3);

/** The control pins among these names, in the order of the pins. */
export const enablesIn = (names: readonly string[]): { readonly selects: readonly string[]; readonly all: readonly string[] } => ({
  selects: names.filter((n) => SELECTS.includes(n)),
  all: names.filter((n) => CONTROLS.includes(n)),
});

/** One sentence on the first contradiction; undefined where there is none. */
export const contradiction = (p: Params): string | undefined => pinsOf(p) ?? timesOf(p) ?? levelsOf(p);

function pinsOf({ kind, organisation, pins }: Params): string | undefined {
  const names = String(pins).trim().split(/\s+/);
  if (names.length % 2 !== 0 || names.length < LEAST_PINS || names.length > MOST_PINS)
    return `its sheet lists ${names.length} pins, and a package has an even number from ${LEAST_PINS} to ${MOST_PINS}. List all pins in order of number, NC for one that is not connected.`;
  const strange = names.find((n) => !/^(A|D)\d{1,2}$|^(GND|VCC|NC)$/.test(n) && !CONTROLS.includes(n));
  if (strange !== undefined)
    return `its sheet has a pin ${strange.slice(0, 12)}. Use A0, A1 …, D0 … D7, ${CONTROLS.join(', ')}, GND, VCC and NC.`;
  const twice = names.find((n, i) => n !== 'NC' && names.indexOf(n) !== i);
  if (twice !== undefined)
    return `its sheet has ${twice} on pin ${names.indexOf(twice) + 1} and on pin ${names.lastIndexOf(twice) + 1}. Give each pin its own name.`;
  for (const needed of ['VCC', 'GND'])
    if (!names.includes(needed)) return `its sheet has no ${needed}. Name the pin that the supply goes to ${needed}.`;
  const count = (letter: string) => names.filter((n) => new RegExp(`^${letter}\\d`).test(n)).length;
  const [address, data] = [count('A'), count('D')];
  for (const [letter, many] of [
    ['A', address],
    ['D', data],
  ] as const) {
    const gap = Array.from({ length: many }, (_, i) => `${letter}${i}`).find((n) => !names.includes(n));
    if (gap !== undefined) return `its sheet has ${many} ${letter} pins but no ${gap}. Number them from ${letter}0 on without a gap.`;
  }
  if (data < 1 || data > 8) return `its sheet has ${data} data pins, and a byte-wide memory has 1 to 8. Name them D0 to D7.`;
  if (address < 1 || address > MOST_ADDRESS)
    return `its sheet has ${address} address pins, and there can be 1 to ${MOST_ADDRESS}. Name them A0, A1 and so on.`;
  const [, figure, kilo, bits] = /^(\d{1,6})\s*(K?)\s*[x×]\s*(\d{1,2})$/i.exec(String(organisation).trim()) ?? [];
  if (figure === undefined) return `its organisation is "${String(organisation).slice(0, 20)}". Write words and bits, for example 2K x 8.`;
  const words = Number(figure) * (kilo ? 1024 : 1);
  if (words !== 2 ** address)
    return `its organisation has ${words} words, but ${address} address pins (A0 to A${address - 1}) make ${2 ** address}. Change one of the two.`;
  if (Number(bits) !== data) return `its organisation has ${bits} bits, but it has ${data} data pins. Change one of the two.`;
  return controlsOf(kind as SheetKind, names);
}

function controlsOf(kind: SheetKind, names: readonly string[]): string | undefined {
  const { selects } = enablesIn(names);
  if (selects.length === 0) return `its sheet has no select. Name that pin one of ${enumeration(['/CE', '/CS'])}.`;
  if (kind === 'ROM')
    return names.includes('/WE') ? 'its sheet has a pin /WE, but a ROM cannot be written. Change its kind, or name the pin NC.' : undefined;
  const missing = ['/OE', '/WE'].find((n) => !names.includes(n));
  if (missing !== undefined)
    return `its sheet has no ${missing}, and an ${kind} is written with /WE low and read with /OE low. Add the pin, or change its kind.`;
  if (kind === 'EEPROM' && (selects.length > 1 || selects[0] === undefined || !selects[0].startsWith('/')))
    return `its sheet has ${enumeration(selects)}, and an EEPROM has one select that is active low. Name it /CE.`;
  return undefined;
}

function timesOf(p: Params): string | undefined {
  const at = (name: string) => Number(p[name]);
  const s = (name: string) => siFormat(at(name), 's');
  if (at('enable') > at('access'))
    return `its outputs need ${s('enable')} from /OE, but only ${s('access')} from the address. Access time is the longer one.`;
  if (p.kind === 'ROM') return undefined;
  if (p.kind === 'EEPROM' && at('longest') > 0 && at('longest') < at('pulse'))
    return `its write pulse is ${s('pulse')} at least and ${s('longest')} at most. Exchange the two, or set the most to 0.`;
  if (at('setup') > at('pulse'))
    return `its data must be there ${s('setup')} before the end of a write pulse of ${s('pulse')}. Set-up is the shorter one.`;
  if (p.kind === 'EEPROM' && at('cycle') < at('pulse'))
    return `its write cycle of ${s('cycle')} is shorter than its write pulse of ${s('pulse')}. The cycle begins after the pulse and is the longer one.`;
  return undefined;
}

function levelsOf(p: Params): string | undefined {
  const at = (name: string) => Number(p[name]);
  const v = (name: string) => `${at(name)} V`;
  if (at('low') >= at('high')) return `its inputs are low up to ${v('low')} and high from ${v('high')}. The low level is the lower one.`;
  if (at('outputLow') > at('low'))
    return `its outputs are low up to ${v('outputLow')}, which its own inputs do not take for low (${v('low')}). Check both levels.`;
  if (at('high') > 2.4)
    return `its inputs are high from ${v('high')}, but its outputs promise only 2.4 V. Enter the lowest high level of the inputs.`;
  if (at('resting') > at('working'))
    return `it draws ${siFormat(at('resting'), 'A')} in standby and ${siFormat(at('working'), 'A')} when active. Standby is the smaller one.`;
  return undefined;
}
