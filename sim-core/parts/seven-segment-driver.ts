/** BCD to 7-segment decoder/drivers of both polarities: outputs that pull segments low, and outputs that pull them high through resistors inside. */
import { channelThrough, NOTHING } from './figures/channels.ts';
import { HIGH, LOW, type OutputRule, RELEASED } from './logic/logic-function.ts';
import { logicPart } from './logic/logic-part.ts';
import { lit, SEGMENT_PINS } from './logic/segments-driver.ts';
import type { Drive, Figure } from './part.ts';

/** The usual pin-out of both; a supply pin at the usual corner from memory: SOURCES.md S36. */
const PINS = 'B C /LT /BI-RBO /RBI D A GND e d c b a g f VCC';
const CODE = ['A', 'B', 'C', 'D'];

/**
 * A segment: off while /BI is low, on while /LT is low, else as the pattern has it. /RBO shares its pin with /BI, so a suppressed zero blanks the digit
 * by pulling that pin low.
 */
const segments = (on: number, off: number): OutputRule[] =>
  SEGMENT_PINS.map((name, s) => ({
    name,
    of: ['/BI-RBO', '/LT', ...CODE],
    is: (bi, lt, a, b, c, d) => (bi && (!lt || lit(s, a | (b << 1) | (c << 2) | (d << 3))) ? on : off),
  }));
const ripple: OutputRule = {
  name: '/BI-RBO',
  of: ['/LT', '/RBI', ...CODE],
  is: (lt, rbi, a, b, c, d) => (lt && !rbi && !(a | b | c | d) ? LOW : RELEASED),
};

/** Low at guaranteed and typical points; nothing pulls high. */
const openCollector = (typical: Drive['typical']['low'], guaranteed: Drive['guaranteed']['low']): Drive => ({
  typical: { low: typical, high: NOTHING },
  guaranteed: { low: guaranteed, high: NOTHING },
});
const each = (drive: Drive): Readonly<Record<string, Drive>> =>
  Object.fromEntries([...SEGMENT_PINS.map((n) => [n, drive] as const), ['/BI-RBO', RIPPLE] as const]);

// 0.5 V at 3.2 mA guaranteed, 0.3 V typical: from memory
const RIPPLE = openCollector(channelThrough([[0.3, 3.2e-3]]), channelThrough([[0.5, 3.2e-3]]));
const steady = (value: number, source: string): Figure => ({ name: 'steady current of one output', value, unit: 'A', source });
/** The pull-up of the blanking pin [Ω]; from memory. */
const BLANKING = 10e3;

export const digitDriverLow = logicPart({
  id: 'seven-segment-driver-low',
  title: 'BCD to 7-segment decoder/driver, open collector, active low',
  synonyms: ['7-segment driver', 'display driver', 'BCD decoder'],
  pins: PINS,
  strength: 'standard',
  rule: { outputs: [...segments(LOW, RELEASED), ripple] },
  own: {
    // 24 mA at 0.5 V: SOURCES.md S36; 12 mA at 0.4 V and both typical voltages from memory
    specialDrive: each(
      openCollector(
        channelThrough([
          [0.25, 12e-3],
          [0.35, 24e-3],
        ]),
        channelThrough([
          [0.4, 12e-3],
          [0.5, 24e-3],
        ]),
      ),
    ),
    mostPinCurrent: steady(24e-3, 'SOURCES.md S36'),
    mostPackageCurrent: { name: 'steady current through a supply pin', value: 7 * 24e-3, unit: 'A', source: 'derived: seven outputs' },
  },
  pullUps: { '/BI-RBO': BLANKING },
  delay: { LS: 60e-9 },
  supplyCurrent: { LS: 13e-3 },
});

export const digitDriverHigh = logicPart({
  id: 'seven-segment-driver-high',
  title: 'BCD to 7-segment decoder/driver, active high',
  synonyms: ['7-segment driver', 'display driver', 'BCD decoder'],
  pins: PINS,
  strength: 'standard',
  rule: { outputs: [...segments(RELEASED, LOW), ripple] },
  own: {
    // 6 mA at 0.5 V: SOURCES.md S36; typical voltage from memory
    specialDrive: each(openCollector(channelThrough([[0.35, 6e-3]]), channelThrough([[0.5, 6e-3]]))),
    mostPinCurrent: steady(6e-3, 'SOURCES.md S36'),
    mostPackageCurrent: { name: 'steady current through a supply pin', value: 7 * 6e-3, unit: 'A', source: 'derived: seven outputs' },
  },
  // 2 kΩ at each segment: SOURCES.md S36
  pullUps: { '/BI-RBO': BLANKING, ...Object.fromEntries(SEGMENT_PINS.map((n) => [n, 2e3])) },
  delay: { LS: 60e-9 },
  supplyCurrent: { LS: 38e-3 },
});

/** At 5 V, as drops [V] at currents [A]: 4.10, 3.55 V at 10 and 25 mA typical; 3.90, 3.10 V guaranteed: SOURCES.md S37. */
const SOURCING = {
  typical: channelThrough([
    [0.9, 10e-3],
    [1.45, 25e-3],
  ]),
  guaranteed: channelThrough([
    [1.1, 10e-3],
    [1.9, 25e-3],
  ]),
};
/**
 * An emitter follower gives the high level: open 4.55 V typical, 4.1 V at least (SOURCES.md S37). What its stage takes to ground [S] is what brings the typical
 * curve there; from memory that no more than some tens of microamperes do.
 */
const FOLLOWER = 35e-6;
const SINKING = { typical: channelThrough([[0.4, 1e-3]], 4e-3), guaranteed: channelThrough([[0.4, 0.51e-3]]) };

export const digitDriverLatch = logicPart({
  id: 'seven-segment-driver-latch',
  title: 'BCD to 7-segment decoder/driver with latch, active high',
  synonyms: ['7-segment driver', 'display driver', 'BCD decoder'],
  // the usual pin-out: SOURCES.md S37; the latch holds while LE is high, from memory
  pins: 'B C /LT /BL LE D A GND e d c b a g f VCC',
  strength: 'standard',
  rule: {
    cells: [{ bits: 4, of: CODE, next: (a, b, c, d) => a | (b << 1) | (c << 2) | (d << 3) }],
    takes: { at: 'level', pin: 'LE', level: 'L' },
    outputs: SEGMENT_PINS.map((name, s) => ({
      name,
      of: ['/LT', '/BL'],
      cell: 0,
      is: (lt: number, bl: number, n: number) => (!lt || (bl && n <= 9 && lit(s, n)) ? HIGH : LOW),
    })),
  },
  own: {
    specialDrive: Object.fromEntries(
      SEGMENT_PINS.map((n) => [
        n,
        {
          typical: { low: SINKING.typical, high: SOURCING.typical },
          guaranteed: { low: SINKING.guaranteed, high: SOURCING.guaranteed },
          bleed: FOLLOWER,
        },
      ]),
    ),
    // what an LED leaves it at 25 mA is still meant to be high
    reaches: { vil: 0.3, vih: 0.6, of: 'supply' },
    mostPinCurrent: steady(25e-3, 'SOURCES.md S37'),
    mostPackageCurrent: { name: 'steady current through a supply pin', value: 7 * 25e-3, unit: 'A', source: 'derived: seven outputs' },
  },
  delay: { '4000': 520e-9 },
  supplyCurrent: { '4000': 150e-6 },
});
