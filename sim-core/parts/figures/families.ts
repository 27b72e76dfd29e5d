/** The logic families: what their inputs take for high and low, what their outputs can give and take, and what their packages bear. */
import type { Junction } from '../../devices/device-models.ts';
import type { ChipSpec, Drive, Figure, InputFigures, ParamSpec } from '../part.ts';
import { channelThrough } from './channels.ts';
import { hcClampCurrent } from './clamps.ts';
import { junctionThrough } from './junctions.ts';

export type FamilyName = 'HC' | 'HCT' | 'LS' | '4000';
/** A figure that differs from family to family; absent where a part is not made. */
export type ByFamily = Readonly<Partial<Record<FamilyName, number>>>;
/** Standard outputs, and the stronger ones of parts that drive a bus. */
export type Strength = 'standard' | 'bus';

export interface Family {
  readonly input: InputFigures;
  readonly schmitt: InputFigures;
  readonly drive: Readonly<Record<Strength, Drive>>;
  readonly promises: Readonly<Record<Strength, NonNullable<ChipSpec['promises']>>>;
  readonly mostPinCurrent: Readonly<Record<Strength, Figure>>;
  readonly mostPackageCurrent: Readonly<Record<Strength, Figure>>;
  /** see ChipSpec.damageFactor and .mostVolts */
  readonly damageFactor?: number;
  readonly mostInputVolts?: Figure;
  readonly mostClampCurrent?: Figure;
  readonly released: ChipSpec['released'];
  readonly supplyRange: readonly [number, number];
  readonly mostSupply: Figure;
  /** supply at which it begins to do anything [V]; from memory */
  readonly alive: number;
  /** typical supply current, as a part of the most; from memory: CMOS at rest draws next to nothing at room temperature, LS half */
  readonly typicalSupply: number;
  /** of bipolar families: the way from the supply pin into an open input */
  readonly pullUp?: Junction;
  /** CMOS inputs and outputs have diodes to the supply pin */
  readonly upperClamps: boolean;
  /** shortest time that data must stand still before a clock's edge, and longest that an edge may take between the levels [s] */
  readonly setup: number;
  readonly slowest: number;
  readonly sources: { readonly levels: string; readonly drive: Readonly<Record<Strength, string>> };
}

const amps = (name: string, value: number, source: string): Figure => ({ name, value, unit: 'A', source });
const onePin = (value: number, source: string) => amps('steady current of one output', value, source);
const wholePackage = (value: number, source: string) => amps('steady current through a supply pin', value, source);

/**
 * HC at 4.5 V, 25 °C, as drops [V] at currents [A]. Standard: typical 4.32 V and 0.15 V, guaranteed 3.98 V and 0.26 V, at 4 mA (SOURCES.md S15).
 * Bus: typical 4.2 V and 0.2 V, guaranteed 3.98 V and 0.26 V, at 6 mA (S16). Currents into a short circuit from memory: 45 mA, 70 mA.
 */
const cmosDrive: Family['drive'] = {
  standard: {
    typical: { high: channelThrough([[0.18, 4e-3]], 45e-3), low: channelThrough([[0.15, 4e-3]], 45e-3) },
    guaranteed: { high: channelThrough([[0.52, 4e-3]]), low: channelThrough([[0.26, 4e-3]]) },
  },
  bus: {
    typical: { high: channelThrough([[0.3, 6e-3]], 70e-3), low: channelThrough([[0.2, 6e-3]], 70e-3) },
    guaranteed: { high: channelThrough([[0.52, 6e-3]]), low: channelThrough([[0.26, 6e-3]]) },
  },
};

/** What a released LS output may take [A]: so much as its stage takes from a high one at 5 V. */
const RELEASED_LS = 20e-6;
/**
 * LS. Standard: guaranteed at a supply of 4.75 V 2.7 V at 0.4 mA and 0.5 V at 8 mA, typical at 5 V, as sheets give their typical figures, 3.4 V (SOURCES.md
 * S17). Bus: guaranteed 2.4 V at 2.6 mA and 0.5 V at 24 mA, typical 3.3 V (S18). From memory: that 5 V, 0.4 V at half the low current, typical 0.25 and
 * 0.35 V; into a short circuit 20 (typical 40) and 30 (70) mA.
 */
const bipolarDrive: Family['drive'] = {
  standard: {
    bleed: RELEASED_LS / 5,
    typical: {
      high: channelThrough([
        [1.6, 0.4e-3],
        [5, 40e-3],
      ]),
      low: channelThrough([
        [0.25, 4e-3],
        [0.35, 8e-3],
      ]),
    },
    guaranteed: {
      high: channelThrough([
        [2.05, 0.4e-3],
        [5.25, 20e-3],
      ]),
      low: channelThrough([
        [0.4, 4e-3],
        [0.5, 8e-3],
      ]),
    },
  },
  bus: {
    bleed: RELEASED_LS / 5,
    typical: {
      high: channelThrough([
        [1.7, 2.6e-3],
        [5, 70e-3],
      ]),
      low: channelThrough([
        [0.25, 12e-3],
        [0.35, 24e-3],
      ]),
    },
    guaranteed: {
      high: channelThrough([
        [2.35, 2.6e-3],
        [5.25, 30e-3],
      ]),
      low: channelThrough([
        [0.4, 12e-3],
        [0.5, 24e-3],
      ]),
    },
  },
};

/** Leakage when hot 1 µA, capacitance 3.5 pF: SOURCES.md S15. */
const cmosPin = { leakage: 1e-6, capacitance: 3.5e-12 };
/**
 * Into a high input at most 20 µA; out of a low one 0.2 mA more than `pullUp` shows, to the 0.4 mA that are guaranteed. It switches at 1.3 V, below which
 * an open one does not rest. All from memory.
 */
const bipolarPin = { leakage: 0.2e-3, sinks: 20e-6, openHigh: 1.3, capacitance: 5e-12 };
const cmosReleased = { leakage: 5e-6, capacitance: 10e-12 };

const HC: Family = {
  // 1.35 and 3.15 V at 4.5 V, 0.5 and 1.5 at 2, 1.8 and 4.2 at 6: SOURCES.md S15
  input: { vil: 0.3, vih: 0.7, of: 'supply', ...cmosPin },
  // typical 1.6 and 2.5 V at 4.5 V; 1.2 and 0.6 at 2, 2.0 and 3.3 at 6: SOURCES.md S39
  schmitt: { vil: 1.6 / 4.5, vih: 2.5 / 4.5, of: 'supply', keeps: true, ...cmosPin },
  drive: cmosDrive,
  // 3.98 V at 4.5 V
  promises: {
    standard: { high: 3.98 / 4.5, of: 'supply', source: 'SOURCES.md S15' },
    bus: { high: 3.98 / 4.5, of: 'supply', source: 'SOURCES.md S16' },
  },
  mostPinCurrent: { standard: onePin(25e-3, 'SOURCES.md S15, S19'), bus: onePin(35e-3, 'SOURCES.md S16, S19') },
  mostPackageCurrent: { standard: wholePackage(50e-3, 'SOURCES.md S15, S19'), bus: wholePackage(70e-3, 'SOURCES.md S16, S19') },
  mostClampCurrent: hcClampCurrent,
  released: cmosReleased,
  supplyRange: [2, 6],
  mostSupply: { name: 'supply, absolute most', value: 7, unit: 'V', source: 'SOURCES.md S15' },
  alive: 1.5,
  typicalSupply: 0.01,
  upperClamps: true,
  // set-up from memory; an edge of 139 ns/V from 0.3 to 0.7 of 4.5 V: SOURCES.md S15
  setup: 20e-9,
  slowest: 250e-9,
  sources: { levels: 'SOURCES.md S15', drive: { standard: 'SOURCES.md S15', bus: 'SOURCES.md S16' } },
};

const HCT: Family = {
  ...HC,
  // levels of TTL, from memory
  input: { vil: 0.8, vih: 2, ...cmosPin },
  // typical at 4.5 V, from memory
  schmitt: { vil: 0.9, vih: 1.4, keeps: true, ...cmosPin },
  supplyRange: [4.5, 5.5],
  sources: { ...HC.sources, levels: 'from memory' },
};

const LS: Family = {
  input: { vil: 0.8, vih: 2, ...bipolarPin },
  // typical, from memory
  schmitt: { vil: 0.8, vih: 1.6, keeps: true, ...bipolarPin },
  drive: bipolarDrive,
  promises: { standard: { high: 2.7, source: 'SOURCES.md S17' }, bus: { high: 2.4, source: 'SOURCES.md S18' } },
  // no sheet seen names an absolute most: what is guaranteed at the low level
  mostPinCurrent: { standard: onePin(8e-3, 'SOURCES.md S17'), bus: onePin(24e-3, 'SOURCES.md S18') },
  mostPackageCurrent: { standard: wholePackage(64e-3, 'derived: eight outputs'), bus: wholePackage(192e-3, 'derived: eight outputs') },
  // a low output bears more than it promises; and one that is shorted gives 40 or 70 mA, for a second at least (from memory)
  damageFactor: 2.5,
  mostInputVolts: { name: 'input, absolute most', value: 7, unit: 'V', source: 'from memory' },
  released: { leakage: RELEASED_LS, capacitance: 10e-12 },
  supplyRange: [4.75, 5.25],
  mostSupply: { name: 'supply, absolute most', value: 7, unit: 'V', source: 'from memory' },
  alive: 3,
  typicalSupply: 0.5,
  // at 5 V an open input stands at 1.5 V, 22 kΩ to minus take it to 1.1 V, and 0.2 mA come out of one held at 0.4 V: typical, from memory
  pullUp: junctionThrough(4.6, 0.2e-3, 1, 4.6e3),
  upperClamps: false,
  setup: 20e-9,
  slowest: 250e-9,
  sources: { levels: 'SOURCES.md S17', drive: { standard: 'SOURCES.md S17', bus: 'SOURCES.md S18' } },
};

/** CMOS from 3 to 18 V, at 5 V: 1.5 and 3.5 V from memory; 0.51 mA at 0.4 V guaranteed (SOURCES.md S37), twice that typical, from memory. */
const slowSide = { typical: channelThrough([[0.4, 1e-3]], 4e-3), guaranteed: channelThrough([[0.4, 0.51e-3]]) };
const slowDrive: Drive = {
  typical: { low: slowSide.typical, high: slowSide.typical },
  guaranteed: { low: slowSide.guaranteed, high: slowSide.guaranteed },
};

const slowCmos: Family = {
  input: { vil: 0.3, vih: 0.7, of: 'supply', leakage: 1e-6, capacitance: 5e-12 },
  schmitt: { vil: 0.4, vih: 0.6, of: 'supply', keeps: true, leakage: 1e-6, capacitance: 5e-12 },
  drive: { standard: slowDrive, bus: slowDrive },
  promises: { standard: { high: 0.92, of: 'supply', source: 'from memory' }, bus: { high: 0.92, of: 'supply', source: 'from memory' } },
  mostPinCurrent: { standard: onePin(10e-3, 'from memory'), bus: onePin(10e-3, 'from memory') },
  mostPackageCurrent: { standard: wholePackage(50e-3, 'from memory'), bus: wholePackage(50e-3, 'from memory') },
  released: cmosReleased,
  supplyRange: [3, 18],
  mostSupply: { name: 'supply, absolute most', value: 20, unit: 'V', source: 'from memory' },
  alive: 2,
  typicalSupply: 0.01,
  upperClamps: true,
  // set-up: SOURCES.md S37; the edge from memory
  setup: 150e-9,
  slowest: 15e-6,
  sources: { levels: 'from memory', drive: { standard: 'SOURCES.md S37', bus: 'SOURCES.md S37' } },
};

export const FAMILIES: Readonly<Record<FamilyName, Family>> = { HC, HCT, LS, '4000': slowCmos };

export const familyParam = (names: readonly FamilyName[]): ParamSpec => ({
  name: 'family',
  type: 'choice',
  choices: names,
  fallback: names[0] ?? 'HC',
});
