/** The search in Parts: what a person types, and the part that is then ready to be placed. */
import { expect, test } from 'vitest';
import { partGroups, partOfferText } from '../../client/edit/part-search.ts';
import { PARTS } from '../../sim-core/index.ts';

const found = (search: string) => partGroups(search).flatMap((s) => s.offers.map((w) => w.placing));
const first = (search: string) => found(search)[0];

test('with nothing typed, every part is there once, under what it does', () => {
  expect(
    found('')
      .map((w) => w.kind)
      .sort(),
  ).toEqual(PARTS.map((p) => p.id).sort());
  expect(partGroups('').map((s) => s.head)[0]).toBe('Power');
});

test.for([
  ['4k7 resistor', 'resistor', { ohms: 4700 }],
  ['4k7', 'resistor', { ohms: 4700 }],
  ['10 k resistor', 'resistor', { ohms: 10_000 }],
  ['1m5 resistor', 'resistor', { ohms: 1.5e6 }],
  ['1n capacitor', 'capacitor', { farads: 1e-9 }],
  ['100nf', 'capacitor', { farads: 1e-7 }],
  ['blue led', 'led', { colour: 'blue' }],
  ['dip switch 4', 'dip-switch', { poles: 4 }],
  ['eeprom 2k x 8', 'eeprom-2kx8', undefined],
  ['eeprom 8K×8', 'eeprom-8kx8', undefined],
  ['ram 2kx8', 'static-ram-2kx8', undefined],
  ['/WE 28-pin eeprom', 'eeprom-8kx8', undefined],
  ['buffer', 'octal-buffer', undefined],
  ['decoupling', 'capacitor', undefined],
] as const)('"%s" finds it, ready with its value', ([search, kind, params]) => {
  expect(first(search)).toEqual({ kind, ...(params ? { params } : {}) });
});

test('a count of pins is whole, and words that fit nothing find nothing', () => {
  const counts = partGroups('20-pin').flatMap((s) =>
    s.offers.map((w) => w.kind.pins(Object.fromEntries(w.kind.params.map((p) => [p.name, p.fallback]))).length),
  );
  expect(counts.length).toBeGreaterThan(3);
  expect(new Set(counts)).toEqual(new Set([20]));
  expect(found('4-pin').every((w) => !w.kind.includes('eeprom'))).toBe(true);
  expect(found('teapot')).toEqual([]);
});

test('a part on offer says its value', () => {
  expect(partOfferText(partGroups('4k7 resistor')[0]!.offers[0]!)).toBe('Resistor, 4.7 kΩ');
});

/** A search that names a part shows it among the first this many. */
const FIRST = 5;

test.for(PARTS.flatMap((p) => (p.synonyms ?? []).map((word) => [word, p.id] as const)))('"%s" finds %s', ([word, id]) => {
  expect(
    found(word)
      .slice(0, FIRST)
      .map((w) => w.kind),
  ).toContain(id);
});

test.for([
  ['LED', 'led'],
  ['lamp', 'led'],
  ['button', 'push-button'],
  ['pushbutton', 'push-button'],
  ['tact switch', 'push-button'],
  ['7-segment', 'seven-segment-common-cathode'],
  ['7 segment display', 'seven-segment-common-cathode'],
  ['bar graph', 'led-bar-graph'],
  ['battery', 'battery'],
  ['usb', 'usb-supply'],
  ['VCC', 'bench-supply'],
  ['GND', 'bench-supply'],
  ['oscillator', 'crystal-oscillator'],
  ['clock', 'crystal-oscillator'],
  ['trimmer', 'potentiometer'],
  ['pot', 'potentiometer'],
  ['not gate', 'schmitt-inverter'],
  ['not gate', 'hex-inverter'],
  ['nand', 'quad-nand'],
  ['nor gate', 'quad-nor'],
  ['exclusive or', 'quad-xor'],
  ['or gate', 'quad-or'],
  ['and gate', 'quad-and'],
] as const)('"%s", as a technician types it, finds %s first or second', ([word, id]) => {
  expect(
    found(word)
      .slice(0, 2)
      .map((w) => w.kind),
  ).toContain(id);
});

test('every part has a synonym', () => {
  expect(PARTS.filter((p) => !p.synonyms?.length).map((p) => p.id)).toEqual([]);
});
